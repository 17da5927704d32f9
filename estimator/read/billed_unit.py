"""What a bill or a price list counts by: gas by volume or weight, cylinders, cylinder-days, deliveries, bills."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from estimator.read.gas_text import GasText, read_gas_text
from estimator.read.number_text import plain_text

__all__ = ["BilledUnit", "Per", "read_billed_unit"]


class Per(StrEnum):
    """What one unit of a billed quantity is."""

    GAS = "gas"
    CYLINDER = "cylinder"
    CYLINDER_DAY = "cylinder-day"
    CYLINDER_MONTH = "cylinder-month"
    CYLINDER_YEAR = "cylinder-year"
    DELIVERY = "delivery"
    BILL = "bill"
    GAS_PERCENT = "% of gas"


@dataclass(frozen=True, slots=True)
class BilledUnit:
    """A unit as printed, and what it means."""

    per: Per
    gas: GasText | None = None
    """One unit of gas, where gas is counted by volume or weight."""
    said: str = ""

    @property
    def lacks_state(self) -> bool:
        """Whether it is a gas volume without a reference state."""
        return self.gas is not None and self.gas.lacks_state


_WORDS: dict[Per, tuple[str, ...]] = {
    Per.CYLINDER: ("cylinder", "cylinders", "cyl", "bottle", "bottles", "each", "ea", "pcs", "pc"),
    Per.CYLINDER_DAY: ("cylinder-day", "cylinder-days", "cylinder day", "cylinder days", "bottle-day", "day", "days"),
    Per.CYLINDER_MONTH: (
        "cylinder-month",
        "cylinder-months",
        "cylinder month",
        "cylinder months",
        "bottle-month",
        "month",
        "months",
    ),
    Per.CYLINDER_YEAR: ("cylinder-year", "cylinder-years", "cylinder year", "bottle-year", "year", "years"),
    Per.DELIVERY: ("delivery", "deliveries", "drop", "trip"),
    Per.BILL: ("bill", "invoice", "lump sum"),
    Per.GAS_PERCENT: ("% of gas", "percent of gas", "per cent of gas"),
}
_BY_WORD = {word: per for per, words in _WORDS.items() for word in words}


def read_billed_unit(text: str) -> BilledUnit:
    """Return what a printed unit counts.

    Parameters
    ----------
    text : str
        Such as ``cylinder``, ``cylinder-day``, ``Nm³``, ``100 ft³ (70 °F, 1 atm)``, ``delivery``.

    Returns
    -------
    BilledUnit

    Raises
    ------
    ValueError
        When the text is none of these.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> read_billed_unit("Cylinder-days").per.value
    'cylinder-day'
    >>> read_billed_unit("m³ (15 °C, 1 bar)").gas.state.value
    '15C_1bar'
    """
    said = plain_text(text)
    per = _BY_WORD.get(said.casefold())
    if per is not None:
        return BilledUnit(per, said=said)
    return BilledUnit(Per.GAS, read_gas_text(f"1 {said}"), said)
