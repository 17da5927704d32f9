"""What every check of a bill needs at hand: the book, the day, the agreed price in force, what came with which note."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace

from estimator.check.bills import AgreedPrice, Bill, BillLine, BillsBook, Delivery
from estimator.pricing.bill_checks.finding import Finding, FindingKind
from estimator.pricing.cylinder_content import CylinderSize, ReadingDoubts
from estimator.pricing.money import format_minor, to_minor
from estimator.problems.code import Place, Problem
from estimator.read.billed_unit import BilledUnit, Per
from estimator.units import ReferenceState

__all__ = ["Check", "Checking"]


@dataclass(frozen=True, slots=True)
class Checking:
    """A bills workbook under check."""

    book: BillsBook
    as_of: dt.date
    """The day from which the days left to object are counted."""
    decimals: int = 2
    sizes: tuple[CylinderSize, ...] = ()
    """Cylinder sizes of the shop book; those of the agreed prices are used where a size is not among them."""
    objection_days: int | None = None
    """Days to object where the supplier's own terms do not say."""
    doubts: ReadingDoubts = field(default_factory=ReadingDoubts)
    """Standard uncertainties of readings on receipt."""
    set_aside: frozenset[int] = frozenset()
    """Lines (their place in ``book.lines``) that are already known to be billed twice."""
    set_aside_bills: frozenset[int] = frozenset()
    """Bills (their place in ``book.bills``) that are already known to be sent twice."""
    problems: list[Problem] = field(default_factory=list)
    """What could not be checked, and why."""

    def bills(self) -> Iterator[tuple[Bill, tuple[BillLine, ...]]]:
        """Yield each bill that counts, with its lines that count."""
        for index, bill in enumerate(self.book.bills):
            if index not in self.set_aside_bills:
                yield bill, self.lines_of(bill)

    def lines_of(self, bill: Bill) -> tuple[BillLine, ...]:
        """Return the lines of a bill that count."""
        key = (bill.supplier, bill.bill_number)
        every = enumerate(self.book.lines)
        return tuple(n for i, n in every if i not in self.set_aside and (n.supplier, n.bill_number) == key)

    def minor(self, amount: float) -> int:
        """Return an amount of the major unit in minor units."""
        return int(to_minor(amount, self.decimals))

    def money(self, minor: int) -> str:
        """Return minor units as people read them."""
        return format_minor(minor, self.decimals)

    def price(self, price: float) -> str:
        """Return a unit price with the decimals it needs, the currency's at least and four at most."""
        places = next((n for n in range(self.decimals, 4) if abs(round(price, n) - price) < 1e-9), 4)
        return f"{price:.{places}f}"

    def day_of(self, line: BillLine, bill: Bill) -> dt.date:
        """Return the day whose price holds: of the line, else of its delivery note, else the bill's last day."""
        if line.date is not None:
            return line.date
        notes = self.deliveries_of(line)
        return notes[0].date if notes else bill.last_day

    def deliveries_of(self, line: BillLine) -> list[Delivery]:
        """Return what came with the note that a line names, of its gas and size."""
        return [
            d
            for d in self.book.deliveries
            if line.delivery_note
            and d.supplier == line.supplier
            and d.note_number == line.delivery_note
            and (not line.gas or d.gas == line.gas)
            and (not line.size or d.size == line.size)
        ]

    def agreed(self, kind: str, line: BillLine, day: dt.date) -> AgreedPrice | None:
        """Return the price in force on a day for a line; the closest row, of two the later."""
        fitting = [p for p in self.book.prices if p.supplier == line.supplier and p.kind == kind and p.holds_on(day)]
        fitting = [p for p in fitting if p.gas in ("", line.gas) and p.size in ("", line.size)]
        fitting = [p for p in fitting if not p.description or not line.description or _alike(p, line) or line.gas]
        key = _closeness(line)
        return max(fitting, key=key, default=None)

    def size_of(self, gas: str, size: str, supplier: str = "") -> CylinderSize | None:
        """Return a cylinder size: of the agreed prices of that supplier, filled up from the shop book."""
        known = next((s for s in self.sizes if (s.gas, s.size) == (gas, size)), None)
        for price in self.book.prices:
            if price.content and (price.gas, price.size) == (gas, size) and supplier in ("", price.supplier):
                content = price.content.volume_m3(gas, self.usual_state(gas, size, supplier))
                known = known or CylinderSize(gas, size, content)
                pressure = price.full_pressure_bar or known.full_pressure_bar
                tare = price.tare_kg if price.tare_kg is not None else known.tare_kg
                return replace(known, content_m3=content, full_pressure_bar=pressure, tare_kg=tare)
        return known

    def unit_m3(self, unit: BilledUnit | None, gas: str, size: str, supplier: str = "") -> float | None:
        """Return the gas in one unit of a quantity [m³]; None when it counts no gas or the size is not known."""
        if unit is None:
            return None
        if unit.per is Per.GAS and unit.gas is not None:
            return unit.gas.volume_m3(gas, self.usual_state(gas, size, supplier) if unit.lacks_state else None)
        if unit.per is Per.CYLINDER:
            known = self.size_of(gas, size, supplier)
            return known.content_m3 if known else None
        return None

    def usual_state(self, gas: str, size: str, supplier: str) -> ReferenceState:
        """Return the state a supplier's volumes are agreed at; 15 °C and 1 atm when it is said nowhere."""
        rows = [p for p in self.book.prices if p.supplier == supplier and p.gas == gas]
        rows.sort(key=lambda p: p.size != size)
        for price in rows:
            units = [price.unit.gas] if price.unit.gas else []
            units += [price.content] if price.content else []
            for unit in units:
                if unit.state is not None:
                    return unit.state
        return ReferenceState.C15_ATM

    def found(
        self,
        kind: FindingKind,
        bill: Bill,
        money_minor: int,
        said: str,
        *,
        expected: str,
        found: str,
        evidence: Iterable[Place],
        gas: str = "",
        size: str = "",
    ) -> Finding:
        """Return a finding on a bill, with the days left to object by that supplier's terms."""
        allowed = self.book.terms_of(bill.supplier).objection_days
        allowed = self.objection_days if allowed is None else allowed
        left = None if allowed is None else allowed - (self.as_of - bill.bill_date).days
        return Finding(
            kind,
            bill.supplier,
            bill.bill_number,
            money_minor,
            said,
            expected,
            found,
            tuple(dict.fromkeys(evidence)),
            gas,
            size,
            left,
        )


Check = Callable[[Checking], list[Finding]]


def _alike(price: AgreedPrice, line: BillLine) -> bool:
    return price.description.casefold() == line.description.casefold()


def _closeness(line: BillLine) -> Callable[[AgreedPrice], tuple[bool, bool, bool, dt.date]]:
    def key(price: AgreedPrice) -> tuple[bool, bool, bool, dt.date]:
        start = price.valid_from or dt.date.min
        return (price.gas == line.gas, price.size == line.size, _alike(price, line), start)

    return key
