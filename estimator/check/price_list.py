"""Checked records of price lists and monthly use. Volumes become house volumes here, and what was assumed is kept.

Which offers are in force, and whether the sheets agree, is left to ``price_lists_book``.
"""

from __future__ import annotations

import datetime as dt

from pydantic import BaseModel, ConfigDict

from estimator.check.record import DatedRecord, SheetRecord
from estimator.problems import price_list as said
from estimator.problems.code import Problem
from estimator.read.gas_text import read_reference_state
from estimator.sheets.price_list import RENT_RULES
from estimator.units import GAS_UNITS, ReferenceState, gas_volume_m3
from estimator.words import RentCount

__all__ = [
    "ComparisonForm",
    "FeeRow",
    "OfferRow",
    "PriceLists",
    "Stated",
    "TermsRow",
    "UseRow",
    "check_offer",
    "check_use",
]

CONTENT_CELLS = ("content_unit", "content_state")


class Stated(BaseModel):
    """An amount of gas as a list states it, in the unit and state that was taken where it is silent."""

    model_config = ConfigDict(frozen=True)

    amount: float
    unit: str
    state: ReferenceState | None = None
    """None for a mass."""

    def volume_m3(self, gas: str) -> float:
        """Return the house volume, converted by mass."""
        return gas_volume_m3(self.amount, unit=self.unit, gas=gas, state=self.state)

    def naive_m3(self, gas: str) -> float:
        """Return the volume when the reference state is overlooked; a mass has none and stays right."""
        unit = GAS_UNITS[self.unit]
        return self.volume_m3(gas) if unit.is_mass else self.amount * unit.factor

    @property
    def label(self) -> str:
        """The amount in words, its state behind it."""
        at = f" at {self.state.label}" if self.state and GAS_UNITS[self.unit].state is None else ""
        return f"{self.amount:g} {self.unit}{at}"


class OfferRow(DatedRecord):
    """One row of a price list."""

    supplier: str
    gas: str
    cylinder: str
    piped: bool = False
    content: float | None = None
    content_unit: str | None = None
    content_state: str | None = None
    price: float
    priced_per: str = "cylinder"
    priced_state: str | None = None
    rent_rule: str | None = None
    rent: float | None = None
    month_starts_on: int = 1
    free_days: int = 0
    renewal: dt.date | None = None
    spread_years: int | None = None
    bought_for: float = 0.0
    deposit: float | None = None
    deposit_kept_share: float = 0.0
    heel_share: float | None = None
    credited_share: float | None = None
    supplier_draw_fraction: float | None = None
    note: str = ""
    stated_content: Stated | None = None
    """Content of a full cylinder; for piped gas the amount that the price is for. Set by ``check_offer``."""
    stated_basis: Stated | None = None
    """The amount that the price is for; None when it is the cylinder."""


class TermsRow(SheetRecord):
    """Terms of one supplier; None where its offer is silent."""

    supplier: str
    currency: str = ""
    lead_time_days: int | None = None
    most_deliveries: float | None = None
    minimum_order: float | None = None
    invoices: str | None = None
    all_gases_or_none: bool = False
    contract_months: int | None = None
    notice_months: int | None = None
    tax: float | None = None
    prices_include_tax: bool = False
    note: str = ""


class FeeRow(DatedRecord):
    """One fee or surcharge."""

    supplier: str
    fee: str
    charged: str
    amount: float | None = None
    share: float | None = None
    gas: str | None = None


class UseRow(SheetRecord):
    """What the shop uses of one gas in a month."""

    gas: str
    amount: float
    unit: str | None = None
    state: str | None = None
    low_amount: float | None = None
    high_amount: float | None = None
    highest_draw: float = 0.0
    long_burns: bool = False
    sets: int = 1
    most_held: int | None = None
    stated: Stated | None = None
    """The usual month. Set by ``check_use``."""

    def m3(self, amount: float | None) -> float:
        """Return an amount in the row's unit as a house volume; 0 for a blank."""
        if not amount or self.stated is None:
            return 0.0
        return self.stated.model_copy(update={"amount": amount}).volume_m3(self.gas)


class ComparisonForm(SheetRecord):
    """How suppliers are compared."""

    on_date: dt.date | None = None
    currency: str = ""
    interest: float = 0.08
    change_cost: float | None = None
    change_months: int = 24
    list_unit: str | None = None
    list_state: str | None = None


class PriceLists(BaseModel):
    """Every record of one or several price-list workbooks."""

    model_config = ConfigDict(frozen=True)

    offers: tuple[OfferRow, ...] = ()
    terms: tuple[TermsRow, ...] = ()
    fees: tuple[FeeRow, ...] = ()
    uses: tuple[UseRow, ...] = ()
    form: ComparisonForm = ComparisonForm()

    @property
    def suppliers(self) -> list[str]:
        """Suppliers with an offer, in the order of the lists."""
        return list(dict.fromkeys(offer.supplier for offer in self.offers))

    def terms_of(self, supplier: str) -> TermsRow:
        """Terms of a supplier; all silent where it has no row."""
        return next((t for t in self.terms if t.supplier == supplier), TermsRow(supplier=supplier))


def check_offer(row: OfferRow, form: ComparisonForm) -> tuple[OfferRow, list[Problem]]:
    """Return an offer with its volumes stated, and every problem of the row.

    Parameters
    ----------
    row : OfferRow
        As read.
    form : ComparisonForm
        Holds the defaults for lists that state no unit or no reference state.

    Returns
    -------
    tuple of (OfferRow, list of Problem)

    Notes
    -----
    A default that was taken is a warning. Source: definition.
    """
    problems = _rent_problems(row)
    content = basis = None
    if row.piped and row.priced_per == "cylinder":
        problems.append(said.PIPED_PER_CYLINDER.at(row.at("priced_per"), found=row.priced_per))
    elif row.content is not None:
        content, problems_of = _stated(row, row.content, row.content_unit, row.content_state, CONTENT_CELLS, form)
        problems += problems_of
    elif not row.piped:
        problems.append(said.NO_CONTENT.at(row.at("content")))
    if row.priced_per != "cylinder":
        basis, problems_of = _stated_basis(row, form)
        problems += [problem for problem in problems_of if problem not in problems]
    if row.piped:
        content = basis
    if (row.bought_for or (row.deposit and row.deposit_kept_share)) and row.spread_years is None:
        problems.append(said.NO_SPREAD_YEARS.at(row.at("spread_years")))
    return row.model_copy(update={"stated_content": content, "stated_basis": basis}), problems


def check_use(row: UseRow, form: ComparisonForm) -> tuple[UseRow, list[Problem]]:
    """Return a row of monthly use with its amount stated, and every problem of the row.

    Parameters
    ----------
    row : UseRow
        As read.
    form : ComparisonForm
        Holds the defaults for amounts without a unit or a reference state.

    Returns
    -------
    tuple of (UseRow, list of Problem)

    Notes
    -----
    Source: definition.
    """
    stated, problems = _stated(row, row.amount, row.unit, row.state, ("unit", "state"), form)
    for name, wrong in (
        ("low_amount", row.low_amount is not None and row.low_amount > row.amount),
        ("high_amount", row.high_amount is not None and row.high_amount < row.amount),
    ):
        if wrong:
            problems.append(said.USE_OUT_OF_ORDER.at(row.at(name), found=getattr(row, name)))
    return row.model_copy(update={"stated": stated}), problems


def _rent_problems(row: OfferRow) -> list[Problem]:
    if row.rent_rule is None:
        if row.rent is not None:
            return [said.RENT_WITHOUT_RULE.at(row.at("rent_rule"), rules=", ".join(RENT_RULES))]
        return [] if row.piped else [said.RENT_SILENT.at(row.at("rent_rule"))]
    problems = []
    if row.rent_rule != RentCount.NONE and row.rent is None:
        problems.append(said.RENT_WITHOUT_RATE.at(row.at("rent"), found=""))
    if row.free_days and row.rent_rule != RentCount.DAILY:
        problems.append(said.FREE_DAYS_RULE.at(row.at("free_days"), found=row.free_days))
    if row.rent_rule == RentCount.LEASE and row.spread_years is None:
        problems.append(said.NO_SPREAD_YEARS.at(row.at("spread_years")))
    return problems


def _stated_basis(row: OfferRow, form: ComparisonForm) -> tuple[Stated | None, list[Problem]]:
    """Return the amount that a price is for, such as ``100 ft3``; its state is the content's unless it has its own."""
    amount, _, unit = row.priced_per.rpartition(" ")
    known = GAS_UNITS[unit]
    content_is_volume = row.content_unit is not None and not GAS_UNITS[row.content_unit].is_mass
    shared = row.priced_state is None and content_is_volume and known.state is None
    state = row.content_state if shared else row.priced_state
    cells = ("priced_per", "content_state" if shared else "priced_state")
    return _stated(row, float(amount or 1), unit, state, cells, form)


def _stated(
    row: OfferRow | UseRow,
    amount: float,
    unit: str | None,
    state_text: str | None,
    cells: tuple[str, str],
    form: ComparisonForm,
) -> tuple[Stated | None, list[Problem]]:
    """Return an amount with its unit and state; ``cells`` names the columns that hold them."""
    unit_at, state_at = (row.at(name) for name in cells)
    problems: list[Problem] = []
    chosen = unit or form.list_unit
    if chosen is None:
        return None, [said.NO_UNIT.at(unit_at)]
    if unit is None:
        problems.append(said.UNIT_TAKEN.at(unit_at, unit=chosen))
    known = GAS_UNITS[chosen]
    if known.is_mass:
        return Stated(amount=amount, unit=chosen), problems
    state = read_reference_state(state_text) if state_text else known.state
    if known.state is not None and state is not known.state:
        against = said.STATE_AGAINST_UNIT.at(state_at, found=state_text or "", unit=chosen, own=known.state.label)
        return None, [*problems, against]
    if state is None and form.list_state is not None:
        state = read_reference_state(form.list_state)
        problems.append(said.STATE_TAKEN.at(state_at, state=form.list_state))
    if state is None:
        return None, [*problems, said.NO_STATE.at(state_at)]
    stated = Stated(amount=amount, unit=chosen, state=state)
    return stated, problems
