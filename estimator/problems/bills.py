"""Problems of the bills workbook (6xx): what keeps a bill from being checked. A fault of a bill is a finding."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "AGREED_STATE_MISSING",
    "BILL_UNKNOWN",
    "COUNT_MISSING",
    "COUNT_ONLY_ONE",
    "CURRENCY_OTHER",
    "NO_BILL",
    "NO_DELIVERIES",
    "NO_PRICES",
    "NO_RENT_RULE",
    "NO_TERMS",
    "PERIOD_BACKWARD",
    "SIZE_UNKNOWN",
    "STATE_MISSING",
    "SUPPLIER_MISSING",
    "SUPPLIER_UNKNOWN",
    "TOTAL_SIGN",
]

NO_BILL = ProblemCode(
    "E601",
    Level.ERROR,
    "the workbook holds no bill",
    needs="at least one row on the sheet 'Bills'",
    why="there is nothing to check",
    do="type the bills of the month on the sheet 'Bills' and their lines on 'Bill lines'",
)
BILL_UNKNOWN = ProblemCode(
    "E602",
    Level.ERROR,
    "the line belongs to a bill that is not on the sheet 'Bills'",
    needs="a bill number that stands on the sheet 'Bills', spelt the same",
    why="a line without its bill is in no total",
    do="correct the number in {place}, or add the bill to the sheet 'Bills'{near}",
)
SUPPLIER_MISSING = ProblemCode(
    "E603",
    Level.ERROR,
    "the supplier is blank, and the workbook holds several",
    needs="one of: {suppliers}",
    why="two suppliers' bills, prices and cylinders are kept apart",
    do="type the supplier in {place}",
)
SUPPLIER_UNKNOWN = ProblemCode(
    "W604",
    Level.WARNING,
    "the supplier sends no bill in this workbook",
    needs="one of: {suppliers}",
    why="the row is used for nothing",
    do="correct the name in {place}, or leave the row as it is if that supplier sent no bill",
    concern=Concern.TAKEN,
)
CURRENCY_OTHER = ProblemCode(
    "E605",
    Level.ERROR,
    "the bill is in another currency than the others",
    needs="bills in {currency} only",
    why="amounts in two currencies cannot be added, and the rate of the day is not known here",
    do="put the bill into a workbook of its own, or type its amounts in {currency} and clear {place}",
)
PERIOD_BACKWARD = ProblemCode(
    "E606",
    Level.ERROR,
    "the bill's period ends before it begins",
    needs="a last day on or after the first, {first}",
    why="rent is counted over the period's days",
    do="correct the dates of the period in {place}",
)
AGREED_STATE_MISSING = ProblemCode(
    "E607",
    Level.ERROR,
    "an agreed gas volume stands without its reference state",
    needs="the temperature and pressure it is stated at, as m³ (15 °C, 1 bar), Nm³, ft³ (70 °F, 1 atm)",
    why="the same number at another state is 0.4 to 7 % more or less gas",
    do="type the state in {place} as the supplier's price list gives it, or ask the supplier",
)
STATE_MISSING = ProblemCode(
    "W608",
    Level.WARNING,
    "a gas volume stands without its reference state",
    needs="the temperature and pressure the volume is stated at, as m³ (15 °C, 1 bar), Nm³, ft³ (70 °F, 1 atm)",
    why="the same number at another state is 0.4 to 7 % more or less gas; it was read as {state}",
    do="type the state in {place} as the supplier's price list gives it",
)
TOTAL_SIGN = ProblemCode(
    "E609",
    Level.ERROR,
    "a credit note asks for money",
    needs="a total of zero or below for a credit note",
    why="a credit typed above zero would be added to what is owed",
    do="type the amounts of the credit note below zero from {place} on, or call it a bill",
)
SIZE_UNKNOWN = ProblemCode(
    "W610",
    Level.WARNING,
    "the content of this cylinder size is not known",
    needs="the content of {gas} {size}, on the sheet 'Agreed prices' or in the shop book",
    why="without it the line cannot be turned into an amount of gas, and the gas balance leaves it out",
    do="type the content beside the price of {gas} {size} on the sheet 'Agreed prices'",
)
NO_DELIVERIES = ProblemCode(
    "W611",
    Level.WARNING,
    "there are no delivery notes",
    needs="one row for each delivery note on the sheet 'Deliveries'",
    why="what was billed was not set beside what came, and rent was not checked",
    do="type the notes: number, date, full ones in, empty ones out",
)
COUNT_MISSING = ProblemCode(
    "W612",
    Level.WARNING,
    "no count of {gas} {size} reaches these days",
    needs="a count on the sheet 'Cylinder counts'",
    why="rent and the cylinder balance of this size were not checked",
    do="count the rack once and type the count with its date; the next month can then be checked",
)
COUNT_ONLY_ONE = ProblemCode(
    "W613",
    Level.WARNING,
    "{gas} was counted fewer than twice",
    needs="a count before and a count after the month",
    why="what was used is worked out from two counts, so the gas was not balanced",
    do="type the count at the other end of the month on the sheet 'Cylinder counts'",
)
NO_PRICES = ProblemCode(
    "W614",
    Level.WARNING,
    "no price was agreed for {what} on {date}",
    needs="a row on the sheet 'Agreed prices' that is in force on that day",
    why="the price on this line was not checked",
    do="type what was agreed, with the day it holds from",
    concern=Concern.TAKEN,
)
NO_TERMS = ProblemCode(
    "N615",
    Level.NOTE,
    "the terms of {supplier} are not typed",
    needs="a row on the sheet 'Supplier terms'",
    why="tax, rent and the days left to object were not checked; lines are taken as rounded to the smallest coin",
    do="type the days to object, the tax rate and the rent rule once; they serve every month",
)
NO_RENT_RULE = ProblemCode(
    "W616",
    Level.WARNING,
    "rent is billed, but no rent rule is typed for {supplier}",
    needs="a rent rule on the sheet 'Supplier terms' and the rent of {gas} {size} on 'Agreed prices'",
    why="rent can only be checked when it is known how days and cylinders are counted",
    do="type the rule that stands in the supplier's conditions",
    concern=Concern.MISSING,
)
