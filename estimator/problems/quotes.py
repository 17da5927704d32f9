"""Problems of quotes and their register (9xx)."""

from __future__ import annotations

from estimator.problems.code import Level, ProblemCode

__all__ = [
    "NO_NEXT_NUMBER",
    "NO_SUCH_QUOTE",
    "NUMBER_OF_ANOTHER",
    "QUOTE_TWICE",
    "REGISTER_BUSY",
    "REGISTER_NOT_CHANGED",
    "REVISION_SENT",
    "SAME_QUOTE",
]

QUOTE_TWICE = ProblemCode(
    "W910",
    Level.WARNING,
    "the quote stands in the register twice",
    needs="one row for each quote, revision and variation; row {first} is the same",
    why="the first row counts, and what was typed in the other is not seen",
    do="delete one of the two rows, or correct its revision",
)
NUMBER_OF_ANOTHER = ProblemCode(
    "E911",
    Level.ERROR,
    "the quote number belongs to another job",
    needs="a number that is free, or the number of an earlier quote for the same customer; {number} went to {customer}",
    why="a number that means two jobs brings the wrong price, gas and log together",
    do="leave --number away to get the next free one, {free}",
)
REVISION_SENT = ProblemCode(
    "E912",
    Level.ERROR,
    "this revision was sent already, and this quote differs from it",
    needs="a revision of its own; the next of {number} is {free}",
    why="what a customer holds in his hand is never changed behind his back",
    do="leave --revision away, or give {free}",
)
NO_NEXT_NUMBER = ProblemCode(
    "E913",
    Level.ERROR,
    "the next quote number cannot be told",
    needs="a last number in the register that ends in a digit, as Q-0031",
    why="the engine counts on from it, so that no number is used twice",
    do="give the number with --number",
)
NO_SUCH_QUOTE = ProblemCode(
    "E914",
    Level.ERROR,
    "the register has no such quote",
    needs="a number that stands there; the nearest is {nearest}",
    why="what was quoted is found by its number",
    do="correct the number, or the revision",
)
REGISTER_BUSY = ProblemCode(
    "E915",
    Level.ERROR,
    "another run is writing in the register",
    needs="one run at a time; this one has waited {seconds} seconds",
    why="two runs at once would give one number twice, or lose a row",
    do="wait for the other run to end, and run again",
)
REGISTER_NOT_CHANGED = ProblemCode(
    "E916",
    Level.ERROR,
    "the register cannot be written to as it is",
    needs="a workbook whose rows can be added to; {reason}",
    why="nothing was written, so that nothing in it is lost",
    do="put the register right in your spreadsheet program, save it as .xlsx, and run again",
)
SAME_QUOTE = ProblemCode(
    "N917",
    Level.NOTE,
    "nothing has changed since this was quoted as {key}",
    why="the same quote is one row in the register, however often its file is written",
)
