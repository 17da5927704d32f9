"""Checked rows of the "Other work" sheet, and the built-in rows that stand where a shop has typed none of its own."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

import numpy as np
from pydantic import BaseModel, ConfigDict, Field, model_validator

from estimator.problems.code import Place
from estimator.reference import Table, table
from estimator.words import MoreBy, Per

__all__ = ["OtherWork", "built_in_other_work", "find_other_work", "with_built_in"]


class OtherWork(BaseModel):
    """One kind of work that is not burning, with its minutes for one unit."""

    model_config = ConfigDict(frozen=True, arbitrary_types_allowed=True)

    name: str
    per: str
    minutes: float
    minutes_low: float | None = None
    minutes_high: float | None = None
    more_min: float = 0.0
    more_by: str = MoreBy.NOTHING.word
    to_thickness_mm: float | None = None
    to_size_mm: float | None = None
    """Longest cut, largest hole or deepest bar that the work takes."""
    rest_allowed: bool = True
    people: int = 1
    labour_rate: str = ""
    consumable: str = ""
    consumable_life: float | None = None
    """Units that one lasts."""
    consumable_price: float | None = None
    """Price of one, in the major unit, as typed; pricing makes money of it."""
    oxygen_m3: float = 0.0
    """Oxygen for one unit, at 15 °C and 101.325 kPa."""
    fuel_kg: float = 0.0
    status: str = ""
    place: Place = Field(default=Place(), repr=False)

    @model_validator(mode="after")
    def _in_order(self) -> OtherWork:
        low, high = self.minutes_low, self.minutes_high
        if (low is not None and low > self.minutes) or (high is not None and high < self.minutes):
            raise ValueError("minutes must lie between the low and the high minutes")
        if self.more_min and self.more_by == MoreBy.NOTHING.word:
            raise ValueError("more minutes are given, but not what they grow with")
        return self

    @property
    def per_code(self) -> Per:
        """Code of the unit."""
        return next(code for code in Per if code.word == self.per)

    @property
    def more_by_code(self) -> MoreBy:
        """Code of the size that the extra minutes grow with."""
        return next(code for code in MoreBy if code.word == self.more_by)

    @property
    def time_in_words(self) -> str:
        """Return the likely minutes of one unit, without what grows with its size."""
        return f"{self.minutes:g} min a {self.per}"

    @property
    def spread(self) -> tuple[float, float]:
        """Low and high minutes over the likely ones; 1 and 1 where the shop gives no range."""
        if not self.minutes:
            return 1.0, 1.0
        low = self.minutes if self.minutes_low is None else self.minutes_low
        high = self.minutes if self.minutes_high is None else self.minutes_high
        return low / self.minutes, high / self.minutes


def with_built_in(typed: Sequence[OtherWork]) -> list[OtherWork]:
    """Return the shop's own rows and, after them, the built-in rows that it has not typed by that name."""
    own = {_key(work.name) for work in typed}
    return [*typed, *(work for work in built_in_other_work() if _key(work.name) not in own)]


def find_other_work(name: str, known: Sequence[OtherWork]) -> OtherWork | None:
    """Return the work of this name, capitals and blanks aside; None when there is none."""
    wanted = _key(name)
    return next((work for work in known if _key(work.name) == wanted), None)


@cache
def built_in_other_work() -> tuple[OtherWork, ...]:
    """Return the built-in rows; minutes that the work rates also use are taken from there, so that they agree."""
    rows = table("other_work")
    return tuple(_record(rows, row) for row in range(len(rows)))


def _record(rows: Table, row: int) -> OtherWork:
    minutes = _figures(rows, row, rate=_text(rows, row, "minutes_rate"), prefix="minutes")
    more = _figures(rows, row, rate=_text(rows, row, "more_rate"), prefix="more_min")
    return OtherWork(
        name=_text(rows, row, "name"),
        per=_text(rows, row, "per"),
        minutes=minutes[0],
        minutes_low=minutes[1],
        minutes_high=minutes[2],
        more_min=more[0],
        more_by=_text(rows, row, "more_by"),
        to_thickness_mm=_number(rows, row, "to_thickness_mm"),
        to_size_mm=_number(rows, row, "to_size_mm"),
        rest_allowed=_text(rows, row, "rest_allowed") == "yes",
        consumable=_text(rows, row, "consumable"),
        consumable_life=_number(rows, row, "consumable_life"),
        oxygen_m3=_number(rows, row, "oxygen_m3") or 0.0,
        fuel_kg=_number(rows, row, "fuel_kg") or 0.0,
        status=_text(rows, row, "status"),
    )


def _figures(rows: Table, row: int, *, rate: str, prefix: str) -> tuple[float, float, float]:
    """Likely, low and high: from the work rates where the row names one, else as they stand in the row."""
    if rate:
        named = table("work_rates").where(name=rate)
        return tuple(float(named.column(word)[0]) for word in ("likely", "low", "high"))  # type: ignore[return-value]
    likely = _number(rows, row, f"{prefix}_likely") or 0.0
    low, high = (_number(rows, row, f"{prefix}_{word}") for word in ("low", "high"))
    return likely, likely if low is None else low, likely if high is None else high


def _text(rows: Table, row: int, name: str) -> str:
    value = rows.column(name)[row]
    return "" if isinstance(value, float | np.floating) and math.isnan(value) else str(value)


def _number(rows: Table, row: int, name: str) -> float | None:
    value = rows.column(name)[row]
    return None if str(value) in {"", "nan"} else float(value)


def _key(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())
