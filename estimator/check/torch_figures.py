"""Figures of tips and charts as arrays: what the shop book and the built-in tables come to, ready to work with."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["Chart", "Curve", "FlameTip", "TipFactors", "TipFigures"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Curve:
    """One quantity by thickness: shape (n,) each, thickness rising."""

    thickness_mm: Floats
    likely: Floats
    low: Floats
    high: Floats


@dataclass(frozen=True, slots=True)
class TipFigures:
    """The tips on hand for one fuel, smallest bore first: shape (n,) each."""

    name: tuple[str, ...]
    bore_mm: Floats
    from_mm: Floats
    to_mm: Floats
    pressure_from_bar: Floats
    """Oxygen pressure at the thin end of the range [bar gauge]."""
    pressure_to_bar: Floats
    fuel_pressure_bar: Floats
    """NaN where it is not stated."""
    flow_low: Floats
    """Low cutting-oxygen flow as a share of the likely one."""
    flow_high: Floats
    given_flow_m3_h: Floats
    """Flow that the shop's own chart gives [m³/h at 15 °C, 101.325 kPa]; NaN where the orifice decides."""


@dataclass(frozen=True, slots=True)
class Chart:
    """The curves by thickness for one fuel; gas volumes at 15 °C and 101.325 kPa."""

    hand_speed_mm_min: Curve
    machine_speed_mm_min: Curve
    fuel_m3_h: Curve
    kerf_mm: Curve
    pierce_s: Curve
    """Pierce time with acetylene by a steady torch; the fuel's and the hand's factors multiply it."""
    cleaning_min_per_m: Curve
    """Slag cleaning, read as a step: the row of the next thickness up."""
    cutting_oxygen_m3_h: Curve | None
    """Flow that the shop's own chart gives; None where the orifice decides."""


@dataclass(frozen=True, slots=True)
class TipFactors:
    """The shop's own calibrated factors for one tip; 1 until the shop has logged work."""

    hand_speed: float = 1.0
    machine_speed: float = 1.0
    cutting_oxygen: float = 1.0
    preheat_oxygen: float = 1.0
    fuel: float = 1.0
    start_time: float = 1.0


@dataclass(frozen=True, slots=True)
class FlameTip:
    """A heating or welding tip as the shop book states it; flows at 15 °C and 101.325 kPa."""

    name: str
    fuel: str
    fuel_m3_h: float
    preheat_oxygen_m3_h: float
    fuel_pressure_bar: float
    oxygen_pressure_bar: float
    low: float = 0.8
    """Low flow as a share of the rated one."""
    high: float = 1.2
