"""Checked rows of the outfit sheets. Blank cells stay unknown: what is not stated is never assumed to fit."""

from __future__ import annotations

from estimator.check.record import SheetRecord

__all__ = ["CylinderOutlet", "OutfitItem", "TipNeed"]


class OutfitItem(SheetRecord):
    """One thing on a cart."""

    item: str
    name: str
    outfit: str = "1"
    gas: str
    made_for: str = ""
    inlet: str = ""
    inlet_thread: str = ""
    outlet: str = ""
    outlet_thread: str = ""
    oxygen_inlet: str = ""
    oxygen_thread: str = ""
    most_bar: float | None = None
    most_cylinder_bar: float | None = None
    most_m3_h: float | None = None
    grade: str = ""
    length_m: float | None = None
    fitted_at: str = ""
    mixer: str = ""
    note: str = ""

    @property
    def gases_made_for(self) -> frozenset[str]:
        """The gases it is marked for; empty when nothing is stated."""
        return frozenset(word.strip().casefold() for word in self.made_for.split(",") if word.strip())


class CylinderOutlet(SheetRecord):
    """The outlet of one kind of cylinder."""

    gas: str
    cylinder: str = ""
    outlet: str
    outlet_thread: str = ""
    full_bar: float | None = None


class TipNeed(SheetRecord):
    """What one tip needs of its outfit; None where it is not known."""

    name: str
    fuel: str
    oxygen_bar: float | None = None
    fuel_bar: float | None = None
    oxygen_m3_h: float | None = None
    fuel_m3_h: float | None = None
