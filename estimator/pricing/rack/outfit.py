"""What each tip of a job asks of its cart: pressures and flows, for the check of the outfit."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from estimator.check.outfit import TipNeed
from estimator.check.outfit_fit import check_outfit
from estimator.pricing.job import Estimate
from estimator.pricing.rack.steps import Steps
from estimator.problems import Place, Problem
from estimator.sheets.torch import FLAME_TIPS, TIPS

__all__ = ["outfit_problems", "tip_needs"]


def tip_needs(estimates: Sequence[Estimate], steps: Steps) -> list[TipNeed]:
    """Return what each tip of the steps needs at its hardest.

    Parameters
    ----------
    estimates : sequence of Estimate
        The jobs.
    steps : Steps
        Their steps; torches at once are left out, since each has its own hoses.

    Returns
    -------
    list of TipNeed
        Pressures in bar gauge, flows at 15 °C and 101.325 kPa; None where nothing is stated.
    """
    used = {s.tip for s in steps.each if s.tip}
    needs: dict[str, TipNeed] = {}
    for estimate in estimates:
        settings, shop = estimate.job.settings, estimate.shop
        at_work = {int(s) for index in (estimate.job.lines.setting, estimate.job.lines.bevel_setting) for s in index}
        for place, tip in enumerate(settings.tip):
            if tip not in used or place not in at_work:
                continue
            is_flame = bool(settings.is_flame[place])
            rows = {r.name: r.row for r in (shop.flame_tips if is_flame else shop.tips)}
            flow = float(settings.cutting_flow_m3_h[place] + settings.preheat_flow_m3_h[place])
            need = TipNeed(
                place=Place(shop.file, (FLAME_TIPS if is_flame else TIPS).name, rows.get(tip, 0)),
                name=tip,
                fuel=estimate.kit.fuel,
                oxygen_bar=_stated(settings.oxygen_pressure_bar[place]),
                fuel_bar=_stated(settings.fuel_pressure_bar[place]),
                oxygen_m3_h=_stated(flow),
                fuel_m3_h=_stated(settings.fuel_flow_m3_h[place]),
            )
            needs[tip] = _harder(needs[tip], need) if tip in needs else need
    return list(needs.values())


def outfit_problems(estimates: Sequence[Estimate], steps: Steps) -> list[Problem]:
    """Return what does not fit together by the shop book's own words; empty where its Outfit sheet is."""
    shop = estimates[0].shop
    return check_outfit(shop.outfit, shop.cylinder_outlets, tip_needs(estimates, steps))


def _harder(one: TipNeed, other: TipNeed) -> TipNeed:
    names = ("oxygen_bar", "fuel_bar", "oxygen_m3_h", "fuel_m3_h")
    most = {n: max((v for v in (getattr(one, n), getattr(other, n)) if v is not None), default=None) for n in names}
    return one.model_copy(update=most)


def _stated(value: float | np.float64) -> float | None:
    """A pressure or flow of zero stands for a blank cell."""
    return float(value) if np.isfinite(value) and value > 0 else None
