"""Sizes of rolled, drawn and hollow sections: which figure is depth, leg, wall, web or mass of a metre."""

from __future__ import annotations

import re

from estimator.read.lengths import Length
from estimator.read.numbers import Refused
from estimator.read.size import Size
from estimator.words import Shape

__all__ = ["by_mass", "one_order", "section_size"]

_BY_MASS = "ubp|ub|uc|ukb|ukc|ukbp|ukpfc|pfc|rsj|rsc|ubs|ucs"
"""Codes whose third figure is kilograms a metre (common practice, no source)."""
_CODE_BEFORE = re.compile(rf"(?<![^\W\d_])(?:{_BY_MASS})(?![^\W\d_])")
_CODE_INSIDE = re.compile(
    rf"(?P<sides>[0-9.]+ ?[x×*] ?[0-9.]+) ?[x×*]? ?(?P<code>{_BY_MASS}) ?[x×*]? ?(?P<mass>[0-9.]+)"
    r"(?: ?kg(?:/m)?)?(?![\w.])"
)
_BY_DEPTH = re.compile(rf"(?<![\w.])(?P<depth>[0-9]{{2,4}}) ?(?P<code>{_BY_MASS}) ?(?P<mass>[0-9.]+)(?![\w.])")
_LEGS = {Shape.ANGLE: 2, Shape.SQUARE_TUBE: 2, Shape.PIPE: 1}
MOST_WALL_MM = 25
"""Of two figures the small one is a wall up to this, and up to a fifth of the other (judgement)."""
_LEAST_LEG, _LEAST_LENGTH = 0.4, 3.0
"""Two figures are legs when the small one is this share of the other, and a third a length from so many times it."""
_NOT_SAID = "a section whose thickness is not said"


def one_order(text: str) -> str:
    """Return a folded text with the code of a section before its three figures, where it stood among them.

    Examples
    --------
    >>> one_order("203x133 ub 25"), one_order("200ub25.4"), one_order("10x150x300")
    ('ub 203x133x25', 'ub 200x25.4', '10x150x300')
    """
    text = _BY_DEPTH.sub(r"\g<code> \g<depth>x\g<mass>", text)
    return _CODE_INSIDE.sub(lambda m: f"{m['code']} {m['sides']}x{m['mass']}", text)


def by_mass(words: str) -> bool:
    """Return whether the words around three figures say that the third is kilograms a metre.

    Examples
    --------
    >>> by_mass("ub "), by_mass("hea ")
    (True, False)
    """
    return bool(_CODE_BEFORE.search(words))


def section_size(form: Shape, dims: list[Length], *, third_is_mass: bool) -> Size | Refused:
    """Return the size of a section from its figures, in the order in which they stand.

    Parameters
    ----------
    form : Shape
        What the words say it is.
    dims : list of Length
        The figures.
    third_is_mass : bool
        Whether the third figure is kilograms a metre.

    Returns
    -------
    Size or Refused
        Angles, tubes and pipes: the smallest is the wall, a figure left over the length. Beams and channels: depth,
        flange, web and flange thickness, or depth, flange and mass. A name without sizes has no thickness.

    Notes
    -----
    The order depth x flange x web x flange thickness is common practice, no source.
    """
    plain = all(dim.plain for dim in dims)
    remark = "; ".join(dict.fromkeys(dim.remark for dim in dims if dim.remark))
    if form in {Shape.ROUND_BAR, Shape.SQUARE_BAR}:
        across = _across_bar(form, dims)
        if isinstance(across, Refused):
            return across
        return Size(form, None, across[0], piece_length=across[1], plain=plain, remark=remark)
    if form in {Shape.BEAM, Shape.CHANNEL}:
        return _beam(form, dims, third_is_mass=third_is_mass)
    legs = _LEGS.get(form)
    if legs is not None and len(dims) == legs:
        return _without_wall(form, dims)
    if legs is None or len(dims) not in {legs + 1, legs + 2}:
        return Size(form, plain=False, remark=_NOT_SAID)
    if _are_legs_and_length(legs, dims):
        return Size(form, None, max(dims[:2], key=Length.in_mm), min(dims[:2], key=Length.in_mm), dims[2], plain=plain)
    parts = _walled(legs, dims)
    if isinstance(parts, Refused):
        return parts
    sides, wall, length_dim = parts
    b = min(sides, key=Length.in_mm) if legs == 2 else None
    return Size(form, wall, max(sides, key=Length.in_mm), b, length_dim, plain=plain, remark=remark)


def _across_bar(form: Shape, dims: list[Length]) -> tuple[Length, Length | None] | Refused:
    """Return diameter or side of a solid bar, and its length where that is said too."""
    first, *rest = dims
    if not rest:
        return first, None
    if form is Shape.SQUARE_BAR and first.in_mm() == rest[0].in_mm() and len(rest) <= 2:
        return first, rest[1] if len(rest) == 2 else None
    if len(rest) > 1:
        return Refused("a solid bar has one size and a length, and it holds more")
    named = [dim for dim in dims if dim.label == "diameter"]
    small, large = sorted(dims, key=Length.in_mm)
    if len(named) == 1:
        return named[0], next(dim for dim in dims if dim is not named[0])
    if small is not first and large.in_mm() < 5 * small.in_mm():
        return Refused("which of its two sizes is the bar and which the length is not said")
    return small, large


def _without_wall(form: Shape, dims: list[Length]) -> Size:
    """Read a section with as many figures as sides: two of which one is a wall, as L50x5; else its wall is not said."""
    small, large = min(dims, key=Length.in_mm), max(dims, key=Length.in_mm)
    if len(dims) == 2 and small.in_mm() * 5 <= large.in_mm() and small.in_mm() <= MOST_WALL_MM:
        return Size(form, small, large, large, plain=False)
    if form is Shape.PIPE and dims[0].label != "diameter" and dims[0].unit in {"in", "ft"}:
        return Size(form, plain=False, remark="a pipe by its nominal size, which is not its diameter")
    return Size(form, None, large, small if len(dims) == 2 else None, plain=False, remark=_NOT_SAID)


def _are_legs_and_length(legs: int, dims: list[Length]) -> bool:
    """Say whether three figures are two sides of about one size and a length, their wall said elsewhere."""
    if legs != _LEGS[Shape.ANGLE] or len(dims) != legs + 1:
        return False
    small, large = sorted(dim.in_mm() for dim in dims[:2])
    return small >= _LEAST_LEG * large and dims[2].in_mm() >= _LEAST_LENGTH * large


def _walled(legs: int, dims: list[Length]) -> tuple[list[Length], Length, Length | None] | Refused:
    """Part the figures of an angle, tube or pipe into sides, wall and length, by where the wall stands among them."""
    wall = min(dims, key=lambda dim: (dim.label != "thickness", dim.in_mm()))
    at = next(n for n, dim in enumerate(dims) if dim is wall)
    rest = [dim for dim in dims if dim is not wall]
    if len(rest) == legs:
        return rest, wall, None
    if at in {0, legs}:
        return rest[:legs], wall, rest[legs]
    if at == legs + 1 and rest[0].in_mm() >= max(dim.in_mm() for dim in rest[1:]):
        return rest[1:], wall, rest[0]
    return Refused("which of its sizes is the length is not said")


def _beam(form: Shape, dims: list[Length], *, third_is_mass: bool) -> Size | Refused:
    """Read depth, flange, and either mass or web and flange thickness; a fifth figure is the length."""
    nothing = Size(form, plain=False, remark=_NOT_SAID)
    if third_is_mass:
        if len(dims) != 3 or dims[2].unit not in {None, dims[0].unit} or dims[0].unit in {"in", "ft"}:
            return nothing
        return Size(form, None, dims[0], dims[1], mass_kg_m=float(dims[2].value), plain=False)
    if form is Shape.CHANNEL and len(dims) == 3 and _is_wall(dims[2], dims[:2]):
        return Size(form, dims[2], dims[0], dims[1], plain=False)
    if len(dims) not in {4, 5}:
        return nothing
    depth, flange, web, thick, *length = dims
    in_order = web.in_mm() <= thick.in_mm() and _is_wall(thick, [depth, flange])
    if not in_order or (length and length[0].in_mm() <= depth.in_mm()):
        return Refused("its sizes are not in the order depth x flange x web x flange thickness")
    return Size(form, thick, depth, flange, length[0] if length else None, web=web, plain=False)


def _is_wall(wall: Length, sides: list[Length]) -> bool:
    return all(wall.in_mm() * 3 < side.in_mm() for side in sides)
