"""What the words of a row say of the row itself: that it is held, or that its steel is the customer's."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from estimator.check.cut_list import TitleBlock
from estimator.problems import list_words as said
from estimator.problems.code import Place, Problem
from estimator.read.cells import SheetCells, column_letters
from estimator.read.heading_rows import cell_text
from estimator.read.list_columns import ColumnReader
from estimator.read.row_kinds import RowKind
from estimator.read.table import Table
from estimator.read.text import plain_text
from estimator.read.work_words import whole_words
from estimator.sheets.word_tables import word_table, words_of
from estimator.words import BLANK, Steel

__all__ = ["held_above", "is_held", "is_theirs", "is_unsure", "say_row_orders", "whose_steel"]

_ALONE = (
    r"(?:^|[.;!(] *| - )(?:please |the |this |item |part |piece |line |row |mark |is |now )*(?:{words})"
    r"(?= *(?:$|[.,;:!)-]|(?:until|till|yet|before|without)\b))"
)
"""Words that stand for the whole row only where they begin a text or a sentence, and nothing but a reason follows."""
_TICKS = frozenset({"x", "yes", "y", "true", "✓", "✔", "☑", "ja", "j", "sí", "si", "s", "oui", "o", "tak", "t", "да"})
_NOT = r"(?<!no )(?<!not )(?<!not a )(?<!nicht )(?<!kein )(?<!keine )"


def is_held(text: str) -> bool:
    """Return whether a text says that its row is not to be cut.

    Examples
    --------
    >>> is_held("ON HOLD - rev B"), is_held("DO NOT CUT"), is_held("do not cut the corners"), is_held("not on hold")
    (True, True, False, False)
    """
    return bool(_pattern("held").search(plain_text(text).lower()))


def is_theirs(text: str) -> bool:
    """Return whether a text says that the steel is the customer's.

    Examples
    --------
    >>> is_theirs("customer supplies plate"), is_theirs("Free issue"), is_theirs("holes by customer")
    (True, True, False)
    """
    return bool(_pattern("theirs").search(plain_text(text).lower()))


def whose_steel(text: str) -> tuple[str, str] | None:
    """Return which of ours and yours a text calls the steel, and its words; who wrote them decides whose that is.

    Examples
    --------
    >>> whose_steel("our steel"), whose_steel("Plate by you."), whose_steel("your drawing 12")
    (('ours', 'our steel'), ('yours', 'plate by you'), None)
    """
    said_ = plain_text(text).lower()
    found = ((whose, _pattern(whose).search(said_)) for whose in ("ours", "yours"))
    return next(((whose, match[0].strip()) for whose, match in found if match), None)


def is_unsure(text: str) -> bool:
    """Return whether a text says that its row is not settled, or asks.

    Examples
    --------
    >>> is_unsure("or 350 long?"), is_unsure("check size with me"), is_unsure("as agreed")
    (True, True, False)
    """
    return text.rstrip().endswith("?") or bool(_pattern("unsure").search(plain_text(text).lower()))


def say_row_orders(reader: ColumnReader, table: Table, columns: Mapping[str, Any], title: TitleBlock) -> None:
    """Ask about each row that is held, and warn where a note says whose the steel is and no cell does.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    table : Table
        Its other rows and its columns that are not read.
    columns : mapping of str to array or list
        The columns of the cut list as read; the steel is looked at.
    title : TitleBlock
        What stands above the list: under a customer's name, ours is the customer's.
    """
    named = {c: name for name, c in table.columns.items() if name.startswith(("description", "note", "material"))}
    lines = {int(row): line for line, row in enumerate(reader.rows.tolist())}
    for column, name in sorted((named | table.carried).items()):
        what = name.partition(" ")[0] if column in named else f"cell under '{name}'"
        texts = {row: text for row in lines if (text := _text(reader, row, column))}
        known = {
            text: (is_held(text), is_theirs(text), is_unsure(text), whose_steel(text))
            for text in _telling(set(texts.values()))
        }
        ticked = is_held(name) if column not in named else False
        for row, text in texts.items() if ticked else ():
            if plain_text(text).lower() in _TICKS:
                place = Place(reader.file, reader.sheet.name, row + 1, column_letters(column))
                reader.problems.append(said.ROW_IS_HELD.at(place, found=text, what=what))
        for row, text in texts.items() if known else ():
            held, theirs, unsure, whose = known.get(text, (False, False, False, None))
            place = Place(reader.file, reader.sheet.name, row + 1, column_letters(column))
            if held:
                reader.problems.append(said.ROW_IS_HELD.at(place, found=text, what=what))
            if unsure and not held:
                reader.problems.append(said.ROW_IS_UNSURE.at(place, found=text, what=what))
            steel = columns["steel"][lines[row]]
            if theirs and steel not in {Steel.THEIRS, Steel.EXCLUDED}:
                reader.problems.append(said.STEEL_MAY_BE_THEIRS.at(place, found=text, what=what))
            elif whose is not None and steel == BLANK:
                reader.problems += _by_who_wrote(place, text, what, whose, title)
    _steel_of_other_rows(reader, table, columns, title)
    _held_by_titles(reader, table)


def held_above(file: str, sheet: SheetCells, first: int) -> Iterator[Problem]:
    """Yield what the rows above the first table say against cutting any of the list.

    Parameters
    ----------
    file : str
        Name of the file.
    sheet : SheetCells
        The sheet.
    first : int
        First row that is no longer above the table, from 0.
    """
    for row, cells in enumerate(sheet.rows[:first]):
        for column, value in enumerate(cells):
            if (text := cell_text(value)) and is_held(text):
                place = Place(file, sheet.name, row + 1, column_letters(column))
                yield said.ROWS_ARE_HELD.at(place, found=text, title=text.strip(), what="the list is", at=place.cell)


def _held_by_titles(reader: ColumnReader, table: Table) -> None:
    """Ask about each row below a title or note that holds what follows, down to the next title or subtotal."""
    held = {
        (row, column): text
        for row, kind in sorted(table.rows.others.items())
        for column in range(len(reader.sheet.rows[row]) if kind in {RowKind.NOTE, RowKind.TITLE} else 0)
        if (text := _text(reader, row, column)) and is_held(text)
    }
    ends = sorted(row for row, kind in table.rows.others.items() if kind in {RowKind.TITLE, RowKind.SUBTOTAL})
    pieces = reader.rows.tolist()
    for (row, column), text in held.items():
        at = Place(reader.file, reader.sheet.name, row + 1, column_letters(column))
        end = next((one for one in ends if one > row), table.rows.end)
        below = [one for one in pieces if row < one < end]
        if not below and table.rows.others[row] is RowKind.NOTE:
            reader.problems.append(said.ROWS_ARE_HELD.at(at, title=text.strip(), what="some rows are", at=at.cell))
        _hold(reader, below, text, at.cell)
    if reader.first_line and is_held(table.title):
        _hold(reader, pieces, table.title, f"the title above row {table.heading.row + 1}")


def _hold(reader: ColumnReader, rows: list[int], title: str, at: str) -> None:
    for row in rows:
        place = Place(reader.file, reader.sheet.name, row + 1, "")
        reader.problems.append(said.ROWS_ARE_HELD.at(place, title=title.strip(), what="the row is", at=at))


def _by_who_wrote(place: Place, text: str, what: str, whose: tuple[str, str], title: TitleBlock) -> list[Problem]:
    """Return the warning of a text that says our steel or yours; none where the list itself settles what is meant."""
    meant = {"ours": Steel.THEIRS.word, "yours": Steel.OURS.word}[whose[0]] if title.customer else ""
    if meant and title.steel in {meant, Steel.EXCLUDED.word}:
        return []
    if meant == Steel.THEIRS.word:
        return [said.STEEL_MAY_BE_THEIRS.at(place, found=text, what=what)]
    return [said.STEEL_BY_WHO_WROTE.at(place, found=text, what=what, words=whose[1])]


def _steel_of_other_rows(reader: ColumnReader, table: Table, columns: Mapping[str, Any], title: TitleBlock) -> None:
    """Warn of a note or title that gives the steel of the list to the customer, unless every row says so."""
    if all(steel in {Steel.THEIRS, Steel.EXCLUDED} for steel in columns["steel"].tolist()):
        return
    for row, kind in sorted(table.rows.others.items()):
        for column in range(len(reader.sheet.rows[row])) if kind in {RowKind.NOTE, RowKind.TITLE} else ():
            place, text = (
                Place(reader.file, reader.sheet.name, row + 1, column_letters(column)),
                _text(reader, row, column),
            )
            if text and is_theirs(text):
                reader.problems.append(said.STEEL_MAY_BE_THEIRS.at(place, found=text, what=str(kind)))
            elif text and (columns["steel"] == BLANK).any() and (whose := whose_steel(text)) is not None:
                reader.problems += _by_who_wrote(place, text, str(kind), whose, title)


def _text(reader: ColumnReader, row: int, column: int) -> str:
    cells = reader.sheet.rows[row]
    return cell_text(cells[column]) if column < len(cells) else ""


def _telling(texts: set[str]) -> Iterator[str]:
    """Return the texts of a column, or none where no word of the table stands in any of them."""
    whole = "\n".join(texts).lower()
    return iter(texts if any(word in whole for word in _bare_words()) else ())


@cache
def _bare_words() -> tuple[str, ...]:
    cells = [row[name] for row in word_table("row_words") for name in ("words", "alone")]
    return ("?", *(word.rstrip("*") for cell in cells for word in words_of(cell)))


@cache
def _pattern(says: str) -> re.Pattern[str]:
    row = next(row for row in word_table("row_words") if row["says"] == says)
    anywhere = f"{_NOT}(?:{whole_words(words_of(row['words']))})"
    alone = words_of(row["alone"])
    return re.compile("|".join([anywhere, *([_ALONE.format(words=whole_words(alone))] if alone else [])]))
