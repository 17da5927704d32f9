"""Problems of the cells of a cut list: what cannot be read, what had to be interpreted, what a torch cannot cut."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "CELL_IS_DATE",
    "CELL_IS_ERROR",
    "CELL_NOT_CALCULATED",
    "CELL_NOT_CHOICE",
    "CELL_NOT_NUMBER",
    "CELL_OUT_OF_BOUNDS",
    "FRACTION_FROM_DATE",
    "FRACTION_UNDER_METRIC",
    "LENGTH_READ_AS",
    "LENGTH_REFUSED",
    "MASS_DIFFERS",
    "MATERIAL_NOT_CUT",
    "QUANTITY_IS_AMOUNT",
    "QUANTITY_MISSING",
    "QUANTITY_READ_AS",
    "QUANTITY_REFUSED",
    "SECTION_CUT_ACROSS",
    "SECTION_NEEDS_THICKNESS",
    "SERIAL_NOT_LENGTH",
    "SHEET_TOO_THIN",
    "SIZES_DISAGREE",
    "SIZE_NOT_CUT",
    "SIZE_READ_AS",
    "SIZE_REFUSED",
    "THICKNESS_IMPLAUSIBLE",
    "TOTAL_DIFFERS",
    "UNIT_NOT_SAID",
]

QUANTITY_MISSING = ProblemCode(
    "E201",
    Level.ERROR,
    fact="the quantity is missing",
    needs="a whole number of pieces, 1 or more, as 8, x6 or 4 ea",
    why="time, gas and price are per piece times this",
    do="type the quantity in {place}, or clear the row if the piece is not wanted",
)

QUANTITY_REFUSED = ProblemCode(
    "E202",
    Level.ERROR,
    fact="{what} is not a whole number: {reason}",
    needs="{needs}",
    why="{why}",
    do="type the number in {place}",
)

LENGTH_REFUSED = ProblemCode(
    "E203",
    Level.ERROR,
    fact="{what} is not a length: {reason}",
    needs="{needs}",
    why="{why}",
    do="type the {what} in {place}, or clear the row if the piece is not wanted",
)

SIZE_REFUSED = ProblemCode(
    "E204",
    Level.ERROR,
    fact="the size cannot be read: {reason}",
    needs="thickness and two sides, as 10x150x300; disc 10x300; ring 10x300x200 or 14 OD x 9 ID; a section by its name",
    why="cut length and thickness follow from it",
    do="write the size out in {place}, or add columns for thickness, length and width",
)

CELL_IS_ERROR = ProblemCode(
    "E205",
    Level.ERROR,
    fact="the {what} is an error value",
    needs="{needs}",
    why="a broken formula in the sender's sheet; what it should have given is not known",
    do="type the value in {place}",
)

CELL_NOT_CALCULATED = ProblemCode(
    "E206",
    Level.ERROR,
    fact="the {what} is a formula whose value was never stored",
    needs="{needs}",
    why="formulas are not followed, only their stored values are read",
    do="open the file in a spreadsheet program and save it, or type the value in {place}",
)

CELL_IS_DATE = ProblemCode(
    "E207",
    Level.ERROR,
    fact="the {what} is a date or a time of day",
    needs="{needs}",
    why="spreadsheet programs turn 3/4, 5.6 and 5m into dates and times as they are typed",
    do="type the value in {place} anew, as text{hint}",
)

CELL_NOT_NUMBER = ProblemCode(
    "E208",
    Level.ERROR,
    fact="the {what} is not a number: {reason}",
    needs="{needs}",
    why="{why}",
    do="type the number in {place}, or clear the cell",
)

CELL_NOT_CHOICE = ProblemCode(
    "E209",
    Level.ERROR,
    fact="the {what} is not a known word",
    needs="{needs}",
    why="{why}",
    do="{hint}",
)

FRACTION_FROM_DATE = ProblemCode(
    "W210",
    Level.WARNING,
    fact="the date is read as the fraction {read_as}",
    needs="a fraction typed as text",
    why="spreadsheet programs turn a typed {fraction} into this date, shown as {shown}",
    do="check {place}",
)

LENGTH_READ_AS = ProblemCode(
    "W211",
    Level.WARNING,
    fact="the {what} is read as {read_as}: {remark}",
    do="check {place}",
)

QUANTITY_READ_AS = ProblemCode(
    "W212",
    Level.WARNING,
    fact="the {what} is read as {read_as}: {remark}",
    do="check {place}",
)

SIZE_READ_AS = ProblemCode(
    "W213",
    Level.WARNING,
    fact="the {what} is read as {read_as}: {remark}",
    do="check {place}",
)

CELL_OUT_OF_BOUNDS = ProblemCode(
    "E214",
    Level.ERROR,
    fact="the {what} is {side}",
    needs="{needs}",
    why="{why}",
    do="correct {place}, or clear the row if the piece is not wanted",
)

SERIAL_NOT_LENGTH = ProblemCode(
    "E215",
    Level.ERROR,
    fact="the {what} is the number of a date, {date}, whose date format was lost",
    needs="{needs}",
    why="spreadsheet programs turn a typed {fraction} into this date",
    do="type the {what} in {place} anew, as text, if it was {fraction}",
)

FRACTION_UNDER_METRIC = ProblemCode(
    "W216",
    Level.WARNING,
    fact="the {what} is read as {read_as}, though the list is in {unit}",
    why="a fraction is a size in inches",
    do="check {place}",
)

UNIT_NOT_SAID = ProblemCode(
    "E217",
    Level.ERROR,
    fact="the {what} has no unit: {reason}",
    needs="{needs}",
    why="a wrong unit makes the price wrong by 25 times",
    do="type the unit in {place} or in the heading",
)

THICKNESS_IMPLAUSIBLE = ProblemCode(
    "E219",
    Level.ERROR,
    fact="a thickness of {thick} in a list of {low} to {high}",
    needs="a thickness that is meant",
    why="a unit may be wrong; tip, speed and gas depend on it",
    do="correct {place}; if it is meant, put this row in a list of its own",
)

SIZES_DISAGREE = ProblemCode(
    "E220",
    Level.ERROR,
    fact="{first} and {second} do not agree",
    needs="one size for one thing",
    why="either would give another price",
    do="correct the row at {place}",
)

QUANTITY_IS_AMOUNT = ProblemCode(
    "E221",
    Level.ERROR,
    fact="the quantity is counted in {unit}, not in pieces",
    needs="a number of pieces",
    why="time, gas and price are per piece",
    do="type the number of pieces in {place}, and its unit as pcs",
)

MASS_DIFFERS = ProblemCode(
    "W222",
    Level.WARNING,
    fact="the row's own mass does not fit its sizes",
    needs="{worked} kg by the sizes as read, at 7850 kg/m³",
    why="in {fitting} of {many} rows of the list it does; a size or the quantity may be wrong here",
    do="check the row at {place}",
    concern=Concern.TAKEN,
)

TOTAL_DIFFERS = ProblemCode(
    "W223",
    Level.WARNING,
    fact="the row's total length is not its quantity times its length",
    needs="{worked} mm",
    why="quantity, length or total is wrong, or the total counts something else",
    do="check the row at {place}",
    concern=Concern.TAKEN,
)

SECTION_CUT_ACROSS = ProblemCode(
    "W225",
    Level.WARNING,
    fact="the {what} is read as a section, {read_as}, cut once across",
    why="a piece cut from a longer bar takes one cut; a length greater than its girth is the length of the piece",
    do="check {place}; give a cut length if it is cut otherwise",
)

SECTION_NEEDS_THICKNESS = ProblemCode(
    "E226",
    Level.ERROR,
    fact="the {what} names a section by height or weight, which does not say how thick it is",
    needs="{needed}; or a cut length and a thickness",
    why="tip, speed and gas depend on the thickness",
    do="write its sizes out in {place}; for work on one, as washing it off, type the minutes that one takes under "
    "Minutes each; clear the row if it is not wanted",
)

MATERIAL_NOT_CUT = ProblemCode(
    "E227",
    Level.ERROR,
    fact="{material} cannot be cut by an oxy-fuel torch",
    needs="carbon or low-alloy steel",
    why="{why}",
    do="clear the row, or send it where it can be cut",
)

SHEET_TOO_THIN = ProblemCode(
    "E228",
    Level.ERROR,
    fact="{thin} is too thin for an oxy-fuel torch",
    needs="3 mm or more",
    why="thin sheet melts and warps before it is cut; common practice, no source",
    do="clear the row: such sheet is sheared, or cut by plasma or laser",
)

SIZE_NOT_CUT = ProblemCode(
    "E229",
    Level.ERROR,
    fact="the {what} is a bought part, not steel to cut",
    needs="a plate, flat or section",
    why="what is bought has no cut; its price stands nowhere here",
    do="{do}",
)
