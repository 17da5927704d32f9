"""Reads ``--columns "thickness=D,length=F"``: which column of the list means what, in the user's words."""

from __future__ import annotations

import difflib
from collections.abc import Mapping

from estimator.problems import table as said
from estimator.problems.code import Place, Problem
from estimator.read.headings import heading_key, match_heading
from estimator.sheets.cut_list import CUT_LIST
from estimator.sheets.wordings import READING_COLUMNS

__all__ = ["read_column_option"]


def read_column_option(file: str, columns: Mapping[str, str] | str | None) -> tuple[dict[str, str], list[Problem]]:
    """Return the columns that the user names, by house name, and what is wrong with the option.

    Parameters
    ----------
    file : str
        Name of the file, for problems.
    columns : mapping, str or None
        ``name=letters`` pairs parted by commas, or the same as a mapping. A name is a house name, a heading of the
        blank cut list or any known wording; what stands for it is column letters or a heading of the list.

    Returns
    -------
    dict of str to str, and list of Problem

    Examples
    --------
    >>> read_column_option("list.xlsx", "thickness=D, Qty=B")[0]
    {'thickness_mm': 'D', 'quantity': 'B'}
    """
    problems: list[Problem] = []
    chosen: dict[str, str] = {}
    for word, place in _pairs(columns):
        name = _house_name(word)
        if name is None or not place:
            names = [*READING_COLUMNS, *(column.name for column in CUT_LIST.columns)]
            known = [known.removesuffix("_mm").removesuffix("_deg") for known in names]
            near = difflib.get_close_matches(word.lower(), known, 2, 0.5)
            hint = f"the nearest names are: {', '.join(near)}" if near else f"known names are: {', '.join(known[:8])} …"
            problems.append(said.COLUMN_OPTION_WORD.at(Place(file), word=word, hint=hint))
            continue
        chosen[name] = place
    return chosen, problems


def _pairs(columns: Mapping[str, str] | str | None) -> list[tuple[str, str]]:
    if columns is None:
        return []
    if isinstance(columns, str):
        parts = [part.partition("=") for part in columns.split(",") if part.strip()]
        return [(word.strip(), place.strip()) for word, _, place in parts]
    return [(word.strip(), place.strip()) for word, place in columns.items()]


def _house_name(word: str) -> str | None:
    """Return the house name for a word: itself, with its unit, a heading or a known wording."""
    key = heading_key(word).replace(" ", "_")
    names = {*READING_COLUMNS, *(column.name for column in CUT_LIST.columns)}
    for name in (key, f"{key}_mm", f"{key}_deg"):
        if name in names:
            return name
    found = match_heading(word)
    return found.column if found is not None else None
