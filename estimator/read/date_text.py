"""Dates typed as text: year first, day first with dots, a month by name; what can be exchanged is asked."""

from __future__ import annotations

import datetime as dt
import re

from estimator.read.number_text import plain_text

__all__ = ["AmbiguousDateError", "read_date_text"]

_MONTHS = (
    "jan january januar jänner enero janvier janeiro gennaio stycznia styczeń sty",
    "feb february februar febrero février fevrier fevereiro febbraio lutego luty lut",
    "mar march märz mrz marzo mars março marca marzec",
    "apr april abril avril aprile kwietnia kwiecień kwi",
    "may mai mayo maio maggio maja maj",
    "jun june juni junio juin junho giugno czerwca czerwiec cze",
    "jul july juli julio juillet julho luglio lipca lipiec lip",
    "aug august agosto août aout sierpnia sierpień sie",
    "sep sept september septiembre septembre setembro settembre września wrzesień wrz",
    "oct okt october oktober octubre octobre outubro ottobre października październik paź",
    "nov november noviembre novembre novembro listopada listopad lis",
    "dec dez december dezember diciembre décembre decembre dezembro dicembre grudnia grudzień gru",
)
"""Months by name in English, German, Spanish, French, Portuguese, Italian and Polish."""


class AmbiguousDateError(ValueError):
    """A date such as ``05/11/2026`` whose day and month can be exchanged; ``readings`` holds both."""

    def __init__(self, text: str, readings: tuple[dt.date, dt.date]) -> None:
        self.readings = (readings[0].isoformat(), readings[1].isoformat())
        super().__init__(f"{text!r} is {self.readings[0]} or {self.readings[1]}")


def read_date_text(text: str) -> dt.date:
    """Return the date that a text states.

    Parameters
    ----------
    text : str
        Such as ``2026-11-05``, ``5.11.2026``, ``5 Nov 2026``, ``13/11/2026``.

    Returns
    -------
    datetime.date
        The date.

    Raises
    ------
    AmbiguousDateError
        When day and month can be exchanged (``05/11/2026``).
    ValueError
        When the text is not a date, or there is no such day.

    Notes
    -----
    With dots the day comes first, which is how dotted dates are written; with slashes nothing tells. Years have four
    digits. Source: year-month-day by ISO 8601; the rest common practice, no source.

    Examples
    --------
    >>> read_date_text("2026-11-05"), read_date_text("5 Nov 2026") == read_date_text("5.11.2026")
    (datetime.date(2026, 11, 5), True)
    """
    said = plain_text(text).casefold()
    if match := re.fullmatch(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[t ]00:00(?::00)?)?", said):
        return dt.date(int(match[1]), int(match[2]), int(match[3]))
    if match := re.fullmatch(r"(\d{1,2})\.(\d{1,2})\.(\d{4})", said):
        return dt.date(int(match[3]), int(match[2]), int(match[1]))
    if match := re.fullmatch(r"(\d{1,2})\.?[ -](?:de )?([^\W\d_]+)\.?[ -](?:de )?(\d{4})", said):
        return dt.date(int(match[3]), _month(match[2], text), int(match[1]))
    if match := re.fullmatch(r"([^\W\d_]+)\.? (\d{1,2}),? (\d{4})", said):
        return dt.date(int(match[3]), _month(match[1], text), int(match[2]))
    if match := re.fullmatch(r"(\d{1,2})[/-](\d{1,2})[/-](\d{4})", said):
        return _either_order(text, int(match[1]), int(match[2]), int(match[3]))
    raise ValueError(f"{text!r} is not a date")


def _month(word: str, text: str) -> int:
    for number, names in enumerate(_MONTHS, start=1):
        if word in names.split():
            return number
    raise ValueError(f"{text!r} names no month")


def _either_order(text: str, first: int, second: int, year: int) -> dt.date:
    if first <= 12 and second <= 12 and first != second:
        raise AmbiguousDateError(text, (dt.date(year, second, first), dt.date(year, first, second)))
    return dt.date(year, second, first) if second <= 12 else dt.date(year, first, second)
