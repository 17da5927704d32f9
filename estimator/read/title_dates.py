"""The list's own date: beside its label above the table, or one date that stands there; asked where two could be."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from estimator.problems import table as said
from estimator.problems.code import Place, Problem
from estimator.read.cells import CellError, CellValue, SheetCells, column_letters
from estimator.read.date_text import AmbiguousDateError, read_date_text
from estimator.read.heading_rows import cell_text, is_blank
from estimator.read.headings import heading_key
from estimator.read.list_columns import shown
from estimator.read.table import Table
from estimator.read.text import plain_text
from estimator.sheets.word_tables import word_table, words_of

__all__ = ["date_in_cell", "date_of_list", "names_date"]

_LONGEST = 60
_LONGEST_LABEL = 30
_SHORT_YEAR = re.compile(r"(?<!\d)(\d{1,2})([./-])(\d{1,2})\2(\d{2})(?!\d)")
_NAMED_SHORT_YEAR = re.compile(r"(?<=[a-z])[ .,-]+'?(\d{2})$|(?<=[a-z] \d{2}), ?'?(\d{2})$|(?<=[a-z] \d), ?'?(\d{2})$")
_ORDINAL = re.compile(r"(?<=\d)(?:st|nd|rd|th|\.º|º)(?= )")
_WEEKDAY = re.compile(
    r"^(?:mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun)(?:day|sday|nesday|rsday|urday)?[., ]+(?=[0-9a-z])"
)
_MONTH_FIRST = frozenset({"USD"})
_DAY_FIRST = frozenset({"GBP", "EUR", "AUD", "NZD", "CHF", "PLN", "CZK", "DKK", "NOK", "INR", "BRL", "MXN"})
"""Money of shops whose customers write the day first; others, as CAD, write both ways (common practice, no source)."""
_LABELLED = re.compile(r"([^:=]{1,40}?)\s*[:=]\s*(.*)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class _Found:
    """A date above the table, in one reading or two."""

    place: Place
    text: str
    readings: tuple[dt.date, ...]
    labelled: bool
    other: bool
    """Another date than the list's, as the one by which the pieces are needed."""


def date_in_cell(value: CellValue) -> tuple[dt.date, ...]:
    """Return the date that a cell of a title is: two where day and month can be exchanged, none where it is no date.

    Examples
    --------
    >>> [str(day) for day in date_in_cell("11/19/26")], [str(day) for day in date_in_cell("Thu 12th Nov 2026")]
    (['2026-11-19'], ['2026-11-12'])
    >>> [str(day) for day in date_in_cell("5/11/2026")], date_in_cell("Hopper plates")
    (['2026-11-05', '2026-05-11'], ())
    """
    if isinstance(value, dt.datetime):
        return (value.date(),)
    if isinstance(value, dt.date):
        return (value,)
    if not isinstance(value, str) or isinstance(value, CellError) or len(value) > _LONGEST:
        return ()
    text = _ORDINAL.sub("", _WEEKDAY.sub("", plain_text(value).casefold().strip(" .,()")))
    text = _NAMED_SHORT_YEAR.sub(lambda two: f" {2000 + int(two[1] or two[2] or two[3])}", text)
    text = _SHORT_YEAR.sub(lambda date: f"{date[1]}{date[2]}{date[3]}{date[2]}{2000 + int(date[4])}", text)
    try:
        return (read_date_text(text),)
    except AmbiguousDateError as two:
        return tuple(dt.date.fromisoformat(day) for day in two.readings)
    except ValueError:
        return ()


def date_of_list(
    file: str, sheet: SheetCells, tables: Sequence[Table], currency: str = ""
) -> tuple[str, list[Problem]]:
    """Return the date that a list gives itself.

    Parameters
    ----------
    file : str
        Name of the file, for problems.
    sheet : SheetCells
        The sheet of the first table.
    tables : sequence of Table
        The tables that are read; what stands above the first of them is looked at, and beside its headings.
    currency : str
        The shop's money, three letters of ISO 4217; empty when it is not known.

    Returns
    -------
    str and list of Problem
        ISO 8601 date, or empty; a note where the date has no label or its order had to be settled.

    Notes
    -----
    Day and month are told apart by another date above the table, by headings in another language than English (day
    first), or by the shop's money: in the United States the month stands first, in Britain and on the euro the day.
    Inches alone do not tell: Canada writes both. Else they are asked. Source: common practice, no source.
    """
    found = list(_dates(file, sheet, tables))
    labelled = [one for one in found if one.labelled]
    asked = [one for one in labelled if not one.readings] or labelled
    asked = asked or [one for one in found if not one.other]
    if not asked:
        return "", []
    chosen = asked[0]
    order = _order(found, tables, currency) if len(chosen.readings) == 2 else None
    if not chosen.readings or (len(chosen.readings) == 2 and order is None):
        return "", [said.DATE_OF_JOB_NOT_READ.at(chosen.place, found=chosen.text)]
    day = chosen.readings[0] if order is None or order.day_first else chosen.readings[1]
    if any(day not in one.readings for one in asked):
        dates = ", ".join(f"{one.text} in {one.place.cell}" for one in asked)
        return "", [said.DATES_DIFFER.at(chosen.place, found=chosen.text, dates=dates)]
    how = " and ".join(filter(None, ("" if labelled else "no other stands there", order.why if order else "")))
    problems = [said.DATE_TAKEN.at(chosen.place, found=chosen.text, date=day.isoformat(), how=how)] if how else []
    return day.isoformat(), problems


@dataclass(frozen=True, slots=True)
class _Order:
    day_first: bool
    why: str


def _order(found: Sequence[_Found], tables: Sequence[Table], currency: str) -> _Order | None:
    """Return what tells day and month apart."""
    sure = {first for one in found if (first := _day_stands_first(one)) is not None}
    if len(sure) == 1:
        day_first = sure.pop()
        return _Order(day_first, f"another date here has the {'day' if day_first else 'month'} first")
    if _not_english(tables):
        return _Order(day_first=True, why="the day is read first, as the headings are not in English")
    if currency in _MONTH_FIRST | _DAY_FIRST:
        order = "day" if currency in _DAY_FIRST else "month"
        return _Order(currency in _DAY_FIRST, why=f"the {order} is read first, as the shop's money is {currency}")
    return None


def _day_stands_first(one: _Found) -> bool | None:
    """Return whether a date in figures has the day first; None where it does not tell."""
    figures = re.match(r"(\d{1,2})[/-](\d{1,2})[/-]\d{2}", one.text.strip())
    if figures is None or len(one.readings) != 1 or figures[1] == figures[2]:
        return None
    return int(figures[1]) == one.readings[0].day


def _not_english(tables: Sequence[Table]) -> bool:
    """Return whether a heading is a wording of other languages only."""
    return any(
        (languages := _languages().get((heading.column, heading_key(table.heading.texts.get(column, ""))), set()))
        and "en" not in languages
        for table in tables
        for column, heading in table.heading.found.items()
    )


@cache
def _languages() -> dict[tuple[str, str], set[str]]:
    known: dict[tuple[str, str], set[str]] = {}
    for row in word_table("heading_wordings"):
        for wording in words_of(row["wordings"]):
            known.setdefault((row["column"], heading_key(wording)), set()).add(row["language"])
    return known


def _dates(file: str, sheet: SheetCells, tables: Sequence[Table]) -> Iterator[_Found]:
    """Yield the dates above the first table, and those beside its headings that head no column."""
    first = min((table.heading.row for table in tables), default=0)
    headed = {column for table in tables for column in table.columns.values()}
    for row in range(min(first + 1, len(sheet.rows))):
        for column, value in enumerate(sheet.rows[row]):
            if is_blank(value) or (row == first and (column in headed or not date_in_cell(value))):
                continue
            place = Place(file, sheet.name, row + 1, column_letters(column))
            if (one := _dated(sheet, row, column, value, place)) is not None:
                yield one


def _dated(sheet: SheetCells, row: int, column: int, value: CellValue, place: Place) -> _Found | None:
    """Return the date that one cell holds, with what its own words, the cell before it or the one above call it."""
    text = " ".join(shown(value).split())
    own, rest, readings = _label_and_date(text, value)
    if not readings and not _is_date_label(own):
        before = _before(sheet, row, column)
        unread = _is_date_label(before) and not own and not names_date(text) and heading_key(text) not in _labels()
        return _Found(place, text, (), labelled=True, other=False) if unread else None
    headed = row > 0 and not date_in_cell(sheet.value(row - 1, column + 1))
    above = cell_text(sheet.value(row - 1, column)) if headed else ""
    label = own or next((one for one in (_before(sheet, row, column), above) if names_date(one)), "")
    labelled = _is_date_label(label)
    return _Found(place, rest, readings, labelled=labelled, other=names_date(label) and not labelled) if rest else None


def _label_and_date(text: str, value: CellValue) -> tuple[str, str, tuple[dt.date, ...]]:
    """Return the words before a date in a cell, the date as it stands, and its readings; it may end a title."""
    if readings := date_in_cell(value):
        return "", text, readings
    words = text.split()
    for many in (1, 2, 3, 4):
        rest = " ".join(words[-many:])
        if many < len(words) and (readings := date_in_cell(rest)):
            return " ".join(words[:-many]), rest, readings
    pair = _LABELLED.fullmatch(text)
    return (pair[1], pair[2], date_in_cell(pair[2])) if pair else ("", text, ())


def _before(sheet: SheetCells, row: int, column: int) -> str:
    return cell_text(next((v for v in reversed(sheet.rows[row][:column]) if not is_blank(v)), None))


def names_date(text: str) -> bool:
    """Return whether a text names what stands beside it, or a date.

    Examples
    --------
    >>> names_date("Required by"), names_date("Date:"), names_date("Hopper plates")
    (True, True, False)
    """
    named = len(text) <= _LONGEST_LABEL and bool(_other_date().search(text.casefold()))
    return named or text.rstrip().endswith(":") or _is_date_label(text)


def _is_date_label(text: str) -> bool:
    return _labels().get(heading_key(text)) == "job_date"


@cache
def _labels() -> dict[str, str]:
    return {heading_key(word): row["name"] for row in word_table("title_block") for word in words_of(row["words"])}


@cache
def _other_date() -> re.Pattern[str]:
    words = [
        word for row in word_table("title_block") if row["name"] == "other date" for word in words_of(row["words"])
    ]
    return re.compile(rf"(?<![^\W\d_])(?:{'|'.join(map(re.escape, words))})(?![^\W\d_])")
