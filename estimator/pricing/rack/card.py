"""The settings card as data: one entry for each tip at work, with a column for each thickness it cuts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from estimator.check.cut_list import CutList
from estimator.check.shop_book import FlameTipRow
from estimator.pricing.job import Estimate
from estimator.pricing.rack.draws import TipDraw
from estimator.pricing.rack.report import RackReport
from estimator.pricing.settings_card import TipSetting, tip_setting
from estimator.quantities.job import choose_settings
from estimator.words import Method

__all__ = ["COLUMNS_PER_TIP", "CardColumn", "TipCard", "card_of_report", "card_of_settings"]

COLUMNS_PER_TIP = 4
"""Thicknesses beside each other that can be read at arm's length; what lies between them is read between them."""


@dataclass(frozen=True, slots=True)
class CardColumn:
    """What to set for one thickness."""

    thickness_mm: float
    hand: TipSetting | None
    track: TipSetting | None

    @property
    def either(self) -> TipSetting:
        """The setting that pressures and flows are read from: they are alike by hand and on a track."""
        setting = self.hand or self.track
        if setting is None:
            raise ValueError("a column of a card needs a setting")
        return setting


@dataclass(frozen=True, slots=True)
class TipCard:
    """One tip: cutting tips have columns, heating and welding tips their own figures."""

    tip: str
    fuel: str
    columns: tuple[CardColumn, ...] = ()
    flame: FlameTipRow | None = None
    draw: TipDraw | None = None
    between_mm: tuple[float, ...] = ()
    """Thicknesses of the job that have no column of their own [mm]."""
    inch: bool = False
    """Whether the shop reads inches and psi first."""


def card_of_settings(
    found: Sequence[TipSetting], draws: Sequence[TipDraw] = (), *, inch: bool = False
) -> list[TipCard]:
    """Return the card of cutting settings.

    Parameters
    ----------
    found : sequence of TipSetting
        By hand and on a track, in any order.
    draws : sequence of TipDraw
        What is said of their draw on acetylene.
    inch : bool
        Whether the shop reads inches and psi first.

    Returns
    -------
    list of TipCard
        Tips in the order in which they come; thinnest first inside each.
    """
    said = {one.tip: one for one in draws}
    cards = []
    for tip in dict.fromkeys(one.tip for one in found):
        mine = [one for one in found if one.tip == tip]
        thicknesses = sorted({s.thickness_mm for s in mine})
        shown = _spaced(thicknesses)
        columns = tuple(
            CardColumn(
                thickness,
                next((s for s in mine if s.by == "hand" and s.thickness_mm == thickness), None),
                next((s for s in mine if s.by == "track" and s.thickness_mm == thickness), None),
            )
            for thickness in shown
        )
        between = tuple(t for t in thicknesses if t not in shown)
        cards.append(TipCard(tip, mine[0].fuel, columns, draw=said.get(tip), between_mm=between, inch=inch))
    return cards


def card_of_report(report: RackReport) -> list[TipCard]:
    """Return the card of every tip at work in a rack plan: cutting tips by bore, then heating and welding tips."""
    at_work: dict[str, set[float]] = {}
    flame: dict[str, FlameTipRow] = {}
    for estimate in report.estimates:
        settings, lines = estimate.job.settings, estimate.job.lines
        for place in sorted({int(s) for index in (lines.setting, lines.bevel_setting) for s in index if s >= 0}):
            if settings.is_flame[place]:
                row = next((r for r in estimate.shop.flame_tips if r.name == settings.tip[place]), None)
                flame |= {row.name: row} if row else {}
            else:
                at_work.setdefault(settings.tip[place], set()).add(round(float(settings.thickness_mm[place]), 6))
    said = {one.tip: one for one in report.draws}
    inch = report.estimates[0].shop.shop.units == "in"
    cutting = card_of_settings(_both_ways(report.estimates[0], at_work), report.draws, inch=inch)
    heating = (TipCard(name, row.fuel, flame=row, draw=said.get(name), inch=inch) for name, row in flame.items())
    return [*cutting, *heating]


def _both_ways(estimate: Estimate, at_work: Mapping[str, set[float]]) -> list[TipSetting]:
    """Return the settings of these tips and thicknesses by hand and on a track, where the chart has both."""
    pairs = [(tip, mm) for tip, every in at_work.items() for mm in sorted(every)] * 2
    if not pairs:
        return []
    half = len(pairs) // 2
    cuts = CutList(
        mark=[""] * len(pairs),
        quantity=np.ones(len(pairs)),
        thickness_mm=np.array([mm for _, mm in pairs]),
        tip=[tip for tip, _ in pairs],
        method=np.array([Method.FREE_HAND] * half + [Method.TRACK] * half, dtype=np.int8),
    )
    chosen = choose_settings(cuts, estimate.kit, estimate.work, keep_tip_in=False)
    every = [tip_setting(estimate.kit, chosen.settings, int(k)) for k in chosen.setting if k >= 0]
    known = [one for one in every if not np.isnan(one.speed_mm_min)]
    return sorted(known, key=lambda one: (one.bore_mm, one.tip, one.thickness_mm))


def _spaced(thicknesses: Sequence[float]) -> list[float]:
    """Return the thinnest, the thickest and what stands most evenly between them."""
    if len(thicknesses) <= COLUMNS_PER_TIP:
        return list(thicknesses)
    wanted = np.geomspace(thicknesses[0], thicknesses[-1], COLUMNS_PER_TIP)
    left = list(thicknesses)
    shown = []
    for target in (wanted[0], wanted[-1], *wanted[1:-1]):
        nearest = min(left, key=lambda t: abs(np.log(t / target)))
        left.remove(nearest)
        shown.append(nearest)
    return sorted(shown)
