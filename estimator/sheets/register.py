"""The register of quotes: one row for each revision and variation that was sent, and one for each line of them.

The owner may type in it, add columns and write beside it; the engine adds rows and changes states.
"""

from __future__ import annotations

from estimator.sheets.choices import FUELS
from estimator.sheets.statement import Column, Kind, Sheet

__all__ = [
    "AGREED",
    "DONE",
    "FIRST_REVISION",
    "LOST",
    "OPEN",
    "QUOTED_LINES",
    "QUOTES",
    "REGISTER_FILE",
    "REPLACED",
    "STATES",
    "WON",
]

REGISTER_FILE = "quotes_register.xlsx"
"""Name of the register in the shop's folder."""

OPEN, WON, DONE, LOST, REPLACED = "open", "won", "done", "lost", "replaced"
STATES = (OPEN, WON, DONE, LOST, REPLACED)
AGREED = (WON, DONE)
"""Won, and won and finished."""
FIRST_REVISION = "A"

_NUMBER = Column(
    "number",
    "Quote",
    Kind.TEXT,
    "the quote's number, as Q-0031",
    "everything sent, won and worked is found by it; no number is given twice",
    "Q-0031",
    required=True,
    wordings=("quote no", "quote number", "number"),
)
_REVISION = Column(
    "revision",
    "Revision",
    Kind.TEXT,
    "a letter",
    "a later revision takes the place of an earlier one that is still open",
    "A",
    default=FIRST_REVISION,
    wordings=("rev",),
)
_VARIATION = Column(
    "variation",
    "Variation",
    Kind.WHOLE,
    "the number of the variation, or blank for the quote itself",
    "extras that were agreed after the quote was won stand in rows of their own",
    "1",
    low=1,
    high=999,
    wordings=("extra", "var"),
)

QUOTES = Sheet(
    name="Quotes",
    purpose="One row for each quote, revision and variation that was sent; change the state when you hear.",
    columns=(
        _NUMBER,
        _REVISION,
        _VARIATION,
        Column(
            "date",
            "Date",
            Kind.DATE,
            "the day of the quote",
            "validity and rates count from it",
            "2026-11-02",
            required=True,
        ),
        Column("customer", "Customer", Kind.TEXT, "who asked", "last prices are found by customer", "Example Works"),
        Column("title", "Job", Kind.TEXT, "what it is for", "you know it again by it", "Base plates"),
        Column(
            "price",
            "Price before tax",
            Kind.MONEY,
            "an amount",
            "what was offered, before tax",
            "1308.00",
            required=True,
            low=0,
        ),
        Column("total", "With tax", Kind.MONEY, "an amount", "what the customer would pay", "1556.52", low=0),
        Column(
            "state",
            "State",
            Kind.CHOICE,
            "open, won, done, lost or replaced",
            "gas is ordered for won work until it is done; the hit rate counts won and done against lost",
            "won",
            choices=STATES,
            default=OPEN,
        ),
        Column("decided_on", "Decided on", Kind.DATE, "the day you heard", "how long quotes take", "2026-11-09"),
        Column("why", "Why", Kind.TEXT, "the reason you were given", "what loses work is seen over time", "too dear"),
        Column(
            "job_number",
            "Job number",
            Kind.TEXT,
            "the number the work is logged under",
            "the log's rows are found by it",
            "J-104",
            wordings=("job no",),
        ),
        Column(
            "work_from",
            "Work from",
            Kind.DATE,
            "the day the work is to begin",
            "gas for won work is ordered by it",
            "2026-11-16",
        ),
        Column(
            "hours",
            "Man-hours",
            Kind.NUMBER,
            "paid hours",
            "set beside the hours that the log comes to",
            "16.3",
            unit="h",
            low=0,
        ),
        Column(
            "oxygen_m3",
            "Oxygen",
            Kind.NUMBER,
            "cubic metres at 15 °C and 1 atm",
            "set beside the gas that the log comes to",
            "7.6",
            unit="m³",
            low=0,
        ),
        Column(
            "fuel",
            "Fuel",
            Kind.CHOICE,
            "the fuel it was priced with",
            "won work is ordered by gas",
            "acetylene",
            choices=FUELS,
        ),
        Column(
            "fuel_m3",
            "Fuel gas",
            Kind.NUMBER,
            "cubic metres at 15 °C and 1 atm",
            "set beside the gas that the log comes to",
            "0.99",
            unit="m³",
            low=0,
        ),
        Column(
            "gas_cost",
            "Gas, cost",
            Kind.MONEY,
            "an amount",
            "what its gas was to cost, set beside the month's bills",
            "65.00",
            low=0,
        ),
        Column("file", "Sent file", Kind.TEXT, "the customer's file", "what was sent can be opened", "Q-0031_A.xlsx"),
        Column(
            "estimate",
            "Estimate kept",
            Kind.TEXT,
            "the copy of the estimate as it was quoted",
            "variations, job cards and gas orders are made from it",
            "Q-0031_A_estimate.xlsx",
        ),
        Column(
            "print",
            "Fingerprint",
            Kind.TEXT,
            "made by the engine",
            "tells whether the same quote is written again or a changed one",
            "3f2a90c41d77",
        ),
    ),
)

QUOTED_LINES = Sheet(
    name="Quoted lines",
    purpose="The lines of every quote as they were sent: for revisions, and for what a mark cost last time.",
    columns=(
        _NUMBER,
        _REVISION,
        _VARIATION,
        Column("mark", "Mark", Kind.TEXT, "the mark on the list", "last prices are found by mark", "P1"),
        Column("description", "Description", Kind.TEXT, "what it is", "you know it again by it", "Base plate"),
        Column(
            "thickness_mm",
            "Thickness",
            Kind.LENGTH,
            "a thickness",
            "a mark of another thickness is another piece",
            "20",
            unit="mm",
            low=0,
        ),
        Column(
            "quantity",
            "Quantity",
            Kind.NUMBER,
            "pieces",
            "price each depends on it",
            "8",
            required=True,
            low=0,
        ),
        Column(
            "price_each",
            "Price each",
            Kind.MONEY,
            "an amount",
            "what one piece was offered at",
            "21.50",
            required=True,
            low=0,
        ),
        Column("amount", "Amount", Kind.MONEY, "an amount", "what the line came to", "172.00", required=True, low=0),
        Column(
            "paid_time_min",
            "Man-minutes",
            Kind.NUMBER,
            "paid minutes of the line",
            "set beside the log",
            "199",
            unit="min",
            low=0,
        ),
    ),
    required=False,
)
