"""A supplier's price list as agreed prices, so that what was compared need not be typed again to check the bills."""

from __future__ import annotations

from collections.abc import Iterator

from estimator.check.bills import AgreedPrice, BillsBook, SupplierTerms
from estimator.check.price_list import FeeRow, OfferRow, PriceLists, Stated
from estimator.read.billed_unit import BilledUnit, read_billed_unit
from estimator.read.gas_text import GasText

__all__ = ["with_price_lists"]

_RENT_UNITS = {
    "daily on balance": "cylinder-day",
    "month-end balance": "cylinder-month",
    "average balance of the month": "cylinder-month",
    "highest balance of the month": "cylinder-month",
    "full month for each cylinder added": "cylinder-month",
    "annual in advance": "cylinder-year",
    "owned, yearly test and maintenance fee": "cylinder-year",
}
_FEE_UNITS = {
    "each delivery": "delivery",
    "each invoice": "bill",
    "each month": "bill",
    "each cylinder": "cylinder",
    "percent of gas": "% of gas",
}


def with_price_lists(book: BillsBook, lists: PriceLists) -> BillsBook:
    """Return a bills workbook with the prices and terms of price lists added.

    Parameters
    ----------
    book : BillsBook
        What was typed; it wins over a list, price by price and supplier by supplier.
    lists : PriceLists
        Checked price lists.

    Returns
    -------
    BillsBook

    Notes
    -----
    Only suppliers that sent a bill are taken over. A supplier whose sizes are rented by different rules gets none.
    Source: definition.
    """
    prices = list(book.prices)
    typed = {_key(price) for price in book.prices}
    for price in _prices(lists):
        if price.supplier in book.suppliers and _key(price) not in typed:
            prices.append(price)
    with_terms = {terms.supplier for terms in book.terms}
    terms = [*book.terms, *(_terms(lists, s) for s in book.suppliers if s not in with_terms and s in lists.suppliers)]
    return book.model_copy(update={"prices": tuple(prices), "terms": tuple(terms)})


def _key(price: AgreedPrice) -> tuple[str, ...]:
    return (price.supplier, price.kind, price.gas, price.size, price.description.casefold())


def _prices(lists: PriceLists) -> Iterator[AgreedPrice]:
    for offer in lists.offers:
        yield from _of_offer(offer)
    for fee in lists.fees:
        yield _of_fee(fee)


def _of_offer(offer: OfferRow) -> Iterator[AgreedPrice]:
    common = {
        "place": offer.place,
        "places": offer.places,
        "supplier": offer.supplier,
        "gas": offer.gas,
        "size": offer.cylinder,
        "valid_from": offer.valid_from,
        "valid_to": offer.valid_to,
        "document": "price list",
    }
    content = _gas_text(offer.stated_content) if offer.stated_content else None
    yield AgreedPrice(kind="gas", price=offer.price, unit=_priced_unit(offer), content=content, **common)
    unit = _RENT_UNITS.get(offer.rent_rule or "")
    if unit and offer.rent is not None:
        yield AgreedPrice(kind="rent", price=offer.rent, unit=read_billed_unit(unit), **common)
    if offer.deposit:
        yield AgreedPrice(kind="deposit", price=offer.deposit, unit=read_billed_unit("cylinder"), **common)


def _of_fee(fee: FeeRow) -> AgreedPrice:
    by_share = fee.charged == "percent of gas"
    price = 100.0 * (fee.share or 0.0) if by_share else fee.amount or 0.0
    return AgreedPrice(
        place=fee.place,
        places=fee.places,
        supplier=fee.supplier,
        kind="delivery" if fee.charged == "each delivery" else "fee",
        description=fee.fee,
        gas=fee.gas or "",
        price=price,
        unit=read_billed_unit(_FEE_UNITS[fee.charged]),
        valid_from=fee.valid_from,
        valid_to=fee.valid_to,
        document="price list",
    )


def _priced_unit(offer: OfferRow) -> BilledUnit:
    if offer.stated_basis is None:
        return read_billed_unit("cylinder")
    gas = _gas_text(offer.stated_basis)
    return BilledUnit(read_billed_unit("kg").per, gas, offer.stated_basis.label)


def _gas_text(stated: Stated) -> GasText:
    return GasText(stated.amount, stated.unit, stated.state)


def _terms(lists: PriceLists, supplier: str) -> SupplierTerms:
    offers = [o for o in lists.offers if o.supplier == supplier and o.rent_rule]
    rules = {(o.rent_rule or "", o.month_starts_on, o.free_days) for o in offers}
    rule, starts_on, free_days = rules.pop() if len(rules) == 1 else ("", 1, 0)
    return SupplierTerms(
        supplier=supplier,
        tax_rate=lists.terms_of(supplier).tax,
        rent_rule=rule,
        rent_period_ends=starts_on - 1 or None,
        free_days=free_days,
    )
