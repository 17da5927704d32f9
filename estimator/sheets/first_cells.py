"""The shop book's first sheet: what is enough for a first price, in one run; what can wait is a list of links."""

from __future__ import annotations

from dataclasses import dataclass

from estimator.sheets.choices import FUELS
from estimator.sheets.outfit import OUTFIT
from estimator.sheets.rack import RACK
from estimator.sheets.shop_form import SHOP
from estimator.sheets.shop_prices import GAS_PRICES, LABOUR, STEEL
from estimator.sheets.shop_rules import WORK_RATES
from estimator.sheets.statement import Column, Kind, Layout, Sheet
from estimator.sheets.torch import OWN_CHART, TIPS
from estimator.words import Steel

__all__ = ["LATER", "NEEDED_FIRST", "START", "USUAL_FLAME_HOURS", "Later"]

USUAL_FLAME_HOURS = 40.0
"""Hours of burning a month where none are typed: a quarter of one man's month. Common practice, no source."""

_PRICE = "the price of a full one, as 45.00; or by amount, with its unit"
_RENT = "for one bottle; blank for none"
_CONTENT = "a number here and its unit in the next cell; or both here, as {examples}"


def _bottle(gas: str, name: str, content: str, examples: str) -> tuple[Column, Column, Column]:
    return (
        Column(
            f"{name}_content",
            f"{gas}: content of a full bottle",
            Kind.GAS,
            _CONTENT.format(examples=examples),
            "the gas of a job is counted in bottles",
            content,
            unit="m³",
        ),
        Column(f"{name}_price", f"{gas}: price of a full bottle", Kind.GAS_PRICE, _PRICE, "what gas costs", "45.00"),
        Column(
            f"{name}_rent", f"{gas}: bottle rental a month", Kind.MONEY, _RENT, "shared over the month", "8.00", low=0
        ),
    )


START = Sheet(
    name="Start here",
    purpose="Start here: enough for a first price",
    layout=Layout.FORM,
    required=False,
    columns=(
        Column(
            "currency",
            "Currency",
            Kind.TEXT,
            "its three letters, as USD",
            "printed beside every amount; blank prints XTS, which is nobody's money",
            "USD",
        ),
        Column(
            "labour_per_hour",
            "Cost of an hour of work",
            Kind.MONEY,
            "your cost: the wage and all that comes on top of it; markup is added. If you know only what you charge an "
            "hour, type that, and 0 % markup: gas and steel are then charged at cost",
            "hours are nearly all of a price",
            "38.00",
            low=0,
        ),
        Column(
            "markup",
            "Markup on cost",
            Kind.SHARE,
            "with its percent sign, as 25 %; a margin is typed on the sheet Shop instead",
            "price = cost x (1 + markup)",
            "25 %",
            low=0,
            high=10,
        ),
        *_bottle("Oxygen", "oxygen", "10 m3", "281 ft3, 10 m3 at 15 °C, 1 bar"),
        Column(
            "fuel",
            "Fuel gas",
            Kind.CHOICE,
            "the one you cut with; blank for acetylene",
            "speeds and flows depend on it",
            "acetylene",
            choices=FUELS,
        ),
        *_bottle("Fuel", "fuel", "8 kg", "8 kg, 40 lb, 145 ft3"),
        Column(
            "planned_flame_hours",
            "Hours of burning a month",
            Kind.NUMBER,
            f"roughly, with the torch lit; blank for {USUAL_FLAME_HOURS:g}",
            "bottle rental is shared over them",
            "60",
            unit="h",
            low=0.1,
            high=2000,
        ),
        Column(
            "steel_when_silent",
            "Steel when a list does not say",
            Kind.CHOICE,
            "ours (in the price), theirs, excluded, or ask; blank asks each time",
            "steel is often half the price",
            "ours",
            choices=(*Steel.words(), "ask"),
        ),
        Column(
            "steel_price",
            "Price of plate",
            Kind.MONEY,
            "before markup; blank when the steel is never yours",
            "added where the steel is ours",
            "1.20",
            unit="per kg",
            low=0,
        ),
        Column(
            "from_date",
            "Prices hold from",
            Kind.DATE,
            "the first day on which they are right; blank: whatever the day of the job",
            "a job is priced with what holds on its day",
            "2026-01-01",
        ),
    ),
)

NEEDED_FIRST = (
    "labour_per_hour",
    "oxygen_content",
    "oxygen_price",
    "fuel_content",
    "fuel_price",
)
"""House names without which nothing is priced, unless the sheets behind them are filled in."""


@dataclass(frozen=True, slots=True)
class Later:
    """One thing that can wait, and the sheet that holds it."""

    what: str
    sheet: Sheet
    name: str
    """House name of the column or row to go to."""


LATER = (
    Later("Tips: delete those you do not have; type over the size stamped on yours, and its fuel", TIPS, "name"),
    Later("What stands on a quote: your shop's name, payment, tax, how long it is valid", SHOP, "shop_name"),
    Later("Overhead, smallest charge, rounding", SHOP, "overhead_per_hour"),
    Later("Overtime, Saturday, call-out", LABOUR, "name"),
    Later("More bottle sizes, fees, new prices: a row with a later day takes over from here", GAS_PRICES, "gas"),
    Later("Steel by thickness, plate sizes, what is left over", STEEL, "thickness_mm"),
    Later("The bottles that stand in the shop now: will they finish a job?", RACK, "cylinder_id"),
    Later("Your torch's own chart, from its manual: it comes before the built-in one", OWN_CHART, "tip"),
    Later("Minutes of marking out, setting, handling, cleaning", WORK_RATES, "likely"),
    Later("Regulators, hoses, arrestors", OUTFIT, "item"),
)
"""In the order in which they are worth the time."""
