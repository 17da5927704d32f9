"""Whatever figures an owner changes in an estimate, and by how much: inches and millimetres of it give one price."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from estimator.tasks_quote import reopen_estimate
from tests.cross_check.test_inch_estimate import FACTORS, JOBS, typed_rates, typed_settings
from tests.samples.estimates import typed_in, written

Cell = tuple[str, str, float, str]
"""Sheet, address, value and unit of a typed cell."""


@pytest.fixture(scope="module")
def twins(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("twins")
    return {units: written(JOBS["plates"](units), folder / f"{units}.xlsx") for units in ("mm", "in")}


@pytest.fixture(scope="module")
def cells(twins: dict[str, Path]) -> list[tuple[Cell, Cell]]:
    """The typed cells whose unit differs between the two books, side by side."""
    books = [openpyxl.load_workbook(twins[units]) for units in ("mm", "in")]
    rates = zip(*(typed_rates(book["Rates"]) for book in books), strict=True)
    settings_of = zip(*(list(typed_settings(book["Tip settings"])) for book in books), strict=True)
    pairs = []
    for sheet, found in (("Rates", rates), ("Tip settings", settings_of)):
        for (one, _, unit), (other, _, inch_unit) in found:
            if unit != inch_unit and one.value:
                values = float(one.value), float(other.value)
                pairs.append(
                    ((sheet, one.coordinate, values[0], unit), (sheet, other.coordinate, values[1], inch_unit))
                )
    assert len(pairs) > 30
    return pairs


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_figures_typed_in_the_shops_unit_price_as_the_equal_metric_ones(
    tmp_path: Path, twins: dict[str, Path], cells: list[tuple[Cell, Cell]], data: st.DataObject
) -> None:
    chosen = data.draw(st.lists(st.sampled_from(cells), min_size=1, max_size=8, unique=True))
    books: dict[str, dict[tuple[str, str], object]] = {"mm": {}, "in": {}}
    for (sheet, cell, _, unit), (_, inch_cell, value, inch_unit) in chosen:
        typed = float(f"{value * data.draw(st.floats(0.5, 1.9)):.4g}")  # as people type: a few digits, in their unit
        books["in"][sheet, inch_cell] = typed
        books["mm"][sheet, cell] = typed * FACTORS[unit, inch_unit]
    priced = [
        reopen_estimate(typed_in(twins[units], tmp_path / f"{units}.xlsx", changes)).estimate
        for units, changes in books.items()
    ]
    assert priced[0].totals == priced[1].totals
    assert priced[0].lines.price.tolist() == priced[1].lines.price.tolist()
