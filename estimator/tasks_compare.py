"""The task ``compare``: whose gas is cheapest for this shop. Each step is named in the order it is done."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from estimator.check.cut_list import CutList
from estimator.check.price_list import ComparisonForm, PriceLists
from estimator.check.price_lists_book import in_force, read_comparison_form, read_price_lists
from estimator.check.shop_book import ShopBook
from estimator.pricing.comparison import Comparison, compare_suppliers
from estimator.pricing.fuel_work import compare_fuels_on_list
from estimator.pricing.landed import Money
from estimator.pricing.market import gas_uses
from estimator.pricing.offers import GasUse
from estimator.problems import Level, Place, Problem, WorkbookProblemsError, strict
from estimator.problems import price_list as said
from estimator.read.cells import Book
from estimator.read.load import load_book

__all__ = ["compare", "compare_books", "with_fuels"]


def compare(
    price_lists: Sequence[Path],
    *,
    shop: Path | None = None,
    on: dt.date | None = None,
    uses: Sequence[GasUse] = (),
    currency: str = "",
    decimals: int = 2,
    strictly: bool = False,
) -> Comparison:
    """Compare suppliers on what the shop uses.

    Parameters
    ----------
    price_lists : sequence of Path
        One workbook with every supplier, or several.
    shop : Path
        Shop book, which may hold the sheet 'Comparison' where no price list does.
    on : date
        Day whose prices are compared; the sheet 'Comparison' says it when left out.
    uses : sequence of GasUse
        What the shop uses in a month, from a log or a cut list; the sheet 'Monthly use' says it when empty.
    currency : str
        The shop's currency, three letters.
    decimals : int
        Decimals of its minor unit.
    strictly : bool
        Whether what had to be interpreted is refused.

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
    books = [load_book(path) for path in price_lists]
    form, problems = read_comparison_form(load_book(shop)) if shop else (None, [])
    comparison, found = compare_books(books, form=form, on=on, uses=uses, currency=currency, decimals=decimals)
    problems = strict(problems + found) if strictly else problems + found
    if comparison is None or any(problem.level is Level.ERROR for problem in problems):
        raise WorkbookProblemsError(problems)
    return replace(comparison, problems=tuple(WorkbookProblemsError(problems).problems))


def compare_books(
    books: Sequence[Book],
    *,
    form: ComparisonForm | None = None,
    on: dt.date | None = None,
    uses: Sequence[GasUse] = (),
    currency: str = "",
    decimals: int = 2,
) -> tuple[Comparison | None, list[Problem]]:
    """Compare suppliers from price lists that are loaded; as ``compare``, with the problems handed back.

    Parameters
    ----------
    books : sequence of Book
        The loaded price lists.
    form : ComparisonForm
        How suppliers are compared where no price list says.
    on, uses, currency, decimals
        As for ``compare``.

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
    if not _has_error(problems):
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


def _currency(lists: PriceLists) -> str:
    named = [lists.form.currency, *(terms.currency for terms in lists.terms)]
    return next((code for code in named if code), "")


def _twice(lists: PriceLists, uses: Sequence[GasUse]) -> bool:
    """Whether the typed use holds a gas twice, which is a problem that was told before."""
    gases = [row.gas for row in lists.uses]
    return not uses and len(set(gases)) != len(gases)


def _place(books: Sequence[Book]) -> Place:
    return Place(books[0].path.name if books else "")


def _has_error(problems: Sequence[Problem]) -> bool:
    return any(problem.level is Level.ERROR for problem in problems)
