"""Make the sample month: an invented shop's bills and work log, with four faults planted in the bills.

Every name, number and price is invented. Run from the project's folder: ``python scripts/make_month_end_sample.py``.
The faults: rental on two cylinders that went back, a delivery billed twice, a price above the agreed one, a return that
was not credited.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

from estimator.pricing.money import to_minor
from estimator.sheets.agreed_prices import AGREED_PRICES, SUPPLIER_TERMS
from estimator.sheets.bills import BILL_LINES, BILLS
from estimator.sheets.cylinder_counts import DELIVERIES, RACK_COUNTS
from estimator.sheets.cylinder_tags import CYLINDER_TAGS
from estimator.sheets.statement import Sheet
from estimator.sheets.work_log import WORK_LOG
from estimator.write.book import OutputBook, write_book
from estimator.write.own_sheets import write_own_sheet
from estimator.write.save import save

FOLDER = Path(__file__).parents[1] / "sample_jobs" / "month_end"
SUPPLIER = "Supplier A (invented)"
OXYGEN, ACETYLENE = ("oxygen", "O-10"), ("acetylene", "A-7")
BILL = "INV-2207"
TAX = 0.10
Row = dict[str, object]


def day(number: int, month: int = 3) -> dt.date:
    """A day of the sample month."""
    return dt.date(2026, month, number)


def line(kind: str, words: str, quantity: float, unit: str, price: float, **rest: object) -> Row:
    """One printed line of the bill."""
    amount = int(to_minor(quantity * price)) / 100
    named = {"kind": kind, "description": words, "quantity": quantity, "unit": unit, "unit_price": price}
    return {"bill_number": BILL, **named, "amount": amount, **rest}


def of(size: tuple[str, str]) -> Row:
    """Gas and size."""
    return {"gas": size[0], "size": size[1]}


def bill_lines() -> list[Row]:
    """The bill as the supplier printed it; four of its lines are wrong, or missing."""
    first = {**of(OXYGEN), "delivery_note": "4471", "date": day(5)}
    return [
        line("gas", "oxygen O-10", 3, "cylinder", 42.00, **first),
        line("gas", "oxygen O-10", 3, "cylinder", 42.00, **first),  # fault: the same docket again
        line("gas", "acetylene A-7", 1, "cylinder", 138.00, **of(ACETYLENE), delivery_note="4471", date=day(5)),
        line("gas", "oxygen O-10", 2, "cylinder", 42.00, **of(OXYGEN), delivery_note="4498", date=day(12)),
        # fault: 138.00 was agreed
        line("gas", "acetylene A-7", 1, "cylinder", 142.14, **of(ACETYLENE), delivery_note="4530", date=day(19)),
        line("gas", "oxygen O-10", 3, "cylinder", 42.00, **of(OXYGEN), delivery_note="4530", date=day(19)),
        # fault: two of these went back on the 2nd, and are charged for the whole month
        line("rent", "rental oxygen O-10", 248, "cylinder-day", 0.26, **of(OXYGEN)),
        line("rent", "rental acetylene A-7", 93, "cylinder-day", 0.29, **of(ACETYLENE)),
        line("delivery", "delivery", 3, "delivery", 18.00),
        line("fee", "hazardous goods", 1, "bill", 4.50),
        # fault: 12.00 was promised for the two that went back with note 4460; no credit stands here
    ]


def bills() -> list[Row]:
    """The foot of the bill."""
    net = round(sum(float(str(row["amount"])) for row in bill_lines()), 2)
    tax = int(to_minor(net * TAX)) / 100
    return [
        {
            "supplier": SUPPLIER,
            "bill_number": BILL,
            "bill_date": day(31),
            "period_from": day(1),
            "period_to": day(31),
            "due_date": day(30, 4),
            "net_total": net,
            "tax_total": tax,
            "total": round(net + tax, 2),
        }
    ]


DELIVERY_ROWS: list[Row] = [
    {"note_number": "4460", "date": day(2), **of(OXYGEN), "empty_out": 2, "credit_due": 12.00},
    {"note_number": "4471", "date": day(5), **of(OXYGEN), "full_in": 3, "empty_out": 3, "ordered": 3},
    {"note_number": "4471", "date": day(5), **of(ACETYLENE), "full_in": 1, "empty_out": 1, "ordered": 1},
    {"note_number": "4498", "date": day(12), **of(OXYGEN), "full_in": 2, "empty_out": 2, "ordered": 2},
    {"note_number": "4530", "date": day(19), **of(ACETYLENE), "full_in": 1, "empty_out": 1, "ordered": 1},
    {"note_number": "4530", "date": day(19), **of(OXYGEN), "full_in": 3, "empty_out": 3, "ordered": 3},
]

COUNT_ROWS: list[Row] = [
    {"date": day(28, 2), **of(OXYGEN), "full": 2, "part_readings": "120 bar", "empty": 5},
    {"date": day(28, 2), **of(ACETYLENE), "full": 1, "part_readings": "62.1 kg", "empty": 1},
    {"date": day(31), **of(OXYGEN), "full": 2, "part_readings": "85 bar", "empty": 3},
    {"date": day(31), **of(ACETYLENE), "full": 1, "part_readings": "61.4 kg", "empty": 1},
]

PRICE_ROWS: list[Row] = [
    {
        "kind": "gas",
        **of(OXYGEN),
        "content": "10 m³ (15 °C, 1 bar)",
        "full_pressure_bar": 200,
        "price": 42.00,
        "unit": "cylinder",
        "valid_from": dt.date(2026, 1, 1),
        "document": "offer of 5 January",
    },
    {
        "kind": "gas",
        **of(ACETYLENE),
        "content": "7.3 kg",
        "tare_kg": 58.2,
        "price": 138.00,
        "unit": "cylinder",
        "valid_from": dt.date(2026, 1, 1),
        "document": "offer of 5 January",
    },
    {"kind": "rent", **of(OXYGEN), "price": 0.26, "unit": "cylinder-day", "document": "offer of 5 January"},
    {"kind": "rent", **of(ACETYLENE), "price": 0.29, "unit": "cylinder-day", "document": "offer of 5 January"},
    {
        "kind": "delivery",
        "description": "delivery",
        "price": 18.00,
        "unit": "delivery",
        "document": "offer of 5 January",
    },
    {"kind": "fee", "description": "hazardous goods", "price": 4.50, "unit": "bill", "document": "offer of 5 January"},
]

TERM_ROWS: list[Row] = [
    {"supplier": SUPPLIER, "objection_days": 30, "tax_rate": TAX, "rent_rule": "daily on balance"},
]

LOG_ROWS: list[Row] = [
    {"date": day(2), "job": "J-104", "quote_number": "Q-0031", "who": "A", "thickness_mm": 12.0, "cut_length_m": 46.0,
     "pierces": 0, "edge_starts": 96, "paid_time_min": 420.0},
    {"date": day(3), "job": "J-104", "quote_number": "Q-0031", "who": "A", "thickness_mm": 20.0, "cut_length_m": 31.0,
     "edge_starts": 40, "paid_time_min": 380.0},
    {"date": day(6), "job": "J-105", "who": "B", "thickness_mm": 25.0, "cut_length_m": 38.0, "paid_time_min": 450.0},
    {"date": day(9), "job": "J-105", "who": "B", "thickness_mm": 40.0, "cut_length_m": 16.0, "paid_time_min": 300.0},
    {"date": day(10), "job": "SHOP", "who": "B", "operation": "heat", "flame_time_min": 45.0, "paid_time_min": 70.0,
     "note": "trailer drawbar bent back"},
    {"date": day(13), "job": "J-106", "who": "A", "thickness_mm": 30.0, "cut_length_m": 44.0, "flame_time_min": 260.0,
     "paid_time_min": 640.0},
    {"date": day(17), "job": "J-107", "who": "A", "thickness_mm": 16.0, "cut_length_m": 58.0, "paid_time_min": 520.0},
    {"date": day(20), "job": "J-107", "who": "A", "thickness_mm": 12.0, "cut_length_m": 72.0, "paid_time_min": 560.0},
    {"date": day(24), "job": "J-108", "who": "B", "thickness_mm": 50.0, "cut_length_m": 22.0, "paid_time_min": 460.0},
    {"date": day(27), "job": "J-108", "who": "B", "operation": "straighten", "flame_time_min": 60.0,
     "paid_time_min": 150.0},
    {"date": day(30), "job": "SHOP", "who": "A", "thickness_mm": 10.0, "cut_length_m": 12.0, "note": "new rack"},
]  # fmt: skip

TAG_ROWS: list[Row] = [
    {"cylinder": "O-17", **of(OXYGEN), "date_on": day(6), "date_off": day(6), "jobs": "J-105"},
    {"cylinder": "O-22", **of(OXYGEN), "date_on": day(24), "date_off": day(24), "jobs": "J-108"},
    {"cylinder": "C-31", **of(ACETYLENE), "date_on": day(10), "date_off": day(20)},
]


def write(name: str, title: str, sheets: Sequence[tuple[Sheet, Sequence[Row]]]) -> None:
    """Write one workbook of the sample."""

    def build(book: OutputBook) -> None:
        for sheet, rows in sheets:
            write_own_sheet(book, sheet, rows)

    save(FOLDER / name, write_book(build, title=title), force=True)


def main() -> None:
    """Write both workbooks."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    of_bills = [
        (BILLS, bills()),
        (BILL_LINES, bill_lines()),
        (DELIVERIES, DELIVERY_ROWS),
        (RACK_COUNTS, COUNT_ROWS),
        (AGREED_PRICES, PRICE_ROWS),
        (SUPPLIER_TERMS, TERM_ROWS),
    ]
    write("bills.xlsx", "Gas bills of an invented shop", of_bills)
    write("work_log.xlsx", "Work log of an invented shop", [(WORK_LOG, LOG_ROWS), (CYLINDER_TAGS, TAG_ROWS)])


if __name__ == "__main__":
    main()
