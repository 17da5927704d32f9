"""The month end with all that its outputs show: from which files, on which day, in which currency."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from estimator.pricing.bill_checks.finding import Finding
from estimator.pricing.bill_checks.run import CheckedBills
from estimator.pricing.cylinder_content import ReadingDoubts
from estimator.pricing.money import format_minor
from estimator.pricing.month_end import MonthEnd
from estimator.pricing.month_trend import MonthTrend
from estimator.pricing.span_balance import CylinderSpan
from estimator.problems.code import Problem
from estimator.shown_units import METRIC, ShownUnits

__all__ = ["InputFile", "MonthReport", "QuotedJob"]


@dataclass(frozen=True, slots=True)
class InputFile:
    """A workbook the answer rests on."""

    name: str
    sha256: str


@dataclass(frozen=True, slots=True)
class QuotedJob:
    """What a job was quoted at."""

    number: str
    price_minor: int
    paid_time_min: float
    gas_minor: int
    job_number: str = ""
    """The number under which its work is logged; empty where the log names the quote itself."""


@dataclass(frozen=True, slots=True)
class MonthReport:
    """Everything the terminal, the workbook and the JSON are written from."""

    done: MonthEnd
    checked: CheckedBills
    trends: tuple[MonthTrend, ...]
    spans: tuple[CylinderSpan, ...]
    """Tagged cylinders against the jobs between their dates."""
    problems: tuple[Problem, ...]
    """Of reading, of checking and of the log, sorted."""
    as_of: dt.date
    doubts: ReadingDoubts
    """Standard uncertainties of readings, of the shop book."""
    currency: str
    decimals: int
    files: tuple[InputFile, ...]
    shop_name: str = ""
    shop_contact: str = ""
    example_shop: bool = False
    """Whether the invented example shop book stood in for the shop's own."""
    has_log: bool = False
    paper: str = "A4"
    units: ShownUnits = METRIC
    """The units in which the shop is shown its gas."""
    paid_time_min: Mapping[str, float] = field(default_factory=dict)
    """Paid time of each job over all months."""
    quote_of_job: Mapping[str, str] = field(default_factory=dict)
    quotes: Mapping[str, QuotedJob] = field(default_factory=dict)

    @property
    def total_minor(self) -> int:
        """What all bills of the workbook ask, in minor units."""
        return sum(self.checked.checking.minor(bill.total) for bill in self.checked.checking.book.bills)

    def money(self, minor: int) -> str:
        """Return minor units as people read them."""
        return format_minor(minor, self.decimals)

    def of_supplier(self, supplier: str) -> list[Finding]:
        """Return the findings on one supplier's bills."""
        return [finding for finding in self.done.findings if finding.supplier == supplier]
