"""Read price-list workbooks whole: every sheet of every file, suppliers joined by name, the offers in force."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import TypeVar

from pydantic import BaseModel

from estimator.check.price_list import (
    ComparisonForm,
    FeeRow,
    OfferRow,
    PriceLists,
    TermsRow,
    UseRow,
    check_offer,
    check_use,
)
from estimator.problems import price_list as said
from estimator.problems.code import Place, Problem, has_error
from estimator.read.cells import Book
from estimator.read.own_cells import nearest
from estimator.read.own_sheets import find_sheet, read_records
from estimator.sheets.gas_demand import COMPARISON, DEMAND
from estimator.sheets.price_list import OFFERS
from estimator.sheets.price_terms import FEES, TERMS
from estimator.sheets.statement import Sheet

__all__ = ["in_force", "read_comparison_form", "read_price_lists"]

_Named = TypeVar("_Named", OfferRow, TermsRow, FeeRow)
_Row = TypeVar("_Row", OfferRow, UseRow)
_Record = TypeVar("_Record", bound=BaseModel)


def read_price_lists(
    books: Sequence[Book], form: ComparisonForm | None = None, currency: str = ""
) -> tuple[PriceLists, list[Problem]]:
    """Return the records of one or several price-list workbooks, with every problem found in them.

    Parameters
    ----------
    books : sequence of Book
        Several suppliers in one workbook, or one workbook each.
    form : ComparisonForm
        How suppliers are compared where no price-list workbook says; it may stand in the shop book.
    currency : str
        The shop's currency, three letters; empty when it is not known.

    Returns
    -------
    tuple of (PriceLists, list of Problem)
        Rows with an error are left out and stand among the problems.

    Notes
    -----
    A supplier's name may differ in capitals and spaces. Source: definition.
    """
    problems: list[Problem] = []
    for book in books:
        if _has_sheet(book, COMPARISON):
            form, of_form = read_comparison_form(book)
            problems += of_form
    form = form or ComparisonForm()
    offers, terms, fees, uses = [], [], [], []
    for book in books:
        of_book, problems_of = read_records(book, OFFERS, OfferRow)
        offers += of_book
        problems += problems_of
        terms += _records(book, TERMS, TermsRow, problems)
        fees += _records(book, FEES, FeeRow, problems)
        uses += _records(book, DEMAND, UseRow, problems)
    names: dict[str, str] = {}
    lists = PriceLists(
        offers=tuple(_kept((check_offer(row, form) for row in _one_spelling(offers, names)), problems)),
        terms=tuple(_one_spelling(terms, names)),
        fees=tuple(_one_spelling(fees, names)),
        uses=tuple(_kept((check_use(row, form) for row in uses), problems)),
        form=form,
    )
    listed = list(dict.fromkeys(names[_key(row.supplier)] for row in offers))
    return lists, [*problems, *_between_sheets(lists, listed, currency or form.currency)]


def read_comparison_form(book: Book) -> tuple[ComparisonForm, list[Problem]]:
    """Return how suppliers are compared, from a price list or from the shop book.

    Parameters
    ----------
    book : Book
        The loaded workbook; it may lack the sheet.

    Returns
    -------
    tuple of (ComparisonForm, list of Problem)

    Notes
    -----
    Source: definition.
    """
    if not _has_sheet(book, COMPARISON):
        return ComparisonForm(), []
    forms, problems = read_records(book, COMPARISON, ComparisonForm)
    return forms[0] if forms else ComparisonForm(), problems


def in_force(lists: PriceLists, on: dt.date) -> tuple[PriceLists, list[Problem]]:
    """Return the price lists with only the offers and fees that hold on a day, and what stands against that.

    Parameters
    ----------
    lists : PriceLists
        Every dated offer and fee.
    on : date
        The day.

    Returns
    -------
    tuple of (PriceLists, list of Problem)
        Of two offers of one cylinder without a last day, the one that starts later holds.

    Notes
    -----
    Source: definition.
    """
    problems: list[Problem] = []
    holding: dict[tuple[str, str, str], OfferRow] = {}
    for offer in lists.offers:
        if not offer.in_force(on):
            problems.append(said.NOT_IN_FORCE.at(offer.place, found=offer.cylinder, date=on.isoformat()))
            continue
        key = (offer.supplier, offer.gas, _key(offer.cylinder))
        other = holding.get(key)
        if other is not None and offer.valid_from == other.valid_from:
            problems.append(
                said.IN_FORCE_TWICE.at(
                    offer.at("valid_from"), found=offer.valid_from, date=on.isoformat(), other=str(other.place)
                )
            )
        if other is None or offer.valid_from > other.valid_from:
            holding[key] = offer
    kept = tuple(offer for offer in lists.offers if offer in holding.values())
    return lists.model_copy(update={"offers": kept, "fees": _fees_in_force(lists.fees, on)}), problems


def _fees_in_force(fees: Iterable[FeeRow], on: dt.date) -> tuple[FeeRow, ...]:
    """Of one fee on one gas that was changed, the latest holds."""
    holding: dict[tuple[str, str, str, str | None], FeeRow] = {}
    for fee in sorted((f for f in fees if f.in_force(on)), key=lambda f: f.valid_from):
        holding[(fee.supplier, _key(fee.fee), fee.charged, fee.gas)] = fee
    return tuple(holding.values())


def _records(book: Book, sheet: Sheet, model: type[_Record], problems: list[Problem]) -> list[_Record]:
    if not _has_sheet(book, sheet):
        return []
    records, found = read_records(book, sheet, model)
    problems += found
    return records


def _has_sheet(book: Book, sheet: Sheet) -> bool:
    """Return whether a workbook has the sheet; a csv or tsv holds the offers alone."""
    return book.kind not in {"csv", "tsv"} and find_sheet(book, sheet) is not None


def _kept(checked: Iterable[tuple[_Row, list[Problem]]], problems: list[Problem]) -> Iterable[_Row]:
    """Yield the rows that hold; gather every problem."""
    for row, found in checked:
        problems += found
        if not has_error(found):
            yield row


def _one_spelling(rows: Iterable[_Named], names: dict[str, str]) -> list[_Named]:
    """Return rows whose supplier is spelt as it was first met."""
    return [row.model_copy(update={"supplier": names.setdefault(_key(row.supplier), row.supplier)}) for row in rows]


def _key(name: str) -> str:
    return " ".join(name.split()).casefold()


def _between_sheets(lists: PriceLists, listed: list[str], currency: str) -> list[Problem]:
    problems: list[Problem] = []
    first: dict[str, TermsRow] = {}
    for terms in lists.terms:
        other = first.setdefault(terms.supplier, terms)
        if other is not terms:
            problems.append(said.TERMS_TWICE.at(terms.at("supplier"), found=terms.supplier, other=str(other.place)))
        if terms.currency and currency and terms.currency.upper() != currency.upper():
            problems.append(said.CURRENCY_OTHER.at(terms.at("currency"), found=terms.currency, currency=currency))
        if terms.prices_include_tax and terms.tax is None:
            problems.append(said.NO_TAX_RATE.at(terms.at("tax")))
        currency = currency or terms.currency
    for supplier in listed:
        if supplier not in first:
            place = next((o.at("supplier") for o in lists.offers if o.supplier == supplier), Place())
            problems.append(said.TERMS_MISSING.at(place, supplier=supplier))
    named = [(row.supplier, row.at("supplier")) for row in lists.terms]
    named += [(row.supplier, row.at("supplier")) for row in lists.fees]
    for supplier, place in named:
        if supplier not in listed:
            near = nearest(supplier, listed)
            hint = f" (perhaps '{near[0]}')" if near else ""
            names = ", ".join(listed)
            problems.append(said.SUPPLIER_WITHOUT_OFFER.at(place, found=supplier, suppliers=names, near=hint))
    return [*problems, *_fee_problems(lists.fees), *_twice(lists.uses)]


def _fee_problems(fees: Iterable[FeeRow]) -> list[Problem]:
    problems = []
    for fee in fees:
        needed, other = ("share", "amount") if fee.charged == "percent of gas" else ("amount", "share")
        if getattr(fee, needed) is None or getattr(fee, other) is not None:
            cell = needed if getattr(fee, needed) is None else other
            problems.append(said.FEE_AMOUNT.at(fee.at(cell), found=getattr(fee, cell) or ""))
    return problems


def _twice(uses: Iterable[UseRow]) -> list[Problem]:
    problems, first = [], dict[str, UseRow]()
    for use in uses:
        other = first.setdefault(use.gas, use)
        if other is not use:
            problems.append(said.USE_TWICE.at(use.at("gas"), found=use.gas, other=str(other.place)))
    return problems
