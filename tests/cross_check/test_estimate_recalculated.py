"""A second spreadsheet program gives the engine's figures, as written and after the owner changes a cell."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import openpyxl
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.shop_book import AddOn, QuantityBreak, ShopBook, WorkRate
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import Estimate
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.save import save
from tests.cross_check.recalculate import Values, recalculated, recalculated_all, stored, with_cells
from tests.samples.jobs import NAN, a_bit_of_everything, changed_shop, estimated, plates

pytestmark = pytest.mark.recalculate

MONEY = 1e-9
"""Money is equal: a sum of amounts in binary may differ in its thirteenth digit and in no digit that is printed."""
REST = 1e-9
"""Minutes and gas may differ by the order of a sum, in relation to their size."""


def written(estimate: Estimate, folder: Path) -> Path:
    path = folder / "estimate.xlsx"
    save(path, estimate_workbook(estimate), force=True)
    return path


def assert_equal_values(book: Path, values: Values) -> int:
    """Compare every stored value with the recalculated one; return how many formulas were compared."""
    before = stored(book)
    assert before.keys() == values.keys()
    formulas = {
        (sheet.title, cell.coordinate): cell.number_format
        for sheet in openpyxl.load_workbook(book)
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    }
    for place, format_code in formulas.items():
        was, now = before.get(place), values.get(place)
        if was is None or isinstance(was, str):
            assert now == was, place
        elif format_code == "#,##0.00":
            assert abs(now - was) <= MONEY, (place, was, now)
        else:
            assert now == pytest.approx(was, rel=REST, abs=1e-12), place
    return len(formulas)


JOBS: dict[str, Callable[[], Estimate]] = {
    "everything": lambda: estimated(a_bit_of_everything()),
    "plates": lambda: estimated(plates(40)),
    "one line": lambda: estimated(plates(1)),
    "propane": lambda: estimated(plates(6), with_propane_tips()),
    "margin, spread rows, no step": lambda: estimated(
        plates(9), changed_shop(markup=None, margin=0.3, spread_job_rows=True, price_step=0.0, decimals=0)
    ),
    "three decimals, minimum": lambda: estimated(
        plates(2), changed_shop(decimals=3, minimum_job=9999.0, discount=0.125, delivery=25.5, price_step=0.25)
    ),
    "no breaks, no minimum": lambda: estimated(
        plates(5), changed_shop(minimum_line=0.0).model_copy(update={"breaks": ()})
    ),
    "mine": lambda: with_own_figures(plates(6)),
    "call-out": lambda: estimated(plates(1), labour_rate="call-out"),
    "sawing only": lambda: estimated(sawing()),
    "tip with a flow of its own": lambda: estimated(plates(6), with_given_flow()),
    "work on pieces": lambda: estimated(with_work_on_pieces()),
    "inches": lambda: estimated(plates(4), changed_shop(units="in")),
}


def with_propane_tips() -> ShopBook:
    book = example_shop()
    tips = tuple(tip.model_copy(update={"fuel": "propane"}) for tip in book.tips if tip.fuel == "acetylene")
    return book.model_copy(update={"tips": tips, "shop": book.shop.model_copy(update={"fuel": "propane"})})


def without_breaks() -> ShopBook:
    return changed_shop(minimum_line=0.0).model_copy(update={"breaks": ()})


def with_given_flow() -> ShopBook:
    book = example_shop()
    tips = tuple(tip.model_copy(update={"given_flow_m3_h": 4.2}) for tip in book.tips)
    return book.model_copy(update={"tips": tips})


def with_own_figures(cuts: CutList) -> Estimate:
    from estimator.pricing.job import JobOrder, estimate_job
    from tests.samples.jobs import DATE

    minutes, prices = np.full(len(cuts), NAN), np.full(len(cuts), NAN)
    minutes[1], prices[2] = 77.0, 41.995
    return estimate_job(cuts, example_shop(), JobOrder(date=DATE), my_minutes=minutes, my_price_each=prices)


def sawing() -> CutList:
    from estimator.words import Work

    return CutList(
        mark=["S1"],
        quantity=np.array([5.0]),
        thickness_mm=np.array([6.0]),
        sheet=["List"],
        row=np.array([2], dtype=np.int64),
        work=np.array([Work.OTHER], dtype=np.int8),
        other_work=["saw"],
        minutes_each=np.array([6.0]),
    )


def with_work_on_pieces() -> CutList:
    """Return plates with minutes typed beside two of them, and a row of work on the pieces of the first."""
    from estimator.words import Work

    cuts = plates(4).take([0, 1, 2, 3, 0])
    cuts.minutes_each = np.array([8.0, NAN, 2.5, NAN, NAN])
    cuts.row[-1], cuts.work[-1], cuts.other_work[-1] = 6, Work.OTHER, "straighten"
    return cuts


@pytest.fixture(scope="module")
def recalculated_jobs(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[Path, Values]]:
    books = {name: written(job(), tmp_path_factory.mktemp("job")) for name, job in JOBS.items()}
    values = recalculated_all(list(books.values()))
    return {name: (book, of_book) for (name, book), of_book in zip(books.items(), values, strict=True)}


@pytest.mark.parametrize("job", JOBS)
def test_another_program_gives_the_engines_figures(recalculated_jobs: dict[str, tuple[Path, Values]], job: str) -> None:
    book, values = recalculated_jobs[job]
    assert assert_equal_values(book, values) > 100
    assert {v for (sheet, cell), v in values.items() if sheet == "Checks" and cell.startswith("D")} == {"Result", "ok"}
    assert not [place for place, value in values.items() if isinstance(value, str) and value.startswith("#")]


def rate(name: str, value: float) -> Callable[[ShopBook], ShopBook]:
    """Change one work rate."""
    return lambda book: book.model_copy(update={"work_rates": (*book.work_rates, WorkRate(name=name, likely=value))})


def form(**values: Any) -> Callable[[ShopBook], ShopBook]:
    return lambda book: book.model_copy(update={"shop": book.shop.model_copy(update=values)})


def gas(which: str, **values: Any) -> Callable[[ShopBook], ShopBook]:
    def change(book: ShopBook) -> ShopBook:
        rows = tuple(row.model_copy(update=values) if row.gas == which else row for row in book.gas_prices)
        return book.model_copy(update={"gas_prices": rows})

    return change


CHANGES: dict[str, tuple[float, Callable[[ShopBook], ShopBook]]] = {
    "markup": (0.4, form(markup=0.4)),
    "overhead_per_hour": (21.5, form(overhead_per_hour=21.5)),
    "overhead_share": (0.07, form(overhead_share=0.07)),
    "minimum_line": (150.0, form(minimum_line=150.0)),
    "minimum_job": (9000.0, form(minimum_job=9000.0)),
    "price_step": (0.5, form(price_step=0.5)),
    "discount": (0.05, form(discount=0.05)),
    "delivery": (45.0, form(delivery=45.0)),
    "tax": (0.21, form(tax=0.21)),
    "planned_flame_hours": (33.0, form(planned_flame_hours=33.0)),
    "oxygen_price": (55.5, gas("oxygen", price=55.5)),
    "oxygen_fees": (9.0, gas("oxygen", cylinder_fees=9.0)),
    "oxygen_heel_share": (0.1, gas("oxygen", heel_share=0.1)),
    "fuel_price": (199.0, gas("acetylene", price=199.0)),
    "fuel_rent": (30.0, gas("acetylene", rent_per_month=30.0)),
    "rest_allowance": (0.2, rate("rest_allowance", 0.2)),
    "straightedge_min": (1.1, rate("straightedge_min", 1.1)),
    "move_min": (0.6, rate("move_min", 0.6)),
    "short_straight_speed": (0.7, rate("short_straight_speed", 0.7)),
    "circle_speed": (0.6, rate("circle_speed", 0.6)),
    "painted_speed": (0.5, rate("painted_speed", 0.5)),
    "rusty_start": (1.7, rate("rusty_start", 1.7)),
    "bevel_speed": (0.8, rate("bevel_speed", 0.8)),
    "pierce_time_hand": (1.2, rate("pierce_time_hand", 1.2)),
    "edge_start_share": (0.8, rate("edge_start_share", 0.8)),
    "blow_through_share": (0.5, rate("blow_through_share", 0.5)),
    "oxygen_purity_percent": (98.5, rate("oxygen_purity_percent", 98.5)),
    "preheat_acetylene": (1.2, rate("preheat_acetylene", 1.2)),
    "gas_lost_oxygen": (0.3, rate("gas_lost_oxygen", 0.3)),
    "gas_lost_fuel": (0.05, rate("gas_lost_fuel", 0.05)),
    "lighting_every_h": (0.7, rate("lighting_every_h", 0.7)),
    "cylinder_change_min": (15.0, rate("cylinder_change_min", 15.0)),
    "handling_limit_kg": (10.0, rate("handling_limit_kg", 10.0)),
    "bright_min_per_m": (9.0, rate("bright_min_per_m", 9.0)),
    "stop_mark_min": (4.0, rate("stop_mark_min", 4.0)),
    "heat_mj_per_kg": (0.7, rate("heat_mj_per_kg", 0.7)),
    "drill_min_per_cm3": (0.4, rate("drill_min_per_cm3", 0.4)),
    "thick_pierce_mm": (5.0, rate("thick_pierce_mm", 5.0)),
    "tip_life_h": (25.0, rate("tip_life_h", 25.0)),
    "steel_density_kg_m3": (7800.0, rate("steel_density_kg_m3", 7800.0)),
    "setup_job_min": (55.0, rate("setup_job_min", 55.0)),
    "fire_watch_min": (30.0, rate("fire_watch_min", 30.0)),
}


@cache
def names_of(book: Path) -> dict[str, tuple[str, str]]:
    names = openpyxl.load_workbook(book).defined_names
    split = {name: defined.attr_text.split("!") for name, defined in names.items()}
    return {name: (sheet.strip("'"), cells.replace("$", "")) for name, (sheet, cells) in split.items()}


def cell_of(book: Path, name: str) -> tuple[str, str]:
    return names_of(book)[name]


@pytest.fixture(scope="module")
def everything(tmp_path_factory: pytest.TempPathFactory) -> Path:
    estimate = estimated(a_bit_of_everything())
    ranges = estimate_ranges(estimate)
    path = tmp_path_factory.mktemp("everything") / "estimate.xlsx"
    save(path, estimate_workbook(estimate, price_range=ranges.price, hours_range=ranges.paid_time_min))
    return path


def assert_same_job(values: Values, again: Estimate, book: Path) -> None:
    """The changed and recalculated workbook holds what the engine gives for the same change."""
    minor = 10.0**again.shop.shop.decimals
    for name, amount in (
        ("job_total", again.totals.total),
        ("net_price", again.totals.taxable),
        ("cost_total", again.totals.cost),
        ("lines_total", again.totals.lines),
        ("rows_total", again.totals.job_rows),
    ):
        assert values[cell_of(book, name)] == pytest.approx(amount / minor, abs=MONEY, rel=0), name
    sheet, cells = cell_of(book, "line_price")
    (column, first) = re.match(r"([A-Z]+)(\d+)", cells).groups()
    prices = [values[sheet, f"{column}{int(first) + line}"] for line in range(len(again.cuts))]
    assert prices == pytest.approx((again.lines.price / minor).tolist(), abs=MONEY, rel=0)


def in_batches(names: list[str], size: int) -> list[list[str]]:
    return [names[start : start + size] for start in range(0, len(names), size)]


def test_changed_rates_give_what_the_engine_gives_with_the_same_changes(tmp_path: Path, everything: Path) -> None:
    base = estimated(a_bit_of_everything()).totals.total
    books, shops = [], []
    cells_of = {name: cell_of(everything, name) for name in CHANGES}
    batches = in_batches(sorted(CHANGES), 7)
    for names in batches:
        shop = example_shop()
        cells = {cells_of[name]: CHANGES[name][0] for name in names}
        for name in names:
            change = CHANGES[name][1]
            alone = estimated(a_bit_of_everything(), change(example_shop())).totals.total
            assert alone != base, f"{name} moves nothing in this job, so it proves nothing"
            shop = change(shop)
        books.append(with_cells(everything, tmp_path / f"{names[0]}.xlsx", cells))
        shops.append(shop)
    for values, shop, names in zip(recalculated_all(books), shops, batches, strict=True):
        assert_same_job(values, estimated(a_bit_of_everything(), shop), everything)
        assert str(values[cell_of(everything, "range_state")]).startswith("STALE")
        assert values[cell_of(everything, "changed_rates")] == len(names)


def test_a_range_is_fresh_until_a_figure_is_changed(everything: Path) -> None:
    values = recalculated(everything)
    assert values[cell_of(everything, "range_state")] == "goes with the price above"
    assert_equal_values(everything, values)


def test_a_changed_quantity_gives_what_the_engine_gives(tmp_path: Path, everything: Path) -> None:
    cuts = a_bit_of_everything()
    sheet, cells = cell_of(everything, "line_quantity")
    first = cells.split(":")[0]
    changed = with_cells(everything, tmp_path / "quantity.xlsx", {(sheet, first): 19})
    again = estimated(replace(cuts, quantity=np.concatenate([[19.0], cuts.quantity[1:]])))
    assert_same_job(recalculated(changed), again, everything)


@pytest.mark.long
@pytest.mark.parametrize("first", range(0, 200, 20))
def test_random_jobs_are_recalculated_to_the_engines_figures(tmp_path: Path, first: int) -> None:
    books = []
    for seed in range(first, first + 20):
        folder = tmp_path / str(seed)
        folder.mkdir()
        books.append(written(random_job(seed), folder))
    for book, values in zip(books, recalculated_all(books), strict=True):
        assert assert_equal_values(book, values) > 100


def random_job(seed: int) -> Estimate:
    rng = np.random.default_rng(seed)
    shop = changed_shop(
        markup=float(rng.choice([0.1, 0.25, 0.333])),
        price_step=float(rng.choice([0.0, 0.05, 0.5, 1.0])),
        discount=float(rng.choice([0.0, 0.025, 0.1])),
        decimals=int(rng.choice([0, 2, 3])),
        spread_job_rows=bool(rng.random() < 0.3),
    )
    if seed % 2:
        return estimated(plates(int(rng.integers(1, 60)), seed), shop)
    rates = {
        "rest_allowance": rng.uniform(0.0, 0.3),
        "gas_lost_oxygen": rng.uniform(0.0, 0.4),
        "lighting_every_h": rng.uniform(0.4, 3.0),
        "cylinder_change_min": rng.uniform(2.0, 15.0),
    }
    shop = shop.model_copy(
        update={"work_rates": tuple(WorkRate(name=name, likely=round(float(v), 4)) for name, v in rates.items())}
    )
    return random_mix(rng, shop)


def random_mix(rng: np.random.Generator, shop: ShopBook) -> Estimate:
    """Lines of every kind in any number and order, larger or smaller, some with the owner's own minutes or price."""
    from estimator.pricing.job import JobOrder, estimate_job
    from tests.samples.jobs import DATE

    count = int(rng.integers(1, 40))
    cuts = a_bit_of_everything()
    cuts = cuts.take(rng.integers(0, len(cuts), count))
    larger = rng.uniform(0.6, 2.5, count)
    cuts = replace(
        cuts,
        row=np.arange(2, count + 2, dtype=np.int64),
        quantity=rng.integers(1, 80, count).astype(np.float64),
        size_a_mm=np.round(cuts.size_a_mm * larger, 1),
        size_b_mm=np.round(cuts.size_b_mm * larger, 1),
        cut_length_mm=np.round(cuts.cut_length_mm * larger, 1),
    )
    mine = [np.where(rng.random(count) < 0.15, np.round(rng.uniform(1, 300, count), 2), NAN) for _ in range(2)]
    return estimate_job(cuts, shop, JobOrder(date=DATE), my_minutes=mine[0], my_price_each=mine[1])


def test_the_checks_of_this_file_would_find_a_wrong_formula(tmp_path: Path) -> None:
    book = written(estimated(plates(2)), tmp_path)
    wrong = openpyxl.load_workbook(book)
    sheet, cell = cell_of(book, "job_total")
    wrong[sheet][cell].value = "=net_price"
    wrong.save(tmp_path / "wrong.xlsx")
    values = recalculated(tmp_path / "wrong.xlsx")
    with pytest.raises(AssertionError):
        assert_equal_values(book, values)


def test_the_shop_may_add_breaks_and_add_ons(tmp_path: Path) -> None:
    shop = example_shop().model_copy(
        update={
            "breaks": (QuantityBreak(from_quantity=5, off_share=0.04), QuantityBreak(from_quantity=60, off_share=0.09)),
            "add_ons": (
                AddOn(name="a", cost_class="labour", share=0.03),
                AddOn(name="b", cost_class="steel", share=0.1),
            ),
        }
    )
    estimate = estimated(plates(12), shop)
    assert estimate.totals.quantity_break > 0
    book = written(estimate, tmp_path)
    assert_equal_values(book, recalculated(book))
