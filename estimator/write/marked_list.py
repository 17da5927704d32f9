"""A copy of the customer's list with its problems written beside the rows they stand in."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from estimator.problems import Problem
from estimator.write.fill import FillColumn, Filling, FillKind, filled_workbook
from estimator.write.plain_text import csv_text
from estimator.write.save import save

__all__ = ["write_marked_list"]

_WIDTH = 80.0


def write_marked_list(cut_list: Path, target: Path, problems: list[Problem], *, force: bool) -> None:
    """Write the list with its problems marked: an xlsx list as a copy, any other as a csv of problems.

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
    if cut_list.suffix.lower() in (".xlsx", ".xlsm") and target.suffix.lower() == cut_list.suffix.lower():
        content = _marked_workbook(cut_list, problems)
    else:
        content = _problem_csv(problems)
    save(target, content, inputs=[cut_list], force=force)


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
    for p in problems:
        said = (p.code, str(p.level), p.place.sheet, p.place.cell, p.fact, p.found, p.needs, p.do)
        rows.writerow([csv_text(cell) for cell in said])
    return text.getvalue().encode("utf-8-sig")
