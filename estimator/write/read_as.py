"""How the lines of a list were read, in words: the piece, and each cell that was taken for something else."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.words import BLANK, Shape, WordCode, Work

__all__ = ["interpreted", "pieces_said", "words_of"]


def pieces_said(cuts: CutList, scale: float) -> list[str]:
    """Return what each line is in a few words: the work or the shape with its sizes, its holes, its minutes of work.

    Parameters
    ----------
    cuts : CutList
        The list.
    scale : float
        Length of the shop's unit [mm].

    Returns
    -------
    list of str
        Empty for a line that gives none of them.
    """
    places = 3 if scale > 1.0 else 1  # a thousandth of an inch, a tenth of a millimetre
    columns = (cuts.size_a_mm, cuts.size_b_mm, cuts.cut_length_mm, cuts.hole_diameter_mm)
    size_a, size_b, length, diameter = ([round(mm / scale, places) for mm in column.tolist()] for column in columns)
    works = map(_work, words_of(Work, cuts.work), cuts.other_work)
    pieces = map(_piece, words_of(Shape, cuts.shape), size_a, size_b, length)
    holes = map(_holes, cuts.holes.tolist(), diameter)
    bevels = [f"bevel {bevel:g}°" if bevel > 0 else "" for bevel in cuts.bevel_deg.tolist()]
    hand = [f"{minutes:g} min of work each" if minutes > 0 else "" for minutes in cuts.minutes_each.tolist()]
    return [", ".join(filter(None, said)) for said in zip(works, pieces, holes, bevels, hand, strict=True)]


def interpreted(cuts: CutList) -> list[tuple[int, str]]:
    """Return each line with a cell that was read as something else than what stands in it, in the order of the cells.

    Parameters
    ----------
    cuts : CutList
        The list.

    Returns
    -------
    list of (int, str)
        Line from 0, and its cell with what stood there and what it was taken for.
    """
    told = sorted(cuts.read_as, key=lambda read: (read.line, len(read.cell), read.cell))
    return [
        (read.line, f"{read.cell}: “{read.original}” read as {read.read_as}")
        for read in told
        if _bare(read.original) != _bare(read.read_as)
    ]


def words_of(words: type[WordCode], codes: NDArray[np.int8]) -> list[str]:
    """Return the word of each code; empty for a blank.

    Parameters
    ----------
    words : type of WordCode
        A closed list of words.
    codes : array of int
        Its codes, or ``BLANK``.

    Returns
    -------
    list of str
    """
    known = {BLANK: "", **{member.value: member.word for member in words}}
    return [known[code] for code in codes.tolist()]


def _work(work: str, other: str) -> str:
    return "" if work in ("", "cut") else other or work


def _piece(shape: str, size_a: float, size_b: float, length: float) -> str:
    if shape:
        return " ".join([shape, " x ".join(f"{size:g}" for size in (size_a, size_b) if size == size)]).strip()
    return f"cut length {length:.7g}" if length == length else ""


def _holes(count: float, diameter: float) -> str:
    if not count > 0:
        return ""
    return f"{count:.0f} hole{'s' if count != 1 else ''}" + (f" of {diameter:g}" if diameter == diameter else "")


def _bare(text: str) -> str:
    return "".join(text.split()).casefold()
