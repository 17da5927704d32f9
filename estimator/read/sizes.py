"""Size strings such as ``10x150x300``, ``PL3/8x6x12``, ``FB 50x10``: plate, flat, disc, ring, section, or refused.

Of three sizes of a plate the smallest is the thickness, wherever it stands; sections are recognised first.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from estimator.read.hole_words import names_holes, take_holes
from estimator.read.labelled_sizes import labelled_size, take_length, with_length
from estimator.read.length_words import UNIT_PATTERN
from estimator.read.lengths import Gauges, Length, read_length
from estimator.read.numbers import Refused
from estimator.read.plate_and_sides import plate_and_sides
from estimator.read.ring_words import as_ring
from estimator.read.section_sizes import by_mass, one_order, section_size
from estimator.read.section_words import (
    DISC,
    FLAT,
    HARDWARE,
    OPEN,
    OTHER_SECTION,
    PLATE,
    RING,
    form_of,
    without_grades,
    word_to_front,
)
from estimator.read.size import Size
from estimator.read.text import LONGEST, plain_text
from estimator.words import Shape

__all__ = ["read_size"]


_UNIT_END = r"(?=$|[^a-wyzа-фц-я]|x ?[.0-9Ø])"
_DIM = (
    r"(?:(?<![^\W\d_])(?:(?:thk|w|b|l)\.? ?= ?|t(?:hk)?\.? ?=? ?)(?=[0-9])|[Ø] ?)?"
    r"(?:[0-9]+ ?(?:'|ft)(?: ?-? ?[0-9]+(?:[ -][0-9]+/[0-9]+)?\"?| ?-? ?[0-9]+/[0-9]+\"?)?"
    r"|[0-9]+(?: |-|\.)[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+)"
    rf"(?: ?(?:{UNIT_PATTERN}|ga|gauge){_UNIT_END})?(?: ?(?:t|thk|w|l|lg){_UNIT_END})?"
)
_CROSS = r" ?[x×*✕✖хX] ?-? ?"
_RUN = re.compile(rf"{_DIM}(?:{_CROSS}{_DIM})*")
_SIDE = re.compile(r"(?<=[0-9\"'m]) ?(?:w|lg|l)$")
_RING_SIZES = re.compile(r"(?<![0-9/.,])(?<![0-9] )([0-9]+)/([0-9]+)(?![0-9/])")
"""Two diameters of a ring; the larger over the smaller is no fraction of an inch."""
_GLUED = re.compile(r"[^\W\d_]$")
_NO_SIZE = {
    OPEN: "the words of its row leave open whether it is a plate or a section",
    OTHER_SECTION: "it is a T, a bulb flat or another section whose cut does not follow from its sizes",
}
_SQUARE = re.compile(r"(?<![^\W\d_])(?:sq|square|quadrat|quadratisch|cuadrad[ao])(?![^\W\d_])\.?(?! ?(?:m|ft|in|cm)\b)")
_SCHEDULE = re.compile(r"(?<![^\W\d_])(?:sch|sched|schedule)\.? ?-?(?:[0-9]{2,3}s?|std|xs)")
_THREAD = re.compile(r"(?<![^\W\d_])m$")
_SPLIT = re.compile(r"(?<=[0-9\"'a-zмм]) ?[x×*✕✖хX] ?(?=[Øøφ.0-9tlwb])|(?<=[0-9]) ?[xх×*] ?(?=[.0-9])")
_FIGURES = re.compile(r"[0-9]")
_BARE_FIGURES = re.compile(r"[0-9][0-9.,/]*")
_PLATE_SIGN = re.compile(r"^-{1,2} ?(?=[0-9])")
_JOINED = re.compile(r"(?<=[a-z])-(?=[a-z])")


def read_size(
    text: str, decimal: str | None = None, gauges_in: Gauges | None = None, form: str | Shape | None = None
) -> Size | Refused:
    """Read a size string, with or without words around it.

    Parameters
    ----------
    text : str
        What stands in a size, material or description cell.
    decimal : {".", ",", None}
        Decimal mark that the list gives evidence of.
    gauges_in : mapping of int to Fraction, optional
        Thickness of each sheet gauge [in].
    form : str or Shape, optional
        What other cells of the row say it is; the text's own words win.

    Returns
    -------
    Size or Refused
        Two sizes without a word for either come back as a rectangle without thickness.

    Examples
    --------
    >>> str(read_size("PL3/8x6x12")), str(read_size("FB 50x10"))
    ('rectangle 12 in x 6 in, 3/8 in thick', 'flat 50, 10 thick')
    >>> read_size("150mm x 3000mm x 1.5m").reason
    'its sizes are in different units'
    """
    if len(text) > LONGEST:
        return Refused("it is too long for a size")
    said = one_order(plain_text(text).casefold().replace("ø", "Ø").replace("φ", "Ø"))
    said, holes = take_holes(as_ring(said, form), decimal)
    if isinstance(holes, Refused):
        return holes
    size = _without_holes(said, decimal, gauges_in, form)
    if isinstance(size, Refused):
        return size
    if holes is not None:
        return replace(size, holes=holes, plain=False)
    if names_holes(said):
        remark = "; ".join(filter(None, (size.remark, "the holes that it speaks of are not counted")))
        return replace(size, plain=False, remark=remark)
    return size


def _without_holes(
    said: str, decimal: str | None, gauges_in: Gauges | None, form: str | Shape | None
) -> Size | Refused:
    """Read a folded size string that names no holes."""
    bare = without_grades(_JOINED.sub(" ", said)).strip(" ,;-") if not _PLATE_SIGN.match(said) else said[1:].strip("- ")
    bare, length = take_length(word_to_front(bare), decimal, gauges_in)
    if length is not None:
        size = _by_labels_or_places(bare, said, decimal, gauges_in, form)
        return size if isinstance(size, Refused) else with_length(size, length)
    return _by_labels_or_places(bare, said, decimal, gauges_in, form)


def _by_labels_or_places(
    bare: str, said: str, decimal: str | None, gauges_in: Gauges | None, form: str | Shape | None
) -> Size | Refused:
    """Read a size by the labels of its figures, else by their places."""
    words = form_of(_BARE_FIGURES.sub(" ", bare), bare) or form
    labelled = labelled_size(bare, words, decimal, gauges_in)
    if labelled is not None:
        return labelled
    if form_of(bare) == RING:
        bare = _RING_SIZES.sub(lambda two: "x".join(two.groups()) if int(two[1]) > int(two[2]) else two[0], bare)
    runs = list(_RUN.finditer(bare))
    if not runs:
        return Refused("it holds no size")
    if _SCHEDULE.search(bare) and form_of(bare) is Shape.PIPE:
        return Size(Shape.PIPE, plain=False, remark="a pipe by its schedule, which does not say its wall")
    run = max(runs, key=lambda found: len(_SPLIT.split(found[0])))
    before, outside = bare[: run.start()], bare[: run.start()] + " " + bare[run.end() :]
    if _FIGURES.search(outside):
        words = form_of(_BARE_FIGURES.sub(" ", bare), bare) or form
        if words in {Shape.BEAM, Shape.CHANNEL}:
            return Size(Shape(words), plain=False, remark="a section by its name, which does not say its thickness")
        if words == PLATE and (apart := _apart(bare, runs, decimal, gauges_in)) is not None:
            return apart
        return _whole_length(bare, bare[runs[0].start() : runs[-1].end() + 1], decimal, gauges_in)
    own = form_of(outside, bare) or (PLATE if _PLATE_SIGN.match(said) else None)
    form = form if own is None or (own == PLATE and form == FLAT) else own
    if (why := _not_a_size(form, before, outside)) is not None:
        return Refused(why)
    dims = _dimensions(run[0], decimal, gauges_in)
    if isinstance(dims, Refused):
        return dims
    if form is None and len(dims) == 1 and not dims[0].label and _SQUARE.search(outside):
        return Size(Shape.RECTANGLE, None, dims[0], dims[0], plain=False, remark="a square of that side")
    if isinstance(form, Shape):
        return section_size(form, dims, third_is_mass=by_mass(outside))
    return _SHAPERS[form](dims)


def _apart(bare: str, runs: list[re.Match[str]], decimal: str | None, gauges_in: Gauges | None) -> Size | None:
    """Read a plate's thickness that stands apart from its sides."""
    groups = [(run.start(), run.end(), len(_SPLIT.split(run[0]))) for run in runs]

    def read_run(text: str) -> list[Length] | Refused:
        return _dimensions(text, decimal, gauges_in)

    return plate_and_sides(bare, groups, read_run, decimal=decimal, gauges_in=gauges_in)


def _not_a_size(form: str | Shape | None, before: str, outside: str) -> str | None:
    """Return why the words around figures make them no size to cut; None when they do not."""
    if form == HARDWARE or _THREAD.search(before):
        return "it is a bought part, not steel to cut"
    if form is None and _GLUED.search(before):
        return "the letters before the figures are not a code that is known here"
    if "(" in outside or ")" in outside:
        return "its brackets leave open which size is which"
    return _NO_SIZE.get(form) if isinstance(form, str) else None


def _whole_length(bare: str, figures: str, decimal: str | None, gauges_in: Gauges | None) -> Size | Refused:
    """Read a text with several groups of figures as one length in two notations, or refuse it."""
    read = read_length(bare, decimal, gauges_in)
    if isinstance(read, Refused) and form_of(bare) in {PLATE, FLAT}:
        alone = read_length(figures.rstrip(" ,;"), decimal, gauges_in)
        read = read if isinstance(alone, Refused) and "notations" not in alone.reason else alone
    if isinstance(read, Refused):
        return read if "notations" in read.reason else Refused("it says more than one size")
    if form_of(bare) in {PLATE, FLAT} or read.label == "thickness":
        return Size(thickness=read, plain=read.plain, remark=read.remark)
    return Refused("it does not say which size it is")


def _dimensions(run: str, decimal: str | None, gauges_in: Gauges | None) -> list[Length] | Refused:
    """Read each size of a run and give all of them one unit where only some name it."""
    dims = []
    for part in _SPLIT.split(run):
        read = read_length(_SIDE.sub("", part), decimal, gauges_in)
        if isinstance(read, Refused):
            return read
        dims.append(replace(read, unit="in") if read.is_fraction and read.unit is None else read)
    if (inch_plate := _inches_among_millimetres(dims)) is not None:
        return inch_plate
    named = {dim.unit for dim in dims if dim.unit}
    if len(named) == 1:
        return [replace(dim, unit=dim.unit or next(iter(named))) for dim in dims]
    if len(named) > 1 and (not named <= {"in", "ft"} or any(dim.unit is None for dim in dims)):
        return Refused("its sizes are in different units")
    return dims


def _inches_among_millimetres(dims: list[Length]) -> list[Length] | None:
    """Return the sizes of ``1/2" x 300 x 400 mm``: the thickness in inches, both sides in the unit of the last."""
    metric = dims[-1].unit
    if len(dims) != 3 or dims[0].unit != "in" or metric not in {"mm", "cm"} or dims[1].unit not in {None, metric}:
        return None
    sides = [replace(dim, unit=metric) for dim in dims[1:]]
    if dims[0].in_mm() >= min(side.in_mm() for side in sides):
        return None
    remark = "the thickness is in inches, the sides are in millimetres or centimetres"
    return [replace(dims[0], plain=False, remark=remark), *sides]


def _by_size(dims: list[Length]) -> list[Length]:
    """Sizes from small to large; one that is called the thickness comes first."""
    return sorted(dims, key=lambda dim: (dim.label != "thickness", dim.in_mm()))


def _remark(dims: list[Length]) -> tuple[bool, str]:
    remarks = list(dict.fromkeys(dim.remark for dim in dims if dim.remark))
    return all(dim.plain for dim in dims), "; ".join(remarks)


def _rectangle(dims: list[Length]) -> Size | Refused:
    """Two sizes: a rectangle without thickness; three: the smallest is the thickness. No word says more."""
    plain, remark = _remark(dims)
    if len(dims) == 1:
        return _single(dims[0])
    if len(dims) > 3:
        return Refused("it holds more than three sizes and no word for a section")
    if any(dim.label == "diameter" for dim in dims):
        return Refused("a diameter among its sizes leaves open whether it is a disc, a ring or a bar")
    small, *rest = _by_size(dims)
    if any(dim.in_mm() < small.in_mm() for dim in rest):
        return Refused("the size that is called the thickness is not the smallest")
    if len(dims) == 2:
        return Size(Shape.RECTANGLE, None, rest[0], small, plain=plain, remark=remark)
    if small.in_mm() == rest[0].in_mm():
        return Refused("two of its sizes are equal and smallest, as in a square bar")
    close = small.in_mm() * 3 > rest[0].in_mm() * 2
    note = "; ".join(filter(None, (remark, "the smallest size is read as the thickness" if close else "")))
    return Size(Shape.RECTANGLE, small, rest[1], rest[0], plain=plain and not close, remark=note)


def _single(dim: Length) -> Size | Refused:
    if dim.label == "thickness":
        return Size(thickness=dim, plain=dim.plain, remark=dim.remark)
    if dim.label == "diameter":
        return Size(Shape.DISC, None, dim, plain=dim.plain, remark=dim.remark)
    if dim.label == "length":
        return Size(a=dim, plain=dim.plain, remark=dim.remark)
    return Refused("one size alone, and no word says which it is")


def _plate(dims: list[Length]) -> Size | Refused:
    """Sizes with a word for plate: one is the thickness, two are thickness and width."""
    plain, remark = _remark(dims)
    if len(dims) == 1:
        if dims[0].label == "diameter":
            return _single(dims[0])
        if dims[0].in_mm("mm") > 500:
            return Refused("a figure after the word for plate is too large for a thickness")
        return Size(thickness=dims[0], plain=plain, remark=remark)
    if len(dims) == 2:
        small, large = _by_size(dims)
        if small.in_mm("mm") > 150:
            return Refused("neither of its two sizes is a thickness")
        note = "; ".join(filter(None, (remark, "the smaller size is read as the thickness")))
        return Size(Shape.RECTANGLE, small, None, large, plain=False, remark=note)
    return _rectangle(dims)


def _flat(dims: list[Length]) -> Size | Refused:
    """A flat bar: the smaller of two is its thickness; a third is its length."""
    if len(dims) == 1:
        return _single(dims[0]) if dims[0].label else Refused("a flat bar needs a width and a thickness")
    plain, remark = _remark(dims)
    small, *rest = _by_size(dims)
    if len(dims) == 2 and small.in_mm() == rest[0].in_mm():
        return Refused("a flat bar with two equal sizes")
    if len(dims) > 3:
        return Refused("it holds more than three sizes")
    if len(dims) == 2:
        return Size(Shape.RECTANGLE, small, None, rest[0], flat=True, plain=plain, remark=remark)
    width, length = rest if dims[2] is small else [dim for dim in dims if dim is not small]
    if "width" in {length.label} or "length" in {width.label}:
        width, length = length, width
    return Size(Shape.RECTANGLE, small, length, width, flat=True, plain=plain, remark=remark)


def _disc(dims: list[Length]) -> Size | Refused:
    plain, remark = _remark(dims)
    if len(dims) == 1:
        return Size(Shape.DISC, None, dims[0], plain=plain, remark=remark)
    if len(dims) > 2:
        return Refused("a disc has a diameter and a thickness, and it holds more")
    small, large = _by_size(dims)
    return Size(Shape.DISC, small, large, plain=plain, remark=remark)


def _ring(dims: list[Length]) -> Size | Refused:
    plain, remark = _remark(dims)
    if len(dims) == 2:
        small, large = _by_size(dims)
        return Size(Shape.RING, None, large, small, plain=False, remark=remark or "outside and inside diameter")
    if len(dims) != 3:
        return Refused("a ring has two diameters and a thickness")
    small, inside, outside = _by_size(dims)
    return Size(Shape.RING, small, outside, inside, plain=plain, remark=remark)


_SHAPERS: dict[str | None, Callable[[list[Length]], Size | Refused]] = {
    None: _rectangle,
    PLATE: _plate,
    FLAT: _flat,
    DISC: _disc,
    RING: _ring,
}
