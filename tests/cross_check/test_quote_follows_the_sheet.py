"""The quote follows what the owner typed in the estimate, to the minor unit, as a second spreadsheet program has it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import openpyxl
import pytest

from estimator.check.shop_book import WorkRate
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.problems import WorkbookProblemsError
from estimator.tasks_quote import ReopenedEstimate, reopen_estimate
from tests.cross_check.recalculate import resaved, resaved_all
from tests.samples.estimates import heading_cell, named_cell, own_shop, rate_cell, typed_in, written
from tests.samples.jobs import DATE, NAN, a_bit_of_everything, estimated, plates


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written(estimated(a_bit_of_everything(), own_shop()), tmp_path_factory.mktemp("job") / "estimate.xlsx")


def same_money(one: Estimate, other: Estimate) -> bool:
    return (
        one.totals == other.totals
        and np.array_equal(one.lines.price, other.lines.price)
        and np.array_equal(one.lines.price_each, other.lines.price_each)
    )


def total_shown(book: Path) -> float:
    sheet, cell = named_cell(book, "job_total")
    return float(openpyxl.load_workbook(book, data_only=True)[sheet][cell].value)


JOBS = {
    "everything": lambda: estimated(a_bit_of_everything(), own_shop()),
    "plates": lambda: estimated(plates(40), own_shop()),
    "inches, margin, spread rows": lambda: estimated(
        plates(9), own_shop(units="in", markup=None, margin=0.3, spread_job_rows=True, decimals=0)
    ),
    "call-out": lambda: estimated(plates(1), own_shop(), labour_rate="call-out"),
    "own figures": lambda: estimate_job(
        plates(3),
        own_shop(),
        JobOrder(date=DATE, discount=0.07, rush=0.2),
        my_minutes=np.array([NAN, 77.0, NAN]),
        my_price_each=np.array([NAN, NAN, 41.5]),
    ),
}


@pytest.mark.parametrize("job", JOBS)
def test_an_estimate_that_nobody_touched_is_priced_as_it_was(tmp_path: Path, job: str) -> None:
    estimate = JOBS[job]()
    reopened = reopen_estimate(written(estimate, tmp_path / "estimate.xlsx"))
    assert same_money(reopened.estimate, estimate)
    assert reopened.problems == []


def typed(book: Path, copy: Path, *, rates: dict[str, float], lines: dict[tuple[str, int], object]) -> Path:
    cells = {rate_cell(book, what): value for what, value in rates.items()}
    cells |= {heading_cell(book, heading, line): value for (heading, line), value in lines.items()}
    return typed_in(book, copy, cells)


def test_a_price_a_margin_and_minutes_typed_by_a_program_that_does_not_calculate_are_followed(
    tmp_path: Path, book: Path
) -> None:
    copy = typed(
        book,
        tmp_path / "typed.xlsx",
        rates={"Margin": 0.31},
        lines={
            ("My price each", 3): 41.995,
            ("My minutes", 1): 77,
            ("Quantity", 2): 9,
            ("Why", 3): "as last time",
        },
    )
    reopened = reopen_estimate(copy)
    cuts = a_bit_of_everything()
    quantity = cuts.quantity.copy()
    quantity[2] = 9
    minutes, prices = np.full(len(cuts), NAN), np.full(len(cuts), NAN)
    minutes[1], prices[3] = 77.0, 41.995
    again = estimate_job(
        replace(cuts, quantity=quantity),
        own_shop(markup=None, margin=0.31),
        JobOrder(date=DATE),
        my_minutes=minutes,
        my_price_each=prices,
    )
    assert same_money(reopened.estimate, again)
    assert not same_money(reopened.estimate, reopened.before)
    assert [p.code for p in reopened.problems] == ["N908"]


def in_every_cell(book: Path, folder: Path) -> dict[str, Path]:
    """Type over every typed figure, group by group: all others of its sheet too, so that nothing hides behind a sum."""
    base = openpyxl.load_workbook(book)
    rates = [row for row in base["Rates"].iter_rows(min_row=5) if isinstance(row[3].value, int | float)]
    groups: dict[str, dict[tuple[str, str], Any]] = {}
    for number, row in enumerate(rates):
        what, value = row[0].value, row[1].value
        if str(what).startswith("Purity that") or str(what).startswith("Purity under"):
            new: float = value * 0.99
        elif what in ("Decimals of money", "Labour rate of the job's own rows", "Purity of the oxygen"):
            new = {"D": 3, "L": 2, "P": 98.7}[what[0]]
        elif str(what).startswith("Break") and str(what).endswith("from"):
            new = value + 5
        else:
            new = value * 1.13 if value else 0.06
        groups.setdefault(f"rates {number % 4}", {})["Rates", row[1].coordinate] = new
    settings = base["Tip settings"]
    head = next(row for row in settings.iter_rows() if row[0].value == "Tip")
    live = {"Speed", "Cutting oxygen, lever down", "Fuel", "Preheat oxygen", "Start time", "Tip", "Torch"}
    typed_columns = [c.column for c in head if c.value not in {*live, "Thickness along the cut", "Price of a tip"}]
    below = settings.iter_rows(min_row=head[0].row + 3)
    for row in below:
        if row[0].value in (None, "Cautions"):
            break
        for column in typed_columns:
            cell = row[column - 1]
            if isinstance(cell.value, int | float):
                groups.setdefault("settings", {})["Tip settings", cell.coordinate] = cell.value * 1.07 or 0.2
    lines = groups.setdefault("lines", {})
    for line in range(len(a_bit_of_everything())):
        if line % 3 == 0:
            lines[heading_cell(book, "My minutes", line)] = 31.5 + line
        if line % 3 == 1:
            lines[heading_cell(book, "My price each", line)] = 17.345 + line
        lines[heading_cell(book, "Quantity", line)] = 3 + line
    return {name: typed_in(book, folder / f"{name}.xlsx", cells) for name, cells in groups.items()}


@pytest.mark.recalculate
def test_whatever_typed_cell_is_changed_the_quote_is_what_another_program_shows(tmp_path: Path, book: Path) -> None:
    """Reopening holds every line's minutes and price and the total against what the program stored, cell by cell."""
    books = in_every_cell(book, tmp_path)
    before = reopen_estimate(book).estimate.totals.total
    for name, saved in zip(books, resaved_all(list(books.values()), tmp_path / "saved"), strict=True):
        reopened = reopen_estimate(saved)
        assert reopened.problems == [], name
        shown = total_shown(saved)
        minor = 10.0**reopened.estimate.shop.shop.decimals
        assert reopened.estimate.totals.total == round(shown * minor), name
        assert reopened.estimate.totals.total != before, name


@pytest.mark.recalculate
def test_a_worked_cell_that_was_typed_over_stops_the_quote_and_is_named(tmp_path: Path, book: Path) -> None:
    sheet, cell = heading_cell(book, "Price each", 4)
    copy = typed_in(book, tmp_path / "typed.xlsx", {(sheet, cell): 99.0})
    with pytest.raises(WorkbookProblemsError) as caught:
        reopen_estimate(resaved(copy, tmp_path / "saved.xlsx"))
    assert {p.code for p in caught.value.problems} == {"E907"}
    assert cell in {p.place.cell for p in caught.value.problems}
    assert any(p.found == "99" for p in caught.value.problems)


def with_work_rate(name: str, value: float) -> Estimate:
    shop = own_shop()
    return estimated(
        a_bit_of_everything(),
        shop.model_copy(update={"work_rates": (*shop.work_rates, WorkRate(name=name, likely=value))}),
    )


def reopened_with(book: Path, folder: Path, what: str, value: float) -> ReopenedEstimate:
    return reopen_estimate(typed_in(book, folder / "typed.xlsx", {rate_cell(book, what): value}))


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("rest_allowance", 0.2),
        ("straightedge_min", 1.1),
        ("setup_job_min", 55.0),
        ("oxygen_purity_percent", 98.5),
    ],
)
def test_a_work_rate_typed_in_the_estimate_is_as_if_it_stood_in_the_shop_book(
    tmp_path: Path, book: Path, name: str, value: float
) -> None:
    from estimator.check.torch_kit import built_in_work_rates

    heading = str(built_in_work_rates()[name]["heading"])
    assert same_money(reopened_with(book, tmp_path, heading, value).estimate, with_work_rate(name, value))
