"""Problems of our own workbooks' sheets: shop book, price lists, work log, bills, rack counts, register."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "CELL_AMBIGUOUS_DATE",
    "CELL_AMBIGUOUS_NUMBER",
    "CELL_AMBIGUOUS_SHARE",
    "CELL_BLANK",
    "CELL_IS_ERROR",
    "CELL_NOT_CALCULATED",
    "CELL_NOT_CHOICE",
    "CELL_NOT_KIND",
    "CELL_OUT_OF_BOUNDS",
    "CELL_UNIT_BESIDE",
    "CELL_UNIT_DIFFERS",
    "CELL_WITHOUT_GAS_UNIT",
    "HEADING_MISSING",
    "HEADING_MISSPELT",
    "HEADING_NOT_READ",
    "HEADING_ROW_MISSING",
    "HEADING_TWICE",
    "RECORD_REFUSED",
    "SHEET_MISSING",
]

SHEET_MISSING = ProblemCode(
    "E150",
    Level.ERROR,
    fact="there is no sheet '{sheet}'",
    needs="a sheet of that name, as in the blank workbook",
    why="{purpose}",
    do="{hint}",
)

HEADING_ROW_MISSING = ProblemCode(
    "E151",
    Level.ERROR,
    fact="no heading row was found in the first {limit} rows",
    needs="one row with headings such as {headings}",
    why="without headings no column can be told from another",
    do="copy the heading row from the blank workbook",
)

HEADING_MISSING = ProblemCode(
    "E152",
    Level.ERROR,
    fact="{what} '{heading}' is missing",
    needs="{needs}",
    why="{why}",
    do="add {what} '{heading}', as in the blank workbook",
)

HEADING_MISSPELT = ProblemCode(
    "E153",
    Level.ERROR,
    fact="{what} '{heading}' is not known",
    needs="one of this sheet's names",
    why="a name that is not known is not read, and its values would be lost",
    do="{hint}",
)

HEADING_TWICE = ProblemCode(
    "E154",
    Level.ERROR,
    fact="{what} '{heading}' stands twice, here and at {first}",
    needs="each name once",
    why="two columns with one name may disagree",
    do="rename or clear one of the two",
)

HEADING_NOT_READ = ProblemCode(
    "N155",
    Level.NOTE,
    fact="{what} '{heading}' is not one of this sheet's and is not read",
    concern=Concern.FORM,
)

CELL_BLANK = ProblemCode(
    "E160",
    Level.ERROR,
    fact="{heading} is blank",
    needs="{needs}",
    why="{why}",
    do="type it in {place}",
)

CELL_IS_ERROR = ProblemCode(
    "E161",
    Level.ERROR,
    fact="{heading} is an error value",
    needs="{needs}",
    why="{why}",
    do="mend the formula in {place}, or type the value",
)

CELL_NOT_CALCULATED = ProblemCode(
    "E162",
    Level.ERROR,
    fact="{heading} is a formula without a stored value",
    needs="{needs}",
    why="the program that wrote the file did not calculate it, and formulas are not run here",
    do="open the file in a spreadsheet program, let it calculate, and save it; or type the value in {place}",
)

CELL_NOT_KIND = ProblemCode(
    "E163",
    Level.ERROR,
    fact="{heading} is not {kind}{reason}",
    needs="{needs}",
    why="{why}",
    do="in {place}, type {needs}",
)

CELL_OUT_OF_BOUNDS = ProblemCode(
    "E164",
    Level.ERROR,
    fact="{heading} is {side} {limit}",
    needs="{needs}, {bounds}",
    why="{why}",
    do="{hint}",
)

CELL_NOT_CHOICE = ProblemCode(
    "E165",
    Level.ERROR,
    fact="{heading} is not one of the words it may be",
    needs="one of: {choices}",
    why="{why}",
    do="{hint}",
)

CELL_AMBIGUOUS_NUMBER = ProblemCode(
    "E166",
    Level.ERROR,
    fact="{heading} can be read as {first} or as {second}",
    needs="{needs}",
    why="the mark before three digits may group thousands or begin the decimals",
    do="type it in {place} as a number, not as text",
)

CELL_AMBIGUOUS_SHARE = ProblemCode(
    "E167",
    Level.ERROR,
    fact="{heading} can be read as {first} or as {second}",
    needs="{needs}",
    why="a share above 1 without a percent sign may be either",
    do="type {first} or {second} in {place}, with the percent sign",
)

CELL_AMBIGUOUS_DATE = ProblemCode(
    "E168",
    Level.ERROR,
    fact="{heading} can be read as {first} or as {second}",
    needs="{needs}",
    why="day and month can be exchanged",
    do="type it in {place} as {first} or {second}",
)

RECORD_REFUSED = ProblemCode(
    "E169",
    Level.ERROR,
    fact="{heading} does not fit: {reason}",
    needs="{needs}",
    why="{why}",
    do="correct {place}",
)

CELL_UNIT_DIFFERS = ProblemCode(
    "E170",
    Level.ERROR,
    fact="{heading} has the unit '{unit}', which is not the one of this sheet",
    needs="{known}",
    why="a figure in another unit would be priced as if it were in this one",
    do="work the figure out again for {known}, and correct the unit in {place}",
)

CELL_WITHOUT_GAS_UNIT = ProblemCode(
    "E171",
    Level.ERROR,
    fact="{heading} lacks a unit that gas is sold in",
    needs="a number and one of {known}",
    why="{why}",
    do="{hint}",
)

CELL_UNIT_BESIDE = ProblemCode(
    "N172",
    Level.NOTE,
    fact="{heading} says {taken}, and the cell beside it {unit}: {taken} is taken",
    needs="one unit",
    why="the unit typed with the number comes first",
    do="nothing when that is right; else correct {place}",
)
