"""What each offer leaves unsaid, as questions to put to the supplier before signing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from estimator.check.price_list import OfferRow, PriceLists, TermsRow

__all__ = ["Question", "questions_to_ask"]


@dataclass(frozen=True, slots=True)
class Question:
    """One question to one supplier."""

    supplier: str
    ask: str
    why: str


def questions_to_ask(lists: PriceLists) -> list[Question]:
    """Questions that the blanks of the price lists raise, supplier by supplier.

    Parameters
    ----------
    lists : PriceLists
        Price lists in force.

    Returns
    -------
    list of Question
        In the order of the suppliers' names; a supplier that says everything is asked nothing.

    Notes
    -----
    Source: common practice, no source.
    """
    questions: list[Question] = []
    for supplier in sorted(lists.suppliers, key=str.casefold):
        offers = [offer for offer in lists.offers if offer.supplier == supplier]
        asked = [*_on_terms(lists.terms_of(supplier)), *_on_fees(lists, supplier), *_on_offers(offers)]
        questions += [Question(supplier, ask, why) for ask, why in asked]
    return questions


def _on_terms(terms: TermsRow) -> Iterable[tuple[str, str]]:
    if terms.lead_time_days is None:
        yield (
            "How many days from the order to the van?",
            "compared as if gas came at once; it sets how many must be kept",
        )
    if terms.most_deliveries is None:
        yield "On which days does the van come?", "compared as if it came once a week"
    if terms.minimum_order is None:
        yield "Is there a minimum order, or a fee for small ones?", "compared as if there were none"
    if terms.invoices is None:
        yield "Is there an invoice with each delivery or each month?", "compared as one a month"
    if terms.contract_months is None:
        yield "How long does the contract bind us?", "a cheaper offer cannot be taken up before its end"
    elif terms.contract_months and terms.notice_months is None:
        yield "What notice ends the contract, and does it run on by itself?", "a contract that is not ended runs on"
    if terms.tax is None:
        yield "What tax comes on top?", "prices are compared as printed, before tax"


def _on_fees(lists: PriceLists, supplier: str) -> Iterable[tuple[str, str]]:
    fees = [fee for fee in lists.fees if fee.supplier == supplier]
    charged = {fee.charged for fee in fees}
    if not {"each delivery", "each invoice"} & charged:
        yield (
            "Is there any fee for delivery, hazardous goods, energy or invoices?",
            "none is listed, and most suppliers have one",
        )
    if any(fee.valid_to is None for fee in fees):
        yield "How often do fees and surcharges change, and are we told before?", "no last day is stated"


def _on_offers(offers: Sequence[OfferRow]) -> Iterable[tuple[str, str]]:
    cylinders = [offer for offer in offers if not offer.piped]
    rules = {offer.rent_rule for offer in cylinders}
    if None in rules:
        yield (
            f"Is there rent on {_named(o for o in cylinders if o.rent_rule is None)}?",
            "compared as if there were none",
        )
    if "daily on balance" in rules:
        yield "Does the day of return count for rent?", "counted here to the day before"
    if "full month for each cylinder added" in rules:
        yield "Is a swap on one day one cylinder or two for rent?", "counted here as one"
    if "annual in advance" in rules:
        yield "Is rent paid back when a cylinder goes back within the year?", "counted here as not"
    if any(offer.deposit is None for offer in cylinders):
        yield (
            f"Is there a deposit on {_named(o for o in cylinders if o.deposit is None)}?",
            "compared as if there were none",
        )
    if any(offer.credited_share is None for offer in cylinders):
        yield "Is gas that goes back in the cylinder credited?", "compared as if it were lost"
    if any(offer.valid_to is None for offer in offers):
        yield "Until when do these prices hold, and how are we told of a rise?", "no last day is stated"
    fuels = [o for o in cylinders if o.gas != "oxygen" and o.supplier_draw_fraction is None]
    if fuels:
        yield (
            f"How much may be drawn in an hour from {_named(fuels)}, in writing?",
            "it decides how many must stand on a manifold",
        )


def _named(offers: Iterable[OfferRow]) -> str:
    return ", ".join(dict.fromkeys(f"{offer.gas} {offer.cylinder}" for offer in offers))
