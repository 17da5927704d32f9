"""Which sheets make up each workbook that a shop fills in."""

from __future__ import annotations

from dataclasses import dataclass

from estimator.sheets.agreed_prices import AGREED_PRICES, SUPPLIER_TERMS
from estimator.sheets.bills import BILL_LINES, BILLS
from estimator.sheets.cut_list import CUT_LIST, TITLE_BLOCK
from estimator.sheets.cylinder_counts import DELIVERIES, RACK_COUNTS
from estimator.sheets.cylinder_tags import LOG_SHEETS
from estimator.sheets.first_cells import START
from estimator.sheets.gas_demand import COMPARISON, DEMAND
from estimator.sheets.other_work import OTHER_WORK
from estimator.sheets.outfit import CYLINDER_OUTLETS, OUTFIT
from estimator.sheets.past_jobs import PAST_JOBS
from estimator.sheets.price_list import OFFERS
from estimator.sheets.price_terms import FEES, TERMS
from estimator.sheets.rack import RACK
from estimator.sheets.shop_form import SHOP
from estimator.sheets.shop_prices import GAS_PRICES, LABOUR, STEEL
from estimator.sheets.shop_rules import ADD_ONS, BREAKS, CUSTOMERS, FACTORS, WORK_RATES
from estimator.sheets.statement import Sheet
from estimator.sheets.torch import FLAME_TIPS, OWN_CHART, TIPS

__all__ = ["SHOP_BOOK_SHEETS", "WORKBOOKS", "StatedWorkbook"]

SHOP_BOOK_SHEETS = (
    SHOP,
    LABOUR,
    GAS_PRICES,
    TIPS,
    FLAME_TIPS,
    STEEL,
    OTHER_WORK,
    RACK,
    BREAKS,
    ADD_ONS,
    CUSTOMERS,
    WORK_RATES,
    OWN_CHART,
    FACTORS,
    OUTFIT,
    CYLINDER_OUTLETS,
)
"""The sheets of a shop book that is written from records; the blank one opens with the first sheet."""


@dataclass(frozen=True, slots=True)
class StatedWorkbook:
    """A workbook that a shop fills in: its file name, what it is for, its sheets."""

    file: str
    title: str
    sheets: tuple[Sheet, ...]
    above: tuple[Sheet, ...] = ()
    """Forms that stand above the table of the first sheet."""


WORKBOOKS = (
    StatedWorkbook("cut_list.xlsx", "Cut list", (CUT_LIST,), (TITLE_BLOCK,)),
    StatedWorkbook("shop_book.xlsx", "Shop book", (START, *SHOP_BOOK_SHEETS)),
    StatedWorkbook("price_lists.xlsx", "Suppliers' price lists", (COMPARISON, OFFERS, TERMS, FEES, DEMAND)),
    StatedWorkbook("past_jobs.xlsx", "Past jobs", (PAST_JOBS,)),
    StatedWorkbook("work_log.xlsx", "Work log", LOG_SHEETS),
    StatedWorkbook(
        "bills.xlsx", "Gas bills", (BILLS, BILL_LINES, DELIVERIES, RACK_COUNTS, AGREED_PRICES, SUPPLIER_TERMS)
    ),
)
