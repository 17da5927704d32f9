"""The exact text of every problem of whole lines, of the shop book as a whole and of what was asked.

The texts stand in ``lines.txt`` beside this file, a code with the input that brings it out: read them aloud when one
changes. All shops and prices are invented.
"""

from __future__ import annotations

import datetime as dt
import tempfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from estimator import tasks
from estimator.check import shop_book as records
from estimator.check.cut_list import CutList, TitleBlock
from estimator.check.example_shop import example_shop
from estimator.check.shop_book import ShopBook
from estimator.check.shop_book_reading import read_shop_book, whole_book_problems
from estimator.commands.boundary import parse_date, parse_fuel, parse_word
from estimator.pricing.job import JobOrder
from estimator.problems import Problem, WorkbookProblemsError, all_codes
from estimator.problems.asked import UNKNOWN_STATE
from estimator.read.cells import Book, SheetCells
from estimator.read.load import load_book
from estimator.words import Method, Shape, Steel, Work
from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook

TEXTS = Path(__file__).parent / "lines.txt"
ON = JobOrder(date=dt.date(2026, 11, 2))
SHOP = example_shop()


def line(**changes: Any) -> CutList:
    plain: dict[str, Any] = {
        "quantity": 4.0, "thickness_mm": 12.0, "cut_length_mm": 1000.0, "pierces": 1.0, "steel": Steel.THEIRS,
    }  # fmt: skip
    given = plain | changes
    kinds = {"steel": np.int8, "shape": np.int8, "work": np.int8, "method": np.int8}
    columns = {
        k: [v] if isinstance(v, str) else np.array([v], dtype=kinds.get(k, np.float64))
        for k, v in given.items()
        if k != "title"
    }
    return CutList(
        mark=["A"], grade=["S275"], sheet=["Parts"], row=np.array([2]), file="list.csv",
        title=given.get("title", TitleBlock()), **columns,
    )  # fmt: skip


def shop(**changes: Any) -> ShopBook:
    return SHOP.model_copy(update={"file": "shop_book.xlsx"} | changes)


def shop_book_file(book: ShopBook) -> Book:
    """Return a shop book as it is read from its file."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shop_book.xlsx"
        save(path, shop_book_workbook(book, title="Invented shop"))
        return load_book(path)


def first_sheet(typed: dict[str, Any], in_form: dict[str, Any], gas: list[Any] | None = None) -> Book:
    """Return a shop book with a first sheet, a form and the sheet of gas prices."""
    sheets = {
        "Start here": [[name, value] for name, value in typed.items()],
        "Shop": [[name, value] for name, value in in_form.items()],
        "Gas prices": [["Gas", "Cylinder", "Content", "Unit", "At", "Price", "From"], *([gas] if gas else [])],
    }
    return Book(Path("shop_book.xlsx"), "0" * 64, "xlsx", [SheetCells(tab, rows) for tab, rows in sheets.items()])


OXYGEN = {
    "Oxygen: content of a full bottle": "10 m3 at 15 °C, 1 bar",
    "Oxygen: price of a full bottle": 48.0,
    "Oxygen: bottle rental a month": 8.0,
}
FUEL = {"Fuel gas": "propane", "Fuel: price of a full bottle": 75.0}
OXYGEN_STATELESS = SHOP.gas_prices[0].model_copy(update={"content_state": None})


def form(**changes: Any) -> records.ShopForm:
    return SHOP.shop.model_copy(update=changes)


def rate(name: str, likely: float) -> tuple[records.WorkRate, ...]:
    return (records.WorkRate(name=name, likely=likely, row=7),)


def tips(**changes: Any) -> tuple[records.TipRow, ...]:
    return tuple(t.model_copy(update=changes | {"row": i + 5}) for i, t in enumerate(SHOP.tips))


def acetylene_tips() -> tuple[records.TipRow, ...]:
    return tuple(t for t in tips() if t.fuel == "acetylene")


def priced(cuts: CutList, book: ShopBook = SHOP, order: JobOrder = ON) -> list[Problem]:
    try:
        return tasks.estimate_list(cuts, book, order).problems
    except WorkbookProblemsError as error:
        return error.problems


def asked(ask: Callable[[], object]) -> list[Problem]:
    with pytest.raises(WorkbookProblemsError) as caught:
        ask()
    return caught.value.problems


def later(rows: Any) -> Any:
    return (*rows, *(r.model_copy(update={"from_date": dt.date(2026, 6, 1)}) for r in rows))


RECTANGLE = {
    "shape": Shape.RECTANGLE,
    "size_a_mm": 300.0,
    "size_b_mm": 200.0,
    "cut_length_mm": np.nan,
    "pierces": np.nan,
}
CASES: dict[str, Callable[[], list[Problem]]] = {
    "E270": lambda: priced(line(thickness_mm=400.0)),
    "E271": lambda: priced(line(thickness_mm=320.0), shop(tips=tips(from_mm=3.0, to_mm=400.0)[:1])),
    "E272": lambda: priced(line(tip="9.9")),
    "E273": lambda: priced(line(cut_length_mm=np.nan)),
    "E274": lambda: priced(line(thickness_mm=np.nan)),
    "E275": lambda: priced(line(work=Work.HEAT, tip="H-60")),
    "E276": lambda: priced(line(labour_rate="sunday")),
    "E277": lambda: priced(line(work=Work.OTHER, other_work="sawing")),
    "E278": lambda: priced(line(steel=-1), shop(shop=form(steel_when_silent="ask"))),
    "W278": lambda: priced(line(steel=-1)),
    "E279": lambda: priced(line(**RECTANGLE | {"steel": Steel.OURS}), shop(steel=())),
    "W280": lambda: priced(line(steel=Steel.OURS)),
    "W281": lambda: priced(line(**RECTANGLE | {"cut_length_mm": 1200.0})),
    "W282": lambda: priced(line(), shop(tips=tips(given_flow_m3_h=9.0))),
    "W283": lambda: priced(line(), shop(tips=tips(given_flow_m3_h=9.0))),
    "W284": lambda: priced(line(), SHOP, JobOrder()),
    "E284": lambda: priced(line(), shop(labour=later(SHOP.labour)), JobOrder()),
    "E285": lambda: priced(line(), SHOP, JobOrder(date=dt.date(2020, 1, 1))),
    "N286": lambda: priced(line(**RECTANGLE | {"holes": 4.0, "hole_diameter_mm": 18.0})),
    "N287": lambda: priced(line(thickness_mm=60.0)),
    "E288": lambda: priced(line(), shop(work_rates=rate("oxygen_purity_percent", 94.0))),
    "E289": lambda: priced(line(**RECTANGLE | {"shape": Shape.RING, "size_b_mm": 300.0})),
    "E291": lambda: priced(line(thickness_mm=400.0), SHOP, replace(ON, partial=True)),
    "N294": lambda: priced(line(**RECTANGLE | {"quantity": 20.0, "method": Method.STRAIGHTEDGE})),
    "E296": lambda: priced(line(work=Work.BEND, flame_min_each=3.0), shop(flame_tips=())),
    "E301": lambda: whole_book_problems(shop(shop=form(margin=0.2))),
    "W302": lambda: whole_book_problems(shop(shop=form(markup=None))),
    "E303": lambda: whole_book_problems(shop(work_rates=rate("move_mins", 0.3))),
    "E304": lambda: whole_book_problems(shop(tips=tips(to_mm=1.0)[:1])),
    "E305": lambda: whole_book_problems(shop(tips=(*tips()[:1], *tips()[:1]))),
    "W306": lambda: read_shop_book(shop_book_file(shop(gas_prices=(OXYGEN_STATELESS,))))[1],
    "E307": lambda: whole_book_problems(
        shop(own_chart=(records.ChartRow(tip="7.7", mode="hand", thickness_mm=10, speed_mm_min=400, row=5),))
    ),
    "E308": lambda: whole_book_problems(shop(factors=(records.FactorRow(what="fuel", tip="7.7", value=1.1, row=5),))),
    "E309": lambda: read_shop_book(first_sheet({"Currency": "USD"}, {"Currency": "EUR"}))[1],
    "E310": lambda: read_shop_book(
        first_sheet(
            {"Oxygen: content of a full bottle": "281 ft3 at 70 F, 1 atm", "Oxygen: price of a full bottle": 48.0},
            {},
            gas=["oxygen", "K", 330.0, "ft3", "70 °F, 1 atm", 55.0, "1970-01-01"],
        )
    )[1],
    "W311": lambda: read_shop_book(first_sheet(FUEL | {"Fuel: content of a full bottle": "33 ft3"}, {}))[1],
    "W312": lambda: read_shop_book(first_sheet(FUEL | {"Fuel: content of a full bottle": "79 L"}, {}))[1],
    "W313": lambda: priced(line(), shop(shop=form(fuel="propane"), tips=acetylene_tips())),
    "E314": lambda: priced(
        line(),
        shop(
            shop=form(fuel="propane"),
            tips=acetylene_tips(),
            own_chart=(records.ChartRow(tip="1.2", mode="hand", thickness_mm=10, speed_mm_min=400, row=5),),
        ),
    ),
    "W315": lambda: whole_book_problems(
        shop(tips=tips(fuel="propane", status="built-in (seen): type your own manual's figures")[:1])
    ),
    "W316": lambda: read_shop_book(first_sheet(OXYGEN | {"Hours of burning a month": None}, {"Markup": 0.2}))[1],
    "E401": lambda: whole_book_problems(shop(tips=tips(fuel_pressure_bar=1.1031)[:1])),
    "E880": lambda: asked(lambda: parse_date("2.11")),
    "E881": lambda: asked(lambda: tasks.find_line(tasks.estimate_list(line(), SHOP, ON), "Z9")),
    "E882": lambda: asked(lambda: tasks.settings_for("thick", None, "")),
    "E883": lambda: asked(lambda: parse_fuel("propan")),
    "E884": lambda: asked(lambda: parse_word("wonn", ("won", "done", "lost", "open"), UNKNOWN_STATE)),
    "E885": lambda: priced(line(), order=replace(ON, labour_rate="overtme")),
}


def text_of(code: str) -> str:
    return next((p.text() for p in CASES[code]() if p.code == code), f"{code} did not come out")


def stated() -> dict[str, str]:
    blocks = TEXTS.read_text("utf-8").strip().split("\n\n")
    return {block.split(" ")[1].rstrip(":"): block for block in blocks}


@pytest.mark.parametrize("code", CASES)
def test_the_text_is_the_one_that_was_read_aloud(code: str) -> None:
    assert text_of(code) == stated()[code]


def test_every_code_of_lines_of_the_shop_book_and_of_what_is_asked_has_its_case() -> None:
    from estimator.problems import asked as of_asked
    from estimator.problems import code as form_of_a_code
    from estimator.problems import lines, shop_book

    ours = {
        c.code
        for module in (lines, shop_book, of_asked)
        for c in vars(module).values()
        if isinstance(c, form_of_a_code.ProblemCode)
    }
    assert ours <= set(all_codes())
    assert ours - set(CASES) == {"N292", "N293"}, (
        "the two are held by tests/unit/test_flame_speed.py and the breaks' own"
    )
    assert set(CASES) == set(stated())
