"""How much gas a gauge, a scale or a look says is in a cylinder, and how far that can be trusted."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from estimator.check.shop_book import ShopBook
from estimator.check.work_rates import WorkRates
from estimator.quantities.cylinders import DensityGrid
from estimator.read.cylinder_reading import CylinderReading, Means
from estimator.reference import gas_density_kg_m3, oxygen_density_grid
from estimator.units import HOUSE_STATE, ReferenceState, gas_volume_m3

__all__ = [
    "CylinderSize",
    "GasInCylinder",
    "ReadingDoubts",
    "gas_in_cylinder",
    "heel_of",
    "sizes_of_shop",
]


_FULL_AT_C = 15.0
"""Temperature at which a cylinder's full pressure is stated."""


@dataclass(frozen=True, slots=True)
class CylinderSize:
    """A size of cylinder as it is filled."""

    gas: str
    size: str
    content_m3: float
    """Gas of a full cylinder [m³]."""
    full_pressure_bar: float | None = None
    """Gauge pressure of a full cylinder at 15 °C [bar]; None where it is not known or says nothing."""
    tare_kg: float | None = None
    """Mass of the cylinder without its gas [kg]; None where it is not known."""
    heel_m3: float = 0.0
    """Gas left when it is changed [m³]."""


@dataclass(frozen=True, slots=True)
class ReadingDoubts:
    """Standard uncertainties of readings: half of what the work rates state; built in are those of the table."""

    gauge_bar: float = 2.5
    """A shop gauge read to its next mark: a slip of 5 bar either way is about 2.9 bar."""
    scale_kg: float = 0.1
    eye_share: float = 0.1
    acetylene_gauge_share: float = 0.15
    """Acetylene by gauge: the pressure of a solution follows the temperature more than the content."""
    temperature_share: float = 0.02
    """Of a pressure: cylinders are 10 °C warmer or colder than 15 °C."""
    fill_share: float = 0.01
    """Of a full cylinder that was not read."""

    @classmethod
    def of(cls, rates: WorkRates) -> ReadingDoubts:
        """Return those of a shop book, whose limits hold about 19 times in 20: two standard uncertainties."""
        return cls(
            gauge_bar=rates.read_gauge_bar / 2.0,
            scale_kg=rates.read_scale_kg / 2.0,
            eye_share=rates.read_eye_share / 2.0,
            acetylene_gauge_share=rates.read_acetylene_gauge_share / 2.0,
            temperature_share=rates.read_heat_share / 2.0,
            fill_share=rates.read_fill_share / 2.0,
        )


@dataclass(frozen=True, slots=True)
class GasInCylinder:
    """An amount of gas with its standard uncertainty, both m³."""

    amount_m3: float
    doubt_m3: float


def gas_in_cylinder(reading: CylinderReading, size: CylinderSize, doubts: ReadingDoubts) -> GasInCylinder:
    """Gas in one cylinder by one reading.

    Parameters
    ----------
    reading : CylinderReading
        Gauge, scale or share.
    size : CylinderSize
        The cylinder, as it is filled.
    doubts : ReadingDoubts
        Standard uncertainties of readings.

    Returns
    -------
    GasInCylinder
        Amount and standard uncertainty [m³].

    Raises
    ------
    ValueError
        When a pressure is read on a size whose full pressure is not known, or a mass where the tare is not known.

    Notes
    -----
    Oxygen follows its real density at 15 °C, so that half the pressure is a little less than half the gas; other gases
    in proportion. Mass less tare is gas, through its density. Source: definition.

    Examples
    --------
    >>> half = CylinderReading(Means.SHARE, 0.5, rough=True)
    >>> gas_in_cylinder(half, CylinderSize("oxygen", "50 L", 10.0), ReadingDoubts()).amount_m3
    5.0
    """
    content = size.content_m3
    if reading.means is Means.SHARE:
        doubt = doubts.eye_share if reading.rough else doubts.fill_share
        return GasInCylinder(reading.value * content, doubt * content * (1.0 if reading.rough else reading.value))
    if reading.means is Means.MASS:
        if size.tare_kg is None:
            raise ValueError(f"the tare of {size.gas} {size.size} is not known")
        density = gas_density_kg_m3(size.gas, HOUSE_STATE)
        return GasInCylinder((reading.value - size.tare_kg) / density, doubts.scale_kg / density)
    if size.full_pressure_bar is None:
        raise ValueError(f"the full pressure of {size.gas} {size.size} is not known")
    share = _share_by_pressure(size.gas, reading.value, size.full_pressure_bar)
    if size.gas == "acetylene":
        return GasInCylinder(share * content, doubts.acetylene_gauge_share * content)
    by_gauge = doubts.gauge_bar / size.full_pressure_bar
    return GasInCylinder(share * content, content * float(np.hypot(by_gauge, share * doubts.temperature_share)))


def heel_of(size: CylinderSize) -> GasInCylinder:
    """Gas in a cylinder that was run down and not read: what is left at change-over, a third of it in doubt."""
    return GasInCylinder(size.heel_m3, size.heel_m3 / 3)


def sizes_of_shop(shop: ShopBook) -> tuple[CylinderSize, ...]:
    """Cylinder sizes of a shop book: content and heel as it buys them, pressure and tare as its rack states them.

    Parameters
    ----------
    shop : ShopBook
        The shop book.

    Returns
    -------
    tuple of CylinderSize
        One for each gas and size; of several rows the one that holds from the latest day.

    Notes
    -----
    Source: definition.
    """
    found: dict[tuple[str, str], CylinderSize] = {}
    for row in sorted(shop.gas_prices, key=lambda r: r.from_date):
        state = next((s for s in ReferenceState if s.label == row.content_state), None)
        content = gas_volume_m3(row.content, unit=row.content_unit, gas=row.gas, state=state)
        on_rack = [r for r in shop.rack if (r.gas, r.cylinder) == (row.gas, row.cylinder)]
        pressure = next((r.full_pressure_bar for r in on_rack if r.full_pressure_bar), None)
        tare = next((r.tare_kg for r in on_rack if r.tare_kg), None)
        found[row.gas, row.cylinder] = CylinderSize(
            row.gas, row.cylinder, content, pressure, tare, row.heel_share * content
        )
    return tuple(found.values())


@cache
def _oxygen_grid() -> DensityGrid:
    return DensityGrid(*oxygen_density_grid())


def _share_by_pressure(gas: str, pressure_bar: float, full_pressure_bar: float) -> float:
    if gas != "oxygen":
        return pressure_bar / full_pressure_bar
    grid = _oxygen_grid()
    if max(pressure_bar, full_pressure_bar) > grid.pressure_bar[-1]:
        return pressure_bar / full_pressure_bar
    return float(grid.at(pressure_bar, _FULL_AT_C) / grid.at(full_pressure_bar, _FULL_AT_C))
