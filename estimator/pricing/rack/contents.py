"""What is in each cylinder on the rack now, with its ± and how it was read; acetylene never by its pressure."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from estimator import reference
from estimator.check.shop_book import GasPrice, RackCylinder, ShopBook
from estimator.check.torch_kit import work_rates
from estimator.check.work_rates import WorkRates
from estimator.pricing.rates import in_force
from estimator.problems import Place, Problem
from estimator.problems import rack as say
from estimator.problems.shop_book import NAMED_TWICE
from estimator.quantities.cylinders import (
    DensityGrid,
    content_from_weight_m3,
    gauge_reading_error_m3,
    oxygen_content_m3,
    water_volume_l,
    weight_reading_error_m3,
)
from estimator.sheets.rack import RACK
from estimator.shown_units import ShownUnits
from estimator.units import HOUSE_STATE, ReferenceState, gas_volume_m3

__all__ = ["CylinderContent", "HowRead", "ReadingErrors", "rack_contents"]

_SETTLED_C = {ReferenceState.C20_ATM: 20.0, ReferenceState.F60_ATM: 15.556, ReferenceState.F70_ATM: 21.111}
"""Temperature at which a cylinder rated at that state shows its full pressure; 15 °C for the rest."""
_ROUNDING = 1.005


class HowRead(StrEnum):
    """How the content is known."""

    GAUGE = "gauge"
    WEIGHT = "weight"
    ROUGH = "rough"
    NOT_READ = "not read"


@dataclass(frozen=True, slots=True)
class ReadingErrors:
    """± of readings on a shop floor, about 19 times in 20; each is a row of the shop book's work rates."""

    gauge_bar: float
    """A cylinder gauge read to its next mark."""
    temperature_c: float
    """A cylinder in sun, frost or a warm shop, against the temperature typed."""
    scale_kg: float
    tare_kg: float
    """Lost acetone, paint, a cap."""
    rough_share: float
    """Of a full cylinder, judged by eye or by feel."""
    fill_share: float
    """Of a full cylinder that nobody read."""

    @classmethod
    def of(cls, rates: WorkRates) -> ReadingErrors:
        """Return the errors that a shop book states."""
        return cls(
            gauge_bar=rates.read_gauge_bar,
            temperature_c=rates.read_temperature_c,
            scale_kg=rates.read_scale_kg,
            tare_kg=rates.read_tare_kg,
            rough_share=rates.read_eye_share,
            fill_share=rates.read_fill_share,
        )


@dataclass(frozen=True, slots=True)
class CylinderContent:
    """One cylinder on the rack; volumes at 15 °C and 101.325 kPa."""

    cylinder_id: str
    gas: str
    size: str
    rated_m3: float
    now_m3: float
    plus_minus_m3: float
    heel_m3: float
    """Gas that stays in at change-over; never more than what is in it."""
    how: HowRead
    read_as: str
    """The reading in words."""
    manifold: str = ""
    supplier_draw_per_h: float | None = None
    """The supplier's written draw limit, as a share of the content an hour."""
    temperature_c: float = 15.0
    row: int = 0


def rack_contents(
    shop: ShopBook, date: dt.date | None, errors: ReadingErrors | None = None
) -> tuple[list[CylinderContent], list[Problem]]:
    """Return what is in the cylinders of a shop book's rack.

    Parameters
    ----------
    shop : ShopBook
        With its Rack sheet.
    date : datetime.date or None
        Date whose cylinder sizes hold.
    errors : ReadingErrors, optional
        ± of readings; those of the shop book's work rates when left out.

    Returns
    -------
    tuple of (list of CylinderContent, list of Problem)
        Cylinders in the sheet's order; one whose content cannot be known is left out and has a problem.

    Notes
    -----
    Oxygen: volume from rated content at full pressure, then volume x density at gauge and temperature. Fuel gas: weight
    over tare ÷ density. Source: ``quantities.cylinders``.
    """
    errors = errors or ReadingErrors.of(work_rates(shop))
    found: list[CylinderContent] = []
    problems: list[Problem] = []
    seen: set[str] = set()
    for row in shop.rack:
        place = Place(shop.file or "the example shop book", RACK.name, row.row)
        if row.cylinder_id in seen:
            problems.append(NAMED_TWICE.at(place, found=row.cylinder_id))
            continue
        seen.add(row.cylinder_id)
        content, said = _content(row, shop, date, place, errors)
        problems += said
        if content is not None:
            found.append(content)
    return found, problems


def _content(
    row: RackCylinder, shop: ShopBook, date: dt.date | None, place: Place, errors: ReadingErrors
) -> tuple[CylinderContent | None, list[Problem]]:
    named = {"cylinder": row.cylinder_id, "gas": row.gas}
    sizes = [g for g in shop.gas_prices if g.gas == row.gas]
    size = in_force([g for g in sizes if g.cylinder.casefold() == row.cylinder.casefold()], date)
    rated, state = _rated(row, size)
    if rated is None:
        known = ", ".join(dict.fromkeys(g.cylinder for g in sizes)) or "none"
        return None, [say.CONTENT_UNKNOWN.at(place, found=row.cylinder, known=known, **named)]
    read = _by_gauge if row.gas == "oxygen" else _by_weight
    reading, problems = read(_OnRack(row, rated, state, place, errors, shop.shown))
    if reading is None:
        return None, problems
    now, spread, how, read_as = reading
    # A warm oxygen cylinder may hold a little over its rating and its reading stands; a weight over it is a wrong tare.
    most = now if row.gas == "oxygen" else min(now, rated)
    if now > rated * _ROUNDING + spread:
        found, *rest = (shop.shown.gas_words(amount, row.gas) for amount in (now, rated, most))
        over = dict(zip(("rated", "taken"), rest, strict=True))
        problems.append(say.MORE_THAN_FULL.at(place, found=found, **over, **named))
    heel = _heel_share(row, size) * rated
    content = CylinderContent(
        cylinder_id=row.cylinder_id,
        gas=row.gas,
        size=row.cylinder or shop.shown.gas_words(rated, row.gas),
        rated_m3=rated,
        now_m3=most,
        plus_minus_m3=spread,
        heel_m3=min(heel, most),
        how=how,
        read_as=read_as,
        manifold=row.manifold,
        supplier_draw_per_h=row.supplier_draw_fraction,
        temperature_c=row.temperature_c,
        row=row.row,
    )
    return content, problems


_Reading = tuple[float, float, HowRead, str]


@dataclass(frozen=True, slots=True)
class _OnRack:
    """A cylinder whose content is to be read."""

    row: RackCylinder
    rated_m3: float
    state: ReferenceState | None
    """In which the rated content was stated."""
    place: Place
    errors: ReadingErrors
    units: ShownUnits


def _by_gauge(on: _OnRack) -> tuple[_Reading | None, list[Problem]]:
    """Return what is in an oxygen cylinder by its gauge."""
    row, place, errors, units = on.row, on.place, on.errors, on.units
    if row.gauge_bar is None:
        return _without_reading(on)
    if row.full_pressure_bar is None:
        found = units.words(row.gauge_bar, "bar", "g")
        return None, [say.FULL_PRESSURE_MISSING.at(place, found=found, cylinder=row.cylinder_id)]
    grid, density = _oxygen()
    settled = _SETTLED_C.get(on.state, 15.0) if on.state else 15.0
    try:
        volume = water_volume_l(on.rated_m3, row.full_pressure_bar, settled, grid=grid, density_kg_m3=density)
        now = oxygen_content_m3(
            row.gauge_bar, row.temperature_c, water_volume_l=volume, grid=grid, density_kg_m3=density
        )
        spread = gauge_reading_error_m3(
            row.gauge_bar,
            row.temperature_c,
            pressure_error_bar=errors.gauge_bar,
            temperature_error_c=errors.temperature_c,
            water_volume_l=volume,
            grid=grid,
            density_kg_m3=density,
        )
    except ValueError:
        return None, [
            say.OFF_THE_TABLE.at(
                place,
                found=f"{row.gauge_bar:g} bar, {row.temperature_c:g} °C, full at {row.full_pressure_bar:g} bar",
                cylinder=row.cylinder_id,
                pressures=f"{grid.pressure_bar[0]:g} to {grid.pressure_bar[-1]:g}",
                temperatures=f"{grid.temperature_c[0]:g} to {grid.temperature_c[-1]:g}",
            )
        ]
    gauge, full = units.number(row.gauge_bar, "bar"), units.words(row.full_pressure_bar, "bar", "g")
    inside = units.words(float(volume) / 1000.0, "m³", ".2f") if units.inch else f"{float(volume):.1f} L"
    read_as = f"gauge {gauge:g} of {full} at {units.words(row.temperature_c, '°C', 'g')}, {inside}, real gas"
    return (float(now), float(spread), HowRead.GAUGE, read_as), []


def _by_weight(on: _OnRack) -> tuple[_Reading | None, list[Problem]]:
    """Return what is in a cylinder of fuel gas by its weight."""
    row, place, errors, units = on.row, on.place, on.errors, on.units
    named = {"cylinder": row.cylinder_id, "gas": row.gas}
    not_used = []
    if row.gauge_bar is not None:
        gauge = units.words(row.gauge_bar, "bar", "g")
        if row.gross_kg is None and row.left_share is None:
            return None, [say.BY_PRESSURE.at(place, found=gauge, **named)]
        not_used = [say.PRESSURE_NOT_USED.at(place, found=gauge, **named)]
    if row.gross_kg is None:
        reading, said = _without_reading(on)
        return reading, [*not_used, *said]
    if row.tare_kg is None:
        gross = units.words(row.gross_kg, "kg", "g")
        return None, [*not_used, say.TARE_MISSING.at(place, found=gross, **named)]
    density = reference.gas_density_kg_m3(row.gas, HOUSE_STATE)
    now = float(content_from_weight_m3(row.gross_kg, row.tare_kg, density_kg_m3=density))
    spread = weight_reading_error_m3(
        scale_error_kg=errors.scale_kg, tare_error_kg=errors.tare_kg, density_kg_m3=density
    )
    over = max(row.gross_kg - row.tare_kg, 0.0)
    gross, tare = (units.words(mass, "kg", "g") for mass in (row.gross_kg, row.tare_kg))
    read_as = f"{gross} less tare {tare} = {units.words(over, 'kg', '.2f')}"
    if units.gas_unit(row.gas) == units.unit("m³"):
        per = f"{units.number(density, 'kg') / units.gas(1.0, row.gas):.{4 if units.inch else 3}f}"
        read_as += f", at {per} {units.unit('kg')}/{units.unit('m³')}"
    return (now, spread, HowRead.WEIGHT, read_as), not_used


def _without_reading(on: _OnRack) -> tuple[_Reading, list[Problem]]:
    """Return what is taken to be in a cylinder that was only looked at, or not even that."""
    row, place, errors, rated_m3 = on.row, on.place, on.errors, on.rated_m3
    if row.left_share is None:
        reading = (rated_m3, errors.fill_share * rated_m3, HowRead.NOT_READ, "not read: taken as full")
        return reading, [say.NOT_READ.at(place, cylinder=row.cylinder_id)]
    spread = errors.rough_share * rated_m3
    shown = on.units.gas_words(spread, row.gas)
    said = say.ROUGH.at(place, found=f"{row.left_share:.0%}", cylinder=row.cylinder_id, spread=shown)
    return (row.left_share * rated_m3, spread, HowRead.ROUGH, f"about {row.left_share:.0%} full: rough"), [said]


def _rated(row: RackCylinder, size: GasPrice | None) -> tuple[float | None, ReferenceState | None]:
    """Return the rated content [m³ at the house state] and the state in which it was stated."""
    if row.content is not None:
        amount, unit, label = row.content, row.content_unit, row.content_state
    elif size is not None and row.cylinder:
        amount, unit, label = size.content, size.content_unit, size.content_state
    else:
        return None, None
    state = next((s for s in ReferenceState if s.label == label), None)
    return gas_volume_m3(amount, unit=unit, gas=row.gas, state=state), state


def _heel_share(row: RackCylinder, size: GasPrice | None) -> float:
    """Return the cylinder's own heel, its size's, else what practice leaves in."""
    if row.heel_share is not None:
        return row.heel_share
    if size is not None and row.cylinder:
        return size.heel_share
    if row.gas == "oxygen":
        grid, _ = _oxygen()
        full_bar = min(row.full_pressure_bar or 200.0, float(grid.pressure_bar[-1]))
        return float(grid.at(_likely_heel("oxygen"), 15.0) / grid.at(full_bar, 15.0))
    return _likely_heel("acetylene") if row.gas == "acetylene" else 0.0


def _likely_heel(gas: str) -> float:
    return float(reference.table("heels").where(gas=gas).column("likely")[0])


@cache
def _oxygen() -> tuple[DensityGrid, float]:
    return DensityGrid(*reference.oxygen_density_grid()), reference.gas_density_kg_m3("oxygen", HOUSE_STATE)
