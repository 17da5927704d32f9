"""The shop book: one workbook with the shop's own rates, prices and rules. Its form stands in ``shop_form``."""

from __future__ import annotations

from estimator.sheets.statement import Column, Kind, Sheet
from estimator.words import Fuel

__all__ = [
    "ADD_ONS",
    "BREAKS",
    "COST_CLASSES",
    "CUSTOMERS",
    "FACTORS",
    "GAS_PRICES",
    "GAS_STATES",
    "GAS_UNIT_WORDS",
    "LABOUR",
    "STEEL",
    "WORK_RATES",
]

COST_CLASSES = ("gas", "labour", "consumables", "rent", "steel")
GAS_UNIT_WORDS = ("m3", "ft3", "kg", "lb", "Nm3", "L")
GAS_STATES = (
    "15 °C, 101.325 kPa",
    "15 °C, 1 bar",
    "0 °C, 101.325 kPa",
    "20 °C, 101.325 kPa",
    "60 °F, 1 atm",
    "70 °F, 1 atm",
)
_GASES = ("oxygen", *(fuel.value for fuel in Fuel))
_PERCENT = "a percentage, as 12 % or 0.12"

LABOUR = Sheet(
    name="Labour",
    purpose="What an hour costs you, by name. The rate in force on the job's date is used.",
    columns=(
        Column("name", "Rate", Kind.TEXT, "a name", "lists and jobs name it", "normal", required=True),
        Column(
            "per_hour",
            "Per hour",
            Kind.MONEY,
            "an amount, zero or above",
            "paid time times this",
            "38.00",
            required=True,
            low=0,
        ),
        Column(
            "from_date", "From", Kind.DATE, "the first day it holds", "rates are dated", "2026-01-01", required=True
        ),
        Column(
            "minimum_hours",
            "Minimum hours",
            Kind.NUMBER,
            "hours, for a call-out",
            "a short call-out is charged this",
            "0",
            default=0.0,
            low=0,
            high=24,
            unit="h",
        ),
    ),
)

GAS_PRICES = Sheet(
    name="Gas prices",
    purpose="One row for each cylinder size you buy. Content needs its unit and the state it is stated at.",
    columns=(
        Column("gas", "Gas", Kind.CHOICE, "oxygen or a fuel", "priced by gas", "oxygen", choices=_GASES, required=True),
        Column(
            "cylinder",
            "Cylinder",
            Kind.TEXT,
            "a name for the size",
            "named on the rack and on bills",
            "O-10",
            required=True,
        ),
        Column(
            "content",
            "Content",
            Kind.NUMBER,
            "the full cylinder's content, above zero",
            "price per cubic metre",
            "10",
            required=True,
            low=0.001,
        ),
        Column(
            "content_unit",
            "Unit",
            Kind.CHOICE,
            "m3, ft3, kg, lb, Nm3 or L",
            "mixing units costs 0.4 to 7 %",
            "m3",
            choices=GAS_UNIT_WORDS,
            required=True,
        ),
        Column(
            "content_state",
            "At",
            Kind.CHOICE,
            "temperature and pressure of the volume; blank for kg and lb",
            "mixing states costs 0.4 to 7 %",
            "15 °C, 1 bar",
            choices=GAS_STATES,
        ),
        Column(
            "price",
            "Price",
            Kind.MONEY,
            "price of a full cylinder, zero or above",
            "gas cost",
            "45.00",
            required=True,
            low=0,
        ),
        Column(
            "cylinder_fees",
            "Fees per cylinder",
            Kind.MONEY,
            "fees charged with each cylinder",
            "gas cost",
            "3.00",
            default=0.0,
            low=0,
        ),
        Column(
            "rent_per_month",
            "Rent per month",
            Kind.MONEY,
            "rent of one cylinder a month",
            "rent share",
            "8.00",
            default=0.0,
            low=0,
        ),
        Column(
            "held",
            "Cylinders held",
            Kind.NUMBER,
            "how many you pay rent for",
            "rent share",
            "2",
            default=1.0,
            low=0,
            high=1000,
        ),
        Column(
            "heel_share",
            "Left in at change-over",
            Kind.SHARE,
            _PERCENT + " of the content",
            "gas that goes back unpaid",
            "2 %",
            default=0.0,
            low=0,
            high=0.5,
        ),
        Column(
            "credited_share",
            "Of that credited",
            Kind.SHARE,
            _PERCENT,
            "gas that the supplier pays back",
            "0 %",
            default=0.0,
            low=0,
            high=1,
        ),
        Column("supplier", "Supplier", Kind.TEXT, "a name", "named on bills", "Supplier A"),
        Column(
            "from_date",
            "From",
            Kind.DATE,
            "the first day the price holds",
            "prices are dated",
            "2026-01-01",
            required=True,
        ),
        Column(
            "in_use",
            "In use",
            Kind.FLAG,
            "yes for the size that jobs are costed with",
            "one size a gas",
            "yes",
            default=True,
        ),
    ),
)

STEEL = Sheet(
    name="Steel",
    purpose="What steel costs, by thickness. A row without a thickness holds for all the others.",
    required=False,
    columns=(
        Column(
            "thickness_mm",
            "Thickness",
            Kind.LENGTH,
            "a thickness, or blank for any",
            "steel price",
            "12",
            unit="mm",
            low=0.5,
            high=500,
        ),
        Column(
            "price_per_kg",
            "Price per kg",
            Kind.MONEY,
            "an amount, zero or above",
            "steel cost",
            "1.20",
            required=True,
            low=0,
        ),
        Column(
            "scrap_per_kg",
            "Scrap per kg",
            Kind.MONEY,
            "an amount, zero or above",
            "credit for what is left",
            "0.20",
            default=0.0,
            low=0,
        ),
        Column(
            "left_over_share",
            "Left over",
            Kind.SHARE,
            _PERCENT + " of the plate bought",
            "plate bought = piece / (1 - left over)",
            "15 %",
            default=0.15,
            low=0,
            high=0.9,
        ),
        Column("plate_length_mm", "Plate length", Kind.LENGTH, "a length", "plates to buy", "2500", unit="mm"),
        Column("plate_width_mm", "Plate width", Kind.LENGTH, "a length", "plates to buy", "1250", unit="mm"),
        Column(
            "from_date",
            "From",
            Kind.DATE,
            "the first day the price holds",
            "prices are dated",
            "2026-01-01",
            required=True,
        ),
    ),
)

BREAKS = Sheet(
    name="Quantity breaks",
    purpose="Percent off a line by the total quantity of its mark.",
    required=False,
    columns=(
        Column(
            "from_quantity",
            "From quantity",
            Kind.WHOLE,
            "a whole number",
            "on the mark's total quantity",
            "50",
            required=True,
            low=2,
        ),
        Column(
            "off_share", "Off", Kind.SHARE, _PERCENT, "off the line's amount", "5 %", required=True, low=0, high=0.9
        ),
    ),
)

ADD_ONS = Sheet(
    name="Add-ons",
    purpose="Percent added to a class of direct cost, all on one base, never on each other.",
    required=False,
    columns=(
        Column("name", "Name", Kind.TEXT, "a name", "shown in the build-up", "gas handling", required=True),
        Column(
            "cost_class",
            "On",
            Kind.CHOICE,
            ", ".join(COST_CLASSES),
            "its base",
            "gas",
            choices=COST_CLASSES,
            required=True,
        ),
        Column("share", "Percent", Kind.SHARE, _PERCENT, "of the base", "5 %", required=True, low=0, high=5),
    ),
)

FACTORS = Sheet(
    name="Own factors",
    purpose="What your logged work says against the handbook; 1 means as the handbook. Written by calibrate.",
    required=False,
    columns=(
        Column(
            "what",
            "What",
            Kind.CHOICE,
            "one of the listed quantities",
            "the factor multiplies it",
            "travel speed",
            choices=(
                "travel speed",
                "cutting oxygen",
                "preheat oxygen",
                "fuel",
                "start time",
                "layout",
                "handling",
                "cleaning",
                "paid hours",
                "one job's hours",
            ),
            required=True,
        ),
        Column("tip", "Tip", Kind.TEXT, "a tip of the tips sheet; blank for all", "factors are by tip", "1.6"),
        Column(
            "by",
            "By",
            Kind.CHOICE,
            "hand or machine; blank for both",
            "speeds differ",
            "hand",
            choices=("hand", "machine"),
        ),
        Column(
            "value",
            "Value",
            Kind.NUMBER,
            "a number above zero",
            "likely value",
            "0.93",
            required=True,
            low=0.05,
            high=20,
        ),
        Column("low", "Low", Kind.NUMBER, "nine times in ten above it", "how sure it is", "0.88", low=0.05, high=20),
        Column("high", "High", Kind.NUMBER, "nine times in ten below it", "how sure it is", "0.99", low=0.05, high=20),
        Column("jobs", "Jobs", Kind.WHOLE, "a count", "how many jobs it rests on", "8", default=0.0, low=0),
        Column("measured", "Measured", Kind.DATE, "a date", "old factors fade", "2026-10-31"),
    ),
)

CUSTOMERS = Sheet(
    name="Customers",
    purpose="What you agreed with a customer, and how their lists are laid out.",
    required=False,
    columns=(
        Column(
            "customer",
            "Customer",
            Kind.TEXT,
            "the name as their lists give it",
            "finds this row",
            "Invented Ltd",
            required=True,
        ),
        Column(
            "columns",
            "Columns of their list",
            Kind.TEXT,
            "as thickness=D, length=F",
            "reads their lists",
            "thickness=D, length=F",
        ),
        Column("units", "Their units", Kind.CHOICE, "mm or in", "for bare numbers", "mm", choices=("mm", "in")),
        Column("discount", "Discount", Kind.SHARE, _PERCENT, "instead of the shop's", "5 %", low=0, high=0.9),
    ),
)

WORK_RATES = Sheet(
    name="Work rates",
    purpose="Every number of the model that is not measured: likely, and nine times in ten between low and high.",
    required=False,
    columns=(
        Column(
            "name", "Name", Kind.TEXT, "one of the listed names", "the engine's name for it", "move_min", required=True
        ),
        Column("heading", "What", Kind.TEXT, "words", "for reading", "Move to the next start"),
        Column(
            "likely",
            "Likely",
            Kind.NUMBER,
            "a number, zero or above",
            "used by every estimate",
            "0.25",
            required=True,
            low=0,
        ),
        Column("low", "Low", Kind.NUMBER, "a number", "the range of the price", "0.1", low=0),
        Column("high", "High", Kind.NUMBER, "a number", "the range of the price", "0.6", low=0),
        Column("unit", "Unit", Kind.TEXT, "words", "for reading", "min per start"),
        Column("status", "Status", Kind.TEXT, "words", "how far to trust it", "judgement"),
        Column("why", "Why it matters", Kind.TEXT, "words", "for reading", "the flame burns between starts"),
    ),
)
