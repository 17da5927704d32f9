"""Make the sample price lists: three invented suppliers and an invented shop's monthly use, from the sheet statements.

Every name and price is invented. Run from the project's folder: ``python scripts/make_supplier_sample.py``.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from estimator.sheets.gas_demand import COMPARISON, DEMAND
from estimator.sheets.price_list import OFFERS
from estimator.sheets.price_terms import FEES, TERMS
from estimator.write.book import OutputBook, write_book
from estimator.write.own_cells import OwnUnits
from estimator.write.own_sheets import write_own_sheet

TARGET = Path(__file__).parents[1] / "sample_jobs" / "suppliers" / "price_lists.xlsx"
ASH, BIRCH, CEDAR = "Ash (invented)", "Birch (invented)", "Cedar (invented)"
YEAR, LAST = dt.date(2026, 1, 1), dt.date(2026, 12, 31)
BAR, US = "15 °C, 1 bar", "70 °F, 1 atm"

OFFER_ROWS: list[dict[str, object]] = [
    {
        "supplier": ASH,
        "gas": "oxygen",
        "cylinder": "150",
        "content": 150.0,
        "content_unit": "ft3",
        "content_state": US,
        "price": 8.10,
        "priced_per": "100 ft3",
        "rent_rule": "daily on balance",
        "rent": 0.26,
    },
    {
        "supplier": ASH,
        "gas": "oxygen",
        "cylinder": "250",
        "content": 250.0,
        "content_unit": "ft3",
        "content_state": US,
        "price": 7.90,
        "priced_per": "100 ft3",
        "rent_rule": "daily on balance",
        "rent": 0.34,
    },
    {
        "supplier": ASH,
        "gas": "acetylene",
        "cylinder": "140",
        "content": 140.0,
        "content_unit": "ft3",
        "content_state": US,
        "price": 32.00,
        "priced_per": "100 ft3",
        "rent_rule": "daily on balance",
        "rent": 0.30,
    },
    {
        "supplier": BIRCH,
        "gas": "oxygen",
        "cylinder": "L50",
        "content": 10.6,
        "content_unit": "m3",
        "content_state": BAR,
        "price": 34.00,
        "priced_per": "cylinder",
        "rent_rule": "highest balance of the month",
        "rent": 7.20,
        "deposit": 0.0,
        "credited_share": 0.0,
        "valid_to": LAST,
    },
    {
        "supplier": BIRCH,
        "gas": "acetylene",
        "cylinder": "L50",
        "content": 8.0,
        "content_unit": "kg",
        "price": 92.00,
        "priced_per": "cylinder",
        "rent_rule": "highest balance of the month",
        "rent": 7.20,
        "deposit": 0.0,
        "credited_share": 0.0,
        "supplier_draw_fraction": 0.1,
        "valid_to": LAST,
    },
    {
        "supplier": CEDAR,
        "gas": "oxygen",
        "cylinder": "50 L 200 bar",
        "content": 10.0,
        "content_unit": "Nm3",
        "price": 38.00,
        "priced_per": "cylinder",
        "rent_rule": "annual in advance",
        "rent": 54.00,
        "renewal": YEAR,
        "credited_share": 0.0,
        "valid_to": LAST,
    },
    {
        "supplier": CEDAR,
        "gas": "acetylene",
        "cylinder": "50 L",
        "content": 8.0,
        "content_unit": "kg",
        "price": 97.00,
        "priced_per": "cylinder",
        "rent_rule": "annual in advance",
        "rent": 54.00,
        "renewal": YEAR,
        "credited_share": 0.0,
        "supplier_draw_fraction": 0.1,
        "valid_to": LAST,
    },
    {
        "supplier": BIRCH,
        "gas": "propane",
        "cylinder": "P33",
        "content": 33.0,
        "content_unit": "kg",
        "price": 79.00,
        "priced_per": "cylinder",
        "rent_rule": "highest balance of the month",
        "rent": 3.10,
        "deposit": 0.0,
        "credited_share": 0.0,
        "valid_to": LAST,
    },
    {
        "supplier": CEDAR,
        "gas": "propane",
        "cylinder": "35 kg",
        "content": 35.0,
        "content_unit": "kg",
        "price": 2.55,
        "priced_per": "kg",
        "rent_rule": "annual in advance",
        "rent": 30.00,
        "renewal": YEAR,
        "credited_share": 0.0,
        "valid_to": LAST,
    },
]
TERMS_ROWS: list[dict[str, object]] = [
    {"supplier": ASH, "currency": "XTS", "lead_time_days": 2, "most_deliveries": 4.0, "invoices": "each delivery"},
    {
        "supplier": BIRCH,
        "currency": "XTS",
        "lead_time_days": 3,
        "most_deliveries": 4.0,
        "minimum_order": 60.0,
        "invoices": "each month",
        "contract_months": 36,
        "tax": 0.2,
    },
    {
        "supplier": CEDAR,
        "currency": "XTS",
        "lead_time_days": 5,
        "most_deliveries": 2.0,
        "minimum_order": 0.0,
        "invoices": "each month",
        "contract_months": 12,
        "notice_months": 3,
        "tax": 0.2,
    },
]
FEE_ROWS: list[dict[str, object]] = [
    {"supplier": ASH, "fee": "delivery", "charged": "each delivery", "amount": 16.00},
    {"supplier": ASH, "fee": "hazardous goods", "charged": "each delivery", "amount": 7.50},
    {"supplier": ASH, "fee": "energy surcharge", "charged": "percent of gas", "share": 0.06},
    {"supplier": ASH, "fee": "invoice", "charged": "each invoice", "amount": 3.50},
    {"supplier": BIRCH, "fee": "delivery", "charged": "each delivery", "amount": 12.00},
    {"supplier": BIRCH, "fee": "energy surcharge", "charged": "percent of gas", "share": 0.03},
    {"supplier": CEDAR, "fee": "cylinder handling", "charged": "each cylinder", "amount": 1.20},
]
USE_ROWS: list[dict[str, object]] = [
    {
        "gas": "oxygen",
        "amount": 42.0,
        "unit": "m3",
        "state": BAR,
        "low_amount": 25.0,
        "high_amount": 60.0,
        "highest_draw": 6.0,
    },
    {
        "gas": "acetylene",
        "amount": 5.5,
        "unit": "m3",
        "state": BAR,
        "low_amount": 3.5,
        "high_amount": 8.0,
        "highest_draw": 0.9,
    },
]


def build(book: OutputBook) -> None:
    """Write every sheet of the price lists."""
    units = OwnUnits(currency="XTS")
    dated = {"valid_from": YEAR}
    form = {"on_date": dt.date(2026, 3, 2), "currency": "XTS", "change_cost": 420.00, "change_months": 24}
    write_own_sheet(book, COMPARISON, [form], units=units)
    write_own_sheet(book, OFFERS, [{**dated, **row} for row in OFFER_ROWS], units=units)
    write_own_sheet(book, TERMS, TERMS_ROWS, units=units)
    write_own_sheet(book, FEES, [{**dated, **row} for row in FEE_ROWS], units=units)
    write_own_sheet(book, DEMAND, USE_ROWS, units=units)


if __name__ == "__main__":
    TARGET.parent.mkdir(parents=True, exist_ok=True)
    with TARGET.open("wb") as file:
        write_book(build, title="Price lists (invented)")(file)
