"""Unit factors and constants as rows of the rates sheet: what formulas count with, in the house's own units."""

from __future__ import annotations

from estimator import reference
from estimator.pricing.job import Estimate
from estimator.quantities.orifice import ATMOSPHERE_BAR, orifice_oxygen_flow_m3_h
from estimator.write.estimate.rate_row import RateRow
from estimator.write.estimate.shop_cells import ShopCells
from estimator.write.styles import Look

__all__ = ["constant_rows"]

_CHOKED_TEST_BAR = 3.0


def constant_rows(estimate: Estimate, cells: ShopCells) -> tuple[RateRow, ...]:
    """Return the factors between units, and the constants of flow and heat.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    cells : ShopCells
        The units of its cells.

    Returns
    -------
    tuple of RateRow
        None of them is typed.
    """
    return (
        _constant("mm_per_m", "Millimetres in a metre", 1000.0, "mm/m"),
        _constant("mm2_per_m2", "Square millimetres in a square metre", 1_000_000.0, "mm²/m²"),
        *(_constant(factor.name, factor.what, factor.value, factor.unit) for factor in cells.named_factors()),
        _constant("litres_per_m3", "Litres in a cubic metre", 1000.0, "l/m³"),
        _constant("exact_digits", "Digits before a step up counts", 9.0, "", "a step is not missed by binary dust"),
        _constant("air_pressure_bar", "Pressure of the air", ATMOSPHERE_BAR, "bar", "gauge to absolute pressure"),
        RateRow(
            "flow_per_mm2_bar",
            "Oxygen through a bore of 1 mm for each bar absolute",
            _flow_per_mm2_bar(estimate),
            "m³/h",
            "0.0000",
            Look.WORKED,
            status="calculated",
            source="choked flow of an ideal gas, discharge coefficient 0.9",
            does="flow = bore x bore x (pressure + air) x this",
        ),
        *_heating_value(estimate.kit.fuel),
    )


def _constant(name: str, what: str, value: float, unit: str, does: str = "unit") -> RateRow:
    return RateRow(name, what, value, unit, "General", Look.WORKED, status="definition", does=does)


def _flow_per_mm2_bar(estimate: Estimate) -> float:
    flow = float(
        orifice_oxygen_flow_m3_h(
            1.0,
            _CHOKED_TEST_BAR,
            density_kg_m3=estimate.kit.oxygen_density_kg_m3,
            discharge_coefficient=estimate.work.orifice_coefficient,
        )
    )
    return flow / (_CHOKED_TEST_BAR + ATMOSPHERE_BAR)


def _heating_value(fuel: str) -> tuple[RateRow, ...]:
    heat = reference.net_heating_value_mj_m3(fuel)
    if heat != heat:
        return ()
    return (
        RateRow(
            "net_mj_per_m3",
            f"Net heating value of {fuel}",
            heat,
            "MJ/m³",
            "0.00",
            Look.WORKED,
            status="seen",
            does="heating minutes that are worked out",
        ),
    )
