"""Problems of whole lines and of the job: found once the torch, the chart and the rates are known."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

NO_TIP = ProblemCode(
    "E270",
    Level.ERROR,
    "no tip on hand covers this thickness",
    needs="a thickness along the cut that the tips on hand cover: {covered}",
    why="tip, speed and gas depend on it",
    do="add the tip to the shop book's Tips sheet, or clear the row at {place} if the piece is not wanted",
)
OFF_CHART = ProblemCode(
    "E271",
    Level.ERROR,
    "the thickness lies outside the chart",
    needs="a thickness that the chart of tip {tip} holds, with speed, fuel and kerf: {covered}",
    why="a chart is never extended beyond its rows",
    do="add rows to the shop book's Own chart for tip {tip}, or clear the row at {place}",
)
UNKNOWN_TIP = ProblemCode(
    "E272",
    Level.ERROR,
    "the tip is not in the shop book",
    needs="one of the tips on hand for {fuel}: {known}",
    why="flows and pressures are the tip's",
    do="type one of these at {place}, or add the tip to the shop book",
)
NO_LENGTH = ProblemCode(
    "E273",
    Level.ERROR,
    "nothing says how much is cut",
    needs="a cut length, or a shape with its sizes",
    why="time, gas and price follow the cut",
    do="{do}",
)
NO_THICKNESS = ProblemCode(
    "E274",
    Level.ERROR,
    "the thickness is missing",
    needs='a thickness above zero, as 12 mm, 1/2, 1-1/2", 0.5 in',
    why="tip, speed and gas depend on it",
    do="type the thickness at {place}, or clear the row if the piece is not wanted",
)
NO_MINUTES = ProblemCode(
    "E275",
    Level.ERROR,
    "nothing says how long the flame burns",
    needs="flame minutes for a piece, or the mass that is heated, or for welding a length and the tip's speed",
    why="heating and welding take gas as long as the flame burns",
    do="type the minutes of flame at {place} under Flame minutes each, or the mass under Mass heated each; "
    "minutes of work without gas under Minutes each",
)
NO_HEATING_TIP = ProblemCode(
    "E296",
    Level.ERROR,
    "the shop book's sheet Heating tips has no tip for {fuel}",
    needs="a row of that sheet with the tip's name, fuel and flows, from its own manual",
    why="the gas of heating, bending, straightening and welding is the heating tip's",
    do="type the minutes of work at {place} under Minutes each, and nothing under Flame minutes each or Mass heated "
    "each: they are priced without gas; or fill the sheet Heating tips",
)
UNKNOWN_LABOUR_RATE = ProblemCode(
    "E276",
    Level.ERROR,
    "the labour rate is not in force",
    needs="one of the rates in force on {date}: {known}; the nearest is {nearest}",
    why="labour is most of the price",
    do="type one of these at {place}, or add the rate to the shop book's Labour sheet",
)
UNKNOWN_OTHER_WORK = ProblemCode(
    "E277",
    Level.ERROR,
    "the work is not in the shop book",
    needs="a name of the shop book's Other work sheet, or minutes for a piece; the nearest name is {nearest}",
    why="its minutes and rate stand there",
    do="type the minutes of a piece in the row under Minutes each, or a name of that sheet at {place}",
)
STEEL_ASKED = ProblemCode(
    "E278",
    Level.ERROR,
    "the list does not say whose steel it is",
    needs="ours, theirs or excluded, in the Steel column or above the table",
    why="steel is often half the price",
    do="{how}; or add a column headed Steel with the word for each row; or say it once for all lists that do not, "
    "on the shop book's first sheet or on Shop",
)
STEEL_ASSUMED = ProblemCode(
    "W278",
    Level.WARNING,
    "the list does not say whose steel it is: {taken} is taken",
    needs="ours, theirs or excluded, in the Steel column or above the table",
    why="steel is often half the price; the shop book says {taken} for silent lists",
    do="if that is not so, {how}; or add a column headed Steel with the word for each row",
    concern=Concern.TAKEN,
)
NO_STEEL_PRICE = ProblemCode(
    "E279",
    Level.ERROR,
    "the shop book has no steel price for {thickness} on {date}",
    needs="a row in the Steel sheet for this thickness, or one for any",
    why="the steel is ours, so it is in the price",
    do="add the price to the Steel sheet, or say theirs or excluded at {place}",
)
NO_MASS = ProblemCode(
    "W280",
    Level.WARNING,
    "the steel is ours, but nothing says what a piece weighs: the steel of this line is left out",
    needs="a shape with its sizes, a section with its length too",
    why="the price of this line holds no steel, the quote says so, and handling goes by the piece alone",
    do="give shape and sizes in the row at {place}, or say theirs or excluded",
    concern=Concern.MISSING,
)
LENGTH_DIFFERS = ProblemCode(
    "W281",
    Level.WARNING,
    "the cut length differs from the one that shape and sizes give",
    needs="{worked} by shape and sizes, {given} given, {difference} % apart",
    why="the given length is used",
    do="check length and sizes in the row at {place}",
    concern=Concern.TAKEN,
)
OXYGEN_BALANCE = ProblemCode(
    "W282",
    Level.WARNING,
    "the cutting oxygen does not fit the iron that burns",
    needs="oxygen supplied from {low} to {high} times the oxygen needed; this line has {ratio}",
    why="chart, tip and speed do not belong together",
    do="check pressure, bore and speed of tip {tip} against its own manual",
    concern=Concern.SAFETY,
)
FLOW_AGAINST_BORE = ProblemCode(
    "W283",
    Level.WARNING,
    "the chart's cutting oxygen does not fit the bore",
    needs="a flow within {within} of {choked}, the choked flow of its bore and pressure; the chart gives {given}",
    why="one of flow, bore and pressure is mistyped",
    do="check tip {tip} in the shop book against its own manual",
    concern=Concern.SAFETY,
)
NO_DATE = ProblemCode(
    "W284",
    Level.WARNING,
    "the list gives no date: the only price of each thing in the shop book is used",
    needs="a date in the title block, or --date",
    why="a date changes nothing until the shop book holds two prices of one thing; then it decides which",
    do="nothing now; for the printed quote give the list a date, or type --date",
    concern=Concern.FORM,
)
DATE_DECIDES = ProblemCode(
    "E284",
    Level.ERROR,
    "the job has no date and the prices of {what} differ by date",
    needs="a date in the title block, or --date",
    why="rates and prices are dated; the file's own date is not used",
    do="give the job a date, as --date 2026-11-02",
)
NOT_IN_FORCE = ProblemCode(
    "E285",
    Level.ERROR,
    "no price of {what} is in force on {date}",
    needs="a price that has begun by the job's day, which is the list's own or --date; {begins}",
    why="the job cannot be priced without it",
    do="type an earlier day in the shop book, under Prices hold from on its first sheet or From on Gas prices, Labour; "
    "or price the job on another day, with --date",
)
HOLE_DRILLED = ProblemCode(
    "N286",
    Level.NOTE,
    "{holes} of the job {are} priced as drilled, not burnt: {minutes} min of drilling",
    needs="a hole of {limit} and over to be burnt by hand in this thickness",
    why="a small burnt hole is tapered and hard",
    do="{do}",
    concern=Concern.TAKEN,
)
START_DRILLED = ProblemCode(
    "N287",
    Level.NOTE,
    "a start hole is drilled for each pierce",
    needs="plate of at most {limit} to be pierced by hand",
    why="thick plate is not pierced by hand",
    do="start from an edge where the piece allows it",
    concern=Concern.FORM,
)
PURITY_TOO_LOW = ProblemCode(
    "E288",
    Level.ERROR,
    "the oxygen is too impure to cut",
    needs="oxygen of {least} or purer",
    why="below that a cut stops",
    do="correct the purity in the shop book's Work rates",
)
TOO_BIG = ProblemCode(
    "E289",
    Level.ERROR,
    "the inside is not smaller than the outside",
    needs="an inside diameter below the outside one",
    why="a ring has a hole smaller than itself",
    do="correct the sizes in the row at {place}",
)
FLAME_BY_SPEED = ProblemCode(
    "N292",
    Level.NOTE,
    "flame minutes are worked out from the length and the tip's speed",
    needs="flame minutes for a piece, where they are known",
    why="gas and time of welding follow the minutes of flame",
    do="type flame minutes in the row to use them instead",
    concern=Concern.FORM,
)
BREAK_DROPS_PRICE = ProblemCode(
    "N293",
    Level.NOTE,
    "{more} pieces with their {off} off cost less in total than the pieces ordered here",
    needs="to be known before the customer finds out",
    why="a quantity break that begins just above an order makes the larger order the cheaper one",
    do="offer the larger quantity, or begin the break lower on the sheet Quantity breaks",
)
NOTHING_TO_PRICE = ProblemCode(
    "E291",
    Level.ERROR,
    "the list has no line that can be priced",
    needs="at least one good row",
    why="there is nothing to estimate",
    do="correct the rows named here",
)
SHARING_SAVES = ProblemCode(
    "N294",
    Level.NOTE,
    "sharing cuts between neighbours would save about {saved} before tax and {length} of cutting",
    needs="pieces of one size that lie in a row, cut once between them",
    why="each piece is cut on its own unless the list says that cuts are shared",
    do="type yes under Share cuts on the lines that can be laid in rows",
)
