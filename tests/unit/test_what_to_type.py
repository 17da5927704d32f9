"""What a question about a missing size says to type is read when it is typed."""

import datetime as dt
from pathlib import Path

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import JobOrder
from estimator.problems import Problem
from estimator.read.cells import Book, SheetCells
from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.tasks import estimate_list
from estimator.words import Shape

HEAD = ["Mark", "What", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]


def read(*rows: list[object], unit: str = "mm") -> tuple[CutList, list[Problem]]:
    held = [[float(v) if isinstance(v, int) else v for v in row] for row in rows]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", held)])  # type: ignore[arg-type]
    return read_cut_list(book, shop_defaults=ListDefaults(unit=unit))


def test_a_missing_size_is_asked_in_the_cells_of_the_list_itself() -> None:
    _, problems = read(HEAD, ["P1", "bracket", 1, 12, None, None])
    assert [(p.code, p.place.cell) for p in problems] == [("E273", "E2")]
    assert "E2 under 'Length (mm)' and F2 under 'Width (mm)'" in problems[0].do
    assert "'OD 320 ID 200' in B2 under 'What'" in problems[0].do
    assert "a new column headed Cut length" in problems[0].do


@pytest.mark.parametrize(
    ("words", "shape", "sizes"),
    [("disc 320", Shape.DISC, (320, None)), ("OD 320 ID 200", Shape.RING, (320, 200))],
)
def test_the_words_that_are_offered_are_read(words: str, shape: Shape, sizes: tuple[float, float | None]) -> None:
    cuts, problems = read(HEAD, ["P1", words, 1, 12, None, None])
    assert [p.code for p in problems] == ["W213"]
    assert (cuts.shape[0], cuts.size_a_mm[0]) == (shape, sizes[0])
    assert np.isnan(cuts.size_b_mm[0]) if sizes[1] is None else cuts.size_b_mm[0] == sizes[1]


@pytest.mark.parametrize("size", ["12x8", "disc 12", "OD 12 ID 8"])
def test_the_sizes_that_are_offered_in_inches_are_read_in_a_new_column(size: str) -> None:
    head = ["Mark", "Qty", "Thk (in)"]
    asked = read(head, ["P1", 1, 0.5], unit="in")[1][0]
    assert f"'{size}'" in asked.do
    assert "a new column headed Size" in asked.do
    cuts, problems = read([*head, "Size"], ["P1", 1, 0.5, size], unit="in")
    assert not [p.code for p in problems if p.code.startswith("E")]
    assert cuts.size_a_mm[0] == pytest.approx(304.8)


@pytest.mark.parametrize(
    ("words", "sides", "length_mm"),
    [
        # A quarter of a disc of radius 304.8: 2 x 304.8 + pi x 304.8 / 2. Definition.
        ("quarter circle", (304.8, 304.8), 1088.4),
        # Half a disc of diameter 320: 320 + pi x 160. Definition.
        ("half moon", (160, 320), 822.7),
    ],
)
def test_the_cut_length_that_is_worked_out_is_read_when_it_is_typed(
    words: str, sides: tuple[float, float], length_mm: float
) -> None:
    asked = read(HEAD, ["P1", words, 1, 12, *sides])[1][0]
    assert asked.code == "E240"
    assert f"type {length_mm:.0f} mm in a new column headed Cut length" in asked.do
    cuts, problems = read([*HEAD, "Cut length"], ["P1", words, 1, 12, *sides, f"{length_mm:.0f} mm"])
    assert [p.code for p in problems] == ["W241"]
    assert cuts.cut_length_mm[0] == pytest.approx(length_mm, abs=0.5)


def test_the_cut_length_of_a_shape_without_a_model_is_not_held_against_its_sides() -> None:
    cuts, _ = read([*HEAD, "Cut length", "Steel"], ["P1", "half moon", 1, 12, 160, 320, 823, "ours"])
    plain = cuts.take(np.array([0]))
    plain.shape_in_words[:] = False
    assert cuts.shape_in_words.tolist() == [True]
    assert _of_length(cuts) == []
    assert _of_length(plain) == ["W281"]


def _of_length(cuts: CutList) -> list[str]:
    problems = estimate_list(cuts, example_shop(), JobOrder(date=dt.date(2026, 11, 2))).problems
    return [p.code for p in problems if p.code == "W281"]


def test_an_inch_list_is_told_its_cut_length_in_inches() -> None:
    head = ["Mark", "What", "Qty", "Thk (in)", "Length (in)", "Width (in)"]
    asked = read(head, ["P1", "quarter circle", 1, 0.5, 12, 12], unit="in")[1][0]
    # 2 x 12 + pi x 12 / 2 = 42.85 in. Definition.
    assert "type 42.85 in in a new column headed Cut length, which is two sides of 12 in and" in asked.do


def test_the_row_of_holes_that_is_asked_for_does_not_contradict_the_total() -> None:
    head = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Holes"]
    piece, second = ["P1", 4, 12, 300, 200, "4 x 22 mm"], ["P1", 4, 12, None, None, "2 x 14 mm"]
    assert read(head, [*piece[:5], "4x Ø22 + 2x Ø14"], ["Total", 4])[1][0].code == "E246"
    assert read(head, piece, second, ["Total", 4])[1] == []
    assert [p.code for p in read(head, piece, second, ["Total", 9])[1]] == ["W131"]
