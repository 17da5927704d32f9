"""Rows of a list repeat their shape: the same columns, styles and types of cell. One match then takes a whole row.

A shape is learnt from two rows alike, a few rows apart; a cell of it may be blank or missing. A few are kept, for
lists whose rows take turns. What fits none is read cell by cell, so a shape only ever saves time.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from estimator.read.cells import CellValue
from estimator.read.number_formats import date_value
from estimator.read.xlsx_cell import BookFacts, ColumnNumbers

__all__ = ["FORMULA", "NotPlainError", "PlainCells", "RowShape"]

FORMULA = r"<f[^<>]*?(?:/>|>[^<]*</f>)"
_ATTRIBUTE = re.compile(r' ([\w:]+)="([^"<>&]*)"')
_NUMBER = r"(-?[0-9][0-9.]{0,24}(?:[eE][-+]?[0-9]{1,2})?)"
_BODIES = {
    "n": f"<v>{_NUMBER}</v>",
    "s": "<v>([0-9]{1,7})</v>",
    "str": "<v>([^<&_]+)</v>",
    "inlineStr": '<is><t(?: xml:space="preserve")?>([^<&_]*)</t></is>',
}
_MOST_SHAPES = 40
"""A shape takes about as long to make as a hundred rows to read; a sheet that needs more is not a list."""
_KEPT_SHAPES = 6
"""Shapes that are tried for a row, and rows back that a like row is looked for."""


class NotPlainError(Exception):
    """The sheet's XML has a form that only an XML parser may take apart."""


class _Attributes(dict[str, tuple[str, str]]):
    """Style and kind of a cell by the text of its attributes, of which a file has few."""

    def __missing__(self, text: str) -> tuple[str, str]:
        pairs = _ATTRIBUTE.findall(text)
        if "".join(f' {name}="{value}"' for name, value in pairs) != text.rstrip():
            raise NotPlainError
        stated = dict(pairs)
        self[text] = stated.get("s", ""), stated.get("t", "n")
        return self[text]


class _Texts(dict[str, str | None]):
    """Shared texts by their number as cells state it; an empty one is a blank."""

    def __init__(self, texts: Sequence[str]) -> None:
        super().__init__((str(number), text or None) for number, text in enumerate(texts))

    def __missing__(self, number: str) -> str | None:
        raise NotPlainError


class _Dates(dict[str, CellValue]):
    """Dates by the number of days as cells state it; lists repeat their dates."""

    def __init__(self, *, epoch_1904: bool) -> None:
        self._epoch_1904 = epoch_1904

    def __missing__(self, days: str) -> CellValue:
        self[days] = date_value(float(days), epoch_1904=self._epoch_1904)
        return self[days]


class PlainCells:
    """How the plain cells of one workbook are read, by what they state."""

    def __init__(self, facts: BookFacts) -> None:
        self.columns, self.attributes = ColumnNumbers(), _Attributes()
        self._date_styles = facts.date_styles
        self._texts, self._dates = _Texts(facts.strings), _Dates(epoch_1904=facts.epoch_1904)

    def reader(self, kind: str, style: str) -> Callable[[str], CellValue]:
        """Return the function that makes a value of a stored text."""
        if kind == "n":
            return self._dates.__getitem__ if style in self._date_styles else float
        return self._texts.__getitem__ if kind == "s" else str


class RowShape:
    """The shapes of the rows that are being read; none until two rows were alike."""

    def __init__(self, cells: PlainCells) -> None:
        self.styles: list[str] = []
        """Style of each column of the row that was matched last; the same list for every row of a shape."""
        self._cells = cells
        self._shapes: list[tuple[re.Pattern[str], list[Callable[[str], CellValue]], list[str]]] = []
        self._recent: list[list[tuple[str, str, bool]]] = []
        self._made = 0

    def match(self, piece: str, start: int, number: str) -> list[CellValue] | None:
        """Return a row's values; None when it has another shape.

        Parameters
        ----------
        piece : str
            XML of the row.
        start : int
            Where its first cell begins.
        number : str
            Row number that its cells must state.

        Returns
        -------
        list of CellValue or None
            Without blanks at its end.

        Notes
        -----
        Source: definition.
        """
        for place, (pattern, readers, styles) in enumerate(self._shapes):
            taken = pattern.fullmatch(piece, start)
            if taken is None:
                continue
            stated, *typed = taken.groups()
            if stated != number:
                return None
            if place:
                self._shapes.insert(0, self._shapes.pop(place))
            self.styles = styles
            try:
                values = [read(text) if text else None for read, text in zip(readers, typed, strict=True)]
            except ValueError as error:
                raise NotPlainError from error
            while values and values[-1] is None:
                values.pop()
            return values
        return None

    def learn(self, found: list[tuple[str, ...]]) -> None:
        """Take note of a row that was read cell by cell; two alike in a row make a shape."""
        seen = [(letters, stated, bool(formula)) for letters, _, stated, formula, _, _ in found]
        if seen and seen in self._recent and self._made < _MOST_SHAPES:
            self._make(seen)
            self._made += 1
        self._recent = [seen, *self._recent[: _KEPT_SHAPES - 1]]

    def _make(self, seen: list[tuple[str, str, bool]]) -> None:
        pattern, readers, styles = r'(?=<c r="[A-Z]+([0-9]{1,7})")', list[Callable[[str], CellValue]](), list[str]()
        for letters, stated, has_formula in seen:
            style, kind = self._cells.attributes[stated]
            body = _BODIES.get(kind)
            column = self._cells.columns[letters]
            if body is None or column < len(readers):
                return
            formula = FORMULA if has_formula else ""
            pattern += "()" * (column - len(readers))
            pattern += rf'(?:<c r="{letters}\1"{re.escape(stated)}(?:/>|>{formula}{body}</c>))?'
            readers += [str] * (column - len(readers)) + [self._cells.reader(kind, style)]
            styles += [""] * (column - len(styles)) + [style]
        self._shapes = [(re.compile(pattern), readers, styles), *self._shapes[: _KEPT_SHAPES - 1]]
