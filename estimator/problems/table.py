"""Problems of finding the table: which sheet, which heading row, which columns, which rows."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "COLUMNS_NOT_READ",
    "COLUMNS_TIE",
    "COLUMN_ASKS_FOR_WORK",
    "COLUMN_MAY_MATTER",
    "COLUMN_MISSING",
    "COLUMN_OPTION_CONTENT",
    "COLUMN_OPTION_PLACE",
    "COLUMN_OPTION_WORD",
    "CORNERS_READ",
    "DATES_DIFFER",
    "DATE_OF_JOB_NOT_READ",
    "DATE_TAKEN",
    "DITTO_READ",
    "EXAMPLE_LEFT_OUT",
    "HEADING_READ_AS",
    "LENGTH_IS_CUT_LENGTH",
    "MARKS_UNDER_QUANTITY",
    "MERGED_FILLED",
    "NO_HEADINGS",
    "QUANTITY_OF_HANDS",
    "QUANTITY_OF_SETS",
    "QUANTITY_TOTAL_USED",
    "ROW_IS_TITLE",
    "SHEETS_TIE",
    "SHEET_CHOSEN",
    "SHEET_NOT_READ",
    "SHEET_UNKNOWN",
    "SUBTOTAL_BY_SUM",
    "SUBTOTAL_DIFFERS",
    "TABLES_REPEAT",
    "TABLE_EMPTY",
    "TABLE_NOT_FOUND",
    "TITLE_MULTIPLIED",
    "TITLE_MULTIPLIES",
    "UNIT_ASSUMED",
    "UNIT_DOUBTFUL",
]

TABLE_NOT_FOUND = ProblemCode(
    "E101",
    Level.ERROR,
    fact="no heading row of a cut list was found in the first {limit} rows",
    needs="one row with headings such as Mark, Qty, Thickness, Length",
    why="without headings no column can be told from another",
    do="{hint}",
)

COLUMN_MISSING = ProblemCode(
    "E102",
    Level.ERROR,
    fact="no column gives the {what}",
    needs="a column such as {wordings}",
    why="{why}",
    do="{hint}",
)

SHEET_UNKNOWN = ProblemCode(
    "E103",
    Level.ERROR,
    fact="there is no sheet '{name}'",
    needs="one of: {sheets}",
    do="{hint}",
)

SHEETS_TIE = ProblemCode(
    "E104",
    Level.ERROR,
    fact="several sheets can be the cut list: {sheets}",
    needs="one of them",
    why="pricing the wrong one, or both versions of one list, would make a wrong quote",
    do='name it, as --sheet "{first}"',
)

SHEET_NOT_READ = ProblemCode(
    "W105",
    Level.WARNING,
    fact="this sheet also holds a table of {rows} rows, which is not read",
    why="'{chosen}' is the better cut list",
    do='if it is wanted, run again with --sheet "{sheet}"',
    concern=Concern.MISSING,
)

COLUMNS_TIE = ProblemCode(
    "E106",
    Level.ERROR,
    fact="several columns can be the {what}: {columns}",
    needs="one of them",
    why="their values differ",
    do='name it, as --columns "{what}={first}"',
)

COLUMN_OPTION_WORD = ProblemCode(
    "E107",
    Level.ERROR,
    fact="'{word}' in --columns is not a column of the cut list",
    needs="pairs such as thickness=D,length=F",
    do="{hint}",
)

COLUMN_OPTION_PLACE = ProblemCode(
    "E108",
    Level.ERROR,
    fact="the list has no column '{named}', which --columns names for the {what}",
    needs="column letters, or a heading of the list",
    do="{hint}",
)

COLUMN_OPTION_CONTENT = ProblemCode(
    "E134",
    Level.ERROR,
    fact="the column '{heading}', which --columns names for the {what}, holds none",
    needs="a column whose cells give the {what}",
    why="every row would be read wrong",
    do="leave {what} out of --columns, or name another column",
)

MARKS_UNDER_QUANTITY = ProblemCode(
    "N135",
    Level.NOTE,
    fact="the column '{heading}' is read as the mark: the numbers of pieces stand under '{other}'",
    why="its heading is one that also counts pieces",
)

HEADING_READ_AS = ProblemCode(
    "W109",
    Level.WARNING,
    fact="the heading is read as {what}",
    needs="a known heading such as {wording}",
    do="correct {place} if that is not meant",
)

QUANTITY_TOTAL_USED = ProblemCode(
    "W110",
    Level.WARNING,
    fact="the quantity is taken from {total}, not from {each}",
    why="a total quantity beside a quantity per assembly is what has to be cut",
    do='if the other one is meant, run again with --columns "quantity={letters}"',
    concern=Concern.TAKEN,
)

QUANTITY_OF_HANDS = ProblemCode(
    "W124",
    Level.WARNING,
    fact="the quantity is the sum of {columns}, pieces and their mirror images",
    do="check that both are wanted",
    concern=Concern.TAKEN,
)

QUANTITY_OF_SETS = ProblemCode(
    "W134",
    Level.WARNING,
    fact="the quantity is {each} times {sets}",
    do="check that the pieces of one set are given",
    concern=Concern.TAKEN,
)

TITLE_MULTIPLIES = ProblemCode(
    "E111",
    Level.ERROR,
    fact="a title may multiply the rows below it",
    needs="the quantity of the whole job in each row",
    why="the rows below are priced for what they say",
    do="multiply the quantities below and clear the number in {place}",
)

TABLES_REPEAT = ProblemCode(
    "E112",
    Level.ERROR,
    fact="two tables on the sheet hold the same pieces, under {first} and under {second}",
    needs="each piece once",
    why="the pieces would be priced twice",
    do='choose one, as --sheet "{sheet}!{first}", or remove the other from a copy',
)

ROW_IS_TITLE = ProblemCode(
    "W113",
    Level.WARNING,
    fact="the row gives no quantity and no size, so it is taken as a sub-heading",
    why="nothing is priced for it",
    do="if it is a piece, give its quantity and sizes",
)

SUBTOTAL_BY_SUM = ProblemCode(
    "W114",
    Level.WARNING,
    fact="the row holds the sum of the {rows} rows above it and no mark, so it is taken as a subtotal",
    why="nothing is priced for it",
    do="if it is a piece, give its mark and sizes",
)

SUBTOTAL_DIFFERS = ProblemCode(
    "W131",
    Level.WARNING,
    fact="the total says {total} pieces, the rows above it add to {summed}",
    why="the rows are priced; a row or its quantity may be missing or wrong",
    do="check the quantities above {place}",
    concern=Concern.TAKEN,
)

TABLE_EMPTY = ProblemCode(
    "E115",
    Level.ERROR,
    fact="the table has headings and no rows",
    needs="at least one piece",
    do="fill in the rows under {place}",
)

UNIT_ASSUMED = ProblemCode(
    "W116",
    Level.WARNING,
    fact="no unit is named for {what}; bare numbers are read as {unit}, which is {source}",
    needs="a unit in the heading, as Thickness (mm)",
    do="if they are in another unit, say so in the heading",
    concern=Concern.TAKEN,
)

DATE_OF_JOB_NOT_READ = ProblemCode(
    "W117",
    Level.WARNING,
    fact="the date of the job can be read in two ways, or not at all",
    needs="a date such as 2026-11-05",
    why="prices in force on that day are used",
    do="give it as --date, or write it as year-month-day",
)

DATES_DIFFER = ProblemCode(
    "W132",
    Level.WARNING,
    fact="dates that differ stand above the table: {dates}",
    needs="one date of the list",
    why="prices in force on that day are used",
    do="type Date: before the list's own and before no other, or give it as --date",
    concern=Concern.TAKEN,
)

DATE_TAKEN = ProblemCode(
    "N133",
    Level.NOTE,
    fact="{date} is taken as the date of the list: {how}",
    why="prices in force on that day are used",
    do="if it is not, type Date: and the right one above the table, or give it as --date",
    concern=Concern.TAKEN,
)

SHEET_CHOSEN = ProblemCode(
    "N118",
    Level.NOTE,
    fact="of {many} sheets this one is read as the cut list",
    concern=Concern.FORM,
)

LENGTH_IS_CUT_LENGTH = ProblemCode(
    "W119",
    Level.WARNING,
    fact="with no width, the lengths from here are read as the length that is cut, for one piece",
    why="cut time and gas follow the length that is burnt",
    do="if it is the length of the piece, add its width",
    concern=Concern.TAKEN,
)

EXAMPLE_LEFT_OUT = ProblemCode(
    "W120",
    Level.WARNING,
    fact="the table under '{title}' is an example by its title and is not read",
    do="if it is wanted, change the title",
    concern=Concern.FORM,
)

MERGED_FILLED = ProblemCode(
    "W121",
    Level.WARNING,
    fact="one merged cell gives the {what} of rows {first} to {last}",
    do="check that it is meant for each of them",
)

DITTO_READ = ProblemCode(
    "W122",
    Level.WARNING,
    fact="a mark for 'the same' in the {what} repeats {value} from row {row}",
    do="check {place}",
)

UNIT_DOUBTFUL = ProblemCode(
    "E123",
    Level.ERROR,
    fact="read in {unit}, the {what} of most rows would be {value}, which no list of plates has",
    needs="the unit that the numbers are in",
    why="a wrong unit prices every row wrong",
    do="name the unit in the heading {place}, as {example}",
)

TITLE_MULTIPLIED = ProblemCode(
    "W125",
    Level.WARNING,
    fact="the title multiplies the {many} below it, to row {last}, by {factor}",
    why="{factor} does not divide each of them, so they are the quantities of one",
    do="if the rows already give the whole job, clear the number in {place}",
    concern=Concern.TAKEN,
)

NO_HEADINGS = ProblemCode(
    "W126",
    Level.WARNING,
    fact="the list has no headings; by what its cells hold, the columns are read as: {read_as}",
    needs="a row of headings",
    do='if one is wrong, run again with --columns "{option}", corrected',
)

CORNERS_READ = ProblemCode(
    "W127",
    Level.WARNING,
    fact="of several thicknesses of a tapered plate, that in '{heading}' is the one to cut",
    why="the corners stand in {corners}",
    do='if another is meant, run again with --columns "thickness={letters}", corrected',
)

COLUMNS_NOT_READ = ProblemCode(
    "N128",
    Level.NOTE,
    fact="{columns} {verb} not read: {counts}",
    why="nothing of it is in the price; the estimate's sheet 'From the list' carries it along",
    do='if one of them matters, say what it is, as --columns "{name}={letters}"; '
    "the names are those of the columns in the reference of the cut list",
    concern=Concern.FORM,
)

COLUMN_MAY_MATTER = ProblemCode(
    "W129",
    Level.WARNING,
    fact="the column '{heading}' is not read: {count}; {why} it may be the {what}",
    why="nothing of it is in the price",
    do='if it is, run again with --columns "{what}={letters}"',
    concern=Concern.MISSING,
)

COLUMN_ASKS_FOR_WORK = ProblemCode(
    "W130",
    Level.WARNING,
    fact="the column '{heading}' is not read: {count}; no {work} is priced by it",
    why="its heading names work that takes time",
    do="where a piece needs it, {do}",
    concern=Concern.MISSING,
)
