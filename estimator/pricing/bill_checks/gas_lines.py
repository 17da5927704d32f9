"""Gas lines: the price agreed for the day of delivery, the unit and reference state, and what came with the note."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from estimator.check.bills import AgreedPrice, Bill, BillLine, Delivery
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.finding import Finding, FindingKind
from estimator.problems import bills as said
from estimator.read.billed_unit import BilledUnit
from estimator.units import GAS_UNITS, ReferenceState, gas_volume_m3

__all__ = ["gas_lines"]

_SAME_NUMBER = 0.001
"""Two numbers within a tenth of a percent count as the same number in another unit; states differ by 0.4 % or more."""


@dataclass(frozen=True, slots=True)
class _GasLine:
    """A gas line with all that is known of it."""

    bill: Bill
    line: BillLine
    agreed: AgreedPrice | None
    came: list[Delivery]
    unit_m3: float | None
    """Gas in one unit of the billed quantity [m³]."""
    agreed_m3: float | None
    """Gas in the unit the agreed price is for [m³]."""
    content_m3: float | None
    cylinders: float = 0.0
    """Cylinders of its note that this line is for; a note may stand on several lines."""

    @property
    def note(self) -> tuple[str, ...]:
        return (self.line.supplier, self.line.delivery_note, self.line.gas, self.line.size)


def gas_lines(checking: Checking) -> list[Finding]:
    """Find gas that is dearer than agreed, in a wrong unit or reference state, or not what came.

    Parameters
    ----------
    checking : Checking
        The workbook under check, duplicates set aside.

    Returns
    -------
    list of Finding
        One line gives at most one finding of unit or state, else at most one of price and one of quantity.

    Notes
    -----
    A line is right when its amount is the gas that came at the price agreed, whatever units are printed. Where it is
    not, the same number in another unit or state is looked for first. Lines without a note are set beside all notes of
    the bill's days that no line names. Source: definition.
    """
    gas = [
        _look_up(checking, bill, line)
        for bill, lines in checking.bills()
        for line in lines
        if line.kind == "gas" and line.amount >= 0 and line.gas
    ]
    return [finding for one in _shared_out(gas) for finding in _check(checking, one)]


def _shared_out(gas: list[_GasLine]) -> list[_GasLine]:
    """Give each line its cylinders of the note: what it bills while there are any, the last line all that is left."""
    lines_left = Counter(one.note for one in gas)
    left: dict[tuple[str, ...], float] = {}
    shared = []
    for one in gas:
        rest = left.setdefault(one.note, float(sum(d.full_in for d in one.came)))
        lines_left[one.note] -= 1
        mine = rest if not lines_left[one.note] else min(_billed_cylinders(one) or 0.0, rest)
        left[one.note] = rest - mine
        shared.append(replace(one, cylinders=mine))
    return shared


def _look_up(checking: Checking, bill: Bill, line: BillLine) -> _GasLine:
    day = checking.day_of(line, bill)
    agreed = checking.agreed("gas", line, day)
    if agreed is None:
        what = f"{line.gas} {line.size}".strip()
        checking.problems.append(said.NO_PRICES.at(line.at("unit_price"), what=what, date=day))
    if line.unit is not None and line.unit.lacks_state:
        state = checking.usual_state(line.gas, line.size, line.supplier)
        checking.problems.append(said.STATE_MISSING.at(line.at("unit"), found=line.unit.said, state=state.label))
    size = line.size or (agreed.size if agreed else "")
    known = checking.size_of(line.gas, size, line.supplier)
    return _GasLine(
        bill,
        line,
        agreed,
        checking.deliveries_of(line),
        checking.unit_m3(line.unit, line.gas, size, line.supplier),
        checking.unit_m3(agreed.unit, line.gas, size, line.supplier) if agreed else None,
        known.content_m3 if known else None,
    )


def _check(checking: Checking, gas: _GasLine) -> list[Finding]:
    if _is_right(checking, gas):
        return []
    wrong_unit = _unit_of_price(checking, gas) or _unit_of_quantity(checking, gas)
    if wrong_unit:
        return [wrong_unit]
    return [finding for finding in (_price(checking, gas), _quantity(checking, gas)) if finding]


def _slack(checking: Checking, gas: _GasLine) -> float:
    """Return what a right amount may be off by: the supplier's rounding, and half a unit of the price's last place."""
    step = checking.book.terms_of(gas.line.supplier).line_rounding
    return step + abs(gas.line.quantity or 0.0) * _half_last_place(gas.line.unit_price)


def _is_right(checking: Checking, gas: _GasLine) -> bool:
    right = _right_amount(gas)
    return right is not None and abs(gas.line.amount - right) <= _slack(checking, gas)


def _right_amount(gas: _GasLine) -> float | None:
    if gas.agreed is None or not gas.came or gas.agreed_m3 is None or gas.content_m3 is None:
        return None
    return gas.cylinders * gas.content_m3 / gas.agreed_m3 * gas.agreed.price


def _unit_of_price(checking: Checking, gas: _GasLine) -> Finding | None:
    """The agreed number, but for another unit or state than agreed."""
    line, agreed = gas.line, gas.agreed
    if not agreed or not line.unit or not line.unit_price or not line.quantity or not gas.unit_m3 or not gas.agreed_m3:
        return None
    same_number = abs(line.unit_price / agreed.price - 1) <= _SAME_NUMBER if agreed.price else False
    if not same_number or abs(gas.unit_m3 / gas.agreed_m3 - 1) <= _SAME_NUMBER:
        return None
    right = line.quantity * gas.unit_m3 / gas.agreed_m3 * agreed.price
    money = checking.minor(line.amount) - checking.minor(right)
    return checking.found(
        _kind(line.unit, agreed.unit),
        gas.bill,
        money,
        f"{checking.price(line.unit_price)} was agreed for {_one(agreed.unit)}, but is charged for "
        f"{_one(line.unit)}, which is {gas.unit_m3 / gas.agreed_m3:.4g} of it",
        expected=f"{checking.price(agreed.price)} for {_one(agreed.unit)}",
        found=f"{checking.price(line.unit_price)} for {_one(line.unit)}",
        evidence=(line.at("unit"), line.at("unit_price"), agreed.at("unit"), agreed.at("price")),
        gas=line.gas,
        size=line.size,
    )


def _unit_of_quantity(checking: Checking, gas: _GasLine) -> Finding | None:
    """The right number of gas, but counted in another unit or state than printed."""
    line = gas.line
    if not line.unit or not line.unit.gas or not gas.unit_m3 or not gas.content_m3 or not line.quantity:
        return None
    came_m3 = gas.cylinders * gas.content_m3
    if not came_m3 or abs(line.quantity * gas.unit_m3 / came_m3 - 1) <= _SAME_NUMBER:
        return None
    other = _other_unit(line.gas, came_m3, line.quantity)
    if other is None or line.unit_price is None:
        return None
    unit, state = other
    money = checking.minor(line.amount) - checking.minor(came_m3 / gas.unit_m3 * line.unit_price)
    kind = FindingKind.STATE if _same_measure(unit, line.unit.gas.unit) else FindingKind.UNIT
    named = f"{unit} ({state.label})" if state else unit
    right = came_m3 / gas.unit_m3
    return checking.found(
        kind,
        gas.bill,
        money,
        f"{gas.cylinders:g} cylinders hold {right:.4g} {line.unit.said}, but {line.quantity:g} is billed, "
        f"which is their content in {named}",
        expected=f"{right:.4g} {line.unit.said}",
        found=f"{line.quantity:g} {line.unit.said}",
        evidence=(line.at("quantity"), line.at("unit"), *(d.at("full_in") for d in gas.came)),
        gas=line.gas,
        size=line.size,
    )


def _price(checking: Checking, gas: _GasLine) -> Finding | None:
    line, agreed = gas.line, gas.agreed
    if not agreed or not line.unit_price or not line.quantity or not gas.unit_m3 or not gas.agreed_m3:
        return None
    right = agreed.price * gas.unit_m3 / gas.agreed_m3
    if abs(line.unit_price - right) <= _half_last_place(line.unit_price) + 1e-9:
        return None
    money = checking.minor((line.unit_price - right) * line.quantity)
    if money == 0:
        return None
    unit = _one(line.unit) if line.unit else "each"
    share = line.unit_price / right - 1 if right else 0.0
    return checking.found(
        FindingKind.PRICE,
        gas.bill,
        money,
        f"{line.gas} {line.size} is charged at {checking.price(line.unit_price)} for {unit}; "
        f"agreed was {checking.price(right)} ({share:+.1%})",
        expected=checking.price(right),
        found=checking.price(line.unit_price),
        evidence=(line.at("unit_price"), agreed.at("price"), agreed.at("valid_from")),
        gas=line.gas,
        size=line.size,
    )


def _quantity(checking: Checking, gas: _GasLine) -> Finding | None:
    line = gas.line
    if not checking.book.deliveries or not line.quantity or not line.delivery_note:
        return None
    billed = _billed_cylinders(gas)
    if billed is None:
        return None
    over = billed - gas.cylinders
    if abs(over) < 0.01 * max(1, gas.cylinders):
        return None
    money = checking.minor(line.amount * over / billed)
    kind = FindingKind.BILLED_NOT_RECEIVED if over > 0 else FindingKind.RECEIVED_NOT_BILLED
    ordered = sum(d.ordered or 0 for d in gas.came)
    asked = f" ({ordered} were ordered)" if ordered else ""
    note = (
        f"note {line.delivery_note} brought {gas.cylinders:g}" if gas.came else f"note {line.delivery_note} is not here"
    )
    return checking.found(
        kind,
        gas.bill,
        money,
        f"{billed:g} {line.gas} {line.size} are billed, {note}{asked}",
        expected=f"{gas.cylinders:g} cylinders",
        found=f"{billed:g} cylinders",
        evidence=(line.at("quantity"), line.at("delivery_note"), *(d.at("full_in") for d in gas.came)),
        gas=line.gas,
        size=line.size,
    )


def _billed_cylinders(gas: _GasLine) -> float | None:
    line = gas.line
    if line.unit is None or line.quantity is None:
        return None
    if line.unit.gas is None:
        return line.quantity
    if not gas.unit_m3 or not gas.content_m3:
        return None
    return round(line.quantity * gas.unit_m3 / gas.content_m3, 3)


def _kind(billed: BilledUnit, agreed: BilledUnit) -> FindingKind:
    """Only the state differs, or the unit itself."""
    if billed.gas is None or agreed.gas is None:
        return FindingKind.UNIT
    return FindingKind.STATE if _same_measure(billed.gas.unit, agreed.gas.unit) else FindingKind.UNIT


def _one(unit: BilledUnit) -> str:
    return unit.said if unit.said[:1].isdigit() else f"1 {unit.said}"


def _same_measure(unit: str, other: str) -> bool:
    return unit.removeprefix("N") == other.removeprefix("N")


def _other_unit(gas: str, came_m3: float, quantity: float) -> tuple[str, ReferenceState | None] | None:
    """Return the unit and state in which the gas that came is this quantity; the nearest, within its last digit."""
    near: dict[tuple[str, ReferenceState | None], float] = {}
    for unit, known in GAS_UNITS.items():
        states: list[ReferenceState | None] = [None] if known.is_mass or known.state else list(ReferenceState)
        for state in states:
            amount = came_m3 / gas_volume_m3(1.0, unit=unit, gas=gas, state=state)
            near[unit, state] = abs(amount / quantity - 1)
    best = min(near, key=lambda key: near[key])
    slack = max(_SAME_NUMBER, _half_last_place(quantity) / quantity)
    return best if near[best] <= slack else None


def _half_last_place(price: float | None) -> float:
    """Return half a unit of the last place a price was printed with, four places at the most."""
    if price is None:
        return 0.0
    for places in range(5):
        if abs(round(price, places) - price) < 1e-9:
            return 0.5 * 10.0**-places if places > 1 else 0.005
    return 0.00005
