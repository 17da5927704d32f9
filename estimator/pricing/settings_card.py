"""Torch settings for people: what to set for a tip and a thickness, with the range that sources give."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopBook
from estimator.check.torch_kit import TorchKit, torch_kit, work_rates
from estimator.pricing.fuel_chart import fuel_problems
from estimator.problems import Place, WorkbookProblemsError, raise_on_errors
from estimator.problems import lines as say
from estimator.quantities.job import choose_settings
from estimator.quantities.torch_settings import Settings
from estimator.words import Method

__all__ = ["TipSetting", "setting_for_thickness", "tip_setting"]


@dataclass(frozen=True, slots=True)
class TipSetting:
    """What to set, with the range that sources give. Pressures in bar gauge, flows at 15 °C and 101.325 kPa."""

    tip: str
    fuel: str
    by: str
    bore_mm: float
    thickness_mm: float
    from_mm: float
    to_mm: float
    oxygen_pressure_bar: float
    fuel_pressure_low_bar: float
    """NaN, as its neighbours, where the fuel's pressure is not stated."""
    fuel_pressure_bar: float
    fuel_pressure_high_bar: float
    speed_mm_min: float
    speed_low_mm_min: float
    speed_high_mm_min: float
    cutting_oxygen_m3_h: float
    preheat_oxygen_m3_h: float
    fuel_m3_h: float
    kerf_mm: float
    pierce_s: float
    """With this fuel by a steady torch; NaN where plate this thick is not pierced."""
    status: str
    own_chart: bool


def setting_for_thickness(shop: ShopBook, thickness_mm: float, fuel: str) -> list[TipSetting]:
    """Return the settings for one thickness, by hand and on a track.

    Parameters
    ----------
    shop : ShopBook
        The shop book.
    thickness_mm : float
        Thickness along the cut [mm].
    fuel : str
        Fuel; empty for the shop's.

    Returns
    -------
    list of TipSetting
        One by hand and one on a track: the smallest tip that covers the thickness.

    Raises
    ------
    WorkbookProblemsError
        When the fuel has no chart, no tip on hand covers the thickness or the chart does not reach it.
    """
    kit = torch_kit(shop, fuel or shop.shop.fuel)
    said = fuel_problems(kit, shop)
    raise_on_errors(said)
    cuts = CutList(
        mark=["", ""],
        quantity=np.ones(2),
        thickness_mm=np.full(2, thickness_mm),
        cut_length_mm=np.full(2, 1000.0),
        method=np.array([Method.FREE_HAND, Method.TRACK], dtype=np.int8),
    )
    chosen = choose_settings(cuts, kit, work_rates(shop), keep_tip_in=False)
    shown = f"{thickness_mm:.4g} mm"
    if chosen.no_tip.any():
        covered = ", ".join(f"{a:g} to {b:g} mm" for a, b in zip(kit.tips.from_mm, kit.tips.to_mm, strict=True))
        raise WorkbookProblemsError([say.NO_TIP.at(Place(), found=shown, covered=covered or "none")])
    if chosen.no_chart.any():
        tip = chosen.settings.tip[int(chosen.setting[0])]
        raise WorkbookProblemsError([say.OFF_CHART.at(Place(), found=shown, tip=tip, covered="the chart's rows")])
    return [tip_setting(kit, chosen.settings, int(k)) for k in chosen.setting]


def tip_setting(kit: TorchKit, settings: Settings, index: int) -> TipSetting:
    """Return one cutting setting as people read it.

    Parameters
    ----------
    kit : TorchKit
        Tips on hand.
    settings : Settings
        Settings of a job.
    index : int
        Which one; a cutting setting.

    Returns
    -------
    TipSetting
        With the tip's row of the shop book behind it.
    """
    k, at = index, kit.tips.name.index(settings.tip[index])
    row = kit.tip_rows[at]
    speed = float(settings.speed_mm_min[k])
    fuel_pressure = row.fuel_pressure_bar or np.nan
    return TipSetting(
        tip=row.name,
        fuel=kit.fuel,
        by="track" if settings.machine[k] else "hand",
        bore_mm=row.bore_mm,
        thickness_mm=float(settings.thickness_mm[k]),
        from_mm=row.from_mm,
        to_mm=row.to_mm,
        oxygen_pressure_bar=float(settings.oxygen_pressure_bar[k]),
        fuel_pressure_low_bar=row.fuel_pressure_low_bar or fuel_pressure,
        fuel_pressure_bar=fuel_pressure,
        fuel_pressure_high_bar=row.fuel_pressure_high_bar or fuel_pressure,
        speed_mm_min=speed,
        speed_low_mm_min=speed * float(settings.speed_low[k]),
        speed_high_mm_min=speed * float(settings.speed_high[k]),
        cutting_oxygen_m3_h=float(settings.cutting_flow_m3_h[k]),
        preheat_oxygen_m3_h=float(settings.preheat_flow_m3_h[k]),
        fuel_m3_h=float(settings.fuel_flow_m3_h[k]),
        kerf_mm=float(settings.kerf_mm[k]),
        pierce_s=float(settings.pierce_s[k] * settings.start_factor[k]),
        status=row.status,
        own_chart=kit.own_chart[at],
    )
