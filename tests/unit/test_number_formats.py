"""Number formats tell dates from numbers, and numbers of days become the dates that spreadsheets show."""

from __future__ import annotations

import datetime as dt

import pytest
from openpyxl.styles.numbers import BUILTIN_FORMATS
from openpyxl.styles.numbers import is_date_format as theirs_is_date
from openpyxl.utils.datetime import CALENDAR_MAC_1904, from_excel

from estimator.read.cells import CellError
from estimator.read.number_formats import BUILT_IN_FORMATS, date_value, is_date_format

DATES = [
    "d-mmm",
    "mm-dd-yy",
    "[$-409]d mmm yyyy;@",
    "h:mm AM/PM",
    "[h]:mm:ss",
    "[mm]:ss",
    "yyyy",
    "mmss.0",
    "TT.MM.JJJJ yyyy",
]
NUMBERS = [
    "General",
    "GENERAL",
    "0.00",
    "# ??/??",
    '0 "days"',
    r"0\d",
    "[Red]0.00",
    "0.00E+00",
    "@",
    "",
    "#,##0_d",
    '"m"0',
    "0*d",
]


@pytest.mark.parametrize("code", DATES)
def test_formats_of_dates_and_times_are_known(code):
    assert is_date_format(code)


@pytest.mark.parametrize("code", NUMBERS)
def test_formats_of_numbers_are_not_taken_for_dates(code):
    assert not is_date_format(code)


def test_a_second_library_agrees_on_every_built_in_format():
    # openpyxl's table of ECMA-376 part 1, 18.8.30.
    for number, code in BUILTIN_FORMATS.items():
        assert is_date_format(BUILT_IN_FORMATS.get(number, "General")) == bool(theirs_is_date(code)), number


@pytest.mark.parametrize("days", [1.0, 59.0, 61.0, 100.5, 46085.0, 46331.123456, 2958465.0])
def test_a_second_library_agrees_on_dates_of_the_1900_epoch(days):
    # openpyxl rounds to the microsecond or millisecond by its own way: a millisecond is the tolerance.
    assert abs(date_value(days, epoch_1904=False) - from_excel(days)) <= dt.timedelta(milliseconds=1)


@pytest.mark.parametrize("days", [1.0, 60.0, 44623.25])
def test_a_second_library_agrees_on_dates_of_the_1904_epoch(days):
    assert date_value(days, epoch_1904=True) == from_excel(days, epoch=CALENDAR_MAC_1904)


@pytest.mark.parametrize(
    ("days", "shown"), [(0.0, dt.time(0)), (0.25, dt.time(6)), (0.999988425925926, dt.time(23, 59, 59))]
)
def test_less_than_a_day_is_a_time_of_day(days, shown):
    assert date_value(days, epoch_1904=False) == shown


@pytest.mark.parametrize("days", [-1.0, -0.001, 60.0, 60.5, 2958466.0, 1e300])
def test_what_a_spreadsheet_cannot_show_is_an_error_value(days):
    assert isinstance(date_value(days, epoch_1904=False), CellError)


def test_the_last_days_of_the_1904_epoch_end_where_dates_end():
    assert isinstance(date_value(2958465.0, epoch_1904=True), CellError)
