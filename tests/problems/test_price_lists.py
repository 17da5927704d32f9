"""The exact text of every problem of price lists and monthly use, each from a workbook with that one fault.

The texts stand in ``price_lists.txt`` beside this file: read them aloud when one changes.
"""

from __future__ import annotations

import datetime as dt
import tempfile
from pathlib import Path

import pytest

from estimator.check.example_shop import example_shop
from estimator.check.shop_book import ShopBook
from estimator.problems import Level, Problem, WorkbookProblemsError, all_codes
from estimator.read.cells import Book
from estimator.sheets.work_log import WORK_LOG
from estimator.tasks_compare import CompareOrder, compare, compare_books
from estimator.write.book import write_book
from estimator.write.own_sheets import write_own_sheet
from estimator.write.shop_book import shop_book_workbook
from tests.price_list_books import FEE, FORM, OFFER, TERM, USE, price_list_book

SAMPLE = Path(__file__).parents[2] / "sample_jobs" / "suppliers" / "price_lists.xlsx"
TEXTS = Path(__file__).with_name("price_lists.txt")
BIRCH = {"supplier": "Birch (invented)"}
LATER = dt.datetime(2026, 6, 1)

CASES: dict[str, Book] = {
    "E501": price_list_book(offers=[OFFER | {"content_unit": None}]),
    "W502": price_list_book(offers=[OFFER | {"content_unit": None}], form=FORM | {"list_unit": "m3"}),
    "E503": price_list_book(offers=[OFFER | {"content_state": None}]),
    "W504": price_list_book(offers=[OFFER | {"content_state": None}], form=FORM | {"list_state": "15 °C, 1 bar"}),
    "E505": price_list_book(offers=[OFFER | {"content_unit": "Nm3"}]),
    "E506": price_list_book(offers=[OFFER | {"content": None}]),
    "E507": price_list_book(offers=[OFFER | {"piped": "yes"}]),
    "E508": price_list_book(offers=[OFFER | {"rent": None}]),
    "E509": price_list_book(offers=[OFFER | {"rent_rule": None}]),
    "W510": price_list_book(offers=[OFFER | {"rent_rule": None, "rent": None}]),
    "E511": price_list_book(offers=[OFFER | {"free_days": 10.0}]),
    "E512": price_list_book(offers=[OFFER | {"rent_rule": "lease of several years"}]),
    "E513": price_list_book(offers=[OFFER, OFFER | {"price": 35.0}]),
    "N514": price_list_book(offers=[OFFER, OFFER | {"cylinder": "L20", "valid_from": LATER}]),
    "E515": price_list_book(offers=[OFFER | {"valid_from": LATER}]),
    "E516": price_list_book(uses=[USE, USE | {"gas": "propane"}]),
    "E517": price_list_book(terms=[TERM | {"currency": "XAA"}]),
    "W518": price_list_book(offers=[OFFER, OFFER | BIRCH]),
    "E519": price_list_book(terms=[TERM, TERM]),
    "W520": price_list_book(terms=[TERM, TERM | {"supplier": "Ahs (invented)"}]),
    "E521": price_list_book(fees=[FEE | {"charged": "percent of gas"}]),
    "E522": price_list_book(terms=[TERM | {"prices_include_tax": "yes"}]),
    "W523": price_list_book(offers=[OFFER, OFFER | {"cylinder": "L10", "content": 1.06}]),
    "E524": price_list_book(uses=[]),
    "E525": price_list_book(uses=[USE, USE]),
    "E526": price_list_book(uses=[USE | {"low_amount": 50.0}]),
    "E527": price_list_book(
        offers=[OFFER | {"gas": "acetylene", "content": 4.0}],
        uses=[USE | {"gas": "acetylene", "amount": 5.0, "highest_draw": 2.0, "most_held": 4.0}],
    ),
    "E528": price_list_book(form=FORM | {"on_date": None}),
}


THIN: dict[str, object] = {"date": dt.date(2026, 2, 2), "job": "J-1", "thickness_mm": 12.0}
LINES = "Mark,Qty,Thickness mm,Cut length mm,Steel\nA,4,12,1000,theirs\nB,4,16,1000,theirs\nC,4,{last},1000,theirs\n"


def by_log(folder: Path, rows: list[dict[str, object]]) -> list[Problem]:
    path = folder / "log.xlsx"
    with path.open("wb") as file:
        write_book(lambda book: write_own_sheet(book, WORK_LOG, rows), title="log")(file)
    return problems_of(CompareOrder(log=path))


def by_list(folder: Path, last_thickness_mm: int, shop: ShopBook) -> list[Problem]:
    path, book = folder / "list.csv", folder / "shop_book.xlsx"
    path.write_text(LINES.format(last=last_thickness_mm), encoding="utf-8")
    with book.open("wb") as file:
        shop_book_workbook(shop, title="Shop book")(file)
    return problems_of(CompareOrder(cut_list=path, shop=book))


def paid_from_next_year() -> ShopBook:
    later = tuple(rate.model_copy(update={"from_date": dt.date(2027, 1, 1)}) for rate in example_shop().labour)
    return example_shop().model_copy(update={"labour": later})


def problems_of(order: CompareOrder) -> list[Problem]:
    try:
        return list(compare([SAMPLE], order).problems)
    except WorkbookProblemsError as error:
        return error.problems


FILES = {
    "E529": lambda folder: by_log(folder, []),
    "W530": lambda folder: by_log(folder, [THIN, THIN | {"cut_length_m": 6.0}]),
    "E531": lambda folder: by_list(folder, 300, example_shop()),
    "W532": lambda folder: by_list(folder, 20, paid_from_next_year()),
}


def found(code: str) -> list[Problem]:
    if code in CASES:
        return compare_books([CASES[code]])[1]
    with tempfile.TemporaryDirectory() as folder:
        return FILES[code](Path(folder))


def text_of(code: str) -> str:
    return next(problem.text() for problem in found(code) if problem.code == code)


def test_every_text_stands_as_it_was_read_and_agreed():
    assert "\n\n".join(text_of(code) for code in (*CASES, *FILES)) + "\n" == TEXTS.read_text(encoding="utf-8")


def test_every_price_list_code_has_its_workbook():
    assert {code for code in all_codes() if code[1] == "5"} == {*CASES, *FILES}


@pytest.mark.parametrize("code", CASES)
def test_an_error_stops_the_comparison_and_a_warning_does_not(code):
    comparison, problems = compare_books([CASES[code]])
    errors = {p.code for p in problems if p.level is Level.ERROR}
    if code.startswith("E"):
        assert code in errors
    else:
        assert errors == set()
        assert comparison is not None


@pytest.mark.parametrize("code", CASES)
def test_one_fault_is_said_once_and_brings_no_other_error(code):
    _, problems = compare_books([CASES[code]])
    assert [p.code for p in problems].count(code) == 1
    assert {p.code for p in problems if p.level is Level.ERROR} - {code} == set()


def test_two_bad_cells_are_told_at_once_in_one_run():
    book = price_list_book(
        offers=[OFFER | {"content_unit": None}, OFFER | {"cylinder": "L20", "content_state": None}],
        fees=[FEE | {"amount": None}],
    )
    _, problems = compare_books([book])
    assert {"E501", "E503", "E521"} <= {p.code for p in problems}
