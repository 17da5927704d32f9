"""Rows that are work and no piece: what is offered for them is read, and prices them without another word."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import JobOrder
from estimator.problems import Problem
from estimator.read.cells import Book, SheetCells
from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.read.rows_of_work import built_in_names
from estimator.read.work_words import work_of_row
from estimator.sheets.word_tables import word_table, words_of
from estimator.tasks import estimate_list
from estimator.words import Work

HEAD = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
PLATE = ["P1", 2, 12, 300, 200]


def read(*rows: list[object], names: dict[str, str] | None = None) -> tuple[CutList, list[Problem]]:
    held = [[float(v) if isinstance(v, int) else v for v in row] for row in rows]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", held)])  # type: ignore[arg-type]
    return read_cut_list(book, shop_defaults=ListDefaults(other_work=names))


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("straighten the bent frame", "straighten"),
        ("collect from yard", "collect"),
        ("weld on 2 lugs", "weld on"),
        ("Drill holes in the channel", "drill hole"),
        ("grind the edges", "grind touch up"),
        ("Rahmen richten", "straighten"),
        ("recoger en taller", "collect"),
        ("odbiór z placu", "collect"),
    ],
)
def test_a_row_of_work_is_offered_the_name_that_the_shop_has_a_time_for(words: str, name: str) -> None:
    problems = read(HEAD, PLATE, [words, 1])[1]
    assert [p.code for p in problems] == ["E244"]
    assert "type the minutes of one in row 3 of a new column headed Minutes each, or '" in problems[0].do
    assert (
        f"or '{name}' in a new column headed Other work (the shop book has {built_in_names()[name]}" in problems[0].do
    )


def test_only_names_that_the_shop_book_holds_are_offered() -> None:
    do = read(HEAD, PLATE, ["straighten the frame", 1], names={"press": "2 min a piece"})[1][0].do
    assert "'straighten'" not in do
    assert "the minutes of one in row 3 of a new column headed Minutes each" in do


@pytest.mark.parametrize(("heading", "value"), [("Other work", "straighten"), ("Minutes each", 25)])
def test_what_is_offered_makes_the_row_work_and_nothing_more_is_said_of_it(heading: str, value: object) -> None:
    row = ["straighten the bent frame", 1, None, None, None, value]
    cuts, problems = read([*HEAD, heading], PLATE, row, ["Total", 3])
    assert problems == []
    assert cuts.work.tolist() == [-1, Work.OTHER]


def test_work_typed_beside_a_piece_leaves_it_a_piece() -> None:
    cuts, problems = read([*HEAD, "Other work"], [*PLATE, "saw"])
    assert (cuts.work.tolist(), problems) == ([-1], [])


@pytest.mark.parametrize(
    ("words", "asks"),
    [
        ("Straighten old hinge post", "straighten"),
        ("weld hinge on gate", "weld"),
        ("drill bolt holes", "drill"),
        ("replace bearing", "fit or repair"),
        ("fit wheels", "fit or repair"),
        ("cut off rusted bolts", "burn off"),
    ],
)
def test_work_on_a_bought_part_is_work(words: str, asks: str) -> None:
    (problem,) = read([*HEAD[:1], "What", *HEAD[1:]], ["R1", words, 1])[1]
    assert problem.code == "E244"
    assert f"words that ask to {asks}" in problem.fact


@pytest.mark.parametrize("words", ["hinge", "M20 bolts", "grinding wheel", "bearing for weld table"])
def test_a_bought_part_can_stay_in_the_list_at_no_price_or_with_its_minutes(words: str) -> None:
    head = [*HEAD[:1], "What", *HEAD[1:], "Minutes each"]
    (problem,) = read(head, ["R1", words, 1])[1]
    assert problem.code == "E229"
    assert "type 0 in G2 under 'Minutes each'" in problem.do
    cuts, problems = read(head, ["R1", words, 1, None, None, None, 0])
    assert problems == []
    assert cuts.work.tolist() == [Work.OTHER]


def test_a_row_at_no_price_is_not_raised_to_the_minimum_of_a_line() -> None:
    shop = example_shop()
    form = shop.shop.model_copy(update={"minimum_line": 150.0})
    cuts = read([*HEAD, "Minutes each", "Steel"], [*PLATE, None, "ours"], ["hinge", 2, None, None, None, 0, None])[0]
    lines = estimate_list(cuts, shop.model_copy(update={"shop": form}), JobOrder(date=dt.date(2026, 11, 2))).lines
    assert lines.price.tolist()[1] == 0
    assert lines.price.tolist()[0] >= 15000


@pytest.mark.parametrize("mark", ["P2", "B-17", "Bracket"])
def test_a_mark_alone_is_a_piece_without_a_thickness(mark: str) -> None:
    assert [p.code for p in read(HEAD, PLATE, [mark, 1])[1]] == ["E274"]


def test_a_piece_with_sides_and_words_is_asked_for_its_thickness() -> None:
    assert [p.code for p in read(HEAD, PLATE, ["grind this plate", 1, None, 300, 200])[1]] == ["E274"]


def test_each_name_of_the_word_table_is_built_in_and_each_word_finds_a_work() -> None:
    for row in word_table("work_words"):
        assert row["other_work"] in {"", *built_in_names()}
        for word in words_of(row["alone"]):
            assert work_of_row(word.rstrip("*")) is not None, word
