"""Problems of the words of a cut list: what titles, notes and descriptions say that its cells do not hold."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "FLAT_FROM_WORDS",
    "HOLES_NOT_COUNTED",
    "HOLES_OF_SEVERAL_SIZES",
    "HOLES_READ_AS",
    "MARKS_AND_QUANTITY",
    "MARKS_TOGETHER",
    "ROWS_ARE_HELD",
    "ROW_HAS_PARTS",
    "ROW_IS_ALTERNATE",
    "ROW_IS_HELD",
    "ROW_IS_UNSURE",
    "ROW_MAY_BE_WORK",
    "SHAPE_BY_CUT_LENGTH",
    "SHAPE_HAS_NO_MODEL",
    "SHAPE_NOT_TAKEN",
    "STEEL_BY_WHO_WROTE",
    "STEEL_MAY_BE_THEIRS",
    "THICKNESS_FROM_TITLE",
    "TITLE_MAY_MULTIPLY",
    "TRIANGLE_FROM_WORDS",
    "WORK_BY_HAND",
    "WORK_INSTEAD_OF_CUT",
    "WORK_NOT_PRICED",
]

ROW_IS_ALTERNATE = ProblemCode(
    "W224",
    Level.WARNING,
    fact="the row's own words say that it may not be wanted",
    why="it is priced like the others",
    do="clear the row if the piece is not wanted",
    concern=Concern.TAKEN,
)

THICKNESS_FROM_TITLE = ProblemCode(
    "W230",
    Level.WARNING,
    fact="the thickness is taken from the title above the row, {read_as}",
    needs="a thickness in the row",
    do="check that the title speaks of this row",
)

HOLES_READ_AS = ProblemCode(
    "W231",
    Level.WARNING,
    fact="the {what} names holes, read as {read_as} in each piece",
    why="no column of hole diameters gives them",
    do="check {place}; give holes and hole diameter in columns of their own to say otherwise",
)

HOLES_NOT_COUNTED = ProblemCode(
    "W232",
    Level.WARNING,
    fact="the {what} {says} that are not counted",
    needs="holes and hole diameter in columns of their own",
    why="each hole is burnt or drilled, and takes time",
    do="type how many under Holes and their size under Hole diameter, a second size in a row of its own with thickness "
    "and no sides; leave it if they are not wanted here",
    concern=Concern.MISSING,
)

TITLE_MAY_MULTIPLY = ProblemCode(
    "E233",
    Level.ERROR,
    fact="the title above, '{title}', may multiply this quantity",
    needs="the quantity of the whole job in each row",
    why="whether it is for one or for all is not said",
    do="correct the quantities below {at} and clear the number in it",
)

ROW_HAS_PARTS = ProblemCode(
    "E234",
    Level.ERROR,
    fact="the row has sizes of its own, and its number makes it an assembly of row {below} and what follows",
    needs="either the assembly or its parts",
    why="the same steel would be priced twice",
    do="clear the row at {place} if only its parts are cut, or give it a number of its own",
)

WORK_NOT_PRICED = ProblemCode(
    "W236",
    Level.WARNING,
    fact="the {what} says {work}, which is not priced",
    why="words are carried along, only cells with a meaning of their own are priced",
    do="{do}; leave it if others do it",
    concern=Concern.MISSING,
)

SHAPE_NOT_TAKEN = ProblemCode(
    "W237",
    Level.WARNING,
    fact="the {what} says {says}, and its sides are priced as {read_as}",
    why="two sides in columns of their own do not say which they are of another shape",
    do="{do}",
    concern=Concern.MISSING,
)

FLAT_FROM_WORDS = ProblemCode(
    "W238",
    Level.WARNING,
    fact="the {what} says a flat: the piece is cut across a bar {width} wide, its long sides are not cut",
    do="type plate under Made from if it is cut out of plate",
    concern=Concern.MISSING,
)

TRIANGLE_FROM_WORDS = ProblemCode(
    "W239",
    Level.WARNING,
    fact="the {what} says a triangle: the piece is priced as a right triangle with legs {legs}",
    why="two sides do not say more of a triangle",
    do="type rectangle under Shape if it is none, or give the cut length of a triangle without a right angle",
)

SHAPE_HAS_NO_MODEL = ProblemCode(
    "E240",
    Level.ERROR,
    fact="the {what} says {says}, and its sizes alone would price {read_as}",
    needs="the length of the cut in one piece",
    why="time and gas follow from the cut length, which follows from sizes for the shapes of the list only",
    do="{do}",
)

SHAPE_BY_CUT_LENGTH = ProblemCode(
    "W241",
    Level.WARNING,
    fact="the {what} says {says}: its cut length is priced as typed, its steel as {read_as}",
    why="a shape outside the list has no mass of its own here",
    do="check the steel of the row",
)

ROW_IS_HELD = ProblemCode(
    "E242",
    Level.ERROR,
    fact="the {what} says that the row is not to be cut",
    needs="either the row or its words",
    why="a piece that is held or cancelled is not priced unasked",
    do="clear the row if it is not wanted, or the words in {place} if it is",
)

STEEL_MAY_BE_THEIRS = ProblemCode(
    "W243",
    Level.WARNING,
    fact="the {what} says that the steel is the customer's; it is priced as the job says, not as these words do",
    why="words are carried along, only cells with a meaning of their own are priced",
    do="type theirs under Steel in the rows that it speaks of, a new column headed Steel if there is none",
    concern=Concern.MISSING,
)

ROW_MAY_BE_WORK = ProblemCode(
    "E244",
    Level.ERROR,
    fact="the row has a quantity and {says}, and no thickness or size",
    needs="a thickness and sizes for a piece; for work without a cut its name or its minutes",
    why="work without a cut is priced by its time; with the row cleared it would be lost",
    do="{do}",
)

ROWS_ARE_HELD = ProblemCode(
    "E245",
    Level.ERROR,
    fact="the title '{title}' says that {what} not to be cut",
    needs="either the rows or the title's words",
    why="pieces that are held or cancelled are not priced unasked",
    do="clear the rows if they are not wanted, or the words in {at} if they are",
)

HOLES_OF_SEVERAL_SIZES = ProblemCode(
    "E246",
    Level.ERROR,
    fact="the cell holds holes of {many} sizes, and a row holds one",
    needs="one count and size in a row, as 4 x 22 mm",
    why="each size is burnt or drilled at its own time; a row of holes without sides is priced as holes alone",
    do="{do}",
)

ROW_IS_UNSURE = ProblemCode(
    "W247",
    Level.WARNING,
    fact="the {what} says that the row is not settled; it is priced as it stands",
    why="another size or number has another price",
    do="ask the customer, and correct the row or clear the words in {place}",
    concern=Concern.TAKEN,
)

MARKS_AND_QUANTITY = ProblemCode(
    "E248",
    Level.ERROR,
    fact="the mark names {many} pieces, and the quantity is {pieces}",
    needs="the pieces of all marks together",
    why="{pieces} of each mark would be {each} pieces",
    do="{do}",
)

MARKS_TOGETHER = ProblemCode(
    "W249",
    Level.WARNING,
    fact="the mark names {many} pieces, and the quantity of {pieces} is taken for all of them together",
    why="{pieces} of each mark would be {each} pieces",
    do="correct the quantity if it is that of each mark",
    concern=Concern.TAKEN,
)

STEEL_BY_WHO_WROTE = ProblemCode(
    "W250",
    Level.WARNING,
    fact="the {what} says '{words}', which is the customer's steel or the shop's by who wrote it; "
    "it is priced as the job says",
    why="steel is often half the price",
    do="type ours or theirs under Steel in the rows that it speaks of, a new column headed Steel if there is none",
    concern=Concern.MISSING,
)

WORK_BY_HAND = ProblemCode(
    "W251",
    Level.WARNING,
    fact="the row asks to {work} and gives minutes of work, none of a flame: the minutes are priced, and no gas",
    needs="minutes of flame where it is heated",
    why="gas follows the minutes that a flame burns",
    do="type them in {flame} if it is heated; nothing if it is worked cold",
    concern=Concern.TAKEN,
)

WORK_INSTEAD_OF_CUT = ProblemCode(
    "W252",
    Level.WARNING,
    fact="the row asks to {work} a piece of a size that no row of its mark cuts: its cut is not priced",
    why="a row is priced for the one work that its cell names",
    do="clear {place} and type the minutes of the work in {minutes} for both; leave it if it is cut already",
    concern=Concern.MISSING,
)
