"""Typed cells that stand in rows of a table: changed in the workbook, a second program gives what the engine gives."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import openpyxl
import pytest

from estimator import reference
from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.shop_book import FactorRow, ShopBook
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.units import HOUSE_STATE
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.save import save
from tests.cross_check.recalculate import Values, recalculated_all, with_cells
from tests.samples.jobs import DATE, NAN, estimated, plates

pytestmark = pytest.mark.recalculate


def job() -> CutList:
    """Plates of one thickness by hand, so that one setting serves them all."""
    cuts = plates(5)
    return replace(cuts, thickness_mm=np.full(5, 12.0), method=np.full(5, 1, dtype=np.int8))


@dataclass(frozen=True)
class Change:
    """What is typed, by name of the block of cells and row in it, and the engine's run with the same figure."""

    name: str
    row: int
    value: float | None
    engine: Callable[[], Estimate]


def with_tips(**values: float) -> Callable[[], Estimate]:
    def run() -> Estimate:
        book = example_shop()
        tips = tuple(tip.model_copy(update=values) for tip in book.tips)
        return estimated(job(), book.model_copy(update={"tips": tips}))

    return run


def with_shop(**values: object) -> Callable[[], Estimate]:
    return lambda: estimated(job(), example_shop().model_copy(update=values))


def with_factor(what: str, value: float) -> Callable[[], Estimate]:
    return with_shop(factors=(FactorRow(what=what, value=value, jobs=5),))


def labour(per_hour: float) -> ShopBook:
    book = example_shop()
    return book.model_copy(
        update={"labour": (book.labour[0].model_copy(update={"per_hour": per_hour}), *book.labour[1:])}
    )


def steel(**values: float) -> Callable[[], Estimate]:
    rows = tuple(row.model_copy(update=values) for row in example_shop().steel)
    return with_shop(steel=rows)


def with_own(minutes: float = NAN, price: float = NAN) -> Callable[[], Estimate]:
    def run() -> Estimate:
        mine, each = np.full(5, NAN), np.full(5, NAN)
        mine[1], each[1] = minutes, price
        return estimate_job(job(), example_shop(), JobOrder(date=DATE), my_minutes=mine, my_price_each=each)

    return run


SETTING = 1
"""Row of the only setting; row 0 stands for no torch."""
CHANGES = (
    Change("tip_oxygen_pressure_bar", SETTING, 2.5, with_tips(pressure_from_bar=2.5, pressure_to_bar=2.5)),
    Change("tip_bore_mm", SETTING, 1.4, with_tips(bore_mm=1.4)),
    Change("tip_given_flow", SETTING, 3.3, with_tips(given_flow_m3_h=3.3)),
    Change("tip_price", SETTING, 220.0, with_tips(price=220.0)),
    Change("tip_own_speed", SETTING, 0.8, with_factor("travel speed", 0.8)),
    Change("tip_own_oxygen", SETTING, 1.2, with_factor("cutting oxygen", 1.2)),
    Change("tip_own_fuel", SETTING, 1.3, with_factor("fuel", 1.3)),
    Change("tip_own_preheat", SETTING, 1.4, with_factor("preheat oxygen", 1.4)),
    Change("tip_own_start", SETTING, 1.9, with_factor("start time", 1.9)),
    Change("labour_per_hour", 0, 47.3, lambda: estimated(job(), labour(47.3))),
    Change("steel_price_per_kg", 1, 1.93, steel(price_per_kg=1.93)),
    Change("steel_scrap_per_kg", 1, 0.41, steel(scrap_per_kg=0.41)),
    Change("steel_left_over_share", 1, 0.31, steel(left_over_share=0.31)),
    Change("line_my_minutes", 1, 321.0, with_own(minutes=321.0)),
    Change("line_my_price_each", 1, 88.885, with_own(price=88.885)),
)


def place(book: Path, name: str, row: int) -> tuple[str, str]:
    """Return sheet and address of a row of a named block, by its name or, for a column of lines, by its heading."""
    loaded = openpyxl.load_workbook(book)
    if name in loaded.defined_names:
        sheet, cells = loaded.defined_names[name].attr_text.split("!")
        letters, first = re.match(r"([A-Z]+)(\d+)", cells.replace("$", "")).groups()  # type: ignore[union-attr]
        return sheet.strip("'"), f"{letters}{int(first) + row}"
    heading = {"line_my_minutes": "My minutes", "line_my_price_each": "My price each"}[name]
    column = next(cell.column_letter for cell in loaded["Lines"][4] if cell.value == heading)
    return "Lines", f"{column}{6 + row}"


def test_a_cell_of_each_table_changed_gives_what_the_engine_gives(tmp_path: Path) -> None:
    book = tmp_path / "estimate.xlsx"
    base = estimated(job())
    save(book, estimate_workbook(base))
    copies = [
        with_cells(book, tmp_path / f"{i}.xlsx", {place(book, c.name, c.row): c.value}) for i, c in enumerate(CHANGES)
    ]
    for change, values in zip(CHANGES, recalculated_all(copies), strict=True):
        again = change.engine()
        assert again.totals.total != base.totals.total, f"{change.name} moves nothing, so it proves nothing"
        for name in ("job_total", "cost_total", "net_price"):
            amount = {
                "job_total": again.totals.total,
                "cost_total": again.totals.cost,
                "net_price": again.totals.taxable,
            }[name]
            assert values[place(book, name, 0)] == pytest.approx(amount / 100.0, abs=1e-9, rel=0), (change.name, name)


def test_how_a_line_was_worked_out_follows_the_row_that_is_picked(tmp_path: Path) -> None:
    book = tmp_path / "estimate.xlsx"
    estimate = estimated(plates(4))
    save(book, estimate_workbook(estimate))
    third = with_cells(book, tmp_path / "third.xlsx", {("How worked out", "B3"): int(estimate.cuts.row[2])})
    values = recalculated_all([third])[0]
    x, line = estimate.job.lines, 2
    for answer, expected in (
        ("= Metres cut", x.cut_m[line]),
        ("= Cutting", x.cut_time_min[line]),
        ("= Starts", x.start_time_min[line]),
        ("= Flame lit", x.flame_time_min[line]),
        ("= Man-minutes", x.paid_time_min[line]),
        ("= Cutting oxygen", x.cutting_oxygen_m3[line]),
        ("= Fuel", x.fuel_m3[line] * reference.gas_density_kg_m3("acetylene", HOUSE_STATE)),  # sold by the kilogram
        ("= Price each", estimate.lines.price_each[line] / 100.0),
        ("= Price of the line", estimate.lines.price[line] / 100.0),
    ):
        assert shown(values, answer) == pytest.approx(expected, rel=1e-9), answer


def shown(values: Values, answer: str) -> object:
    cell = next(cell for (sheet, cell), value in values.items() if sheet == "How worked out" and value == answer)
    return values["How worked out", cell.replace("A", "B")]
