"""Problems of the work log and the cylinder tags (70x to 72x)."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "ACETYLENE_BY_GAUGE",
    "LOG_EMPTY",
    "LOG_GAP",
    "LOG_OUTSIDE",
    "READING_ROSE",
    "ROW_NOT_MODELLED",
    "ROW_REFUSED",
    "ROW_THIN",
    "TAG_BACKWARD",
    "TAG_JOB_UNKNOWN",
    "TAG_OVERLAP",
]

LOG_EMPTY = ProblemCode(
    "E701",
    Level.ERROR,
    "the work log holds no work",
    needs="at least one row with a date and a job",
    why="there is nothing to set beside the gas",
    do="type one row for each person, job and day; or leave the log away to check the bills alone",
)
ROW_NOT_MODELLED = ProblemCode(
    "W702",
    Level.WARNING,
    "the row says neither a length nor torch-lit minutes",
    needs="thickness and length, or torch-lit minutes",
    why="its gas cannot be worked out, so it would show up as gas that nothing explains",
    do="type the metres cut or the minutes the torch was lit",
    concern=Concern.MISSING,
)
ROW_THIN = ProblemCode(
    "N703",
    Level.NOTE,
    "thin rows in the log ({count}): {missing} worked out by the model",
    why="thin rows are normal, and their gas is less certain",
    concern=Concern.FORM,
)
READING_ROSE = ProblemCode(
    "W704",
    Level.WARNING,
    "the reading went up and no cylinder was changed",
    needs="a reading after the work at or below the one before",
    why="gas does not come back; the two readings of this row are not used",
    do="correct a reading, or type how many cylinders were changed",
)
TAG_BACKWARD = ProblemCode(
    "E705",
    Level.ERROR,
    "the cylinder came off before it went on",
    needs="a day off on or after the day on, {date_on}",
    why="the jobs between are found by these days",
    do="correct the dates in {place}",
)
TAG_JOB_UNKNOWN = ProblemCode(
    "W706",
    Level.WARNING,
    "the tag names a job that the work log does not hold",
    needs="jobs of the work log, spelt the same",
    why="the gas of this cylinder belongs in part to work that is not known",
    do="correct the job in {place}{near}, or log its work",
)
TAG_OVERLAP = ProblemCode(
    "W707",
    Level.WARNING,
    "the same cylinder stood on two torches on the same days",
    needs="days that do not overlap for one cylinder",
    why="its gas would be counted twice",
    do="correct the dates or the cylinder's number",
)
LOG_GAP = ProblemCode(
    "W708",
    Level.WARNING,
    "the log is silent for {days} days, though cylinders were used",
    needs="a row for each day the torch was lit",
    why="work that is not logged shows up as gas that nothing explains",
    do="log what was done from {first} to {last}; work that belongs to no job goes under SHOP",
)
LOG_OUTSIDE = ProblemCode(
    "N709",
    Level.NOTE,
    "rows of the log that lie outside the days between the counts: {count}",
    why="they belong to another month and were left out of this one",
    concern=Concern.FORM,
)
ACETYLENE_BY_GAUGE = ProblemCode(
    "W710",
    Level.WARNING,
    "acetylene was read by its gauge",
    needs="the cylinder's weight",
    why="acetylene is dissolved, its pressure follows the temperature, and the gauge tells the content only roughly",
    do="weigh the cylinder; the reading was used as a rough one",
    concern=Concern.SAFETY,
)
ROW_REFUSED = ProblemCode(
    "W711",
    Level.WARNING,
    "the shop book cannot work out this row's gas",
    needs="a tip on hand that covers the thickness, and a heating tip for heating",
    why="the row's gas is missing from what the work explains",
    do="correct the row, or add the tip to the shop book",
)
