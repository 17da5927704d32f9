"""Words that hold a row or give its steel to the customer; common practice, no source."""

from __future__ import annotations

from pathlib import Path

import pytest

from estimator.read.cells import Book, SheetCells
from estimator.read.cut_list import read_cut_list
from estimator.read.row_orders import is_held, is_theirs, is_unsure, whose_steel
from estimator.sheets.word_tables import word_table, words_of


@pytest.mark.parametrize(
    "text",
    [
        "DO NOT CUT",
        "Please do not cut until Monday",
        "on hold",
        "HOLD - rev B",
        "Cancelled",
        "delete",
        "this item void",
        "not yet",
        "not yet released",
        "waiting for drawing",
        "Later",
        "cut already",
        "noch nicht",
        "pendiente",
        "jeszcze nie",
    ],
)
def test_a_note_that_stops_its_row_holds_it(text: str) -> None:
    assert is_held(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "paint not required",
        "do not cut the corners",
        "delete holes",
        "hold 12 mm from edge",
        "not on hold",
        "void plate",
        "later cut to 300",
        "hold down plate",
        "not yet painted",
    ],
)
def test_a_note_that_stops_something_else_does_not_hold_its_row(text: str) -> None:
    assert not is_held(text)


@pytest.mark.parametrize(
    "text", ["their steel", "Customer supplies plate", "free issue", "steel by customer", "материал заказчика"]
)
def test_a_note_gives_the_steel_to_the_customer(text: str) -> None:
    assert is_theirs(text)


@pytest.mark.parametrize("text", ["", "our steel", "holes by customer", "not free issue", "customer to collect"])
def test_a_note_of_other_things_gives_no_steel_away(text: str) -> None:
    assert not is_theirs(text)


def test_each_word_of_the_table_is_found_alone() -> None:
    tells = {"held": is_held, "theirs": is_theirs, "unsure": is_unsure, "ours": whose_steel, "yours": whose_steel}
    for row in word_table("row_words"):
        for word in (*words_of(row["words"]), *words_of(row["alone"])):
            assert tells[row["says"]](word.rstrip("*")), word


HEAD: list[object] = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
PLATE: list[object] = ["P1", 2, 12.0, 300.0, 200.0]


def asked(*rows: list[object]) -> list[tuple[str, int | None]]:
    """Return codes and rows of what is said of a list."""
    held = [[float(v) if isinstance(v, int) else v for v in row] for row in rows]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", held)])  # type: ignore[arg-type]
    return [(p.code, p.place.row) for p in read_cut_list(book)[1]]


@pytest.mark.parametrize("title", ["ON HOLD", "not yet", "DO NOT CUT - waiting for drawing", "HOLD"])
def test_a_title_holds_the_rows_below_it_to_the_next_title(title: str) -> None:
    assert asked(HEAD, PLATE, [title], PLATE, PLATE, ["LEVEL 2"], PLATE) == [("E245", 4), ("E245", 5)]


def test_a_held_title_whose_rows_were_cleared_says_nothing_more() -> None:
    assert asked(HEAD, PLATE, ["ON HOLD"], ["LEVEL 2"], PLATE) == []


def test_a_title_above_the_headings_holds_the_list_and_each_later_table_its_own() -> None:
    assert asked(["ON HOLD"], HEAD, PLATE) == [("E245", 1)]
    rows = asked(HEAD, PLATE, [], ["ON HOLD"], HEAD, PLATE)
    assert [row for code, row in rows if code == "E245"] == [6]


@pytest.mark.parametrize(
    ("above", "note", "code"),
    [
        (["Steel: ours"], "our steel", "W250"),
        (["Steel: ours"], "your plate", "W250"),
        (["Steel: theirs"], "material by us", "W250"),
        (["Steel: ours"], "cust. mat'l", "W243"),
        (["Customer: Mill Lane Farm", "Steel: ours"], "our steel", "W243"),
        (["Customer: Mill Lane Farm", "Steel: theirs"], "our steel", ""),
        (["Customer: Mill Lane Farm", "Steel: ours"], "material by you", ""),
        (["Customer: Mill Lane Farm", "Steel: theirs"], "material by you", "W250"),
        (["Customer: Mill Lane Farm"], "our steel", "W243"),
        (["Steel: ours"], "by our drawing", ""),
    ],
)
def test_our_steel_is_whose_wrote_it_and_never_silent(above: list[str], note: str, code: str) -> None:
    rows: list[list[object]] = [[text] for text in above]
    rows += [["Mark", "Qty", "Size (mm)", "Notes"], ["P1", 2.0, "10x300x200", note], ["P2", 2.0, "10x300x200", None]]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", rows)])  # type: ignore[arg-type]
    _, problems = read_cut_list(book)
    assert [(p.code, p.place.cell) for p in problems] == ([(code, f"D{len(above) + 2}")] if code else [])


def test_a_row_whose_steel_stands_in_its_own_cell_is_settled() -> None:
    rows: list[list[object]] = [["Mark", "Qty", "Size (mm)", "Notes", "Steel"]]
    rows += [["P1", 2.0, "10x300x200", "our steel", "ours"]]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", rows)])  # type: ignore[arg-type]
    assert read_cut_list(book)[1] == []
