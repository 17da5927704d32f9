"""Number formats and sheet names of the priced workbook, each said once."""

from __future__ import annotations

from dataclasses import dataclass

from estimator.units import FACTORS
from estimator.write.styles import money_format

__all__ = ["MM_PER_INCH", "SHEETS", "NumberFormats", "SheetNames"]


MM_PER_INCH = FACTORS["length_mm"]["in"]


@dataclass(frozen=True, slots=True)
class SheetNames:
    """Names of the sheets, in their order."""

    answer: str = "Answer"
    lines: str = "Lines"
    build_up: str = "Build-up"
    gas: str = "Gas"
    settings: str = "Tip settings"
    rates: str = "Rates"
    how: str = "How worked out"
    job_rows: str = "Job rows"
    costs: str = "Line costs"
    work: str = "Line work"
    carried: str = "From the list"
    second_look: str = "Second look"
    problems: str = "Problems"
    checks: str = "Checks"
    sources: str = "Sources"
    record: str = "Record"


SHEETS = SheetNames()


@dataclass(frozen=True, slots=True)
class NumberFormats:
    """Number formats of a shop; the currency stands in headings, not in every cell."""

    decimals: int = 2

    @property
    def money(self) -> str:
        """A printed amount."""
        return money_format(self.decimals)

    @property
    def exact_money(self) -> str:
        """An amount before rounding."""
        return self.money + "00" if self.decimals else self.money + ".00"

    whole = "#,##0"
    quantity = "#,##0.###"
    minutes = "#,##0.0"
    metres = "#,##0.00"
    volume = "#,##0.000"
    flow = "0.00"
    speed = "#,##0"
    factor = "0.00##"
    share = "0.0%"
    thickness = "0.0##"
