"""Problems of price lists and of the use they are compared on (5xx)."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "CURRENCY_OTHER",
    "FEE_AMOUNT",
    "FREE_DAYS_RULE",
    "GAS_NOT_OFFERED",
    "IN_FORCE_TWICE",
    "LIST_NOT_WORKED",
    "LOG_EMPTY",
    "LOG_ROWS_LEFT_OUT",
    "NOTHING_OFFERED",
    "NOT_IN_FORCE",
    "NO_CONTENT",
    "NO_DATE",
    "NO_LABOUR_RATE",
    "NO_ROOM",
    "NO_SPREAD_YEARS",
    "NO_STATE",
    "NO_TAX_RATE",
    "NO_UNIT",
    "NO_USE",
    "PIPED_PER_CYLINDER",
    "PRICE_OUT_OF_LINE",
    "RENT_SILENT",
    "RENT_WITHOUT_RATE",
    "RENT_WITHOUT_RULE",
    "STATE_AGAINST_UNIT",
    "STATE_TAKEN",
    "SUPPLIER_WITHOUT_OFFER",
    "TERMS_MISSING",
    "TERMS_TWICE",
    "UNIT_TAKEN",
    "USE_OUT_OF_ORDER",
    "USE_TWICE",
]

_WHY_STATE = "the same number of cubic metres or feet in another reference state is 0.4 to 7 % of other gas"
_WHERE_DEFAULT = "give a default on the sheet 'Comparison'"

NO_UNIT = ProblemCode(
    "E501",
    Level.ERROR,
    "the amount of gas has no unit",
    needs="a unit: m3, ft3, kg, lb, Nm3 or L",
    why="the same number in another unit is other gas: 10 m³ are 353 ft³",
    do="choose the unit in {place} as the list prints it, ask the supplier, or " + _WHERE_DEFAULT,
)
UNIT_TAKEN = ProblemCode(
    "W502",
    Level.WARNING,
    "the amount of gas has no unit; the default of the sheet 'Comparison' was taken: {unit}",
    why="the same number in another unit is other gas: 10 m³ are 353 ft³",
    do="choose the unit in {place} when the list prints it",
)
NO_STATE = ProblemCode(
    "E503",
    Level.ERROR,
    "the volume of gas has no reference state",
    needs="the temperature and pressure it is stated at, as '15 °C, 1 bar' or '70 °F, 1 atm'",
    why=_WHY_STATE,
    do="choose it in {place}, ask the supplier, or " + _WHERE_DEFAULT,
)
STATE_TAKEN = ProblemCode(
    "W504",
    Level.WARNING,
    "the volume of gas has no reference state; the default of the sheet 'Comparison' was taken: {state}",
    why=_WHY_STATE,
    do="choose it in {place} when the supplier has said it",
)
STATE_AGAINST_UNIT = ProblemCode(
    "E505",
    Level.ERROR,
    "the unit and the reference state contradict each other",
    needs="for {unit}: {own}, or a blank",
    why=_WHY_STATE,
    do="correct the state in {place}, or the unit beside it",
)
NO_CONTENT = ProblemCode(
    "E506",
    Level.ERROR,
    "the cylinder's content is blank",
    needs="what a full cylinder holds, with its unit and reference state",
    why="a price for a cylinder means nothing without it",
    do="type the content in {place}, or yes under 'By pipe' for gas from a meter",
)
PIPED_PER_CYLINDER = ProblemCode(
    "E507",
    Level.ERROR,
    "gas by pipe is priced per cylinder",
    needs="a price per m3, 100 ft3, kg or another amount",
    why="gas from a meter has no cylinder to count",
    do="choose the amount that the price is for in {place}",
)
RENT_WITHOUT_RATE = ProblemCode(
    "E508",
    Level.ERROR,
    "a rent rule stands there without a rate",
    needs="rent of one cylinder for a day, month, year or lease, as the rule says; 0 when it is free",
    why="rent runs whether gas is used or not",
    do="type the rate in {place}, or choose 'no rent'",
)
RENT_WITHOUT_RULE = ProblemCode(
    "E509",
    Level.ERROR,
    "a rent stands there without its rule",
    needs="how rent is counted: {rules}",
    why="the same rate counted by the day, the month or the year is another rent",
    do="choose the rule in {place}",
)
RENT_SILENT = ProblemCode(
    "W510",
    Level.WARNING,
    "the offer says nothing about rent; it is compared as if there were none",
    why="rent is often as much as the gas",
    do="ask the supplier, then fill in {place}; choose 'no rent' when that is the answer",
)
FREE_DAYS_RULE = ProblemCode(
    "E511",
    Level.ERROR,
    "free days stand beside a rent that is not counted by the day",
    needs="the rule 'daily on balance', or no free days",
    why="free days shorten a rent that is counted by the day; by the month it is not said what they do",
    do="ask the supplier how they count, then correct {place}",
)
NO_SPREAD_YEARS = ProblemCode(
    "E512",
    Level.ERROR,
    "a payment for several years has no number of years",
    needs="the years of the lease, or over which you spread a bought cylinder or a kept deposit",
    why="it is compared by the month",
    do="type the years in {place}",
)
IN_FORCE_TWICE = ProblemCode(
    "E513",
    Level.ERROR,
    "two offers of one cylinder are in force on {date}",
    needs="one offer in force for each supplier, gas and cylinder; the other stands in {other}",
    why="it is not clear which price holds",
    do="correct the dates or the cylinder's name in {place}",
)
NOT_IN_FORCE = ProblemCode(
    "N514",
    Level.NOTE,
    "the offer is not in force on {date} and was left out",
    why="the prices in force are compared",
    concern=Concern.FORM,
)
NOTHING_OFFERED = ProblemCode(
    "E515",
    Level.ERROR,
    "no offer is in force on {date}",
    needs="at least one offer that holds on that day",
    why="there is nothing to compare",
    do="add offers on the sheet 'Offers', or give another date",
)
GAS_NOT_OFFERED = ProblemCode(
    "E516",
    Level.ERROR,
    "nobody offers {gas} on {date}",
    needs="an offer of {gas} that holds on that day",
    why="a month's gas without it is not the whole month",
    do="add an offer of {gas}, or take {gas} off the use that is compared",
)
CURRENCY_OTHER = ProblemCode(
    "E517",
    Level.ERROR,
    "the supplier's prices are in another currency",
    needs="prices in {currency}",
    why="amounts in two currencies cannot be compared, and the rate of the day is not known here",
    do="turn its prices into {currency} at a rate you name in the note, and correct {place}",
)
TERMS_MISSING = ProblemCode(
    "W518",
    Level.WARNING,
    "the supplier '{supplier}' has no row on the sheet 'Terms'",
    needs="its lead time, deliveries, minimum order and invoices",
    why="without it the supplier is compared as if it came at once, four times a month, with no minimum order",
    do="add a row for '{supplier}' on the sheet 'Terms'; leave blank what its offer does not say",
    concern=Concern.MISSING,
)
TERMS_TWICE = ProblemCode(
    "E519",
    Level.ERROR,
    "the supplier has two rows of terms",
    needs="one row for each supplier",
    why="it is not clear which terms hold",
    do="clear one of the two rows; the first stands in {other}",
)
SUPPLIER_WITHOUT_OFFER = ProblemCode(
    "W520",
    Level.WARNING,
    "the supplier has no offer on the sheet 'Offers'",
    needs="one of: {suppliers}",
    why="the row is used for nothing",
    do="correct the name in {place}{near}, or clear the row",
    concern=Concern.TAKEN,
)
FEE_AMOUNT = ProblemCode(
    "E521",
    Level.ERROR,
    "the fee has no amount, or two",
    needs="a percentage for 'percent of gas', an amount of money for every other fee",
    why="it is added to the month's cost",
    do="fill in {place} and clear the other one",
)
NO_TAX_RATE = ProblemCode(
    "E522",
    Level.ERROR,
    "the prices include tax, and the rate is blank",
    needs="the tax rate, as 20 %",
    why="prices are compared before tax",
    do="type the rate in {place}",
)
PRICE_OUT_OF_LINE = ProblemCode(
    "W523",
    Level.WARNING,
    "a cubic metre costs {times} times what the cheapest offer of {gas} asks",
    why="such a distance is more often a wrong unit, content or price basis than a price",
    do="look at content, unit and 'Per' in this row and in {other}",
)
NO_USE = ProblemCode(
    "E524",
    Level.ERROR,
    "nothing says how much gas is used in a month",
    needs="the sheet 'Monthly use', a work log or a cut list",
    why="the cheapest supplier depends on it",
    do="fill in the sheet 'Monthly use' with one row for each gas, or name a log or a cut list",
)
USE_TWICE = ProblemCode(
    "E525",
    Level.ERROR,
    "the gas has two rows of monthly use",
    needs="one row for each gas",
    why="each gas is bought from one supplier in one size",
    do="add the two amounts in one row; the first stands in {other}",
)
USE_OUT_OF_ORDER = ProblemCode(
    "E526",
    Level.ERROR,
    "slow, usual and busy month are out of order",
    needs="slow month not above the usual, busy month not below it",
    why="the reserve is kept for the busy month",
    do="correct {place}",
)
NO_ROOM = ProblemCode(
    "E527",
    Level.ERROR,
    "no choice of cylinders fits: the fewest of {gas} that may be held are {least}, and there is room for {room}",
    needs="room for {least} cylinders, a larger size, or a smaller draw",
    why="a draw limit decides how many must stand together, and the van swaps one more at least",
    do="look at 'Hardest draw' and 'Room for' on the sheet 'Monthly use', or ask for larger cylinders",
)
NO_DATE = ProblemCode(
    "E528",
    Level.ERROR,
    "no date says which prices are in force",
    needs="a date on the sheet 'Comparison', or --date",
    why="prices and fees are dated; the ones in force are compared",
    do="type a date in 'Prices in force on', or give --date",
)
LOG_EMPTY = ProblemCode(
    "E529",
    Level.ERROR,
    "the work log holds no row of work",
    needs="at least one row with a date, a job and what was done",
    why="a month's use is read off it",
    do="fill in the log, or the sheet 'Monthly use' of the price lists",
)
LOG_ROWS_LEFT_OUT = ProblemCode(
    "W530",
    Level.WARNING,
    "{rows} rows of the work log could not be followed, and their gas is missing from the month",
    needs="thickness and length of a cut, torch-lit minutes of heating and welding, a tip on hand",
    why="less use than there is may favour the wrong supplier",
    do="fill in those rows, or type the month's use on the sheet 'Monthly use'",
    concern=Concern.MISSING,
)
LIST_NOT_WORKED = ProblemCode(
    "E531",
    Level.ERROR,
    "the cut list cannot be worked on {fuel}: {reason}",
    needs="a tip and a chart row for each line",
    why="a month's use is worked out from it",
    do="run the estimate of this list first: it names each line",
)
NO_LABOUR_RATE = ProblemCode(
    "W532",
    Level.WARNING,
    "no labour rate of the shop book is in force on {date}, so fuels were not compared",
    needs="a row on the sheet 'Labour' that has begun",
    why="slower starts cost man-hours",
    do="add the rate, or give another date",
)
