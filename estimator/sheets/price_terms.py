"""What a supplier asks besides its prices: terms, and fees by name. Fees are never taxes."""

from __future__ import annotations

from estimator.sheets.choices import GASES
from estimator.sheets.price_list import supplier_column, valid_from_column, valid_to_column
from estimator.sheets.statement import Column, Kind, Sheet

__all__ = ["FEES", "FEE_WAYS", "INVOICE_WAYS", "TERMS"]

INVOICE_WAYS = ("each month", "each delivery")
FEE_WAYS = ("each delivery", "each invoice", "each month", "each cylinder", "percent of gas")

TERMS = Sheet(
    name="Terms",
    purpose="One row for each supplier. Leave blank what its offer does not say: it becomes a question to ask.",
    required=False,
    columns=(
        supplier_column(),
        Column(
            "currency",
            "Currency",
            Kind.TEXT,
            "a three-letter ISO 4217 code; blank for the shop's own",
            "prices in two currencies cannot be compared",
            "XTS",
        ),
        Column(
            "lead_time_days",
            "Gas arrives after",
            Kind.WHOLE,
            "days from the order to the van",
            "what is kept on the rack must last that long",
            "2",
            low=0,
            high=120,
            unit="days",
        ),
        Column(
            "most_deliveries",
            "Deliveries a month",
            Kind.NUMBER,
            "how often the van comes at most in a month, as 4 or 0.5",
            "fewer deliveries mean more cylinders held",
            "4",
            low=0.1,
            high=31,
        ),
        Column(
            "minimum_order",
            "Minimum order",
            Kind.MONEY,
            "least gas value of a delivery; what lacks is charged",
            "small orders cost more",
            "",
            low=0,
        ),
        Column(
            "invoices",
            "Invoices come",
            Kind.CHOICE,
            " or ".join(INVOICE_WAYS),
            "how often a fee on each invoice is paid",
            "each month",
            choices=INVOICE_WAYS,
        ),
        Column(
            "all_gases_or_none",
            "All gases or none",
            Kind.FLAG,
            "yes when it sells only if every gas is bought from it",
            "which mixes of suppliers are allowed",
            "no",
            default=False,
        ),
        Column(
            "contract_months",
            "Contract runs",
            Kind.WHOLE,
            "months the shop is bound",
            "a cheaper offer cannot be taken up before",
            "12",
            low=0,
            high=240,
            unit="months",
        ),
        Column(
            "notice_months",
            "Notice",
            Kind.WHOLE,
            "months before its end that a contract must be ended",
            "a contract that is not ended runs on",
            "3",
            low=0,
            high=60,
            unit="months",
        ),
        Column(
            "tax",
            "Tax",
            Kind.SHARE,
            "the tax on its bills, as 20 %",
            "prices are compared before tax",
            "20 %",
            low=0,
            high=1,
        ),
        Column(
            "prices_include_tax",
            "Prices include tax",
            Kind.FLAG,
            "yes when the list prints prices with tax",
            "prices are compared before tax",
            "no",
            default=False,
        ),
        Column("note", "Note", Kind.TEXT, "anything worth keeping", "shown beside the supplier", ""),
    ),
)

FEES = Sheet(
    name="Fees",
    purpose="One row for each fee or surcharge of a supplier's small print: hazardous goods, energy, environment, van.",
    required=False,
    columns=(
        supplier_column(),
        Column(
            "fee",
            "Fee",
            Kind.TEXT,
            "its name as printed",
            "named in the ranking and on bills",
            "hazardous goods",
            required=True,
        ),
        Column(
            "charged",
            "Charged on",
            Kind.CHOICE,
            ", ".join(FEE_WAYS),
            "what it grows with",
            "each delivery",
            required=True,
            choices=FEE_WAYS,
        ),
        Column(
            "amount",
            "Amount",
            Kind.MONEY,
            "money each time; blank for percent of gas",
            "it is added to the month",
            "9.50",
            low=0,
        ),
        Column(
            "share",
            "Percent",
            Kind.SHARE,
            "a percentage of the gas price, as 4 % or 0.04; only for percent of gas",
            "it is added to the month",
            "",
            low=0,
            high=2,
        ),
        Column(
            "gas",
            "Only on",
            Kind.CHOICE,
            "a gas, for a fee on each cylinder or percent of gas; blank for every gas",
            "some fees are on one gas",
            "",
            choices=GASES,
        ),
        valid_from_column(),
        valid_to_column(),
    ),
)
