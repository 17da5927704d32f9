"""Cylinders that are drawn together: one alone, or those that share an approved manifold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from estimator import reference
from estimator.pricing.rack.contents import CylinderContent
from estimator.problems import Place, Problem
from estimator.problems import rack as say
from estimator.quantities.draw_verdict import DrawRules
from estimator.sheets.rack import RACK
from estimator.shown_units import ShownUnits

__all__ = ["CylinderSet", "cylinder_sets", "draw_rules", "manifold_problems", "published_rules"]

_ALIKE = 0.1
"""Cylinders of a manifold are alike while their fills differ by at most this share of the rated content."""


@dataclass(frozen=True, slots=True)
class CylinderSet:
    """Cylinders of one gas that empty together, in their place in the order of use."""

    name: str
    cylinders: tuple[CylinderContent, ...]

    @property
    def rated_m3(self) -> float:
        """Rated content of all."""
        return sum(c.rated_m3 for c in self.cylinders)

    @property
    def now_m3(self) -> float:
        """What is in them now."""
        return sum(c.now_m3 for c in self.cylinders)

    @property
    def heel_m3(self) -> float:
        """What stays in them."""
        return sum(c.heel_m3 for c in self.cylinders)

    @property
    def supplier_draw_per_h(self) -> float | None:
        """The strictest written figure of the supplier; None where none is written."""
        return min((c.supplier_draw_per_h for c in self.cylinders if c.supplier_draw_per_h is not None), default=None)


def cylinder_sets(contents: Sequence[CylinderContent], gas: str) -> list[CylinderSet]:
    """Return the sets of one gas in order of use.

    Parameters
    ----------
    contents : sequence of CylinderContent
        The rack, in order of use.
    gas : str
        Oxygen or a fuel.

    Returns
    -------
    list of CylinderSet
        A manifold stands where its first cylinder stands.
    """
    members: dict[str, list[CylinderContent]] = {}
    for content in contents:
        if content.gas == gas:
            key = f"manifold {content.manifold}" if content.manifold else content.cylinder_id
            members.setdefault(key, []).append(content)
    return [CylinderSet(name, tuple(cylinders)) for name, cylinders in members.items()]


def manifold_problems(sets: Sequence[CylinderSet], file: str, units: ShownUnits) -> list[Problem]:
    """Return a warning for each acetylene manifold whose cylinders are not alike."""
    found = []
    for one in sets:
        rated = [c.rated_m3 for c in one.cylinders]
        fill = [c.now_m3 / c.rated_m3 for c in one.cylinders]
        if max(rated) > min(rated) * (1 + _ALIKE) or max(fill) - min(fill) > _ALIKE:
            place = Place(file, RACK.name, one.cylinders[0].row)
            shown = ", ".join(
                f"{c.cylinder_id} {units.gas(c.now_m3, c.gas):.1f} of {units.gas(c.rated_m3, c.gas):.1f} "
                f"{units.gas_unit(c.gas)}"
                for c in one.cylinders
            )
            found.append(say.MANIFOLD_UNEQUAL.at(place, found=shown, manifold=one.cylinders[0].manifold))
    return found


@cache
def published_rules() -> dict[str, tuple[str, float]]:
    """Return each published rule: as printed, and its share of the content an hour; ``acetylene_draw_rules.csv``."""
    rows = reference.table("acetylene_draw_rules")
    printed = {str(rule): str(rows.column("as_printed")[i]) for i, rule in enumerate(rows.column("rule"))}
    # The fraction as printed, not its rounded decimal: 1/15.
    return {rule: (text, float(Fraction(text))) for rule, text in printed.items()}


def draw_rules(supplier_draw_per_h: float | None) -> DrawRules:
    """Return the shares that hold: the published ones, or the supplier's written figure in their place.

    Parameters
    ----------
    supplier_draw_per_h : float or None
        The supplier's written figure [1/h].

    Returns
    -------
    DrawRules
        Above 1/7 of a full cylinder stays a stop, whatever is written.
    """
    continuous, intermittent, older = (published_rules()[r][1] for r in ("continuous", "intermittent", "older books"))
    if supplier_draw_per_h is not None:
        return DrawRules(supplier_draw_per_h, supplier_draw_per_h, older, supplier_draw_per_h)
    return DrawRules(continuous, intermittent, older, intermittent)
