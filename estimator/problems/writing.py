"""Problems of writing files: each way a disk, a folder or a name can refuse an output."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "CANNOT_FILL_KIND",
    "CANNOT_WRITE",
    "DISK_FULL",
    "EXAMPLE_PRICES",
    "FILE_EXISTS",
    "FILE_IN_USE",
    "FILE_IS_INPUT",
    "FILE_READ_ONLY",
    "FOLDER_MISSING",
    "NAME_NOT_USABLE",
    "NOT_A_FILE",
    "NOT_A_FOLDER",
    "NOT_CONFIRMED",
    "NO_PERMISSION",
    "READ_ONLY_DISK",
    "SAME_OUTPUT_TWICE",
    "SHEET_NOT_FILLED",
    "SIGNATURE_BREAKS",
    "TOO_MANY_LINES",
    "TYPED_IN_ESTIMATE",
]

_OLD_FILE_SAFE = "nothing was written; a file that was there before is whole"

FILE_EXISTS = ProblemCode(
    "E801",
    Level.ERROR,
    "the output file is there already",
    needs="a name that is not taken",
    why="a file that holds someone's work is replaced only when asked for",
    do="give another name with --out, move the old file away, or replace it with --force",
)

FILE_IS_INPUT = ProblemCode(
    "E802",
    Level.ERROR,
    "the output file is one of the files that were read",
    needs="an output with a name of its own; links and a change of capitals are the same file",
    why="an input is never overwritten, not even with --force",
    do="give another name with --out",
)

SAME_OUTPUT_TWICE = ProblemCode(
    "E803",
    Level.ERROR,
    "two outputs have one name",
    needs="a name for each output",
    why="the second would replace the first",
    do="give each output a name of its own",
)

FOLDER_MISSING = ProblemCode(
    "E804",
    Level.ERROR,
    "the folder of the output is not there",
    needs="a folder that exists",
    why="a folder made from a misspelt name would hide the file",
    do="make the folder, or give a name in a folder that is there",
)

NOT_A_FILE = ProblemCode(
    "E805",
    Level.ERROR,
    "the output name belongs to a folder or a device",
    needs="the name of an ordinary file",
    why="only an ordinary file can be replaced whole",
    do="give another name with --out",
)

FILE_IN_USE = ProblemCode(
    "E806",
    Level.ERROR,
    "the output file is open in another program",
    needs="a file that no program holds; {lock} says that one does",
    why="the other program would write its own copy over this one, or this one would be lost to it",
    do="close the file there and run again; when no program has it open, delete {lock}, left from a crash",
)

NO_PERMISSION = ProblemCode(
    "E807",
    Level.ERROR,
    "writing here is not permitted",
    needs="a folder in which you may make files",
    why=_OLD_FILE_SAFE,
    do="give a name in a folder of your own with --out, or have the folder opened to you",
)

FILE_READ_ONLY = ProblemCode(
    "E808",
    Level.ERROR,
    "the output file is marked read-only",
    needs="a file that may be written",
    why="a file that was locked on purpose is not replaced, not even with --force",
    do="take the read-only mark off, or give another name with --out",
)

READ_ONLY_DISK = ProblemCode(
    "E809",
    Level.ERROR,
    "the disk is read-only",
    needs="a disk that may be written",
    why=_OLD_FILE_SAFE,
    do="give a name on another disk with --out",
)

DISK_FULL = ProblemCode(
    "E810",
    Level.ERROR,
    "the disk is full, or your share of it is used up",
    needs="room for the whole file beside the old one",
    why=_OLD_FILE_SAFE,
    do="make room and run again, or give a name on another disk with --out",
)

NAME_NOT_USABLE = ProblemCode(
    "E811",
    Level.ERROR,
    "the output name cannot be used on this disk",
    needs="a shorter name of ordinary letters, digits, blanks, dots and dashes",
    why=_OLD_FILE_SAFE,
    do="give another name with --out",
)

CANNOT_WRITE = ProblemCode(
    "E812",
    Level.ERROR,
    "the output could not be written",
    needs="a disk that takes the file; it answered: {reason}",
    why=_OLD_FILE_SAFE,
    do="run again; if it stays so, give a name on another disk with --out",
)

NOT_CONFIRMED = ProblemCode(
    "W813",
    Level.WARNING,
    "the output was written, but the disk did not confirm it",
    needs="a disk that confirms what it keeps; it answered: {reason}",
    why="the file is there now and may be the old one again after a power cut",
    do="open the file and look; copy it to another disk if it matters",
    concern=Concern.FORM,
)

CANNOT_FILL_KIND = ProblemCode(
    "E814",
    Level.ERROR,
    "a list of this kind cannot be filled in",
    needs="a list saved as .xlsx or .xlsm",
    why="only there can cells be added without touching the rest",
    do="save the list as .xlsx in your spreadsheet program and run again",
)

SIGNATURE_BREAKS = ProblemCode(
    "E815",
    Level.ERROR,
    "the list is digitally signed",
    needs="a list without a signature, or --force",
    why="a filled copy is another file, so its signature no longer holds",
    do="ask for an unsigned copy, or fill it in with --force and say that the signature is gone",
)

SHEET_NOT_FILLED = ProblemCode(
    "E816",
    Level.ERROR,
    "the sheet cannot be filled in",
    needs="a sheet with free cells to the right of its table; {reason}",
    why="prices stand beside the rows that they belong to, and nothing of yours is written over",
    do="clear the columns right of the table, or take the prices from the quote",
)

EXAMPLE_PRICES = ProblemCode(
    "E817",
    Level.ERROR,
    "the prices are invented examples",
    needs="your own shop book",
    why="an invented price must never reach a customer",
    do="name your shop book with --shop, or set 'These prices are examples' to no in it when they are yours",
)

TOO_MANY_LINES = ProblemCode(
    "E818",
    Level.ERROR,
    "a sheet does not hold {found} lines",
    needs="at most {limit} lines, so that headings and sums have room in the 1,048,576 rows of a sheet",
    why="what lies beyond the last row would be lost without a sign",
    do="split the list",
)

NOT_A_FOLDER = ProblemCode(
    "E820",
    Level.ERROR,
    "a file stands where the folder should be",
    needs="the name of a folder, or a name that is not taken",
    why=_OLD_FILE_SAFE,
    do="give another folder",
)

TYPED_IN_ESTIMATE = ProblemCode(
    "E821",
    Level.ERROR,
    "the estimate of this list holds what you typed: {typed}",
    why="an estimate that nobody typed into is made anew; what was typed is replaced only when asked for",
    do="run it with --from THE_OLD_ESTIMATE: a new one is written beside it, with your minutes, prices and reasons; "
    "the old one stays as it is",
)
