"""An invented shop, month by month: it works, empties cylinders, gets deliveries and bills, counts, keeps a log.

Everything is drawn from a seed. Faults of stated sizes are planted one at a time. What the engine sees is only what a
shop sees: printed bills, notes, counts with readings, and the gas its log explains by a calibrated model.
"""

from __future__ import annotations

import datetime as dt
import itertools
from dataclasses import dataclass, field

import numpy as np

from estimator.check.bills import Bill, BillLine, BillsBook, Delivery, RackCount, SupplierTerms
from estimator.pricing.bill_checks.finding import FindingKind
from estimator.pricing.bill_checks.run import check_the_bills
from estimator.pricing.cylinder_content import ReadingDoubts, gas_in_cylinder
from estimator.pricing.expected_gas import ExpectedGas
from estimator.pricing.gas_balance import Explanation
from estimator.pricing.ledger import Ledger, Movement, Period
from estimator.pricing.money import to_minor
from estimator.pricing.month_end import MonthEnd, month_end
from estimator.pricing.rent import RentCount, RentRule, rent_due
from estimator.read.billed_unit import read_billed_unit
from estimator.read.cylinder_reading import CylinderReading, Means
from estimator.units import gas_amount
from tests.planted_faults import Fault
from tests.simulated_supplier import (
    ACETYLENE,
    BASE_PRICE,
    CONTENT,
    CONTENT_M3,
    OXYGEN,
    RENT_RULES,
    SIZE,
    SIZES,
    SUPPLIER,
    TARE_KG,
    UNITS,
    agreed_price,
    bill_line,
    size_of_gas,
    unit_m3,
)  # fmt: skip

__all__ = ["SimulatedMonths", "name_faults", "simulate"]

ONE_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class SimulatedMonths:
    """What the shop holds at the end."""

    book: BillsBook
    expected: list[ExpectedGas]
    counts: list[dt.date]
    """Days of the counts, one more than months."""
    fault: Fault | None
    leaking_gas: str
    as_of: dt.date

    def expect(self, after: dt.date, until: dt.date) -> ExpectedGas:
        """Return the modelled gas between two counts."""
        return self.expected[self.counts.index(after)]


@dataclass
class _Rack:
    """Cylinders of one gas as they really are."""

    gas: str
    full: list[float]
    on_torch: float
    left: list[float] = field(default_factory=list)
    """What is left in each empty one."""

    def draw(self, amount_m3: float, heel_m3: float) -> None:
        """Take gas from the cylinder on the torch; change it when it is down to what is left in the bottle."""
        while amount_m3 > self.on_torch - heel_m3 and self.full:
            given = max(0.0, self.on_torch - heel_m3)
            amount_m3 -= given
            self.left.append(self.on_torch - given)
            self.on_torch = self.full.pop(0)
        self.on_torch -= amount_m3

    @property
    def empties(self) -> int:
        """Empty cylinders on the rack."""
        return len(self.left)


@dataclass
class _Writer:
    """Rows as they are typed."""

    bills: list[Bill] = field(default_factory=list)
    lines: list[BillLine] = field(default_factory=list)
    deliveries: list[Delivery] = field(default_factory=list)
    counts: list[RackCount] = field(default_factory=list)


def simulate(
    seed: int, fault: Fault | None = None, months: int = 1, model_doubt: float = 0.01, worse_than_stated: float = 1.0
) -> SimulatedMonths:
    """Simulate the shop for some months; a fault is planted in the last one.

    ``model_doubt`` is the stated shared relative standard uncertainty of the model; the truth is drawn with
    ``worse_than_stated`` times that, and so is the scatter of fills and rows.
    """
    rng = np.random.default_rng(seed)
    shop = _Shop(rng, fault, model_doubt, worse_than_stated)
    for month in range(months):
        shop.run_month(last=month == months - 1)
    return shop.result()


class _Shop:
    def __init__(self, rng: np.random.Generator, fault: Fault | None, model_doubt: float, worse: float) -> None:
        self.rng, self.fault, self.model_doubt, self.worse = rng, fault, model_doubt, worse
        self.today = dt.date(2025, 1, 31) + dt.timedelta(days=int(rng.integers(0, 3)))
        self.unit = {gas: str(rng.choice(UNITS[gas])) for gas in UNITS}
        if fault is Fault.WRONG_STATE:
            self.unit[OXYGEN] = str(rng.choice(UNITS[OXYGEN][1:]))
        self.price = {gas: round(BASE_PRICE[gas] / self._units_in_cylinder(gas), 4) for gas in UNITS}
        self.price = {gas: round(p, 2 if self.unit[gas] == "cylinder" else 4) for gas, p in self.price.items()}
        self.rule = RENT_RULES[int(rng.integers(0, 2))]
        self.rate = 0.24 if self.rule is RentCount.DAILY else 7.2
        self.fees = {"delivery": 18.0, "energy surcharge": 6.5}
        self.objection_days = 30
        self.fill_level = 1 + rng.normal(0, 0.006 * worse)
        self.truth = {gas: float(np.exp(rng.normal(0, model_doubt * worse))) for gas in UNITS}
        self.loss = {OXYGEN: 0.15, ACETYLENE: 0.20}
        self.leaking_gas = str(rng.choice([OXYGEN, ACETYLENE]))
        self.rack = {
            OXYGEN: _Rack(OXYGEN, self._fill(OXYGEN, 6), 0.6 * CONTENT_M3[OXYGEN]),
            ACETYLENE: _Rack(ACETYLENE, self._fill(ACETYLENE, 4), 0.5 * CONTENT_M3[ACETYLENE]),
        }
        self.numbers = itertools.count(4400)
        self.bill_numbers = itertools.count(88100)
        self.rows = _Writer()
        self.billed: set[str] = set()
        self.expected: list[ExpectedGas] = []
        self.count_days: list[dt.date] = []
        self._count()

    # --- the shop ---

    def run_month(self, *, last: bool) -> None:
        rng = self.rng
        start = self.today
        first = (start + 5 * ONE_DAY).replace(day=1)
        end = _month_end(first)
        planted = self.fault if last else None
        days = [start + n * ONE_DAY for n in range(1, (end - start).days + 1)]
        counted_on = end + dt.timedelta(days=int(rng.integers(-2, 1)))
        days = [d for d in days if d <= counted_on]
        work = self._work(days)
        self.expected.append(self._expected(work))
        delivery_days = [d for d in days if d.weekday() == 3]
        month_gas = {gas: sum(gases[gas] for _, gases in work) for gas in UNITS}
        for day in days:
            if day in delivery_days:
                self._deliver(day, short=planted is Fault.SHORT_FILL, credit=day == delivery_days[-1])
            for on, gases in work:
                if on == day:
                    for gas, amount in gases.items():
                        self._use(gas, amount, planted)
            if planted is Fault.LEAK:
                gas = self.leaking_gas
                whole = month_gas[gas] * (1 + self.loss[gas])
                self._draw(gas, 0.10 * whole / len(days))
        self.today = counted_on
        self._count()
        self._bill(Period(first, end), planted)

    def _work(self, days: list[dt.date]) -> list[tuple[dt.date, dict[str, float]]]:
        """Return the modelled gas of each logged piece of work."""
        rng = self.rng
        work = []
        for day in days:
            if day.weekday() >= 5:
                continue
            for _ in range(int(rng.integers(1, 4))):
                oxygen = float(rng.lognormal(np.log(1.7), 0.5))
                work.append((day, {OXYGEN: oxygen, ACETYLENE: float(oxygen * rng.uniform(0.17, 0.27))}))
        return work

    def _expected(self, work: list[tuple[dt.date, dict[str, float]]]) -> ExpectedGas:
        rng = self.rng
        jobs = [f"J-{100 + int(n)}" for n in rng.integers(0, 7, len(work))]
        names = tuple(dict.fromkeys([*jobs, "SHOP"]))
        by_gas = {gas: np.zeros(len(names)) for gas in UNITS}
        flame = np.zeros(len(names))
        for job, (_, gases) in zip(jobs, work, strict=True):
            flame[names.index(job)] += 60 * gases[ACETYLENE] / 0.3
            for gas, amount in gases.items():
                by_gas[gas][names.index(job)] += amount
        own = {gas: 0.08 * float(np.sqrt(sum(w[1][gas] ** 2 for w in work))) for gas in UNITS}
        shared = dict.fromkeys(UNITS, self.model_doubt)
        return ExpectedGas(names, flame, by_gas, shared, own, self.loss, dict.fromkeys(UNITS, 0.005))

    def _use(self, gas: str, modelled: float, planted: Fault | None) -> None:
        line = float(np.exp(self.rng.normal(0, 0.08 * self.worse)))
        real = modelled * self.truth[gas] * line * (1 + self.loss[gas] + self.rng.normal(0, 0.01))
        if planted is Fault.UNLOGGED:
            real *= 1.10
        self._draw(gas, real)

    def _draw(self, gas: str, amount: float) -> None:
        size = size_of_gas(gas)
        self.rack[gas].draw(amount, size.heel_m3 * float(self.rng.uniform(0.6, 1.4)))

    def _fill(self, gas: str, cylinders: int, share: float = 1.0) -> list[float]:
        spread = self.rng.normal(0, 0.008 * self.worse, cylinders)
        return [CONTENT_M3[gas] * (self.fill_level + float(s)) * share for s in spread]

    def _deliver(self, day: dt.date, *, short: bool, credit: bool) -> None:
        number = str(next(self.numbers))
        for gas, rack in self.rack.items():
            out = rack.empties
            wanted = {OXYGEN: 6, ACETYLENE: 4}[gas]
            come = max(0, wanted - len(rack.full))
            if not come and not out:
                continue
            fills = self._fill(gas, come, 0.90 if short and gas == OXYGEN else 1.0)
            rack.full += fills
            left, rack.left = rack.left, []
            due = 12.0 if credit and gas == OXYGEN and out else None
            self.rows.deliveries.append(
                Delivery(
                    supplier=SUPPLIER,
                    note_number=number,
                    date=day,
                    gas=gas,
                    size=SIZE[gas],
                    full_in=come,
                    empty_out=out,
                    ordered=come,
                    readings_in=self._readings(gas, fills) if gas == OXYGEN else "",
                    readings_out=self._readings(gas, left) if gas == ACETYLENE else "",
                    credit_due=due,
                )
            )

    def _readings(self, gas: str, contents: list[float]) -> str:
        return "; ".join(self._reading(gas, content) for content in contents)

    def _reading(self, gas: str, content: float) -> str:
        if gas == OXYGEN:
            return f"{5 * round((self._pressure(content) + self.rng.normal(0, 1.5)) / 5):g} bar"
        kg = gas_amount(content, unit="kg", gas=gas, state=None)
        return f"{round(TARE_KG + kg + self.rng.normal(0, 0.07), 1):g} kg"

    def _pressure(self, content: float) -> float:
        """Return the gauge pressure at which an oxygen cylinder holds this much, by bisection on the engine's curve.

        The curve itself is held to an equation of state elsewhere; here it is only the shop's thermometer.
        """
        low, high = 0.0, 260.0
        for _ in range(40):
            middle = (low + high) / 2
            got = gas_in_cylinder(
                CylinderReading(Means.PRESSURE, middle), size_of_gas(OXYGEN), ReadingDoubts()
            ).amount_m3
            low, high = (middle, high) if got < content else (low, middle)
        return low

    def _count(self) -> None:
        self.count_days.append(self.today)
        for gas, rack in self.rack.items():
            self.rows.counts.append(
                RackCount(
                    date=self.today,
                    supplier=SUPPLIER,
                    gas=gas,
                    size=SIZE[gas],
                    full=len(rack.full),
                    part_readings=self._reading(gas, rack.on_torch),
                    empty=rack.empties,
                )
            )

    # --- the supplier ---

    def _units_in_cylinder(self, gas: str) -> float:
        if self.unit[gas] == "cylinder":
            return 1.0
        unit = read_billed_unit(self.unit[gas]).gas
        return CONTENT_M3[gas] / unit.volume_m3(gas)

    def _bill(self, period: Period, planted: Fault | None) -> None:
        number = str(next(self.bill_numbers))
        lines: list[BillLine] = []
        notes = [d for d in self.rows.deliveries if d.date <= period.last and d.note_number not in self.billed]
        self.billed |= {d.note_number for d in notes}
        victims = [d for d in notes if d.full_in and d.gas == OXYGEN]
        victim = victims[int(self.rng.integers(0, len(victims)))]
        for note in notes:
            if note.full_in:
                lines.append(self._gas_line(number, note, planted if note is victim else None))
        lines += self._rent_lines(number, period, planted)
        trips = len({d.note_number for d in notes})
        fee = self.fees["energy surcharge"] + (5.0 if planted is Fault.FEE_STEP else 0.0)
        lines.append(bill_line(number, "delivery", "delivery", trips, "delivery", self.fees["delivery"]))
        lines.append(bill_line(number, "fee", "energy surcharge", 1, "bill", fee))
        if planted is not Fault.CREDIT:
            for note in (d for d in notes if d.credit_due):
                credit = bill_line(number, "credit", "return", 1, "cylinder", -note.credit_due)
                lines.append(credit.model_copy(update={"delivery_note": note.note_number, "gas": note.gas}))
        if planted is Fault.DUPLICATE_LINE:
            lines.append(next(n for n in lines if n.delivery_note == victim.note_number).model_copy())
        self.rows.lines += lines
        self.rows.bills.append(self._foot(number, period, lines))
        if planted is Fault.DUPLICATE_BILL:
            again = str(next(self.bill_numbers))
            copies = [n.model_copy(update={"bill_number": again}) for n in lines]
            self.rows.lines += copies
            later = Period(period.first, period.last)
            self.rows.bills.append(self._foot(again, later, copies))

    def _gas_line(self, number: str, note: Delivery, planted: Fault | None) -> BillLine:
        gas, unit, price = note.gas, self.unit[note.gas], self.price[note.gas]
        places = 0 if unit == "cylinder" else 2
        quantity = round(note.full_in * self._units_in_cylinder(gas), places)
        if planted is Fault.PRICE:
            price = round(price * 1.03, 4)
        if planted is Fault.WRONG_UNIT and unit == "cylinder":
            quantity = round(note.full_in * CONTENT_M3[gas] / unit_m3("m³ (15 °C, 1 bar)", gas), 2)
            unit = "m³ (15 °C, 1 bar)"  # the price of a cylinder, charged for each cubic metre
        elif planted is Fault.WRONG_UNIT:
            quantity = round(note.full_in * CONTENT_M3[gas] / unit_m3("kg", gas), 2)  # kilograms, printed as volume
        if planted is Fault.WRONG_STATE:
            other = {"Nm³": "m³ (15 °C, 1 bar)", "m³ (15 °C, 1 bar)": "Nm³"}.get(unit, "100 ft³ (0 °C, 1 atm)")
            quantity = round(note.full_in * CONTENT_M3[gas] / unit_m3(other, gas), 2)
            if self.rng.random() < 0.5:
                unit = other  # counted and printed at the other state, at the price agreed for this one
        line = bill_line(number, "gas", gas, quantity, unit, price)
        return line.model_copy(
            update={"gas": gas, "size": note.size, "delivery_note": note.note_number, "date": note.date}
        )

    def _rent_lines(self, number: str, period: Period, planted: Fault | None) -> list[BillLine]:
        lines = []
        for gas in self.rack:
            counts = [c for c in self.rows.counts if c.gas == gas]
            notes = [d for d in self.rows.deliveries if d.gas == gas]
            opened = counts[0].date + ONE_DAY
            moves = tuple(Movement(d.date, d.full_in, d.empty_out) for d in notes)
            ledger = Ledger(min(opened, period.first), counts[0].cylinders, moves)
            units = rent_due(RentRule(self.rule, self.rate), ledger, period).units
            if planted is Fault.PHANTOM_RENT and gas == OXYGEN:
                units += period.days if self.rule is RentCount.DAILY else 1
            unit = "cylinder-day" if self.rule is RentCount.DAILY else "cylinder-month"
            line = bill_line(number, "rent", f"rental {gas}", units, unit, self.rate)
            lines.append(line.model_copy(update={"gas": gas, "size": SIZE[gas]}))
        return lines

    def _foot(self, number: str, period: Period, lines: list[BillLine]) -> Bill:
        net = round(sum(n.amount for n in lines), 2)
        tax = int(to_minor(net * 0.2)) / 100
        return Bill(
            supplier=SUPPLIER, bill_number=number, bill_date=period.last + ONE_DAY, period_from=period.first,
            period_to=period.last, net_total=net, tax_total=tax, total=round(net + tax, 2),
        )  # fmt: skip

    def result(self) -> SimulatedMonths:
        rows = self.rows
        prices = [
            agreed_price("gas", p, self.unit[g], gas=g, size=SIZE[g], content=CONTENT[g]) for g, p in self.price.items()
        ]
        unit = "cylinder-day" if self.rule is RentCount.DAILY else "cylinder-month"
        prices += [agreed_price("rent", self.rate, unit, gas=g, size=SIZE[g]) for g in UNITS]
        prices += [agreed_price("delivery", self.fees["delivery"], "delivery", description="delivery")]
        prices += [agreed_price("fee", self.fees["energy surcharge"], "bill", description="energy surcharge")]
        terms = SupplierTerms(supplier=SUPPLIER, objection_days=30, tax_rate=0.2, rent_rule=str(self.rule))
        book = BillsBook(
            bills=tuple(rows.bills), lines=tuple(rows.lines), deliveries=tuple(rows.deliveries),
            counts=tuple(rows.counts), prices=tuple(prices), terms=(terms,),
        )  # fmt: skip
        as_of = rows.bills[-1].bill_date + 5 * ONE_DAY
        return SimulatedMonths(book, self.expected, self.count_days, self.fault, self.leaking_gas, as_of)


def name_faults(shop: SimulatedMonths) -> tuple[MonthEnd, set[FindingKind | Explanation]]:
    """Run the month end on a simulated shop; return it with every fault it names in the bills and the last month."""
    checked = check_the_bills(shop.book, as_of=shop.as_of, sizes=SIZES)
    done = month_end(checked, shop.expect)
    named: set[FindingKind | Explanation] = {finding.kind for finding in done.findings}
    last = done.months[-1].explanation
    named |= {last} if last not in (None, Explanation.EXPLAINED) else set()
    return done, named


def _month_end(day: dt.date) -> dt.date:
    following = day.replace(day=28) + 4 * ONE_DAY
    return following.replace(day=1) - ONE_DAY
