"""Fractions that a spreadsheet program turned into dates: 3/4 became 4 March. One sensible reading, or none."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["FractionDate", "fraction_in_date", "fraction_in_serial", "is_fraction_format"]


@dataclass(frozen=True, slots=True)
class FractionDate:
    """A fraction found in a date, and how strongly the cell's format speaks for it."""

    value: Fraction
    typed_alike: bool
    """The format is one that a spreadsheet program gives when somebody types a fraction."""

    @property
    def said(self) -> str:
        """The fraction as it was typed."""
        return f"{self.value.numerator}/{self.value.denominator}"


def fraction_in_date(date: dt.date, number_format: str = "") -> FractionDate | None:
    """Return the plate fraction that a date was before it became one; None when there is none.

    Parameters
    ----------
    date : date
        The date that stands in the cell.
    number_format : str
        Its number format; a format with a full year was hardly made by typing a fraction.

    Returns
    -------
    FractionDate or None
        A fraction in halves to 64ths with an odd numerator. At most one reading of a date is such a fraction.

    Notes
    -----
    Month-first programs turn 3/4 into 4 March, day-first ones into 3 April. Where the second figure is no day (3/16 day
    first, 3/32 in both) it is taken as a year: 1 March 2016, 1 March 1932.

    Examples
    --------
    >>> import datetime as dt
    >>> fraction_in_date(dt.date(2026, 3, 4), "d-mmm").said, fraction_in_date(dt.date(1932, 3, 1), "mmm-yy").said
    ('3/4', '3/32')
    >>> fraction_in_date(dt.date(2026, 6, 5)) is None
    True
    """
    pairs = [(date.month, date.day), (date.day, date.month)]
    if date.day == 1:
        pairs.append((date.month, date.year % 100))
    found = [Fraction(over, under) for over, under in pairs if over < under and over % 2 == 1 and under in _UNDER]
    if not found:
        return None
    folded = number_format.lower()
    return FractionDate(found[0], typed_alike="yyyy" not in folded and "h" not in folded)


def fraction_in_serial(serial: float) -> FractionDate | None:
    """Return the fraction in a date serial whose date format was lost; only years that a typed fraction can give.

    Examples
    --------
    >>> fraction_in_serial(46085).said
    '3/4'
    """
    if not 1 <= serial < 2_958_466 or serial != int(serial):
        return None
    date = dt.date(1899, 12, 30) + dt.timedelta(days=int(serial))
    return fraction_in_date(date) if 2010 <= date.year < 2100 or date.year in {1932, 1964} else None


def is_fraction_format(number_format: str) -> bool:
    """Return whether a number format shows fractions, as ``# ??/??`` does; inches are typed so.

    Examples
    --------
    >>> is_fraction_format("# ?/?"), is_fraction_format("d/m")
    (True, False)
    """
    return "/" in number_format and ("?" in number_format or "#" in number_format) and "d" not in number_format.lower()


_UNDER = frozenset({2, 4, 8, 16, 32, 64})
