"""The task ``compare``: whose gas is cheapest for this shop. Each step is named in the order it is done."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from estimator.check.cut_list import CutList
from estimator.check.price_list import ComparisonForm, PriceLists
from estimator.check.price_lists_book import in_force, read_comparison_form, read_price_lists
from estimator.check.shop_book import ShopBook
from estimator.check.work_log import read_work_log
from estimator.pricing.comparison import Comparison, compare_suppliers
from estimator.pricing.demand import uses_of_list, uses_of_log
from estimator.pricing.fuel_work import FuelLeftOut, compare_fuels_on_list, work_on_fuel
from estimator.pricing.landed import Money
from estimator.pricing.market import Market, gas_uses
from estimator.pricing.offers import GasUse
from estimator.pricing.rates import in_force as rows_in_force
from estimator.problems import Place, Problem, WorkbookProblemsError, has_error, raise_on_errors
from estimator.problems import price_list as said
from estimator.read.cells import Book
from estimator.read.load import load_book
from estimator.read.remarks import book_remarks
from estimator.shown_units import ShownUnits, shown_units
from estimator.tasks import ReadOptions, find_shop_book, read_list, read_shop

__all__ = ["CompareOrder", "compare", "compare_books", "with_fuels"]


@dataclass(frozen=True, slots=True)
class CompareOrder:
    """What is decided for one run, beside the price lists."""

    shop: Path | None = None
    """Shop book; one beside the price lists is found."""
    log: Path | None = None
    """Work log that says what is used in a month."""
    cut_list: Path | None = None
    """Cut list that says what is used, and what the work on other fuels would be."""
    months: float = 1.0
    """Months of work that the cut list holds."""
    long_burns: bool = False
    """Whether a torch is lit more than 10 minutes without a break of 5."""
    date: dt.date | None = None
    strict: bool = False
    reading: ReadOptions = field(default_factory=ReadOptions)


@dataclass(slots=True)
class _Use:
    """What is used in a month, and where that comes from."""

    uses: list[GasUse] = field(default_factory=list)
    said: str = ""
    cuts: CutList | None = None
    inputs: list[Book] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Buyer:
    """Whose gas is compared: a shop with its book, or the invented example where there is none."""

    path: Path | None
    shop: ShopBook
    form: ComparisonForm | None = None
    """How suppliers are compared where no price list says."""

    @property
    def name(self) -> str:
        return self.path.name if self.path else ""

    @property
    def currency(self) -> str:
        return self.shop.shop.currency if self.path else ""

    @property
    def decimals(self) -> int:
        return self.shop.shop.decimals if self.path else 2

    def units(self, market: Market) -> ShownUnits:
        """Return the units of the shop; a gas that it has no bottle of in the weight that every list states."""
        stated: dict[str, set[str]] = {}
        for row in market.rows.values():
            if row.stated_content is not None:
                stated.setdefault(row.gas, set()).add(row.stated_content.unit)
        bottles = {gas: units.pop() for gas, units in stated.items() if len(units) == 1}
        if self.path is None:
            return shown_units("mm", bottles)
        return shown_units(self.shop.shop.units, {**bottles, **self.shop.bottle_units})


def compare(price_lists: Sequence[Path], order: CompareOrder | None = None) -> Comparison:
    """Compare suppliers, and with a cut list fuels, on what the shop uses.

    Parameters
    ----------
    price_lists : sequence of Path
        One workbook with every supplier, or several.
    order : CompareOrder
        Shop book, log or cut list, date, strictness.

    Returns
    -------
    Comparison
        Its problems are warnings and notes.

    Raises
    ------
    WorkbookProblemsError
        With every problem, when one is an error.

    Notes
    -----
    Source: definition.
    """
    order = order or CompareOrder()
    books = [load_book(path) for path in price_lists]
    buyer, problems = _buyer(price_lists, order)
    problems += [remark for book in books for remark in book_remarks(book)]
    use = _use(order, buyer.shop, problems)
    raise_on_errors(problems, strictly=order.strict)
    comparison, found = compare_books(
        books,
        form=buyer.form,
        on=order.date,
        uses=use.uses,
        currency=buyer.currency,
        decimals=buyer.decimals,
    )
    problems += found
    raise_on_errors(problems, strictly=order.strict)
    if comparison is None:
        raise WorkbookProblemsError(problems)
    if use.cuts is not None:
        labour = _labour_per_hour(buyer.shop, comparison.on)
        if labour is None:
            problems.append(said.NO_LABOUR_RATE.at(Place(buyer.name), date=comparison.on))
        else:
            comparison = with_fuels(comparison, use.cuts, buyer.shop, labour_per_hour=labour, months=order.months)
    if use.said and buyer.path is None:
        use.said += " Tips, work rates and labour are the invented example shop's: name your own shop book."
    inputs = (*comparison.inputs, *((book.path.name, book.sha256) for book in use.inputs))
    problems = WorkbookProblemsError(problems).problems
    units = buyer.units(comparison.market)
    return replace(comparison, inputs=inputs, use_from=use.said, problems=tuple(problems), units=units)


def compare_books(
    books: Sequence[Book],
    *,
    form: ComparisonForm | None = None,
    on: dt.date | None = None,
    uses: Sequence[GasUse] = (),
    currency: str = "",
    decimals: int = 2,
) -> tuple[Comparison | None, list[Problem]]:
    """Compare suppliers from price lists that are loaded.

    Parameters
    ----------
    books : sequence of Book
        The loaded price lists.
    form : ComparisonForm
        How suppliers are compared where no price list says.
    on : date
        Day whose prices are compared; the sheet 'Comparison' says it when left out.
    uses : sequence of GasUse
        What the shop uses in a month; the sheet 'Monthly use' says it when empty.
    currency : str
        The shop's currency, three letters.
    decimals : int
        Decimals of its minor unit.

    Returns
    -------
    tuple of (Comparison or None, list of Problem)
        None when something keeps it from being made.

    Notes
    -----
    Source: definition.
    """
    lists, problems = read_price_lists(books, form, currency)
    on = on or lists.form.on_date
    if on is None:
        return None, [*problems, said.NO_DATE.at(_place(books))]
    holding, of_dates = in_force(lists, on)
    problems += of_dates
    used = list(uses) or gas_uses(holding.uses)
    if not has_error(problems):
        problems += [] if holding.offers else [said.NOTHING_OFFERED.at(_place(books), date=on.isoformat())]
        problems += [] if used else [said.NO_USE.at(_place(books))]
    if not used or not holding.offers or _twice(holding, uses):
        return None, problems
    money = Money(decimals, lists.form.interest)
    comparison, found = compare_suppliers(holding, used, money, on, currency or _currency(lists))
    if comparison is not None:
        comparison = replace(comparison, inputs=tuple((book.path.name, book.sha256) for book in books))
    return comparison, problems + found


def with_fuels(
    comparison: Comparison, cuts: CutList, shop: ShopBook, *, labour_per_hour: float, months: float
) -> Comparison:
    """Add the same work on every fuel that somebody offers.

    Parameters
    ----------
    comparison : Comparison
        The comparison of suppliers.
    cuts : CutList
        The checked cut list that says what the work is.
    shop : ShopBook
        Tips, chart and work rates.
    labour_per_hour : float
        Cost of a paid hour [money].
    months : float
        Months of work that the list holds.

    Returns
    -------
    Comparison

    Notes
    -----
    Source: definition.
    """
    form = comparison.lists.form
    fuels = compare_fuels_on_list(
        cuts,
        shop,
        comparison.market.suppliers,
        comparison.money,
        labour_per_hour=labour_per_hour,
        months=months,
        change_cost=form.change_cost,
        change_months=form.change_months,
    )
    return replace(comparison, fuels=fuels)


def _buyer(price_lists: Sequence[Path], order: CompareOrder) -> tuple[_Buyer, list[Problem]]:
    """Read the shop book that is named or lies beside a file, with what it says of comparing."""
    beside = (path for path in (order.cut_list, order.log, price_lists[0]) if path is not None)
    path = order.shop or next(filter(None, map(find_shop_book, beside)), None)
    shop, problems = read_shop(path)
    if path is None:
        return _Buyer(None, shop), problems
    form, of_form = read_comparison_form(load_book(path))
    return _Buyer(path, shop, form), [*problems, *of_form]


def _use(order: CompareOrder, shop: ShopBook, problems: list[Problem]) -> _Use:
    """Read what is used in a month from the log or the cut list; nothing where neither is named."""
    if order.cut_list is not None:
        return _use_of_list(order.cut_list, order, shop, problems)
    if order.log is not None:
        return _use_of_log(order.log, order, shop, problems)
    return _Use()


def _use_of_list(path: Path, order: CompareOrder, shop: ShopBook, problems: list[Problem]) -> _Use:
    listed = read_list(path, order.reading, shop)
    problems += listed.problems
    use = _Use(cuts=listed.cuts, inputs=[listed.book])
    if has_error(problems):
        return use
    worked = work_on_fuel(listed.cuts, shop, shop.shop.fuel, months=order.months, long_burns=order.long_burns)
    if isinstance(worked, FuelLeftOut):
        problems.append(said.LIST_NOT_WORKED.at(Place(path.name), fuel=worked.fuel, reason=worked.why))
        return use
    use.uses = uses_of_list(listed.cuts, shop, months=order.months, long_burns=order.long_burns)
    use.said = f"Use of a month: the work of {path.name}, taken as {_months(order.months)}."
    return use


def _use_of_log(path: Path, order: CompareOrder, shop: ShopBook, problems: list[Problem]) -> _Use:
    book = load_book(path)
    log, found = read_work_log(book)
    problems += [*found, *book_remarks(book)]
    use = _Use(inputs=[book])
    if has_error(problems):
        return use
    if not log.entries:
        problems.append(said.LOG_EMPTY.at(Place(path.name)))
        return use
    logged = uses_of_log(log, shop, long_burns=order.long_burns)
    if logged.rows_left_out:
        problems.append(said.LOG_ROWS_LEFT_OUT.at(Place(path.name), rows=logged.rows_left_out))
    use.uses = list(logged.uses)
    use.said = f"Use of a month: the work of {path.name}, {_months(logged.months)}."
    return use


def _months(months: float) -> str:
    return f"{months:g} month{'' if months == 1 else 's'}"


def _labour_per_hour(shop: ShopBook, on: dt.date) -> float | None:
    """Return the normal labour rate in force, else the first that is; None when none has begun."""
    names = dict.fromkeys(["normal", *(rate.name.casefold() for rate in shop.labour)])
    for name in names:
        rate = rows_in_force([rate for rate in shop.labour if rate.name.casefold() == name], on)
        if rate is not None:
            return rate.per_hour
    return None


def _currency(lists: PriceLists) -> str:
    named = [lists.form.currency, *(terms.currency for terms in lists.terms)]
    return next((code for code in named if code), "")


def _twice(lists: PriceLists, uses: Sequence[GasUse]) -> bool:
    """Whether the typed use holds a gas twice, which is a problem that was told before."""
    gases = [row.gas for row in lists.uses]
    return not uses and len(set(gases)) != len(gases)


def _place(books: Sequence[Book]) -> Place:
    return Place(books[0].path.name if books else "")
