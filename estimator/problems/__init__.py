"""Problems as data. One module per subject states its codes; ``CODES`` gathers them for the docs and the tests.

Numbers: 0xx files, 1xx finding the table, 2xx cut-list cells, 3xx shop book, 4xx rack and safety,
5xx price lists, 6xx bills, 7xx work log and learning, 8xx writing (88x what was asked), 9xx quotes and register.
"""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

from estimator.problems.code import (
    Concern,
    Level,
    Place,
    Problem,
    ProblemCode,
    WorkbookProblemsError,
    has_error,
    raise_on_errors,
    sort_problems,
    strict,
)

__all__ = [
    "Concern",
    "Level",
    "Place",
    "Problem",
    "ProblemCode",
    "WorkbookProblemsError",
    "all_codes",
    "concern_of",
    "has_error",
    "raise_on_errors",
    "sort_problems",
    "strict",
]


def all_codes() -> dict[str, ProblemCode]:
    """Return every stated problem code, by code; a code stated twice is our fault."""
    found: dict[str, ProblemCode] = {}
    for info in pkgutil.iter_modules(__path__):
        module = importlib.import_module(f"{__name__}.{info.name}")
        for value in vars(module).values():
            if isinstance(value, ProblemCode) and found.setdefault(value.code, value) is not value:
                raise ValueError(f"problem code {value.code} is stated twice")
    return dict(sorted(found.items()))


def concern_of(problem: Problem) -> Concern:
    """Return what a problem touches, by its code."""
    return _concerns().get(problem.code, Concern.CHECK)


@cache
def _concerns() -> dict[str, Concern]:
    return {code: stated.concern for code, stated in all_codes().items()}
