"""Problems of learning from jobs (73x)."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = ["LOG_TEACHES_NOTHING", "LOG_UNUSED"]

LOG_TEACHES_NOTHING = ProblemCode(
    "W731",
    Level.WARNING,
    "the log teaches nothing yet: {why}",
    needs="three jobs or more with man-minutes, torch-lit minutes or cylinder tags, of different sizes",
    why="a factor that the log cannot carry would make the next quote worse, so the handbook's was kept",
    do="go on logging; the report says of each factor what is missing",
)
LOG_UNUSED = ProblemCode(
    "N732",
    Level.NOTE,
    "{count} logged figures were not used",
    why="each is listed with its reason on the report's sheet 'Not used'",
    concern=Concern.FORM,
)
