"""A copy of the customer's list with its problems written beside the rows they stand in."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from pathlib import Path

from estimator.problems import Problem
from estimator.write.book import BookSheet, write_book
from estimator.write.fill import FillColumn, Filling, FillKind, filled_workbook
from estimator.write.plain_text import csv_text
from estimator.write.save import Content, save
from estimator.write.styles import Look

__all__ = ["reading_problems", "write_marked_list"]

_WIDTH = 64.0
_WORKBOOKS = (".xlsx", ".xlsm")
_SHOP_MATTERS_FROM = 270
"""Problems of finding the table and of reading its cells have smaller numbers."""
_TABLE = (("Code", 8), ("Level", 9), ("Sheet", 16), ("Cell", 8), ("What", 44), ("Found", 20), ("Needs", 36), ("Do", 44))


def write_marked_list(cut_list: Path, target: Path, problems: list[Problem], *, force: bool) -> None:
    """Write the list with its problems marked: an xlsx list as a copy, any other as a table of its problems.

    Parameters
    ----------
    cut_list : Path
        The list as it was sent.
    target : Path
        Where the marked copy goes.
    problems : list of Problem
        What was found.
    force : bool
        Whether an existing file may be replaced.
    """
    content: Content
    if target.suffix.lower() == cut_list.suffix.lower() and target.suffix.lower() in _WORKBOOKS:
        content = _marked_workbook(cut_list, problems)
    elif target.suffix.lower() in _WORKBOOKS:
        content = write_book(lambda book: _write_table(book.sheet("Problems"), problems), title="Problems of a list")
    else:
        content = _problem_csv(problems)
    save(target, content, inputs=[cut_list], force=force)


def reading_problems(problems: Iterable[Problem]) -> list[Problem]:
    """Return the problems of finding a list's table and of reading its cells, which may go back to the customer.

    Parameters
    ----------
    problems : iterable of Problem
        All that were found in pricing a list; others speak of the shop's own matters.

    Returns
    -------
    list of Problem
    """
    return [problem for problem in problems if int(problem.code[1:]) < _SHOP_MATTERS_FROM]


def _marked_workbook(cut_list: Path, problems: list[Problem]) -> bytes:
    fillings = []
    for sheet in dict.fromkeys(p.place.sheet for p in problems if p.place.sheet and p.place.row):
        rows: dict[int, tuple[str | float | None, ...]] = {}
        for problem in (p for p in problems if p.place.sheet == sheet and p.place.row):
            said = f"{problem.code} {problem.place.cell}: {problem.fact}. {problem.do}"
            before = rows.get(problem.place.row)
            rows[problem.place.row] = (f"{before[0]}\n{said}" if before else said,)
        fillings.append(Filling(sheet, (), (FillColumn("Problem", FillKind.LONG_TEXT, _WIDTH),), rows))
    return filled_workbook(cut_list.read_bytes(), fillings, name=cut_list.name)


def _problem_csv(problems: list[Problem]) -> bytes:
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(["code", "level", "sheet", "cell", "fact", "found", "needs", "do"])
    for problem in problems:
        rows.writerow([csv_text(cell) for cell in _said(problem)])
    return text.getvalue().encode("utf-8-sig")


def _write_table(sheet: BookSheet, problems: Sequence[Problem]) -> None:
    for column, (heading, width) in enumerate(_TABLE):
        sheet.set_column(column, column, width)
        sheet.text(0, column, heading, sheet.styles.get(Look.HEADING, align="left"))
    for row, problem in enumerate(problems, 1):
        said = _said(problem)
        for column, text in enumerate(said):
            sheet.text(row, column, text, Look.TEXT, wrap=True)
        sheet.fit_row(row, ((text, width) for text, (_, width) in zip(said, _TABLE, strict=True)))
    sheet.freeze_panes(1, 0)
    sheet.set_up_page(last_row=len(problems), last_column=len(_TABLE) - 1, headings=(0, 0), landscape=True)


def _said(problem: Problem) -> tuple[str, ...]:
    place = problem.place
    return (
        problem.code,
        str(problem.level),
        place.sheet,
        place.cell,
        problem.fact,
        problem.found,
        problem.needs,
        problem.do,
    )
