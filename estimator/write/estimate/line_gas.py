"""Columns of the working sheet for gas: what every line burns and loses, and the steel that the kerf takes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.write.estimate.line_work import BEVEL_START
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.estimate.look_of_numbers import NumberFormats

__all__ = ["gas_columns"]

Floats = NDArray[np.float64]


def gas_columns(estimate: Estimate, formats: NumberFormats) -> list[LiveColumn]:
    """Return the gas of every line at 15 °C and 101.325 kPa, and the mass that the kerf takes.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
    """
    x = estimate.job.lines

    def column(name: str, heading: str, values: Floats, *terms: str, unit: str = "m³") -> LiveColumn:
        number = formats.minutes if unit == "min" else formats.volume
        gas = ("fuel" if "fuel" in name else "oxygen") if unit == "m³" else ""
        return LiveColumn(name, heading, values, unit, number, terms, gas=gas)

    def flame(flow: str) -> tuple[str, str]:
        """Gas of the flame: at the line's setting, but at the bevel's while that pass burns."""
        main = f"[torches]*[flame_time_min]*INDEX({flow},[setting])/60"
        return main, f"[bevel_flame_min]*(INDEX({flow},[bevel_setting])-[torches]*INDEX({flow},[setting]))/60"

    return [
        column(
            "bevel_flame_min",
            "Bevel pass, flame",
            x.bevel_flame_min,
            "[bevel_time_min]",
            f"[passes]*[bevel_starts_each]*{BEVEL_START}",
            unit="min",
        ),
        column(
            "cutting_oxygen_m3",
            "Cutting oxygen",
            x.cutting_oxygen_m3,
            "[torches]*[jet_time_min]*INDEX(tip_cutting_m3_h,[setting])/60",
            "[bevel_time_min]*INDEX(tip_cutting_m3_h,[bevel_setting])/60",
            "[quantity]*[other_oxygen_each]",
        ),
        column("preheat_oxygen_m3", "Preheat oxygen", x.preheat_oxygen_m3, *flame("tip_preheat_m3_h")),
        column("fuel_m3", "Fuel", x.fuel_m3, *flame("tip_fuel_m3_h"), "[quantity]*[other_fuel_each]"),
        column(
            "lost_oxygen_m3",
            "Oxygen lost",
            x.lost_oxygen_m3,
            "[cutting_oxygen_m3]*gas_lost_oxygen",
            "[preheat_oxygen_m3]*gas_lost_oxygen",
        ),
        column("lost_fuel_m3", "Fuel lost", x.lost_fuel_m3, "[fuel_m3]*gas_lost_fuel"),
        column(
            "kerf_mass_kg",
            "Steel burnt away",
            x.kerf_mass_kg,
            "[cut_m]*INDEX(tip_kerf_mm,[setting])*INDEX(tip_thickness_mm,[setting])*steel_density_kg_m3/mm2_per_m2",
            unit="kg",
        ),
    ]
