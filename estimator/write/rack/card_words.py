"""The settings card in words: each figure metric and inch, as the PDF and the workbook both print it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import isnan

from estimator.pricing.rack.card import CardColumn, TipCard
from estimator.pricing.settings_card import TipSetting
from estimator.quantities.draw_verdict import DrawLevel
from estimator.units import FACTORS

__all__ = [
    "CardRow",
    "Figure",
    "card_alarm",
    "card_heading",
    "card_notes",
    "card_rows",
    "card_subtitle",
    "column_heading",
    "inch_words",
    "thickness_words",
]

_PSI_PER_BAR = 1.0 / FACTORS["pressure_bar"]["psi"]
_FT3_PER_M3 = 1 / 0.3048**3
_MM_PER_IN = 25.4
_NEAR_MM = 0.3
"""A thickness is printed as a fraction of an inch where it lies this near to a sixteenth."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: large in the shop's own unit, beside it in the other, with its range small."""

    main: str
    beside: str
    span: str = ""

    def turned(self, *, inch: bool) -> Figure:
        """Return the figure, which is made metric first, for a shop that reads inches or not."""
        return Figure(self.beside, self.main, self.span) if inch and self.beside else self


@dataclass(frozen=True, slots=True)
class CardRow:
    """One row of a tip's entry."""

    label: str
    figures: tuple[Figure, ...]
    large: bool = False
    """Pressures and speeds are read at arm's length; the rest is printed smaller."""


def card_heading(card: TipCard) -> str:
    """Return the tip's name as the card shouts it."""
    return f"TIP {card.tip}"


def card_subtitle(card: TipCard) -> list[str]:
    """Return what the tip is for."""
    if card.flame is not None:
        return [f"{'large heating tip' if card.flame.is_heating else 'welding tip'}, oxygen + {card.fuel}"]
    one = card.columns[0].either
    return [
        f"cuts {one.from_mm:g} to {one.to_mm:g} mm ({inch_words(one.from_mm)} to {inch_words(one.to_mm)} in)",
        f"bore {one.bore_mm:g} mm ({one.bore_mm / _MM_PER_IN:.3f} in), oxygen + {card.fuel}",
    ]


def column_heading(column: CardColumn, *, inch: bool) -> Figure:
    """Return a thickness as the head of its column."""
    return Figure(thickness_words(column.thickness_mm), f"{inch_words(column.thickness_mm)} in").turned(inch=inch)


def card_rows(card: TipCard) -> list[CardRow]:
    """Return the rows of a tip's entry, the figures that are set first, in the shop's own unit."""
    return [replace(row, figures=tuple(f.turned(inch=card.inch) for f in row.figures)) for row in _metric_rows(card)]


def _metric_rows(card: TipCard) -> list[CardRow]:
    if card.flame is not None:
        tip = card.flame
        seam = tip.speed_mm_min
        return [
            CardRow("Oxygen", (_pressure(tip.oxygen_pressure_bar),), large=True),
            CardRow(card.fuel.capitalize(), (_pressure(tip.fuel_pressure_bar),), large=True),
            *([CardRow("Speed", (Figure(f"{seam:g} mm/min", f"{seam / _MM_PER_IN:.1f} in/min"),))] if seam else []),
            CardRow("Oxygen flow", (_flow(tip.preheat_oxygen_m3_h),)),
            CardRow(f"{card.fuel.capitalize()} flow", (_flow(tip.fuel_m3_h),)),
        ]
    every = [column.either for column in card.columns]
    rows = [
        CardRow("Oxygen, lever down", tuple(_pressure(s.oxygen_pressure_bar) for s in every), large=True),
        CardRow(card.fuel.capitalize(), tuple(_fuel_pressure(s) for s in every), large=True),
    ]
    for by, name in (("hand", "Speed by hand"), ("track", "Speed on a track")):
        found = [getattr(column, by) for column in card.columns]
        if any(found):
            rows.append(CardRow(name, tuple(_speed(s) if s else Figure("-", "") for s in found), large=True))
    return [
        *rows,
        CardRow("Cutting oxygen", tuple(_flow(s.cutting_oxygen_m3_h) for s in every)),
        CardRow("Preheat oxygen", tuple(_flow(s.preheat_oxygen_m3_h) for s in every)),
        CardRow(f"{card.fuel.capitalize()} flow", tuple(_flow(s.fuel_m3_h) for s in every)),
        CardRow("Kerf, about", tuple(_kerf(s) for s in every)),
        CardRow("Pierce, about", tuple(_pierce(s) for s in every)),
    ]


def card_alarm(card: TipCard) -> str:
    """Return what must be read before this tip is lit; empty where its draw is within the limit."""
    if card.draw is None or card.draw.verdict.level not in (DrawLevel.STOP, DrawLevel.WARNING):
        return ""
    start = "STOP" if card.draw.verdict.level is DrawLevel.STOP else "CARE"
    on = card.draw.set_name or f"one {card.draw.size}"
    return f"{start}: pulls {on} too hard. Full {card.draw.size} on an approved manifold: {card.draw.counts_words}."


def card_notes(card: TipCard) -> list[str]:
    """Return what stands small under a tip's entry: its limits, and where its figures are from."""
    notes = []
    if card.fuel == "acetylene":
        notes.append("Acetylene: never above 15 psi (1.03 bar, 103 kPa) at the regulator or the hose.")
    if card.draw is not None:
        pulls = f"{card.draw.draw_m3_h:.2f} m³/h ({card.draw.draw_ft3_h:.0f} ft³/h)"
        notes.append(f"Pulls {pulls}. Full {card.draw.size} needed: {card.draw.counts_words}.")
    if card.between_mm:
        between = ", ".join(thickness_words(t) for t in card.between_mm)
        notes.append(f"Also at work on {between}: read between the columns.")
    if card.flame is not None:
        return [*notes, f"Figures: {card.flame.status or 'of the shop book'}."]
    one = card.columns[0].either
    chart = "your own chart" if one.own_chart else "built-in chart, in part from memory"
    return [*notes, f"Figures: {chart}. Tip: {one.status or 'of the shop book'}."]


def thickness_words(thickness_mm: float) -> str:
    """Return a thickness in millimetres, to a tenth from 10 mm on."""
    return f"{thickness_mm:.1f}".removesuffix(".0") + " mm" if thickness_mm >= 10 else f"{thickness_mm:.3g} mm"


def inch_words(length_mm: float) -> str:
    """Return a length in inches: a fraction where it lies near one, else a decimal.

    Parameters
    ----------
    length_mm : float
        Length, zero or above [mm].

    Returns
    -------
    str
        Without the unit.

    Notes
    -----
    Sixteenths, within 0.3 mm. Source: definition.

    Examples
    --------
    >>> [inch_words(mm) for mm in (6.35, 12, 19, 25.4, 38.1, 80)]
    ['1/4', '0.47', '3/4', '1', '1-1/2', '3.15']
    """
    sixteenths = Fraction(round(length_mm / _MM_PER_IN * 16), 16)
    if abs(float(sixteenths) * _MM_PER_IN - length_mm) >= _NEAR_MM:
        return f"{length_mm / _MM_PER_IN:.2f}"
    whole, rest = divmod(sixteenths, 1)
    if not rest:
        return str(whole)
    return f"{whole}-{rest}" if whole else str(rest)


def _pressure(bar: float) -> Figure:
    if bar <= 0:
        return Figure("see manual", "")
    return Figure(f"{bar:.1f} bar" if bar >= 1 else f"{bar:.2g} bar", f"{bar * _PSI_PER_BAR:.0f} psi")


def _fuel_pressure(s: TipSetting) -> Figure:
    low, high = s.fuel_pressure_low_bar, s.fuel_pressure_high_bar
    if isnan(s.fuel_pressure_bar):
        return Figure("see manual", "")
    span = "" if low == high else f"{low:g} to {high:g} bar, {low * _PSI_PER_BAR:.0f} to {high * _PSI_PER_BAR:.0f} psi"
    return Figure(f"{s.fuel_pressure_bar:g} bar", f"{s.fuel_pressure_bar * _PSI_PER_BAR:.0f} psi", span)


def _speed(s: TipSetting) -> Figure:
    span = f"{s.speed_low_mm_min:.0f} to {s.speed_high_mm_min:.0f} mm/min"
    return Figure(f"{s.speed_mm_min:.0f} mm/min", f"{s.speed_mm_min / _MM_PER_IN:.0f} in/min", span)


def _flow(m3_h: float) -> Figure:
    return Figure(f"{m3_h:.2f} m³/h", f"{m3_h * _FT3_PER_M3:.0f} ft³/h")


def _kerf(s: TipSetting) -> Figure:
    return Figure(f"{s.kerf_mm:.1f} mm", f"{s.kerf_mm / _MM_PER_IN:.2f} in")


def _pierce(s: TipSetting) -> Figure:
    return Figure("from an edge", "") if isnan(s.pierce_s) else Figure(f"{s.pierce_s:.0f} s", "")
