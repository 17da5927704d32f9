"""Problems of finished jobs that are set beside what the engine would have said (94x)."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = ["NO_PAST_JOBS", "PAST_HOURS_MISSING", "PAST_LIST_MISSING", "PAST_ROW_EMPTY"]

NO_PAST_JOBS = ProblemCode(
    "E940",
    Level.ERROR,
    "there is no finished job in it",
    needs="one row at least: a job, its metres or its cut list, and the hours it took",
    why="what would have been said is set beside what it took",
    do="type your last finished jobs, or write a blank with: kerfledger blanks FOLDER",
)
PAST_ROW_EMPTY = ProblemCode(
    "E941",
    Level.ERROR,
    "the row has neither a cut list nor thickness and metres",
    needs="the file of a cut list, or a thickness and the metres that were cut",
    why="hours and gas are worked out from them",
    do="type one of the two in {place}",
)
PAST_HOURS_MISSING = ProblemCode(
    "W942",
    Level.WARNING,
    "the job has no hours",
    needs="the man-hours that were paid for it",
    why="hours are most of the price, and the first thing to compare",
    do="type them in a row of the job",
    concern=Concern.MISSING,
)
PAST_LIST_MISSING = ProblemCode(
    "E943",
    Level.ERROR,
    "the job's cut list is not in the folder",
    needs="a file beside this workbook",
    why="the job is worked out from it",
    do="put the file there, or correct its name in {place}",
)
