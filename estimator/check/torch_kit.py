"""The torch kit: tips on hand, their charts and factors for one fuel, from the shop book and the built-in tables."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from estimator import reference
from estimator.check.fuel_tips import fuel_tips, has_built_in_flow
from estimator.check.shop_book import ChartRow, FactorRow, ShopBook, TipRow
from estimator.check.torch_figures import Chart, Curve, FlameTip, TipFactors, TipFigures
from estimator.check.work_rates import WorkRates
from estimator.units import HOUSE_STATE, ReferenceState
from estimator.words import OwnFactor

__all__ = ["TorchKit", "built_in_chart", "built_in_work_rates", "torch_kit", "work_rate_band", "work_rates"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class TorchKit:
    """What the torch can do with one fuel."""

    fuel: str
    tips: TipFigures
    tip_rows: tuple[TipRow, ...]
    charts: tuple[Chart, ...]
    own_chart: tuple[bool, ...]
    """Whether each tip runs on the shop's own chart."""
    factors: tuple[TipFactors, ...]
    flame_tips: tuple[FlameTip, ...]
    oxygen_density_kg_m3: float
    """At 15 °C and 101.325 kPa."""
    fuel_density_kg_m3: float
    lent_by: str = ""
    """Fuel whose tips stand in, since none on hand is for this one; empty where none does."""


def torch_kit(shop: ShopBook, fuel: str) -> TorchKit:
    """Return the kit of a shop for one fuel.

    Parameters
    ----------
    shop : ShopBook
        The shop book.
    fuel : str
        Fuel of the job.

    Returns
    -------
    TorchKit
        Tips in order of bore, as ``fuel_tips`` has them.
    """
    rows, lent_by = fuel_tips(shop, fuel)
    cleaning = next((r.value for r in shop.factors if r.what == "cleaning" and not r.tip and not r.by), 1.0)
    built_in = _cleaned(built_in_chart(fuel), cleaning)
    rates = work_rates(shop)
    spread, slower = rates.own_chart_spread, rates.start_factor(fuel)
    charts = [_with_own_curves(built_in, [c for c in shop.own_chart if c.tip == t.name], spread, slower) for t in rows]
    density = reference.gas_density_kg_m3
    return TorchKit(
        fuel=fuel,
        tips=_tip_figures(rows),
        tip_rows=tuple(rows),
        charts=tuple(charts),
        own_chart=tuple(any(c.tip == t.name for c in shop.own_chart) for t in rows),
        factors=tuple(_factors(shop.factors, "" if lent_by and fuel != shop.shop.fuel else t.name) for t in rows),
        flame_tips=tuple(
            FlameTip(
                name=f.name,
                fuel=f.fuel,
                fuel_m3_h=f.fuel_m3_h,
                preheat_oxygen_m3_h=f.preheat_oxygen_m3_h,
                fuel_pressure_bar=f.fuel_pressure_bar,
                oxygen_pressure_bar=f.oxygen_pressure_bar,
            )
            for f in shop.flame_tips
            if f.fuel == fuel
        ),
        oxygen_density_kg_m3=density("oxygen", HOUSE_STATE),
        fuel_density_kg_m3=density(fuel, HOUSE_STATE),
        lent_by=lent_by,
    )


def built_in_chart(fuel: str) -> Chart:
    """Return the built-in chart for a fuel, gas at 15 °C and 101.325 kPa.

    Parameters
    ----------
    fuel : str
        Fuel of the job. Propylene and MPS have an empty fuel curve: they need the shop's own chart.

    Returns
    -------
    Chart
        Curves by thickness.

    Notes
    -----
    Pierce times are those of acetylene. Source: the tables ``chart_*`` with a source on every row.
    """
    speed = reference.table("chart_speed")
    fuel_rows = reference.table("chart_fuel")
    known = has_built_in_flow(fuel)
    to_house = _to_house_state(fuel) if known else 1.0
    return Chart(
        hand_speed_mm_min=_curve(speed.where(mode="hand"), "mm_min"),
        machine_speed_mm_min=_curve(speed.where(mode="machine"), "mm_min"),
        fuel_m3_h=(
            _curve(fuel_rows.where(fuel=fuel), "m3_h_70f_1atm", to_house)
            if known
            else Curve(*(np.empty(0) for _ in range(4)))
        ),
        kerf_mm=_curve(reference.table("chart_kerf"), "mm"),
        pierce_s=_curve(reference.table("chart_pierce").where(fuel="acetylene"), "s"),
        cleaning_min_per_m=_cleaning_curve(),
        cutting_oxygen_m3_h=None,
    )


def built_in_work_rates() -> dict[str, dict[str, str | float]]:
    """Return the built-in work rates, a row by name: likely, low, high, unit, status, source, why."""
    rows = reference.table("work_rates")
    names = [str(name) for name in rows.column("name")]
    return {
        name: {key: rows.column(key)[i] for key in rows.columns if key != "name"} | {"source": str(rows.source(i))}
        for i, name in enumerate(names)
    }


def work_rates(shop: ShopBook) -> WorkRates:
    """Return the work rates in force: the shop book's where it has them, else the built-in ones.

    Parameters
    ----------
    shop : ShopBook
        The shop book; its names are known to be right.

    Returns
    -------
    WorkRates
        Likely values.
    """
    rows = reference.table("work_rates")
    likely = {str(n): float(v) for n, v in zip(rows.column("name"), rows.column("likely"), strict=True)}
    likely |= {rate.name: rate.likely for rate in shop.work_rates}
    own = {row.what: row.value for row in shop.factors if not row.tip and not row.by}
    likely["layout_min_per_m"] *= own.get(OwnFactor.LAYOUT, 1.0)
    likely["layout_min_per_piece"] *= own.get(OwnFactor.LAYOUT, 1.0)
    likely["handling_min_per_piece"] *= own.get(OwnFactor.HANDLING, 1.0)
    likely["handling_min_per_kg"] *= own.get(OwnFactor.HANDLING, 1.0)
    likely["clean_above_30_per_mm"] *= own.get(OwnFactor.CLEANING, 1.0)
    # Man-hours beyond what the model counts lengthen all work that rests, as the rest allowance does.
    likely["rest_allowance"] = (1.0 + likely["rest_allowance"]) * own.get(OwnFactor.MAN_HOURS, 1.0) - 1.0
    return WorkRates.of(likely)


def work_rate_band(shop: ShopBook, name: str) -> tuple[float, float, float]:
    """Return low, likely and high of one work rate: the shop book's where it has them, else the built-in row's.

    Parameters
    ----------
    shop : ShopBook
        The shop book.
    name : str
        Name of a work rate.

    Returns
    -------
    tuple of float
        Low, likely, high.
    """
    built_in = built_in_work_rates()[name]
    own = next((row for row in shop.work_rates if row.name == name), None)
    if own is None:
        return tuple(float(built_in[key]) for key in ("low", "likely", "high"))  # type: ignore[return-value]
    spread = [float(built_in[key]) / float(built_in["likely"]) * own.likely for key in ("low", "high")]
    return own.low or spread[0], own.likely, own.high or spread[1]


def _cleaned(chart: Chart, factor: float) -> Chart:
    """Return the chart with its cleaning norm times the shop's own factor."""
    norm = chart.cleaning_min_per_m
    return replace(
        chart,
        cleaning_min_per_m=Curve(norm.thickness_mm, norm.likely * factor, norm.low * factor, norm.high * factor),
    )


def _curve(rows: reference.Table, unit: str, factor: float = 1.0) -> Curve:
    likely, low, high = (rows.column(f"{name}_{unit}") * factor for name in ("likely", "low", "high"))
    keep = ~np.isnan(likely)
    return Curve(rows.column("thickness_mm")[keep], likely[keep], low[keep], high[keep])


def _cleaning_curve() -> Curve:
    rows = reference.table("norm_plate_cleaning")
    norm = rows.column("hours_per_10_m") * 60.0 / 10.0
    return Curve(rows.column("thickness_to_mm"), norm, norm, norm)


def _to_house_state(fuel: str) -> float:
    density = reference.gas_density_kg_m3
    return density(fuel, ReferenceState.F70_ATM) / density(fuel, HOUSE_STATE)


def _tip_figures(rows: Sequence[TipRow]) -> TipFigures:
    def column(name: str) -> Floats:
        return np.array([np.nan if (v := getattr(r, name)) is None else v for r in rows], dtype=np.float64)

    return TipFigures(
        name=tuple(r.name for r in rows),
        bore_mm=column("bore_mm"),
        from_mm=column("from_mm"),
        to_mm=column("to_mm"),
        pressure_from_bar=column("pressure_from_bar"),
        pressure_to_bar=column("pressure_to_bar"),
        fuel_pressure_bar=np.where(column("fuel_pressure_bar") > 0.0, column("fuel_pressure_bar"), np.nan),
        flow_low=column("flow_low"),
        flow_high=column("flow_high"),
        given_flow_m3_h=column("given_flow_m3_h"),
    )


def _with_own_curves(chart: Chart, rows: Sequence[ChartRow], spread: float, slower: float) -> Chart:
    """Replace whole curves by the shop's own; a quantity that its chart leaves out keeps the built-in curve.

    Its pierce is its own fuel's, which starts slower by a factor; it is kept as the acetylene's that it stands for.
    """
    if not rows:
        return chart
    hand = sorted((r for r in rows if r.mode == "hand"), key=lambda r: r.thickness_mm)
    machine = sorted((r for r in rows if r.mode == "machine"), key=lambda r: r.thickness_mm)
    either = hand or machine
    return Chart(
        hand_speed_mm_min=_own(hand, "speed_mm_min", spread) or chart.hand_speed_mm_min,
        machine_speed_mm_min=_own(machine, "speed_mm_min", spread) or chart.machine_speed_mm_min,
        fuel_m3_h=_own(either, "fuel_m3_h", spread) or chart.fuel_m3_h,
        kerf_mm=_own(either, "kerf_mm", spread) or chart.kerf_mm,
        pierce_s=_own(either, "pierce_s", spread, 1.0 / slower) or chart.pierce_s,
        cleaning_min_per_m=chart.cleaning_min_per_m,
        cutting_oxygen_m3_h=_own(either, "cutting_oxygen_m3_h", spread),
    )


def _own(rows: Sequence[ChartRow], name: str, spread: float, times: float = 1.0) -> Curve | None:
    given = [r for r in rows if getattr(r, name) is not None]
    if not given:
        return None
    likely = np.array([getattr(r, name) for r in given], dtype=np.float64) * times
    low_name, high_name = name.replace("speed_mm", "speed_low_mm"), name.replace("speed_mm", "speed_high_mm")
    low = np.array([getattr(r, low_name, None) or v for r, v in zip(given, likely * (1.0 - spread), strict=True)])
    high = np.array([getattr(r, high_name, None) or v for r, v in zip(given, likely * (1.0 + spread), strict=True)])
    if name != "speed_mm_min":
        low, high = likely * (1.0 - spread), likely * (1.0 + spread)
    return Curve(np.array([r.thickness_mm for r in given], dtype=np.float64), likely, low, high)


def _factors(rows: Sequence[FactorRow], tip: str) -> TipFactors:
    """Return the calibrated factors of a tip: its own row first, else the row for all tips."""

    def value(what: str, by: str = "") -> float:
        named = [r for r in rows if r.what == what and r.tip in (tip, "") and r.by in (by, "")]
        best = sorted(named, key=lambda r: (r.tip != tip, r.by != by))
        return best[0].value if best else 1.0

    return TipFactors(
        hand_speed=value(OwnFactor.SPEED, "hand"),
        machine_speed=value(OwnFactor.SPEED, "machine"),
        cutting_oxygen=value(OwnFactor.CUTTING_OXYGEN),
        preheat_oxygen=value(OwnFactor.PREHEAT_OXYGEN),
        fuel=value(OwnFactor.FUEL),
        start_time=value(OwnFactor.START_TIME),
    )
