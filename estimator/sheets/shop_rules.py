"""What the shop's prices follow beside the form: breaks, add-ons, customers, its own factors and rates of work."""

from __future__ import annotations

from estimator.sheets.choices import COST_CLASSES, PERCENT
from estimator.sheets.statement import Column, Kind, Sheet
from estimator.words import OwnFactor

__all__ = ["ADD_ONS", "BREAKS", "CUSTOMERS", "FACTORS", "WORK_RATES"]

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
        Column("off_share", "Off", Kind.SHARE, PERCENT, "off the line's amount", "5 %", required=True, low=0, high=0.9),
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
        Column("share", "Percent", Kind.SHARE, PERCENT, "of the base", "5 %", required=True, low=0, high=5),
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
            str(OwnFactor.SPEED),
            choices=tuple(str(factor) for factor in OwnFactor),
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
        Column("discount", "Discount", Kind.SHARE, PERCENT, "instead of the shop's", "5 %", low=0, high=0.9),
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
