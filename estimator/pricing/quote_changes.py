"""What changed from one revision of a quote to the next: marks added, gone and changed, and the money of each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from estimator.check.register import QuotedLine
from estimator.pricing.money import to_minor

__all__ = ["Change", "LineChange", "RevisionChanges", "revision_changes"]

_SAME_THICKNESS_MM = 0.05


class Change(StrEnum):
    """What became of a mark."""

    ADDED = "added"
    GONE = "gone"
    CHANGED = "changed"


@dataclass(frozen=True, slots=True)
class LineChange:
    """One mark that is not as it was; amounts in minor units."""

    change: Change
    mark: str
    """The mark, or the description of a line without one."""
    what: str
    """What is different, as ``quantity 8 -> 10, price each 21.50 -> 20.00``."""
    was_minor: int
    now_minor: int

    @property
    def difference_minor(self) -> int:
        """What the change adds to the price; below zero where it takes off."""
        return self.now_minor - self.was_minor


@dataclass(frozen=True, slots=True)
class RevisionChanges:
    """Everything that changed since a revision."""

    since: str
    lines: tuple[LineChange, ...]
    rest_minor: int
    """What the rest of the job adds: set-up, breaks, discount, minimum, delivery."""
    was_minor: int
    now_minor: int
    """Prices before tax; the changes and the rest add up to their difference."""


def revision_changes(
    since: str,
    before: Sequence[QuotedLine],
    after: Sequence[QuotedLine],
    *,
    price_before: float,
    price_after: float,
    decimals: int,
) -> RevisionChanges:
    """Return what changed between two revisions.

    Parameters
    ----------
    since : str
        The earlier revision.
    before, after : sequence of QuotedLine
        Lines of the earlier and of the later one.
    price_before, price_after : float
        Their prices before tax [money].
    decimals : int
        Decimals of the minor unit.

    Returns
    -------
    RevisionChanges
        In the order of the later list, what is gone last.

    Notes
    -----
    Lines belong together by mark, else by description; several of one mark by thickness, then in their order.
    Source: definition.
    """
    pairs = _paired(before, after)
    changes = [change for old, new in pairs if (change := _change(old, new, decimals)) is not None]
    was, now = (int(to_minor(price, decimals)) for price in (price_before, price_after))
    rest = now - was - sum(change.difference_minor for change in changes)
    return RevisionChanges(since, tuple(changes), rest, was, now)


def _paired(
    before: Sequence[QuotedLine], after: Sequence[QuotedLine]
) -> list[tuple[QuotedLine | None, QuotedLine | None]]:
    left: dict[str, list[QuotedLine]] = {}
    for line in before:
        left.setdefault(_key(line), []).append(line)
    pairs: list[tuple[QuotedLine | None, QuotedLine | None]] = []
    for line in after:
        old = left.get(_key(line), [])
        same = next((i for i, one in enumerate(old) if _same_thickness(one, line)), 0)
        pairs.append((old.pop(same) if old else None, line))
    pairs += [(line, None) for lines in left.values() for line in lines]
    return pairs


def _change(old: QuotedLine | None, new: QuotedLine | None, decimals: int) -> LineChange | None:
    one = new or old
    if one is None:
        raise ValueError("a change needs a line before or after it")
    was, now = (0 if line is None else int(to_minor(line.amount, decimals)) for line in (old, new))
    mark = one.mark or one.description
    if old is None or new is None:
        kind = Change.ADDED if old is None else Change.GONE
        return LineChange(kind, mark, f"{one.quantity:g} off at {one.price_each:,.{decimals}f}", was, now)
    said = []
    if not _same_thickness(old, new):
        said.append(f"thickness from {_mm(old)} to {_mm(new)}")
    if old.quantity != new.quantity:
        said.append(f"quantity from {old.quantity:g} to {new.quantity:g}")
    if to_minor(old.price_each, decimals) != to_minor(new.price_each, decimals):
        said.append(f"price each from {old.price_each:,.{decimals}f} to {new.price_each:,.{decimals}f}")
    if old.description != new.description:
        said.append(f"'{old.description}' -> '{new.description}'")
    if not said and was != now:
        said.append("minimum charge")
    return LineChange(Change.CHANGED, mark, ", ".join(said), was, now) if said else None


def _key(line: QuotedLine) -> str:
    return " ".join((line.mark or line.description).upper().split())


def _same_thickness(one: QuotedLine, other: QuotedLine) -> bool:
    if one.thickness_mm is None or other.thickness_mm is None:
        return one.thickness_mm is other.thickness_mm
    return abs(one.thickness_mm - other.thickness_mm) < _SAME_THICKNESS_MM


def _mm(line: QuotedLine) -> str:
    return "none" if line.thickness_mm is None else f"{line.thickness_mm:g} mm"
