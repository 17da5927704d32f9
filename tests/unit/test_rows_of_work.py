"""Rows that are work and no piece: what is offered for them is read, and prices them without another word."""

from __future__ import annotations

from pathlib import Path

import pytest

from estimator.check.cut_list import CutList
from estimator.problems import Problem
from estimator.read.cells import Book, SheetCells
from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.read.rows_of_work import built_in_names
from estimator.read.work_words import work_of_row
from estimator.sheets.word_tables import word_table, words_of
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
    assert f"type '{name}' in a new column headed Other work" in problems[0].do


def test_only_names_that_the_shop_book_holds_are_offered() -> None:
    do = read(HEAD, PLATE, ["straighten the frame", 1], names={"press": "piece"})[1][0].do
    assert "'straighten'" not in do
    assert "the minutes of one in a new column headed Minutes each" in do


@pytest.mark.parametrize(("heading", "value"), [("Other work", "straighten"), ("Minutes each", 25)])
def test_what_is_offered_makes_the_row_work_and_nothing_more_is_said_of_it(heading: str, value: object) -> None:
    row = ["straighten the bent frame", 1, None, None, None, value]
    cuts, problems = read([*HEAD, heading], PLATE, row, ["Total", 3])
    assert problems == []
    assert cuts.work.tolist() == [-1, Work.OTHER]


def test_work_typed_beside_a_piece_leaves_it_a_piece() -> None:
    cuts, problems = read([*HEAD, "Other work"], [*PLATE, "saw"])
    assert (cuts.work.tolist(), problems) == ([-1], [])


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
