"""Problems of whole files: what cannot be opened, is not what its name says, is damaged, or is not safe to open."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "CELLS_TOO_MANY",
    "CELL_FAR",
    "COLUMNS_HIDDEN",
    "DOCTYPE_FOUND",
    "ENCODING_DIFFERS",
    "ENCODING_UNKNOWN",
    "EXTENSION_DIFFERS",
    "FILE_DAMAGED",
    "FILE_EMPTY",
    "FILE_IS_FOLDER",
    "FILE_IS_LOCK",
    "FILE_IS_WEB_PAGE",
    "FILE_LOCKED_BY_PASSWORD",
    "FILE_MISSING",
    "FILE_NOT_TABLE",
    "FILE_TOO_LARGE",
    "FILE_UNREADABLE",
    "MACROS_IGNORED",
    "MERGE_HUGE",
    "PARTS_TOO_MANY",
    "PART_DAMAGED",
    "PART_EXPANDS",
    "QUOTE_OPEN",
    "ROWS_FILTERED",
    "ROWS_HIDDEN",
    "SEPARATOR_UNCLEAR",
    "SHEETS_MISSING",
    "SHEET_HIDDEN",
    "TEXT_NOT_DECODED",
    "TEXT_TOO_LONG",
    "VALUE_FROM_OTHER_FILE",
]

_SAFE = "the file is looked at before it is opened, so that a broken or hostile one does no harm"

FILE_MISSING = ProblemCode(
    "E001",
    Level.ERROR,
    fact="there is no such file",
    needs="a workbook or a csv file",
    do="check the folder and the spelling{nearest}",
)

FILE_IS_FOLDER = ProblemCode(
    "E002",
    Level.ERROR,
    fact="this is a folder, not a file",
    needs="a workbook or a csv file",
    do="name the file inside it",
)

FILE_UNREADABLE = ProblemCode(
    "E003",
    Level.ERROR,
    fact="the file cannot be read: {reason}",
    needs="a file that may be read",
    do="close it in other programs and check its permissions",
)

FILE_EMPTY = ProblemCode(
    "E004",
    Level.ERROR,
    fact="the file is empty (0 bytes)",
    needs="a workbook or a csv file",
    why="a copy or download that was cut off leaves such a file",
    do="fetch the file again",
)

FILE_IS_LOCK = ProblemCode(
    "E005",
    Level.ERROR,
    fact="this is the mark that a spreadsheet program leaves while a workbook is open, not the workbook",
    needs="the workbook itself, '{workbook}'",
    do="name '{workbook}'",
)

FILE_NOT_TABLE = ProblemCode(
    "E006",
    Level.ERROR,
    fact="the file is {what}, which is not a table that can be read",
    needs="one of: {formats}",
    do="open it in the program that made it and save the table as .xlsx",
)

FILE_IS_WEB_PAGE = ProblemCode(
    "E007",
    Level.ERROR,
    fact="the file is a web page with the name of a workbook",
    needs="one of: {formats}",
    why="some programs export a web page and call it .xls",
    do="open it in a spreadsheet program and save it as .xlsx",
)

FILE_LOCKED_BY_PASSWORD = ProblemCode(
    "E008",
    Level.ERROR,
    fact="the workbook is protected by a password",
    needs="a workbook without a password",
    do="open it with the password, remove the password and save a copy",
)

FILE_DAMAGED = ProblemCode(
    "E009",
    Level.ERROR,
    fact="the file is damaged: {reason}",
    needs="a whole file",
    why="what can still be read of a damaged file may be wrong without a sign",
    do="fetch the file again, or open it in a spreadsheet program and save it anew",
)

PART_DAMAGED = ProblemCode(
    "E010",
    Level.ERROR,
    fact="part '{part}' of the file is damaged: {reason}",
    needs="a whole file",
    why="what can still be read of a damaged file may be wrong without a sign",
    do="fetch the file again, or open it in a spreadsheet program and save it anew",
)

EXTENSION_DIFFERS = ProblemCode(
    "E011",
    Level.ERROR,
    fact="the name says {named} but the content is {content}",
    needs="a name that tells what the file is",
    why="a name that does not fit may mean the wrong file",
    do="if it is the right file, rename it to '{rename}'",
)

FILE_TOO_LARGE = ProblemCode(
    "E012",
    Level.ERROR,
    fact="the file has {size} bytes, more than the limit of {limit}",
    needs="a file of at most {limit} bytes",
    why=_SAFE,
    do="remove pictures and sheets that are not needed, or split the list",
)

PARTS_TOO_MANY = ProblemCode(
    "E013",
    Level.ERROR,
    fact="the file has {count} parts, more than the limit of {limit}",
    needs="a file of at most {limit} parts",
    why=_SAFE,
    do="copy the table into a new workbook",
)

PART_EXPANDS = ProblemCode(
    "E014",
    Level.ERROR,
    fact="{what} expands to more than the limit of {limit}",
    needs="{needs}",
    why=_SAFE,
    do="copy the table into a new workbook",
)

DOCTYPE_FOUND = ProblemCode(
    "E015",
    Level.ERROR,
    fact="part '{part}' holds a document type declaration",
    needs="a file as spreadsheet programs write it, without one",
    why="such declarations can pull in other files or expand without end; nothing of the kind is followed",
    do="copy the table into a new workbook",
)

CELL_FAR = ProblemCode(
    "E016",
    Level.ERROR,
    fact="a value stands far from the rest of the sheet",
    needs="values within {columns} columns, without a gap of more than {gap} rows",
    why="a stray cell makes the sheet millions of blank cells large",
    do="clear {place} if it is a slip, or move it",
)

MERGE_HUGE = ProblemCode(
    "E017",
    Level.ERROR,
    fact="{cells} cells are merged into one, more than the limit of {limit}",
    needs="merged ranges of at most {limit} cells",
    why=_SAFE,
    do="unmerge the range",
)

CELLS_TOO_MANY = ProblemCode(
    "E018",
    Level.ERROR,
    fact="the sheets span more than {limit} cells",
    needs="at most {limit} cells in one file, blank ones included",
    why=_SAFE,
    do="split the list into several files",
)

SHEETS_MISSING = ProblemCode(
    "E019",
    Level.ERROR,
    fact="there is no value in any cell of the file",
    needs="at least one sheet with a table",
    do="check that it is the right file",
)

TEXT_NOT_DECODED = ProblemCode(
    "E020",
    Level.ERROR,
    fact="line {line} is not text in the encoding {encoding}",
    needs="utf-8, utf-16 with its mark, or an encoding that is named",
    why="in another encoding letters and signs such as ø, ½ and \u201d would be read wrongly",
    do="name the right encoding, as --encoding cp1252, or save the table as .xlsx",
)

ENCODING_UNKNOWN = ProblemCode(
    "E021",
    Level.ERROR,
    fact="there is no text encoding '{encoding}'",
    needs="such as utf-8, utf-16, cp1252, cp1250, cp1251",
    do="{hint}",
)

ENCODING_DIFFERS = ProblemCode(
    "E022",
    Level.ERROR,
    fact="the encoding named is {encoding}, but the file begins with the mark of {mark}",
    needs="one of the two",
    why="the file says itself what it is",
    do="leave the encoding unnamed",
)

SEPARATOR_UNCLEAR = ProblemCode(
    "E023",
    Level.ERROR,
    fact="the columns may be set off by {first} or by {second}",
    needs="one sign between the columns",
    why="each gives a whole table, and the two tables differ",
    do="put the line sep={sign} first in the file, with the right sign, or save the table as .xlsx",
)

QUOTE_OPEN = ProblemCode(
    "E024",
    Level.ERROR,
    fact="a quotation mark in line {line} opens a text that {end}",
    needs="quotation marks in pairs; an inch or ditto sign that begins a cell doubled inside quotes",
    why="rows behind an open quotation mark would be swallowed",
    do="look at line {line}, or save the table as .xlsx",
)

TEXT_TOO_LONG = ProblemCode(
    "E025",
    Level.ERROR,
    fact="the file has {rows} rows, more than the {limit} that a sheet can have",
    needs="at most {limit} rows, headings and blank ones included",
    why="the priced list could not be opened by any spreadsheet program",
    do="split the list, or check that it is a cut list at all",
)

SHEET_HIDDEN = ProblemCode(
    "N030",
    Level.NOTE,
    fact="this sheet is {state}",
    why="hidden sheets are read like others, so that nothing is left out unseen",
    concern=Concern.FORM,
)

ROWS_HIDDEN = ProblemCode(
    "N031",
    Level.NOTE,
    fact="hidden rows are read like others: {count}",
    why="what is hidden is still in the list",
    do="delete the rows if they are not wanted",
    concern=Concern.TAKEN,
)

ROWS_FILTERED = ProblemCode(
    "W032",
    Level.WARNING,
    fact="rows that a filter hides are read like others: {count}",
    why="the sender may have seen only the rows that the filter shows",
    do="delete the rows if they are not wanted, or remove the filter",
)

COLUMNS_HIDDEN = ProblemCode(
    "N033",
    Level.NOTE,
    fact="hidden columns are read like others: {count}",
    why="what is hidden is still in the list",
    concern=Concern.FORM,
)

VALUE_FROM_OTHER_FILE = ProblemCode(
    "W034",
    Level.WARNING,
    fact="the value comes from another file by a formula",
    needs="a value of its own",
    why="the other file is never opened; the value stored here may be old",
    do="type the value in {place}, or check that it is up to date",
)

MACROS_IGNORED = ProblemCode(
    "N035",
    Level.NOTE,
    fact="the workbook carries macros, which are not run",
    why="only stored values are read",
    concern=Concern.FORM,
)
