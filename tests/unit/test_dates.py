"""Dates that were fractions. What programs make of them was measured, month first and day first."""

import datetime as dt

import pytest

from estimator.read.dates import fraction_in_date, fraction_in_serial, is_fraction_format

UNDERS = (2, 4, 8, 16, 32, 64)
FRACTIONS = [(over, under) for under in UNDERS for over in range(1, under, 2)]


def _typed(over: int, under: int, *, day_first: bool) -> dt.date | None:
    """The date a spreadsheet program makes of ``over/under`` in 2026, or None where it stays a text."""
    month, day = (under, over) if day_first else (over, under)
    if month <= 12 and day <= 31:
        try:
            return dt.date(2026, month, day)
        except ValueError:
            return None
    if over <= 12:
        return dt.date(2000 + under if under < 30 else 1900 + under, over, 1)
    return None


@pytest.mark.parametrize("day_first", [False, True])
@pytest.mark.parametrize(("over", "under"), FRACTIONS)
def test_every_plate_fraction_that_becomes_a_date_is_recovered(over: int, under: int, day_first: bool) -> None:
    date = _typed(over, under, day_first=day_first)
    if date is None:
        assert over > 12, "only fractions with an upper figure over 12 stay texts"
        return
    found = fraction_in_date(date, "d-mmm")
    assert found is not None
    assert found.said == f"{over}/{under}"


@pytest.mark.parametrize("date", [dt.date(2026, 6, 5), dt.date(2026, 4, 26), dt.date(2026, 3, 3), dt.date(2026, 2, 4)])
def test_a_date_that_is_no_plate_fraction_stays_a_date(date: dt.date) -> None:
    assert fraction_in_date(date) is None


def test_a_format_with_a_full_year_does_not_speak_for_a_fraction() -> None:
    short, full = (fraction_in_date(dt.date(2026, 3, 4), f) for f in ("d-mmm", "dd/mm/yyyy"))
    assert short is not None
    assert full is not None
    assert (short.typed_alike, full.typed_alike) == (True, False)


def test_a_serial_whose_format_was_lost_gives_its_fraction_back() -> None:
    found = fraction_in_serial(46085)
    assert found is not None
    assert found.said == "3/4"


@pytest.mark.parametrize("serial", [12.5, 0.0, 46086.5, 3e6, 1200.0])
def test_a_plain_number_is_no_serial_of_a_fraction(serial: float) -> None:
    assert fraction_in_serial(serial) is None


def test_a_fraction_format_is_told_from_a_date_format() -> None:
    assert [is_fraction_format(f) for f in ("# ?/?", "# ??/??", "d/m/yy", "0.00")] == [True, True, False, False]
