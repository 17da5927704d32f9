"""The bills workbook: what the supplier asks, what came and went, what stands on the rack, what was agreed.

It can be checked by itself: bills, deliveries and counts need no work log.
"""

from __future__ import annotations

from estimator.sheets.agreed_prices import AGREED_PRICES, SUPPLIER_TERMS
from estimator.sheets.bill_columns import NOTE, UNITS, gas_column, size_column, supplier_column
from estimator.sheets.cylinder_counts import DELIVERIES, RACK_COUNTS
from estimator.sheets.statement import Column, Kind, Sheet

__all__ = ["BILLS", "BILL_KINDS", "BILL_LINES", "LINE_KINDS", "SHEETS"]

BILL_KINDS = ("bill", "credit note")
LINE_KINDS = ("gas", "rent", "delivery", "fee", "deposit", "credit", "tax")

BILLS = Sheet(
    name="Bills",
    purpose="One row for each bill or credit note, with the totals printed at its foot.",
    columns=(
        supplier_column(required=True),
        Column(
            "bill_number",
            "Bill number",
            Kind.TEXT,
            "the number printed on the bill",
            "its lines are found by it, and a bill sent twice is seen by it",
            "88120",
            required=True,
            wordings=("invoice", "invoice number", "invoice no", "bill no"),
        ),
        Column(
            "bill_date",
            "Bill date",
            Kind.DATE,
            "the date printed on the bill",
            "the days left to object run from it",
            "2025-03-31",
            required=True,
            wordings=("invoice date", "date"),
        ),
        Column(
            "kind",
            "Kind",
            Kind.CHOICE,
            "bill or credit note",
            "a credit note is set against what was asked before",
            "bill",
            choices=BILL_KINDS,
            default="bill",
        ),
        Column(
            "period_from",
            "Period from",
            Kind.DATE,
            "first day the bill covers, or blank for the first of its month",
            "rent is counted from this day",
            "2025-03-01",
        ),
        Column(
            "period_to",
            "Period to",
            Kind.DATE,
            "last day the bill covers, or blank for the bill date",
            "rent is counted to this day, and periods must neither overlap nor leave a gap",
            "2025-03-31",
        ),
        Column(
            "due_date",
            "Due",
            Kind.DATE,
            "the day it must be paid, or blank",
            "it is shown on the page for the supplier",
            "2025-04-30",
        ),
        Column(
            "net_total",
            "Total before tax",
            Kind.MONEY,
            "the total before tax printed on the bill, or blank",
            "the lines must add up to it",
            "412.50",
            wordings=("net", "subtotal"),
        ),
        Column(
            "tax_total",
            "Tax",
            Kind.MONEY,
            "the tax printed on the bill, or blank",
            "it must follow from the rate and the total",
            "82.50",
            wordings=("vat", "gst", "sales tax"),
        ),
        Column(
            "total",
            "Total",
            Kind.MONEY,
            "what the bill asks to be paid; a credit note's total is typed below zero",
            "it is what the month end explains to the last coin",
            "495.00",
            required=True,
            wordings=("gross", "amount due", "total due"),
        ),
        Column(
            "currency",
            "Currency",
            Kind.TEXT,
            "three letters such as EUR; blank for the shop's own",
            "bills in two currencies are not added",
            "",
        ),
        NOTE,
    ),
)

BILL_LINES = Sheet(
    name="Bill lines",
    purpose="One row for each line of a bill, as printed.",
    columns=(
        supplier_column(required=False),
        Column(
            "bill_number",
            "Bill number",
            Kind.TEXT,
            "the number of a bill on the Bills sheet",
            "the line belongs to that bill",
            "88120",
            required=True,
            wordings=("invoice", "invoice number", "invoice no", "bill no"),
        ),
        Column(
            "kind",
            "Kind",
            Kind.CHOICE,
            "one of: " + ", ".join(LINE_KINDS),
            "gas is set against delivery notes, rent against days, fees against what was agreed",
            "gas",
            required=True,
            choices=LINE_KINDS,
        ),
        Column(
            "description",
            "Description",
            Kind.TEXT,
            "the words printed on the line; for a fee, its name as on the agreed prices",
            "fees are matched by their words",
            "oxygen 50 L",
            wordings=("text", "item"),
        ),
        gas_column(required=False),
        size_column(required=False),
        Column(
            "quantity",
            "Quantity",
            Kind.NUMBER,
            "a number; blank for a lump sum",
            "quantity x unit price must give the amount, and it must match what was delivered",
            "6",
            low=-1_000_000,
            high=1_000_000,
            wordings=("qty",),
        ),
        Column(
            "unit",
            "Unit",
            Kind.TEXT,
            "as printed: " + UNITS,
            "the same number in another unit or reference state is another price (0.4 to 7 %)",
            "cylinder",
            wordings=("uom", "per"),
        ),
        Column(
            "unit_price",
            "Unit price",
            Kind.NUMBER,
            "money for one unit, with as many decimals as printed",
            "it is set beside the price agreed for that day",
            "31.50",
            low=-10_000_000,
            high=10_000_000,
            wordings=("price", "rate"),
        ),
        Column(
            "amount",
            "Amount",
            Kind.MONEY,
            "the amount printed on the line; a credit is typed below zero",
            "the amounts must add up to the bill",
            "189.00",
            required=True,
            wordings=("line total",),
        ),
        Column(
            "delivery_note",
            "Delivery note",
            Kind.TEXT,
            "the number of the delivery note, or blank",
            "the line is set beside that note",
            "4471",
            wordings=("docket", "note number", "dn"),
        ),
        Column(
            "date",
            "Date",
            Kind.DATE,
            "the day of the delivery or return, or blank",
            "the price in force on that day holds",
            "2025-03-05",
            wordings=("delivery date",),
        ),
        NOTE,
    ),
)

SHEETS = (BILLS, BILL_LINES, DELIVERIES, RACK_COUNTS, AGREED_PRICES, SUPPLIER_TERMS)
