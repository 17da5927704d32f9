"""What an owner typed on the shop book's first sheet, as rows of the sheets behind it."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from estimator import reference
from estimator.check.shop_book import ALWAYS, GasPrice, LabourRate, SteelPrice
from estimator.problems import Problem
from estimator.problems import own_sheets as said
from estimator.problems import shop_book as say
from estimator.read.gas_text import GasText, gas_unit_of, read_gas_text
from estimator.read.number_text import AmbiguousNumberError, read_number_text, without_currency_sign
from estimator.read.own_sheets import OwnRow, OwnSheet
from estimator.sheets.choices import WHOLE_BOTTLE_WORDS
from estimator.sheets.first_cells import NEEDED_FIRST, START
from estimator.shop_units import assumed_state
from estimator.units import FACTORS, gas_amount, gas_mass_kg
from estimator.words import Fuel

__all__ = ["FORM_NAMES", "FirstFigures", "first_figures"]

FORM_NAMES = ("currency", "markup", "fuel", "planned_flame_hours", "steel_when_silent")
"""House names that the first sheet shares with the form of the shop."""
_LIQUEFIED = frozenset({Fuel.PROPANE, Fuel.PROPYLENE, Fuel.MPS})
"""Fuels that stand in their cylinder as a liquid, and are sold by weight."""
_BY_AMOUNT = re.compile(r"(.*?\d)\s*(?:per|/|a)\s*(\D.*|\d+ ?\D.*)", re.IGNORECASE)
_FOR_ONE = re.compile(r"(.*?\d)\s*(each|ea)\.?", re.IGNORECASE)


@dataclass(slots=True)
class FirstFigures:
    """The first sheet, read."""

    row: OwnRow | None = None
    """Its cells; None where the book has no such sheet."""
    form: dict[str, Any] = field(default_factory=dict)
    """What was typed of the shop's form."""
    labour: list[LabourRate] = field(default_factory=list)
    gas_prices: list[GasPrice] = field(default_factory=list)
    steel: list[SteelPrice] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def blanks(self, filled: Mapping[str, bool]) -> list[Problem]:
        """Return a problem for each needed cell that is blank though no sheet behind it is filled.

        ``filled`` says it by house name, for those that another sheet may hold.
        """
        if self.row is None:
            return []
        return [
            _blank(self.row, name)
            for name in NEEDED_FIRST
            if name in self.row.defaulted and not filled[name] and not self._said(name)
        ]

    def _said(self, name: str) -> bool:
        return self.row is not None and any(problem.place == self.row.place(name) for problem in self.problems)


def first_figures(read: OwnSheet, *, fuel: str) -> FirstFigures:
    """Return what the first sheet holds as rows of the sheets behind it.

    Parameters
    ----------
    read : OwnSheet
        The first sheet, read by its statement.
    fuel : str
        Fuel of the shop's form where the first sheet leaves it blank.

    Returns
    -------
    FirstFigures

    Notes
    -----
    A bottle needs its content and its price; one without the other is a problem. Source: definition.
    """
    if not read.rows:
        return FirstFigures()
    row = read.rows[0]
    found = FirstFigures(row, problems=list(read.problems))
    typed = {name: value for name, value in row.values.items() if value is not None}
    found.form = {name: typed[name] for name in FORM_NAMES if name in typed}
    since = typed.get("from_date", ALWAYS)
    if "labour_per_hour" in typed:
        found.labour = [LabourRate(name="normal", per_hour=typed["labour_per_hour"], from_date=since)]
    if "steel_price" in typed:
        found.steel = [SteelPrice(price_per_kg=typed["steel_price"], from_date=since)]
    for name, gas in (("oxygen", "oxygen"), ("fuel", typed.get("fuel", fuel))):
        bottle, problems = _bottle(row, name, gas, since)
        found.gas_prices += bottle
        found.problems += problems
    return found


def _bottle(row: OwnRow, name: str, gas: str, since: dt.date) -> tuple[list[GasPrice], list[Problem]]:
    typed = row.values[f"{name}_content"]
    number, unit, refused = _price(row, name)
    if typed is None or number is None:
        return [], [*_lacking(row, name), *refused]
    holds, problems = _content(row, name, gas)
    as_typed = read_gas_text(typed)
    bottle = GasPrice(
        gas=gas,
        cylinder=f"{as_typed.amount:g} {as_typed.unit}",
        content=holds.amount,
        content_unit=holds.unit,
        content_state=holds.state.label if holds.state and holds.unit != "Nm3" else None,
        price=_price_each(number, unit, holds, gas),
        rent_per_month=row.values[f"{name}_rent"] or 0.0,
        from_date=since,
    )
    return [bottle], problems


def _content(row: OwnRow, name: str, gas: str) -> tuple[GasText, list[Problem]]:
    """Return what a full bottle holds, in a unit of the sheet of gas prices, with a warning for all that was taken."""
    place, typed = row.place(f"{name}_content"), row.values[f"{name}_content"]
    holds = _base(read_gas_text(typed))
    if gas == Fuel.PROPANE and holds.unit == "L":
        weighed = GasText(round(holds.amount * _liquid_propane_kg_l(), 3), "kg", None)
        return weighed, [say.LIQUID_LITRES.at(place, found=typed, gas=gas, mass=f"{weighed.amount:.4g} kg")]
    if holds.state or not (state := assumed_state(holds.unit)):
        return holds, []
    problems = [say.STATE_MISSING.at(place, found=typed, state=state.label, how="type it behind the amount in")]
    holds = replace(holds, state=state)
    if gas in _LIQUEFIED and holds.unit in ("ft3", "L"):
        mass_kg = gas_mass_kg(holds.amount, unit=holds.unit, gas=gas, state=state)
        mass = f"{mass_kg:.3g} kg ({mass_kg / FACTORS['mass_kg']['lb']:.3g} lb)"
        problems.append(say.LIQUEFIED_BY_VOLUME.at(place, found=typed, gas=gas, mass=mass, content=typed))
    return holds, problems


def _lacking(row: OwnRow, name: str) -> list[Problem]:
    """Return the problem of a bottle of which one of content and price is blank; one that was refused is not blank."""
    blank = [part for part in (f"{name}_content", f"{name}_price") if part in row.defaulted]
    return [_blank(row, part) for part in blank] if len(blank) == 1 else []


def _base(holds: GasText) -> GasText:
    """Return an amount in a unit that the sheet of gas prices holds."""
    hundreds = {"100 ft3": 100.0, "1000 ft3": 1000.0}
    if holds.unit in hundreds:
        return replace(holds, amount=holds.amount * hundreds[holds.unit], unit="ft3")
    return replace(holds, amount=holds.amount / 1000.0, unit="kg") if holds.unit == "g" else holds


def _price(row: OwnRow, name: str) -> tuple[float | None, str, list[Problem]]:
    """Return a price and the unit that it is for, empty for a full bottle; None with its problem where it is none."""
    typed = row.values[f"{name}_price"]
    if typed is None:
        return None, "", []
    try:
        return *_price_and_unit(without_currency_sign(typed, row.values["currency"] or "")), []
    except ValueError as error:
        stated = START.column(f"{name}_price")
        fields = {"heading": stated.heading, "kind": "a price", "needs": stated.needs, "why": stated.why}
        return None, "", [said.CELL_NOT_KIND.at(row.place(stated.name), found=typed, reason=f": {error}", **fields)]


def _price_and_unit(text: str) -> tuple[float, str]:
    by_amount = _BY_AMOUNT.fullmatch(text) or _FOR_ONE.fullmatch(text)
    try:
        number = read_number_text(by_amount[1] if by_amount else text)
    except AmbiguousNumberError as two:
        raise ValueError(f"it can be read as {two.readings[0]:g} or as {two.readings[1]:g}") from None
    if by_amount is None or by_amount[2].casefold() in WHOLE_BOTTLE_WORDS:
        return number, ""
    if not (unit := gas_unit_of(by_amount[2])):
        raise ValueError(f"{by_amount[2]!r} is no unit that gas is sold in")
    return number, unit


def _price_each(number: float, unit: str, holds: GasText, gas: str) -> float:
    """Return the price of a full bottle, from that or from a price by amount."""
    if not unit:
        return number
    content_m3 = holds.volume_m3(gas)
    if gas == Fuel.PROPANE and unit == "L":
        return number * gas_amount(content_m3, unit="kg", gas=gas, state=None) / _liquid_propane_kg_l()
    return number * gas_amount(content_m3, unit=unit, gas=gas, state=assumed_state(unit))


def _liquid_propane_kg_l() -> float:
    """Return what a litre of liquid propane weighs at 15 °C."""
    rows = reference.table("propane_saturation").where(temperature_c=15.0)
    return float(rows.column("liquid_density_kg_m3")[0]) / 1000.0


def _blank(row: OwnRow, name: str) -> Problem:
    stated, place = START.column(name), row.place(name)
    return said.CELL_BLANK.at(place, found="", heading=stated.heading, needs=stated.needs, why=stated.why)
