"""Where the money went: from what the logged work should have cost to what the bills ask, to the minor unit.

Each part is worked out by itself; nothing is a plug. A test adds them up, and so does the code.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from estimator.pricing.money import to_minor
from estimator.pricing.variances import mix_variance, price_variance, yield_variance

__all__ = ["Bridge", "BridgePart", "BridgeTerms", "GasOfMonth", "bridge", "round_parts"]


@dataclass(frozen=True, slots=True)
class GasOfMonth:
    """One gas of one month: quantities in m³, money in the major unit."""

    gas: str
    standard_price: float
    """Agreed price of a cubic metre."""
    planned_m3: float
    """Gas of the work of the month before; equal to ``expected_m3`` where there is none."""
    expected_m3: float
    """Gas the logged work needs by the model, the stated losses left out."""
    stated_loss_m3: float
    """Pilot, purge and leak as the shop states them."""
    used_explained_m3: float
    """Used gas as far as readings and model can explain it."""
    used_m3: float
    opening_m3: float
    closing_m3: float
    sent_back_m3: float
    received_m3: float
    """Opening + received - closing - sent back = used."""
    billed_received_m3: float
    """Gas that came with the notes these bills are for; other than ``received_m3`` when a count is on another day."""
    billed: float
    """Amounts of its gas lines, those billed twice left out, negative lines left out."""
    wrong_unit: float
    """The part of ``billed`` that findings of unit and reference state explain."""
    not_received: float
    """The part of ``billed`` for gas that did not come (below zero: gas that came and is not billed)."""


@dataclass(frozen=True, slots=True)
class BridgeTerms:
    """The rest of the bills, in the major unit, each line counted once."""

    rent_standard: float
    """Rent that the rule gives on the shop's own ledger."""
    rent_billed: float
    delivery_and_fees: float
    gas_not_counted: float
    """Gas lines of gases that were not counted twice."""
    credits_and_deposits: float
    """Below zero when more comes back than is paid in."""
    billed_twice: float
    footing: float
    """Printed total before tax less the sum of all lines."""
    tax: float
    bill_total: float
    """What all bills ask, credit notes taken off."""


@dataclass(frozen=True, slots=True)
class BridgePart:
    """One step of the bridge, in minor units."""

    key: str
    said: str
    minor: int
    gas: str = ""
    is_total: bool = False


@dataclass(frozen=True, slots=True)
class Bridge:
    """All steps from the standard cost to the bills."""

    parts: tuple[BridgePart, ...]

    @property
    def start_minor(self) -> int:
        """What the work should have cost: of the month before, or of this month where there is none."""
        return self.parts[0].minor

    @property
    def total_minor(self) -> int:
        """What the bills ask."""
        return self.parts[-1].minor

    def steps(self) -> tuple[BridgePart, ...]:
        """Return the steps between start and total."""
        return tuple(part for part in self.parts if not part.is_total)


_SAID = {
    "activity": "more or less work than the month before",
    "price": "dearer gas",
    "wrong_unit": "wrong unit or reference state on the bill",
    "stated_losses": "pilot, purge and leak, as the shop book states them",
    "yield": "wasted gas: more than the work needs",
    "mix": "oxygen and fuel in another ratio than the work needs",
    "cannot_say": "can't say: beyond what readings and model can explain",
    "stock": "still on the rack",
    "sent_back": "left in the bottles that went back",
    "timing": "came before or after the days between the counts",
    "not_received": "billed, not received or short",
    "rent": "rental by the agreed rule",
    "rent_over": "rental beyond the agreed rule",
    "fees": "delivery and fees",
    "not_counted": "gas that was not counted",
    "credits": "credits and deposits",
    "twice": "billed twice",
    "footing": "lines that do not add up",
    "tax": "tax",
}


def bridge(gases: Sequence[GasOfMonth], terms: BridgeTerms, decimals: int = 2) -> Bridge:
    """Split what the bills ask beyond the standard cost of the work.

    Parameters
    ----------
    gases : sequence of GasOfMonth
        Every gas that is billed or used.
    terms : BridgeTerms
        The rest of the bills.
    decimals : int
        Decimals of the minor unit.

    Returns
    -------
    Bridge
        Start, steps and total; start + steps = total in minor units.

    Raises
    ------
    ValueError
        When the parts do not add up to the bills: some line was left out or counted twice.

    Notes
    -----
    Price on the quantity billed, usage on the quantity used (OpenStax, direct materials variances); usage within the
    expanded uncertainty split into yield and mix, beyond it "can't say". Stock and gas sent back at the standard price.
    Parts are rounded by largest remainder so that they add to the rounded total. Source: definition.
    """
    steps = [
        *_gas_steps(gases),
        ("rent", "", terms.rent_standard),
        ("rent_over", "", terms.rent_billed - terms.rent_standard),
        ("fees", "", terms.delivery_and_fees),
        ("not_counted", "", terms.gas_not_counted),
        ("credits", "", terms.credits_and_deposits),
        ("twice", "", terms.billed_twice),
        ("footing", "", terms.footing),
        ("tax", "", terms.tax),
    ]
    start = sum(gas.planned_m3 * gas.standard_price for gas in gases)
    whole = start + sum(amount for _, _, amount in steps)
    if abs(whole - terms.bill_total) > 1e-6 * max(1.0, abs(terms.bill_total)):
        raise ValueError(f"the parts add to {whole!r}, the bills ask {terms.bill_total!r}")
    total_minor = int(to_minor(terms.bill_total, decimals))
    minors = round_parts([start, *(amount for _, _, amount in steps)], total_minor, decimals)
    same_work = all(gas.planned_m3 == gas.expected_m3 for gas in gases)
    started = (
        "gas the logged work should have cost" if same_work else "gas the work of the month before should have cost"
    )
    parts = [BridgePart("start", started, minors[0], is_total=True)]
    parts += [BridgePart(key, _SAID[key], minor, gas) for (key, gas, _), minor in zip(steps, minors[1:], strict=True)]
    return Bridge((*parts, BridgePart("total", "what the bills ask", total_minor, is_total=True)))


def round_parts(amounts: Sequence[float], total_minor: int, decimals: int = 2) -> list[int]:
    """Return amounts in minor units that add up to a total, each within one minor unit of its own.

    Parameters
    ----------
    amounts : sequence of float
        Amounts in the major unit, of either sign, whose sum is the total.
    total_minor : int
        The total in minor units.
    decimals : int
        Decimals of the minor unit.

    Returns
    -------
    list of int

    Raises
    ------
    ValueError
        When the amounts do not add up to the total within a minor unit.

    Notes
    -----
    Largest remainder; ties to the earlier part. Amounts of zero stay zero. Source: definition.

    Examples
    --------
    >>> round_parts([1.004, 1.004, 1.004], 301)
    [101, 100, 100]
    """
    exact = np.round(np.asarray(amounts, dtype=np.float64) * 10.0**decimals, 9)
    if abs(float(exact.sum()) - total_minor) > 1.0:
        raise ValueError(f"amounts add to {exact.sum()} minor units, not {total_minor}")
    parts = np.floor(exact).astype(np.int64)
    left = total_minor - int(parts.sum())
    remainder = np.where(exact == parts, -1.0, exact - parts)
    order = np.argsort(-remainder, kind="stable")
    if left < 0:
        raise ValueError(f"amounts add to more than {total_minor} minor units by their whole parts alone")
    for index in order[:left]:
        parts[index] += 1
    return [int(part) for part in parts]


def _gas_steps(gases: Sequence[GasOfMonth]) -> list[tuple[str, str, float]]:
    steps: list[tuple[str, str, float]] = []
    price = [gas.standard_price for gas in gases]
    needed = [gas.expected_m3 + gas.stated_loss_m3 for gas in gases]
    explained = [gas.used_explained_m3 for gas in gases]
    if gases and sum(needed) > 0:
        mixes = mix_variance(explained, needed, price)
        yields = yield_variance(explained, needed, price)
    else:
        mixes = np.zeros(len(gases))
        yields = np.array([u * p for u, p in zip(explained, price, strict=True)])
    for gas, mix, yield_ in zip(gases, mixes, yields, strict=True):
        standard = gas.standard_price
        over = gas.wrong_unit + gas.not_received
        dearer = float(price_variance(gas.billed - over, gas.billed_received_m3, standard))
        steps += [
            ("activity", gas.gas, (gas.expected_m3 - gas.planned_m3) * standard),
            ("stated_losses", gas.gas, gas.stated_loss_m3 * standard),
            ("yield", gas.gas, float(yield_)),
            ("mix", gas.gas, float(mix)),
            ("cannot_say", gas.gas, (gas.used_m3 - gas.used_explained_m3) * standard),
            ("stock", gas.gas, (gas.closing_m3 - gas.opening_m3) * standard),
            ("sent_back", gas.gas, gas.sent_back_m3 * standard),
            ("timing", gas.gas, (gas.billed_received_m3 - gas.received_m3) * standard),
            ("price", gas.gas, dearer),
            ("wrong_unit", gas.gas, gas.wrong_unit),
            ("not_received", gas.gas, gas.not_received),
        ]
    return steps
