"""The register of quotes as records: what was sent, at what price, and what became of it."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from pydantic import BaseModel, ConfigDict

from estimator.problems import Place, Problem
from estimator.problems import quotes as say
from estimator.read.cells import Book
from estimator.read.own_sheets import read_records, read_sheet
from estimator.sheets.register import FIRST_REVISION, OPEN, QUOTED_LINES, QUOTES, WON

__all__ = ["QuoteKey", "QuoteRow", "QuotedLine", "Register", "next_revision", "read_register"]

_ENDING = re.compile(r"^(.*?)(\d+)$")
_FIRST_NUMBER = "Q-0001"


class _Record(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")

    row: int = 0
    """Row of the sheet; 0 for one that is not written yet."""
    number: str
    revision: str = FIRST_REVISION
    variation: int | None = None

    @property
    def key(self) -> QuoteKey:
        """What tells one row from another."""
        return QuoteKey(_plain(self.number), _plain(self.revision), self.variation or 0)


@dataclass(frozen=True, slots=True, order=True)
class QuoteKey:
    """Number and revision in capitals, and the variation; 0 for the quote itself."""

    number: str
    revision: str
    variation: int = 0

    def __str__(self) -> str:
        said = f"{self.number} revision {self.revision}"
        return f"{said} variation {self.variation}" if self.variation else said


class QuoteRow(_Record):
    """One quote, revision or variation. Money is in the major unit, gas at 15 °C and 101.325 kPa."""

    date: dt.date
    customer: str = ""
    title: str = ""
    price: float
    total: float | None = None
    hours: float | None = None
    oxygen_m3: float | None = None
    fuel: str = ""
    fuel_m3: float | None = None
    gas_cost: float | None = None
    state: str = OPEN
    decided_on: dt.date | None = None
    why: str = ""
    job_number: str = ""
    work_from: dt.date | None = None
    file: str = ""
    estimate: str = ""
    print: str = ""


class QuotedLine(_Record):
    """One line of a quote as it was sent."""

    mark: str = ""
    description: str = ""
    thickness_mm: float | None = None
    quantity: float
    price_each: float
    amount: float
    paid_time_min: float | None = None


@dataclass(slots=True)
class Register:
    """The whole register, as far as it can be read; ``taken`` holds the numbers of the rows that cannot, too."""

    quotes: list[QuoteRow] = field(default_factory=list)
    lines: list[QuotedLine] = field(default_factory=list)
    taken: list[str] = field(default_factory=list)
    """Every number in the sheet, in its order, those of refused rows among them."""
    file: str = ""
    sha256: str = ""

    def find(self, key: QuoteKey) -> QuoteRow | None:
        """Return the row of a key; None when there is none."""
        return next((row for row in self.quotes if row.key == key), None)

    def of_number(self, number: str) -> list[QuoteRow]:
        """Return revisions and variations of one number, revisions in their order, variations behind theirs."""
        wanted = _plain(number)
        found = [row for row in self.quotes if row.key.number == wanted]
        return sorted(found, key=lambda row: (_revision_order(row.revision), row.variation or 0))

    def revisions(self, number: str) -> list[QuoteRow]:
        """Return the revisions of one number without their variations, in order."""
        return [row for row in self.of_number(number) if not row.variation]

    def won(self) -> list[QuoteRow]:
        """Return what is won and not done, variations too, by the day the work begins, undated ones last."""
        rows = [row for row in self.quotes if row.state == WON]
        return sorted(rows, key=lambda row: (row.work_from or dt.date.max, row.row))

    def lines_of(self, key: QuoteKey) -> list[QuotedLine]:
        """Return the lines of one quote in the order in which they were sent."""
        return [line for line in self.lines if line.key == key]

    def is_taken(self, number: str) -> bool:
        """Say whether a number stands in the register, readable row or not."""
        return _plain(number) in {_plain(one) for one in self.taken}

    def next_number(self) -> str | None:
        """Return the number after the highest of the kind used last; None where the last ends in no digit.

        Examples
        --------
        >>> Register(taken=["Q-0009", "X7", "Q-0031"]).next_number()
        'Q-0032'
        >>> Register().next_number()
        'Q-0001'
        """
        if not self.taken:
            return _FIRST_NUMBER
        last = _ENDING.match(self.taken[-1].strip())
        if last is None:
            return None
        prefix, digits = last[1], last[2]
        of_kind = [found for one in self.taken if (found := _ENDING.match(one.strip())) and found[1] == prefix]
        return f"{prefix}{max(int(found[2]) for found in of_kind) + 1:0{len(digits)}d}"


def next_revision(revision: str) -> str:
    """Return the revision after one: letters after letters, numbers after numbers.

    Examples
    --------
    >>> [next_revision(r) for r in ("A", "Z", "AZ", "2")]
    ['B', 'AA', 'BA', '3']
    """
    plain = _plain(revision)
    if plain.isdigit():
        return str(int(plain) + 1)
    if not re.fullmatch("[A-Z]+", plain):
        return f"{plain}{FIRST_REVISION}"
    stem = plain.rstrip("Z")
    ending = FIRST_REVISION * (len(plain) - len(stem))
    return f"{stem[:-1]}{chr(ord(stem[-1]) + 1)}{ending}" if stem else FIRST_REVISION + ending


def read_register(book: Book) -> tuple[Register, list[Problem]]:
    """Return what a register holds and every problem found in it.

    Parameters
    ----------
    book : Book
        The loaded file.

    Returns
    -------
    tuple of (Register, list of Problem)
        Rows with a problem are left out, but their numbers count as taken.
    """
    numbers = [row.values["number"] for row in read_sheet(book, QUOTES).rows]
    quotes, problems = read_records(book, QUOTES, QuoteRow)
    lines, of_lines = read_records(book, QUOTED_LINES, QuotedLine)
    taken = [*(str(n) for n in numbers if n), *(line.number for line in lines)]
    register = Register(quotes, lines, list(dict.fromkeys(taken)), book.path.name, book.sha256)
    return register, [*problems, *of_lines, *_twice(quotes, book.path.name)]


def _twice(quotes: Iterable[QuoteRow], file: str) -> list[Problem]:
    seen: dict[QuoteKey, int] = {}
    found = []
    for row in quotes:
        first = seen.setdefault(row.key, row.row)
        if first != row.row:
            found.append(say.QUOTE_TWICE.at(Place(file, QUOTES.name, row.row), found=str(row.key), first=first))
    return found


def _plain(text: str) -> str:
    return " ".join(text.upper().split())


def _revision_order(revision: str) -> tuple[int, str]:
    plain = _plain(revision)
    return (len(plain), plain)
