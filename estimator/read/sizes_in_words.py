"""Sizes that words name where the columns of sides are blank or leave the shape open: discs, rings, rectangles."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.problems import cut_list as said
from estimator.problems import list_words as said_words
from estimator.read.cells import CellValue
from estimator.read.list_columns import ColumnReader
from estimator.read.list_lengths import in_mm
from estimator.read.list_pieces import take_size
from estimator.read.list_units import BareUnit, said_in
from estimator.read.named_shapes import shapes_named
from estimator.read.numbers import Refused
from estimator.read.pieces import Pieces
from estimator.read.ring_words import inside_alone
from estimator.read.round_words import ROUND, round_forms
from estimator.read.section_words import DISC, RING
from estimator.read.size import Size
from estimator.read.text import LONGEST, plain_text
from estimator.read.what_to_type import cell_under, cut_length_instead
from estimator.words import BLANK, Shape

__all__ = ["sizes_in_words"]

_SQUARE = re.compile(
    r"(?<![^\W\d_])(?:square|quadrat|quadratisch\w*|cuadrad[ao]s?|quadrad[ao]s?|quadrat[ao]|kwadrat\w*|carrée?s?)"
    r"(?![^\W\d_])(?![ -]*(?:bar|rod|tub|pipe|section|hollow|cut|ends?|hole|edge|corner|to\b|m\b|ft|in\b|cm|mm))"
)
_FIGURE = re.compile(r"[0-9½¼¾⅛⅜⅝⅞]")
_LABELS_FIRST = re.compile(r"[\W\d_]*(?:(?:o|i)[./]?d\.?(?![^\W\d_])|Ø|dia|bore|[\"]? ?[x×*] ?[0-9])")
_DIAMETER = re.compile(r"Ø|(?<![^\W\d_])(?:(?:o|i)[./]?d\.?|dia|diam|diameter|bore)(?![^\W\d_])")
_OF_ANOTHER = re.compile(
    r"(?<![^\W\d_])(?:for|to|fits?|suits?|from|ex|out of|under|over|on|in|off|near|at|für|aus|auf|zu|para|de|pour|sur"
    r"|per|di|dla|do|z|на|для|из)(?![^\W\d_])"
)
"""Words behind which a size is that of another thing."""
_WORDS = re.compile(r"(?<![^\W\d_])(?!(?:inch|inches|feet|foot)(?![^\W\d_]))(?:[^\W\d_]{3,}|pl|bl)\.?(?![^\W\d_])")


def sizes_in_words(reader: ColumnReader, pieces: Pieces, bare: BareUnit, cutting: NDArray[np.bool_]) -> None:
    """Take the sizes and the round shapes that words give to rows whose columns do not give them.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    pieces : Pieces
        What columns and size strings gave; filled here.
    bare : BareUnit
        Unit of bare numbers in size strings.
    cutting : ndarray of bool
        Rows that are cut.

    Notes
    -----
    Where sides stand beside a disc or a ring, they have to be its diameters: two equal sides with a word for round are
    a disc, and said; a ring without an inside diameter is asked for. Source: common practice, no source.
    """
    cut = ~np.isnan(pieces.cut_length_mm) | ~np.isnan(pieces.total_cut_length_mm)
    open_shape = np.isin(pieces.shape, (BLANK, Shape.DISC, Shape.RING)) & np.isnan(pieces.size_a_mm)
    lines = set(np.flatnonzero(cutting & ~pieces.refused & ~cut & open_shape).tolist())
    sided = ~np.isnan(pieces.length_mm) | ~np.isnan(pieces.width_mm)
    open_size = set(np.flatnonzero(~sided).tolist())
    names = [name for first in ("description", "material", "note") for name in reader.alike(first)]
    for name in [*names, "mark"] if lines else ():
        cells = reader.values(name) or [None] * len(reader)
        texts = {cell for line in lines if type(cell := cells[line]) is str}
        forms = round_forms(texts, in_note=name.startswith("note"))
        telling = set(_with_figures(cells, open_size & lines)) | set(forms)
        telling |= {text for text in texts if _SQUARE.search(text.casefold())} - set(forms)
        telling -= set(shapes_named(telling)) if telling else telling
        for line in sorted(lines) if telling else ():
            text = cells[line]
            if type(text) is str and text in telling and pieces.sized.get(line) != name:
                figures = len(text) <= LONGEST and bool(_FIGURE.search(text))
                if _Words(reader, pieces, bare, line, name, text, forms.get(text), figures).settle():
                    lines.discard(line)


def _with_figures(cells: list[CellValue], lines: set[int]) -> Iterator[str]:
    """Yield the texts with figures in some lines."""
    for line in lines:
        text = cells[line]
        if type(text) is str and len(text) <= LONGEST and _FIGURE.search(text):
            yield text


@dataclass(frozen=True, slots=True)
class _Words:
    """One text of a row whose columns do not say how it is shaped."""

    reader: ColumnReader
    pieces: Pieces
    bare: BareUnit
    line: int
    name: str
    text: str
    form: str | None
    figures: bool

    @property
    def _what(self) -> str:
        return self.name.partition(" ")[0]

    def settle(self) -> bool:
        """Take or refuse what the text says; return whether nothing more is to be looked for in the row."""
        pieces, line = self.pieces, self.line
        sides = [side for side in (pieces.length_mm[line], pieces.width_mm[line]) if not np.isnan(side)]
        if not sides and np.isnan(pieces.diameter_mm[line]):
            size = self._size() if self.figures else None
            if size is not None:
                take_size(self.reader, pieces, line, self.name, size, self.bare)
            return size is not None
        if self.name == "mark":
            return False
        if not sides:
            return self.figures and self._bore()
        if pieces.shape[line] != BLANK:
            return False
        if self.form is None:
            return len(sides) == 1 and self._square(sides[0])
        size = self._round(RING if self.form == RING else DISC) if self.figures else None
        return self._against(size, sides) if size is not None else not self.figures and self._by_word(sides)

    def _round(self, form: str | None = None) -> Size | None:
        """Return the disc or ring that the text gives with its diameters."""
        size = self.reader.size_of(self.text, form)
        if isinstance(size, Size) and size.shape is Shape.ROUND_BAR and self.form == ROUND and not size.piece_length:
            size = Size(Shape.DISC, None, size.a, plain=False, remark=size.remark)
        whole = isinstance(size, Size) and size.shape in {Shape.DISC, Shape.RING} and size.a is not None
        return size if whole and isinstance(size, Size) else None

    def _size(self) -> Size | None:
        """Return the disc, ring or rectangle that the text gives with all its sizes."""
        folded = plain_text(self.text).casefold().replace("ø", "Ø").replace("φ", "Ø")
        if self._what == "note" and self.form is None and not _LABELS_FIRST.match(folded):
            return None
        if (size := self._round()) is not None:
            return size
        other = self.name == "mark" or _OF_ANOTHER.search(folded) or _DIAMETER.search(folded)
        return None if other else self._rectangle()

    def _rectangle(self) -> Size | None:
        """Return two sides; of three sizes one has to be the thickness that the row gives."""
        size = self.reader.size_of(self.text)
        if isinstance(size, Refused) or size.a is None:
            size = self.reader.size_of(_WORDS.sub(" ", self.text))
        if isinstance(size, Refused) or size.shape is not Shape.RECTANGLE or size.flat or not (size.a and size.b):
            return None
        own = self.pieces.thickness_mm[self.line]
        fits = size.thickness is None or abs(in_mm(size.thickness, self.bare) - own) <= 0.02 * own
        return size if fits else None

    def _square(self, side: float) -> bool:
        """Make a plate with one side a square where words call it one."""
        pieces, line = self.pieces, self.line
        if self._what == "note" or not _SQUARE.search(plain_text(self.text).casefold()):
            return False
        pieces.length_mm[line] = pieces.width_mm[line] = side
        self._say(f"a square, {said_in(self.bare, side, side)}", f"it says {self.text.strip()!r}, and gives one side")
        return True

    def _against(self, size: Size, sides: list[float]) -> bool:
        """Take a disc or ring whose diameters the sides are; ask where they are others."""
        outside, *inside = (in_mm(dim, self.bare) for dim in (size.a, size.b) if dim is not None)
        others = [side for side in sides if not _near(side, outside)]
        if len(others) == len(sides) or any(not _near(side, *inside) for side in others):
            return self._disagrees(f"sides of {' x '.join(f'{side:.6g}' for side in sides)} mm")
        self.pieces.length_mm[self.line] = self.pieces.width_mm[self.line] = np.nan
        take_size(self.reader, self.pieces, self.line, self.name, size, self.bare)
        return True

    def _by_word(self, sides: list[float]) -> bool:
        """Make two equal sides a disc where a word calls the piece round; ask for a ring's inside diameter."""
        reader, pieces, line = self.reader, self.pieces, self.line
        if not _near(sides[0], sides[-1]) or (self.form == RING and self._what == "note"):
            return False
        here = cell_under(reader, line, self.name)
        if self.form == RING:
            do = f"type its two diameters in {here}, as 'OD 320 ID 200' in its unit"
            return self._ask("a ring", sides, f"{do}; or {cut_length_instead(reader, line)}")
        if self.form == ROUND and len(sides) == 1:
            do = (
                f"type disc in {here} if that side is its diameter, or round bar in {cell_under(reader, line, 'shape')}"
            )
            return self._ask("a round without saying whether it is a disc or a bar", sides, do)
        pieces.shape[line], pieces.diameter_mm[line] = Shape.DISC, sides[0]
        pieces.length_mm[line] = pieces.width_mm[line] = np.nan
        reader.note(line, self.name, self.text, f"disc {sides[0]:.6g} mm", "size_a_mm")
        alike = "its two sides are equal" if len(sides) == 2 else "its one side is the diameter"
        self._say(f"a disc of {sides[0]:.6g} mm", f"it says {self.text.strip()!r}, and {alike}")
        return True

    def _bore(self) -> bool:
        """Make a disc whose words name its bore a ring; its outside diameter has a column of its own."""
        pieces, line = self.pieces, self.line
        size, outside = self._round(), pieces.diameter_mm[line]
        inside = size.b if size is not None else inside_alone(plain_text(self.text).casefold())
        if inside is None or not np.isnan(pieces.inside_mm[line]):
            return False
        if inside.unit is None and not inside.is_fraction and self.bare.unit is None:
            return False
        inside_mm = in_mm(inside, self.bare)
        if inside_mm >= outside or (size is not None and size.a and not _near(outside, in_mm(size.a, self.bare))):
            return self._disagrees(f"a diameter of {outside:.6g} mm")
        pieces.inside_mm[line] = inside_mm
        pieces.shape[line] = Shape.RING
        self.reader.note(line, self.name, self.text, f"inside diameter {inside_mm:.6g} mm", "size_b_mm")
        self._say(f"an inside diameter of {inside_mm:.6g} mm", "the piece is priced as a ring")
        return True

    def _say(self, read_as: str, remark: str) -> None:
        fields = {"what": self._what, "read_as": read_as, "remark": remark}
        self.reader.say(said.SIZE_READ_AS, self.line, self.name, self.text, **fields)

    def _ask(self, says: str, sides: list[float], do: str) -> bool:
        read_as = "a rectangle" if len(sides) == 2 else "a straight cut"
        fields = {"what": self._what, "says": says, "read_as": read_as, "do": do}
        self.reader.say(said_words.SHAPE_HAS_NO_MODEL, self.line, self.name, self.text, **fields)
        self.pieces.refused[self.line] = True
        return True

    def _disagrees(self, first: str) -> bool:
        second = f"the {self._what} {self.text.strip()!r}"
        self.reader.say(said.SIZES_DISAGREE, self.line, self.name, self.text, first=first, second=second)
        self.pieces.refused[self.line] = True
        return True


def _near(side: float, *others: float) -> bool:
    """Return whether a size is one of some others, within a hundredth."""
    return any(abs(side - other) <= 0.01 * other for other in others)
