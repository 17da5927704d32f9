"""Reads what stands above the table: customer, job, quote number, units; the rest is kept as it stands."""

from __future__ import annotations

import re
from functools import cache

from estimator.check.cut_list import TitleBlock
from estimator.problems import cut_list as said_cells
from estimator.problems.code import Place, Problem
from estimator.read.cells import CellValue, SheetCells, column_letters
from estimator.read.heading_rows import is_blank, is_ruled
from estimator.read.headings import heading_key
from estimator.read.length_words import UNIT_PATTERN, unit_of
from estimator.read.list_columns import shown
from estimator.read.row_words import is_example, is_note, multiplier
from estimator.read.size import Size
from estimator.read.sizes import read_size
from estimator.read.text import plain_text
from estimator.read.title_dates import date_in_cell, names_date
from estimator.sheets.word_tables import word_table, words_of
from estimator.words import Steel

__all__ = ["read_title_block"]

_UNIT_SAID = re.compile(
    r"(?:dim(?:ension)?s?|sizes|measure(?:ment)?s|maße|mass?e|cotes|cotas|medidas|misure|quote|wymiary|размеры|units?|单位|單位)"
    rf"\.?(?: are| is| all| alle| sont| son| são| sono)?(?: ?[:=]? ?(?:in|en|em|w|в|:|=)?) ?({UNIT_PATTERN})(?![\w])",
    re.IGNORECASE,
)
_NO_TITLE = "no title"
"""Name in the table of words for titles that every list has."""
_OTHER_DATE = "other date"
"""Name in the table of words for dates that are not the list's."""
_LONGEST_TITLE = 80
_LABEL_AND_VALUE = re.compile(r"^([^:=]{1,40}?)\s*[:=]\s*(.*)$", re.DOTALL)


def read_title_block(file: str, sheet: SheetCells, last_row: int) -> tuple[TitleBlock, list[Problem]]:
    """Read the rows above the headings.

    Parameters
    ----------
    file : str
        Name of the file, for problems.
    sheet : SheetCells
        The sheet.
    last_row : int
        First row that is no longer above the table, from 0.

    Returns
    -------
    TitleBlock and list of Problem
        A label and the cell to its right, or ``label: value`` in one cell; other texts are kept without a label.
    """
    known: dict[str, tuple[CellValue, int, int]] = {}
    other: list[tuple[str, str]] = []
    for row in range(min(last_row, len(sheet.rows))):
        _read_row(sheet, row, known, other)
    problems: list[Problem] = []
    texts = {name: shown(value).strip() for name, (value, _, _) in known.items()}
    block = TitleBlock(
        customer=texts.get("customer", ""),
        job=texts.get("job", "") or _title_line(sheet, min(last_row, len(sheet.rows))),
        quote_number=texts.get("quote_number", ""),
        revision=texts.get("revision", ""),
        units=_units(texts.get("units", ""), other),
        steel=_steel(file, sheet, known, problems),
        labour_rate=texts.get("labour_rate", ""),
        rush=_rush(file, sheet, known, problems),
        other=tuple(other),
    )
    return block, problems


@cache
def _labels() -> dict[str, str]:
    rows = [row for row in word_table("title_block") if row["name"] not in {_NO_TITLE, _OTHER_DATE}]
    return {heading_key(word): row["name"] for row in rows for word in words_of(row["words"])}


@cache
def _no_titles() -> frozenset[str]:
    rows = [row for row in word_table("title_block") if row["name"] == _NO_TITLE]
    return frozenset(heading_key(word) for row in rows for word in words_of(row["words"]))


def _title_line(sheet: SheetCells, last_row: int) -> str:
    """Return the first line of words that stands alone in its row and is a title; empty where none is."""
    for row in range(last_row):
        cells = [(c, v) for c, v in enumerate(sheet.rows[row]) if not is_blank(v) and not is_ruled(v)]
        titled = [(c, v) for c, v in cells if not date_in_cell(v)]
        if not titled or (len(titled) == 1 and not names_date(shown(titled[0][1]))):
            cells = titled
        if len(cells) == 1 and isinstance(cells[0][1], str) and _is_title(text := " ".join(cells[0][1].split())):
            return text
    return ""


def _is_title(text: str) -> bool:
    """Return whether a line of two words or more names a job: no list, note, unit, example or plate."""
    key = heading_key(text)
    words = [word for word in key.split() if len(word) > 1 and not any(map(str.isdigit, word))]
    if len(words) < 2 or len(text) > _LONGEST_TITLE or key in _no_titles() or key in _labels():
        return False
    if _LABEL_AND_VALUE.match(text) or text.endswith(":") or _UNIT_SAID.search(text) or unit_of(key):
        return False
    plate = isinstance(size := read_size(text), Size) and size.thickness is not None
    return not (plate or is_note(text) or is_example(text) or multiplier(text) is not None)


def _read_row(
    sheet: SheetCells, row: int, known: dict[str, tuple[CellValue, int, int]], other: list[tuple[str, str]]
) -> None:
    """Read one row into labelled values and other texts."""
    cells = [(c, v) for c, v in enumerate(sheet.rows[row]) if not is_blank(v) and not is_ruled(v)]
    n = 0
    while n < len(cells):
        column, value = cells[n]
        n += 1
        if not isinstance(value, str):
            other.append(("", shown(value)))
            continue
        text = " ".join(value.split())
        name = _labels().get(heading_key(text))
        if name and n < len(cells):
            known.setdefault(name, (cells[n][1], row, cells[n][0]))
            n += 1
            continue
        pair = _LABEL_AND_VALUE.match(text)
        if pair and pair[2] and (name := _labels().get(heading_key(pair[1]))):
            known.setdefault(name, (pair[2], row, column))
        elif text.endswith(":") and n < len(cells):
            other.append((text.rstrip(": "), shown(cells[n][1])))
            n += 1
        elif not name:
            other.append((pair[1], pair[2]) if pair and pair[2] else ("", text))


def _place(file: str, sheet: SheetCells, at: tuple[CellValue, int, int]) -> Place:
    return Place(file, sheet.name, at[1] + 1, column_letters(at[2]))


def _units(text: str, other: list[tuple[str, str]]) -> str:
    """Return the unit that the title block names; a sentence such as 'all dimensions in mm' counts."""
    named = unit_of(plain_text(text)) if text else None
    if named:
        return named
    for label, value in (("units", text), *other):
        if found := _UNIT_SAID.search(f"{label}: {value}" if label else plain_text(value)):
            return unit_of(found[1]) or ""
    return ""


def _steel(file: str, sheet: SheetCells, known: dict[str, tuple[CellValue, int, int]], problems: list[Problem]) -> str:
    at = known.get("steel")
    word = shown(at[0]).strip().lower() if at else ""
    if at is None or word in Steel.words():
        return word
    hint = f"type {', '.join(Steel.words()[:-1])} or {Steel.words()[-1]} in {_place(file, sheet, at)}"
    problems.append(
        said_cells.CELL_NOT_CHOICE.at(
            _place(file, sheet, at),
            found=shown(at[0]),
            what="steel",
            needs="ours, theirs or excluded",
            why="steel is often half the price, so it is always asked",
            hint=hint,
        )
    )
    return ""


def _rush(file: str, sheet: SheetCells, known: dict[str, tuple[CellValue, int, int]], problems: list[Problem]) -> float:
    at = known.get("rush")
    if at is None:
        return 0.0
    if isinstance(at[0], float):
        return at[0]
    found = re.fullmatch(r"\+? ?([0-9]+(?:[.,][0-9]{1,2})?) ?%", shown(at[0]).strip())
    if found:
        return float(found[1].replace(",", ".")) / 100
    problems.append(
        said_cells.CELL_NOT_NUMBER.at(
            _place(file, sheet, at),
            found=shown(at[0]),
            what="rush percentage",
            reason="it is no percentage",
            needs="a percentage, as 15 %",
            why="it raises the whole job",
        )
    )
    return 0.0
