"""What a spreadsheet's number format says of a number: that it is a date or a time, and which.

Numbers of days are counted from one of two epochs, which the workbook names.
"""

from __future__ import annotations

import datetime as dt
import re
from functools import lru_cache

from estimator.read.cells import CellError

__all__ = ["BUILT_IN_FORMATS", "GENERAL", "date_value", "is_date_format"]

GENERAL = "General"

# ECMA-376 part 1, 18.8.30: the formats that are known by number alone; the dates of East Asian locales (27-36, 50-58)
# are given as plain dates, since only their being dates matters here.
BUILT_IN_FORMATS = {
    0: GENERAL,
    1: "0",
    2: "0.00",
    3: "#,##0",
    4: "#,##0.00",
    9: "0%",
    10: "0.00%",
    11: "0.00E+00",
    12: "# ?/?",
    13: "# ??/??",
    14: "mm-dd-yy",
    15: "d-mmm-yy",
    16: "d-mmm",
    17: "mmm-yy",
    18: "h:mm AM/PM",
    19: "h:mm:ss AM/PM",
    20: "h:mm",
    21: "h:mm:ss",
    22: "m/d/yy h:mm",
    **dict.fromkeys((*range(27, 37), *range(50, 59)), "yyyy-mm-dd"),
    37: "#,##0 ;(#,##0)",
    38: "#,##0 ;[Red](#,##0)",
    39: "#,##0.00;(#,##0.00)",
    40: "#,##0.00;[Red](#,##0.00)",
    45: "mm:ss",
    46: "[h]:mm:ss",
    47: "mmss.0",
    48: "##0.0E+0",
    49: "@",
}

_NOT_CODE = re.compile(r'"[^"]*"|\\.|_.|\*.|\[(?!h+\]|m+\]|s+\])[^\]]*\]', re.IGNORECASE)
_LAST_DAY = 2_958_465
"""31 December 9999, the last day that spreadsheets know."""


@lru_cache(maxsize=4096)
def is_date_format(number_format: str) -> bool:
    """Return whether numbers in this format show as a date or a time.

    Parameters
    ----------
    number_format : str
        Format code as the file holds it.

    Returns
    -------
    bool
        True when its code, quoted words and colours aside, has a letter of day, month, year, hour or second.

    Notes
    -----
    Source: ECMA-376 part 1, 18.8.31 (number format codes).

    Examples
    --------
    >>> is_date_format("d-mmm"), is_date_format('0.0 "days"'), is_date_format("[Red]0.00"), is_date_format("[h]:mm")
    (True, False, False, True)
    """
    code = _NOT_CODE.sub("", number_format)
    return code.casefold() != "general" and bool(re.search("[dmyhs]", code, re.IGNORECASE))


@lru_cache(maxsize=65536)
def date_value(days: float, *, epoch_1904: bool) -> dt.datetime | dt.time | CellError:
    """Return the date or time that a number of days stands for.

    Parameters
    ----------
    days : float
        Days since the epoch; the part behind the point is the time of day [day].
    epoch_1904 : bool
        Whether day 0 is 1 January 1904; else day 1 is 1 January 1900, and day 60 does not exist.

    Returns
    -------
    datetime, time or CellError
        Less than one day is a time of day. What a spreadsheet shows as ``#####`` (below zero, beyond 9999, the day that
        never was) is an error value.

    Notes
    -----
    Rounded to milliseconds. Source: ECMA-376 part 1, 18.17.4 (date systems); the 29 February 1900 is common practice.

    Examples
    --------
    >>> date_value(46331.0, epoch_1904=False)
    datetime.datetime(2026, 11, 5, 0, 0)
    >>> date_value(44869.0, epoch_1904=True)
    datetime.datetime(2026, 11, 5, 0, 0)
    """
    milliseconds = round(days * 86_400_000) if -1 < days < _LAST_DAY + 1 else -1
    if milliseconds < 0 or (not epoch_1904 and 60 <= days < 61):
        return CellError("#####")
    if milliseconds < 86_400_000:
        return (dt.datetime.min + dt.timedelta(milliseconds=milliseconds)).time()
    if epoch_1904:
        epoch = dt.datetime(1904, 1, 1)
    else:
        epoch = dt.datetime(1899, 12, 30) if days >= 60 else dt.datetime(1899, 12, 31)
    try:
        return epoch + dt.timedelta(milliseconds=milliseconds)
    except OverflowError:
        return CellError("#####")
