"""Words that hold a row or give its steel to the customer; common practice, no source."""

from __future__ import annotations

import pytest

from estimator.read.row_orders import is_held, is_theirs
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
    tells = {"held": is_held, "theirs": is_theirs}
    for row in word_table("row_words"):
        for word in (*words_of(row["words"]), *words_of(row["alone"])):
            assert tells[row["says"]](word.rstrip("*")), word
