"""Read a bills workbook whole: the records of every sheet, suppliers filled in, and what the sheets contradict."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from estimator.check.bills import AgreedPrice, Bill, BillLine, BillsBook, Delivery, RackCount, SupplierTerms
from estimator.problems import bills as said
from estimator.problems.code import Place, Problem
from estimator.read.cells import Book
from estimator.read.own_cells import nearest
from estimator.read.own_sheets import read_records
from estimator.sheets.agreed_prices import AGREED_PRICES, SUPPLIER_TERMS
from estimator.sheets.bills import BILL_LINES, BILLS
from estimator.sheets.cylinder_counts import DELIVERIES, RACK_COUNTS

__all__ = ["check_bills", "read_bills"]

_Of = TypeVar("_Of", BillLine, Delivery, RackCount, AgreedPrice)


def read_bills(book: Book, currency: str = "") -> tuple[BillsBook, list[Problem]]:
    """Return the bills workbook's records with every problem found in it.

    Parameters
    ----------
    book : Book
        The loaded workbook.
    currency : str
        The shop's currency, three letters; empty when it is not known.

    Returns
    -------
    tuple of (BillsBook, list of Problem)
        Rows with an error are left out and stand among the problems.

    Notes
    -----
    Source: definition.
    """
    bills, problems = read_records(book, BILLS, Bill)
    lines, of_lines = read_records(book, BILL_LINES, BillLine)
    deliveries, of_deliveries = read_records(book, DELIVERIES, Delivery)
    counts, of_counts = read_records(book, RACK_COUNTS, RackCount)
    prices, of_prices = read_records(book, AGREED_PRICES, AgreedPrice)
    terms, of_terms = read_records(book, SUPPLIER_TERMS, SupplierTerms)
    problems += of_lines + of_deliveries + of_counts + of_prices + of_terms
    if not bills:
        problems.append(said.NO_BILL.at(Place(book.path.name)))
    suppliers = list(dict.fromkeys(bill.supplier for bill in bills))
    read = BillsBook(
        bills=tuple(bills),
        lines=tuple(_with_supplier(lines, suppliers, problems, bills)),
        deliveries=tuple(_with_supplier(deliveries, suppliers, problems)),
        counts=tuple(_with_supplier(counts, suppliers, problems)),
        prices=tuple(_with_supplier(prices, suppliers, problems)),
        terms=tuple(terms),
    )
    return read, problems + check_bills(read, currency)


def check_bills(book: BillsBook, currency: str = "") -> list[Problem]:
    """Return what does not hold between the rows and sheets of a bills workbook.

    Parameters
    ----------
    book : BillsBook
        Records with their suppliers.
    currency : str
        The shop's currency; empty for the first that a bill names.

    Returns
    -------
    list of Problem
        Lines without a bill, other currencies, periods that run backward, credit notes that ask for money,
        missing terms.

    Notes
    -----
    Source: definition.
    """
    problems: list[Problem] = []
    currency = currency or next((b.currency for b in book.bills if b.currency), "")
    for bill in book.bills:
        problems += _bill_problems(bill, currency)
    known = {(bill.supplier, bill.bill_number) for bill in book.bills}
    numbers = [bill.bill_number for bill in book.bills]
    for line in book.lines:
        if (line.supplier, line.bill_number) not in known:
            near = nearest(line.bill_number, numbers)
            hint = f" (perhaps '{near[0]}')" if near else ""
            problems.append(said.BILL_UNKNOWN.at(line.at("bill_number"), found=line.bill_number, near=hint))
    for price in book.prices:
        problems += _price_problems(price)
    typed = {terms.supplier for terms in book.terms}
    for supplier in book.suppliers:
        if supplier not in typed:
            place = next(b.at("supplier") for b in book.bills if b.supplier == supplier)
            problems.append(said.NO_TERMS.at(place, supplier=supplier))
    return problems


def _price_problems(price: AgreedPrice) -> list[Problem]:
    lacking = []
    if price.content is not None and price.content.lacks_state:
        lacking.append(("content", f"{price.content.amount:g} {price.content.unit}"))
    if price.unit.lacks_state:
        lacking.append(("unit", price.unit.said))
    return [said.AGREED_STATE_MISSING.at(price.at(name), found=found) for name, found in lacking]


def _bill_problems(bill: Bill, currency: str) -> list[Problem]:
    problems = []
    if bill.currency and bill.currency.upper() != currency.upper():
        problems.append(said.CURRENCY_OTHER.at(bill.at("currency"), found=bill.currency, currency=currency))
    if bill.last_day < bill.first_day:
        problems.append(said.PERIOD_BACKWARD.at(bill.at("period_to"), found=bill.last_day, first=bill.first_day))
    if bill.kind == "credit note" and bill.total > 0:
        problems.append(said.TOTAL_SIGN.at(bill.at("total"), found=bill.total))
    return problems


def _with_supplier(
    rows: Iterable[_Of], suppliers: list[str], problems: list[Problem], bills: Iterable[Bill] = ()
) -> list[_Of]:
    """Return rows with a blank supplier filled in where there is only one it can be; others are problems."""
    kept: list[_Of] = []
    names = ", ".join(suppliers)
    for row in rows:
        supplier = row.supplier
        if not supplier and isinstance(row, BillLine):
            of_number = {bill.supplier for bill in bills if bill.bill_number == row.bill_number}
            supplier = of_number.pop() if len(of_number) == 1 else ""
        if not supplier and len(suppliers) <= 1:
            supplier = suppliers[0] if suppliers else ""
        if not supplier and isinstance(row, RackCount) and row.owner == "owned":
            kept.append(row)  # the shop's own cylinders belong to no supplier
            continue
        if not supplier and suppliers:
            problems.append(said.SUPPLIER_MISSING.at(row.at("supplier"), suppliers=names))
            continue
        if suppliers and supplier not in suppliers:
            problems.append(said.SUPPLIER_UNKNOWN.at(row.at("supplier"), found=supplier, suppliers=names))
        kept.append(row.model_copy(update={"supplier": supplier}))
    return kept
