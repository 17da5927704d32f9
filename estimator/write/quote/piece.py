"""What a line of the quote is, as it was read: shape, thickness, sizes, holes, bevel, in the customer's own units."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from estimator.check.cut_list import CutList
from estimator.pricing.job import Estimate
from estimator.read.numbers import Refused
from estimator.read.sizes import read_size
from estimator.words import BLANK, EdgeFinish, MadeFrom, Shape, WordCode, Work

__all__ = ["lines_in_inches", "piece_made"]

_MM_PER_INCH = 25.4
_NAMES_INCHES = re.compile(r"\d (?:in|ft)\b|\"")
_WALLED = (Shape.ANGLE, Shape.SQUARE_TUBE, Shape.PIPE)
"""Sections whose thickness is that of a wall, and not a mean that the cut is reckoned with."""
_SAME_MM = 0.02
"""A size of a description that is no further off than this is the size that was read."""
_FINISH = {EdgeFinish.TOUCH_UP: "edges touched up", EdgeFinish.BRIGHT: "edges ground bright"}


def lines_in_inches(cuts: CutList) -> list[bool]:
    """Say of each line whether the list writes its lengths in inches or feet.

    Parameters
    ----------
    cuts : CutList
        n lines.

    Returns
    -------
    list of bool, length n
    """
    named = {one.line for one in cuts.read_as if '"' in one.original or _NAMES_INCHES.search(one.read_as)}
    title = cuts.title.units in {"in", "ft"}
    return [title or bool(cuts.bare_in_inches[line]) or line in named for line in range(len(cuts))]


def piece_made(estimate: Estimate, line: int, *, inch: bool) -> str:
    """Return what is made on a line, in words and figures; what its description says already is left out.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    line : int
        Number of the line, from 0.
    inch : bool
        Whether the list writes the line in inches.

    Returns
    -------
    str
        Empty where nothing is known but the description.

    Notes
    -----
    Thickness comes first, as on a drawing. Source: common practice, no source.
    """
    return _Piece(estimate, line, inch).words()


@dataclass(frozen=True, slots=True)
class _Piece:
    estimate: Estimate
    line: int
    inch: bool

    def words(self) -> str:
        cuts, line = self.estimate.cuts, self.line
        parts = ["" if self._description_says_it() else self._body(), *self._lengths()]
        parts += [self._holes(), self._bevel(), _FINISH.get(EdgeFinish(max(int(cuts.edge_finish[line]), 0)), "")]
        return ", ".join(part for part in (*parts, self._grade()) if part)

    def _shape(self) -> Shape | None:
        code = int(self.estimate.cuts.shape[self.line])
        return None if code == BLANK else Shape(code)

    def _body(self) -> str:
        """Return work, shape, thickness and sizes."""
        shape, thickness = self._shape(), self._mm("thickness_mm")
        a, b = self._mm("size_a_mm"), self._mm("size_b_mm")
        name = " ".join(filter(None, (self._work(), self._shape_word())))
        if shape is Shape.RIGHT_TRIANGLE:
            sizes = [self._by(thickness), f"legs {self._by(a, b)}"]
        elif shape in (Shape.DISC, Shape.RING):
            sizes = [self._by(thickness), f"Ø {self._by(a)}", f"inside Ø {self._by(b)}" if shape is Shape.RING else ""]
        elif shape is Shape.BAR_END:
            sizes = [self._by(thickness, a)]
        elif shape is None or shape in (Shape.RECTANGLE, Shape.STRIP):
            sizes = [self._by(thickness, a, b)]
        else:
            sizes = [self._by(a, b, thickness if shape in _WALLED else np.nan)]
        return " ".join(filter(None, (name, ", ".join(filter(None, sizes)))))

    def _lengths(self) -> list[str]:
        """Return the length of a section's piece, and the cut length that a line without a shape is priced by."""
        whole, each = self._mm("total_cut_length_mm"), self._mm("cut_length_mm")
        said = [f"{self._by(long)} long" for long in (self._mm("section_length_mm"),) if long == long]
        shape = self._shape()
        if shape is not None and shape >= Shape.ANGLE:
            return said
        if each == each:
            return [*said, f"cut length {self._by(each)}"]
        return [*said, f"cut length {self._by(whole)} in all"] if whole == whole else said

    def _holes(self) -> str:
        cuts, line = self.estimate.cuts, self.line
        holes = np.nan_to_num(cuts.holes[line])
        if holes <= 0:
            return ""
        diameter = self._mm("hole_diameter_mm")
        said = f"{holes:.0f} hole{'s' if holes > 1 else ''}" + (
            f" Ø {self._by(diameter)}" if diameter == diameter else ""
        )
        if cuts.work[line] not in (BLANK, Work.CUT):
            return said
        drilled = self.estimate.job.lines.metres.drilled_holes_each[line] > 0
        return f"{said} {'drilled' if drilled else 'burnt'}"

    def _bevel(self) -> str:
        degrees, long = self._mm("bevel_deg"), self._mm("bevel_length_mm")
        if not degrees > 0:
            return ""
        said = f"bevel {degrees:g}° " + ("all round" if np.isnan(long) else f"on {self._by(long)}")
        faces = ", both faces" if self._mm("bevel_sides") > 1 else ""
        root = self._mm("root_face_mm")
        return said + faces + (f", root face {self._by(root)}" if root > 0 else "")

    def _grade(self) -> str:
        return self._unsaid(self.estimate.cuts.grade[self.line])

    def _work(self) -> str:
        """Return what else is done than a cut."""
        work = self.estimate.cuts.other_work[self.line] or _word(Work, self.estimate.cuts.work[self.line])
        return "" if work == Work.CUT.word else self._unsaid(work)

    def _shape_word(self) -> str:
        flat = self.estimate.cuts.made_from[self.line] == MadeFrom.FLAT and self._shape() is Shape.RECTANGLE
        return self._unsaid("flat" if flat else _word(Shape, self.estimate.cuts.shape[self.line]))

    def _unsaid(self, word: str) -> str:
        """Return a word, unless the description has it."""
        description = self.estimate.cuts.description[self.line]
        has = word and re.search(rf"(?<!\w){re.escape(word)}(?!\w)", description, re.IGNORECASE)
        return "" if has else word

    def _description_says_it(self) -> bool:
        """Return whether the list's description gives the very shape and sizes that were read."""
        description = self.estimate.cuts.description[self.line]
        sizes = [self._mm("thickness_mm"), self._mm("size_a_mm"), self._mm("size_b_mm")]
        read = read_size(description) if any(map(str.isdigit, description)) else None
        if read is None or isinstance(read, Refused) or self._shape() not in (read.shape, Shape.STRIP):
            return False
        said = [d.in_mm("in" if self.inch else "mm") for d in (read.thickness, read.a, read.b) if d is not None]
        own = sorted(size for size in sizes if size == size)
        pairs = zip(own, sorted(map(float, said)), strict=False)
        return len(own) == len(said) and all(abs(mine - theirs) <= _SAME_MM for mine, theirs in pairs)

    def _mm(self, column: str) -> float:
        return float(getattr(self.estimate.cuts, column)[self.line])

    def _by(self, *sizes_mm: float) -> str:
        """Return known sizes as ``3/4 x 10 x 12 in``; the unit stands once where all have it."""
        shown = [_figure(mm, inch=self.inch) for mm in sizes_mm if mm == mm]
        if len({unit for _, unit in shown}) == 1:
            return " x ".join(figure for figure, _ in shown) + f" {shown[0][1]}"
        return " x ".join(f"{figure} {unit}" for figure, unit in shown)


def _figure(mm: float, *, inch: bool) -> tuple[str, str]:
    """Return a length and its unit as the customer writes it: a fraction of an inch where it is one, else a decimal.

    A length that is round in the other unit alone was written in it, and stays so.

    Examples
    --------
    >>> _figure(20.6375, inch=True), _figure(20.0, inch=True), _figure(12.5, inch=False), _figure(313.2582, inch=True)
    (('13/16', 'in'), ('20', 'mm'), ('12.5', 'mm'), ('12.333', 'in'))
    """
    inches = mm / _MM_PER_INCH
    sixty_fourths = round(inches * 64)
    if inch and abs(sixty_fourths / 64 - inches) < 1e-6:
        return _fraction(sixty_fourths), "in"
    if inch and (abs(round(inches, 4) - inches) < 1e-6 or abs(round(mm, 2) - mm) > 1e-6):
        return f"{round(inches, 4):.10g}", "in"
    return f"{round(mm, 2):.10g}", "mm"


def _fraction(sixty_fourths: int) -> str:
    whole, rest = divmod(Fraction(sixty_fourths, 64), 1)
    return "-".join(str(part) for part in (whole, rest) if part) or "0"


def _word(words: type[WordCode], code: int) -> str:
    return "" if code == BLANK else words(int(code)).word
