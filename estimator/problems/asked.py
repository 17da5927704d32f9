"""Problems of what was asked on the command line."""

from __future__ import annotations

from estimator.problems.code import Level, ProblemCode

NOT_A_DATE = ProblemCode(
    "E880",
    Level.ERROR,
    "the date {said}",
    needs="a date, as 2026-11-02, 2.11.2026 or 2 Nov 2026",
    why="the prices in force on it are used",
    do="correct --date",
)
NO_SUCH_LINE = ProblemCode(
    "E881",
    Level.ERROR,
    "the list has no such priced line",
    needs="a row number as the spreadsheet shows it, or a mark: {known}; the nearest is {nearest}",
    why="one line is worked step by step",
    do="name one of these",
)
NOT_A_THICKNESS = ProblemCode(
    "E882",
    Level.ERROR,
    "the thickness is not a length",
    needs='a thickness above zero, as 12 mm, 1/2, 1-1/2", 0.5 in',
    why="tip, speed and gas depend on it",
    do="type the thickness again{unit}",
)
UNKNOWN_FUEL = ProblemCode(
    "E883",
    Level.ERROR,
    "the fuel is not known",
    needs="one of {known}; the nearest is {nearest}",
    why="chart, preheat and price are the fuel's",
    do="correct --fuel",
)
UNKNOWN_STATE = ProblemCode(
    "E884",
    Level.ERROR,
    "what became of the quote is not a word of the register",
    needs="one of {known}; the nearest is {nearest}",
    why="the register counts what is won and what is open by it",
    do="correct the word behind the number",
)
UNKNOWN_JOB_RATE = ProblemCode(
    "E885",
    Level.ERROR,
    "the labour rate of the job is not in force",
    needs="one of the rates in force on {date}: {known}; the nearest is {nearest}",
    why="labour is most of the price",
    do="correct --labour-rate, or the labour rate above the list",
)
