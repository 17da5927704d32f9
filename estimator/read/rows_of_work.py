"""Rows that are work and no piece: words and a quantity without any size, asked for with the row that prices them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator.problems import list_words as said
from estimator.read.list_columns import ColumnReader
from estimator.read.pieces import Pieces
from estimator.read.section_words import HARDWARE, words_for
from estimator.read.text import plain_text
from estimator.read.what_to_type import cell_of_row, cell_under
from estimator.read.work_words import AskedWork, work_of_row
from estimator.words import BLANK, Work

__all__ = ["built_in_names", "is_work_on_part", "say_row_of_work", "take_typed_work", "take_work_by_hand"]

_FLAME_WORK = (Work.HEAT, Work.BEND, Work.STRAIGHTEN, Work.WELD, Work.BRAZE)
_LABELS = ("description", "mark", "note", "size")
_LEAST_WORDS = 2


def take_typed_work(columns: dict[str, Any], pieces: Pieces) -> None:
    """Give the work *other* to rows without a size that type what it is or its minutes, and leave Work blank."""
    typed = np.array([bool(text) for text in columns["other_work"]], dtype=np.bool_) | ~np.isnan(
        columns["minutes_each"]
    )
    rows = typed & (columns["work"] == BLANK) & _without_size(pieces)
    columns["work"] = np.where(rows, np.int8(Work.OTHER), columns["work"]).astype(np.int8)


def take_work_by_hand(reader: ColumnReader, columns: dict[str, Any], pieces: Pieces) -> None:
    """Price rows of heating, bending or welding by their minutes of work alone, where no minutes of flame are given.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered; each such row is told of.
    columns : dict of str to array or list
        Work and other work of these rows are filled in.
    pieces : Pieces
        What the cells gave; a length gives a weld its minutes of flame.
    """
    flame = ~np.isnan(columns["flame_min_each"]) | (np.nan_to_num(columns["heated_kg_each"]) > 0)
    flame |= ~np.isnan(pieces.cut_length_mm) | ~np.isnan(pieces.total_cut_length_mm)
    by_hand = np.isin(columns["work"], _FLAME_WORK) & (np.nan_to_num(columns["minutes_each"]) > 0) & ~flame
    _say_uncut(reader, columns, pieces)
    for line in np.flatnonzero(by_hand).tolist():
        word = Work(int(columns["work"][line])).word
        columns["other_work"][line] = columns["other_work"][line] or word
        flame_cell = cell_of_row(reader, line, "flame_min_each")
        reader.say(said.WORK_BY_HAND, line, "work", word, work=word, flame=flame_cell)
    columns["work"] = np.where(by_hand, np.int8(Work.OTHER), columns["work"]).astype(np.int8)


def _say_uncut(reader: ColumnReader, columns: dict[str, Any], pieces: Pieces) -> None:
    """Warn of heating, bending or straightening in the row of a piece with a size, where no row of its mark cuts it."""
    marks, sizes = reader.texts("mark"), reader.texts("size")
    cut = {marks[line] for line in np.flatnonzero(np.isin(columns["work"], (Work.CUT, BLANK))).tolist()} - {""}
    worked = np.isin(columns["work"], (Work.HEAT, Work.BEND, Work.STRAIGHTEN))
    sided = ~np.isnan(pieces.thickness_mm) & ~np.isnan(pieces.length_mm) & ~np.isnan(pieces.width_mm)
    for line in np.flatnonzero(worked).tolist():
        if (sided[line] or sizes[line]) and marks[line] not in cut:
            word, minutes = Work(int(columns["work"][line])).word, cell_of_row(reader, line, "minutes_each")
            reader.say(said.WORK_INSTEAD_OF_CUT, line, "work", word, work=word, minutes=minutes)


def say_row_of_work(reader: ColumnReader, pieces: Pieces, line: int, names: Mapping[str, str]) -> bool:
    """Ask how a row without any size is priced, where its words speak of work or are words and no mark.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    pieces : Pieces
        What its cells gave.
    line : int
        A row without a thickness.
    names : mapping of str to str
        Other work that the shop book has a time for, and that time in words.

    Returns
    -------
    bool
        Whether it was asked; a row with a size, or with a mark alone, is not.
    """
    if not _without_size(pieces)[line] or pieces.holes[line] > 0:
        return False
    texts = [(name, text) for name in _LABELS if (text := reader.texts(name)[line])]
    asked = next(((name, text, work) for name, text in texts if (work := work_of_row(text)) is not None), None)
    worded = next(((name, text, None) for name, text in texts if _words_in(text) >= _LEAST_WORDS), None)
    name, text, work = asked or worded or ("", "", None)
    if not name:
        return False
    says = f"words that ask to {work.work}" if work is not None else "words"
    reader.say(said.ROW_MAY_BE_WORK, line, name, text, says=says, do=_do(reader, line, work, names))
    return True


def is_work_on_part(text: str) -> bool:
    """Return whether words that name a bought part ask for work on it, as *straighten hinge*.

    Examples
    --------
    >>> is_work_on_part("Straighten old hinge post"), is_work_on_part("hinge"), is_work_on_part("grinding wheel")
    (True, False, False)
    """
    said = plain_text(text).lower()
    part = words_for(HARDWARE).search(said)
    before = said[: part.start()].rstrip() if part is not None else ""
    return bool(before) and not before.endswith("ing") and work_of_row(before) is not None


def built_in_names() -> Mapping[str, str]:
    """Return the built-in other work, and the time of each in words.

    Examples
    --------
    >>> built_in_names()["straighten"], built_in_names()["grind bright"]
    ('3 min a piece', '6 min a metre')
    """
    from estimator.reference import table

    rows, rates = table("other_work"), table("work_rates")
    of_rates = dict(zip(map(str, rates.column("name")), rates.column("likely").tolist(), strict=True))
    columns = ("name", "per", "minutes_rate", "minutes_likely")
    said = {}
    for name, per, rate, likely in zip(*(rows.column(column).tolist() for column in columns), strict=True):
        said[str(name)] = f"{of_rates.get(rate, likely):g} min a {per}"
    return said


def _do(reader: ColumnReader, line: int, work: AskedWork | None, names: Mapping[str, str]) -> str:
    """Return what to type for the work, its minutes first, and for a piece."""
    known = next((name for name in names if work is not None and name.casefold() == work.other_work.casefold()), None)
    minutes = f"the minutes of one in {cell_of_row(reader, line, 'minutes_each')}"
    other = cell_under(reader, line, "other_work")
    if known is not None:
        offer = f"{minutes}, or '{known}' in {other} (the shop book has {names[known]} for it)"
    else:
        offer = f"{minutes}, or in {other} a name from the shop book's sheet Other work"
    thickness = cell_under(reader, line, "thickness_mm")
    return f"to price it as work, type {offer}; for a piece to cut, type its thickness in {thickness}"


def _without_size(pieces: Pieces) -> NDArray[np.bool_]:
    """Return which rows give no thickness, no side, no diameter and no cut length."""
    sizes = (
        *(pieces.thickness_mm, pieces.length_mm, pieces.width_mm, pieces.diameter_mm, pieces.size_a_mm),
        *(pieces.cut_length_mm, pieces.total_cut_length_mm, pieces.section_area_cm2),
    )
    blank = np.all([np.isnan(size) for size in sizes], axis=0) & (pieces.shape == BLANK)
    return np.asarray(blank, dtype=np.bool_)


def _words_in(text: str) -> int:
    return sum(1 for word in plain_text(text).split() if len(word) > 1 and word.isalpha())
