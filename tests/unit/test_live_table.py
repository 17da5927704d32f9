"""Columns name each other by house name; what is neutral on every line falls away."""

from __future__ import annotations

import io

import numpy as np
import openpyxl
import pytest

from estimator.write.book import OutputBook, write_book
from estimator.write.estimate.live_table import LiveColumn, LiveTables


def tables(bevel: float = 0.0, torches: float = 1.0) -> LiveTables:
    placed = LiveTables(first_row=3, lines=2)
    placed.place(
        "Lines", [LiveColumn("quantity", "Quantity", np.array([2.0, 3.0])), LiveColumn("mark", "Mark", ["A", "=B"])]
    )
    placed.place(
        "Work",
        [
            LiveColumn("cut_m", "Cut", np.array([1.0, 1.5]), neutral=0.0),
            LiveColumn("bevel_m", "Bevel", np.full(2, bevel), neutral=0.0),
            LiveColumn("torches", "Torches", np.full(2, torches), neutral=1.0),
            LiveColumn(
                "time",
                "Time",
                np.array([2.0, 4.5]) + bevel,
                terms=("[quantity]*[cut_m]/[torches]", "[bevel_m]*bevel_rate"),
            ),
            LiveColumn("bevel_time", "Bevel", np.full(2, bevel), terms=("[bevel_m]*bevel_rate",)),
        ],
    )
    return placed


def test_a_formula_names_cells_of_its_own_row_on_any_sheet() -> None:
    placed = tables(bevel=1.0, torches=2.0)
    assert placed.formula("time") == "='Lines'!A{r}*A{r}/C{r}+B{r}*bevel_rate"
    assert placed.formula("quantity") == ""


def test_readings_that_are_neutral_on_every_line_fall_away_with_their_terms() -> None:
    placed = tables()
    assert placed.formula("time") == "='Lines'!A{r}*A{r}/1"
    assert [c.name for c in placed.columns_on("Work")] == ["cut_m", "time"]
    assert not placed.has("bevel_time")
    assert placed.sum("bevel_time") == "0"
    assert placed.sum("time") == "SUM(line_time)"


def test_a_wrong_name_a_second_name_and_a_wrong_length_are_refused() -> None:
    placed = tables()
    with pytest.raises(KeyError, match="speed"):
        placed.has("speed")
    with pytest.raises(ValueError, match="twice"):
        placed.place("Work", [LiveColumn("time", "Time", np.zeros(2))])
    with pytest.raises(ValueError, match="not a number"):
        placed.place("Work", [LiveColumn("ratio", "Ratio", np.array([1.0, np.nan]), terms=("[time]",))])
    with pytest.raises(ValueError, match="3 values for 2 lines"):
        placed.place("Work", [LiveColumn("other", "Other", np.zeros(3))])


@pytest.mark.parametrize("live", [True, False])
def test_written_columns_carry_values_formulas_and_names(live: bool) -> None:
    placed = tables(bevel=1.0)
    placed.live = live
    placed.range("time")

    def build(book: OutputBook) -> None:
        for name in ("Lines", "Work"):
            placed.write(book, book.sheet(name), name)
        placed.define_names(book)

    file = io.BytesIO()
    write_book(build, title="t")(file)
    values = openpyxl.load_workbook(file, data_only=True)
    formulas = openpyxl.load_workbook(file)
    assert [c.value for c in values["Work"]["C"][3:5]] == [3.0, 5.5]
    assert values["Lines"]["B5"].value == "=B"
    assert (formulas["Work"]["C4"].value == "='Lines'!A4*A4/1+B4*bevel_rate") == live
    assert formulas.defined_names["line_time"].attr_text == "'Work'!$C$4:$C$5"
    assert formulas["Work"]["C3"].value == "Time"
