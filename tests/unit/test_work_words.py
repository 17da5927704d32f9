"""Words that ask for work, in the languages that headings are read in; common practice, no source."""

from __future__ import annotations

import pytest

from estimator.read.work_words import asked_work
from estimator.sheets.word_tables import word_table, words_of


def works(text: str, *, in_notes: bool = True) -> list[str]:
    """Return the names of the work that one text asks for."""
    return [one.work for one in asked_work([text], in_notes=in_notes).get(text, ())]


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("bevel one long side 45", ["bevel"]),
        ("Cut corner to corner.", ["cut corner to corner"]),
        ("torch holes ok", ["burn the holes"]),
        ("Kanten entgraten, 2 Bohrungen gebohrt", ["grind", "drill"]),
        ("chanfrein 30° sur un bord", ["bevel"]),
        ("bisel 30", ["bevel"]),
        ("smussare 2x45", ["bevel"]),
        ("fazować krawędź", ["bevel"]),
        ("снять фаску 30°", ["bevel"]),
        ("坡口30", ["bevel"]),
        ("clip corners 20", ["notch"]),
        ("deburr, then galvanise", ["grind", "paint"]),
        ("M12 tapped, 2 off", ["tap"]),
        ("roll to R400", ["bend"]),
    ],
)
def test_a_note_asks_for_the_work_that_its_words_name(text: str, asked: list[str]) -> None:
    assert works(text) == asked


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ('clip 2 corners 1"', ["notch"]),
        ("clip all 4 corners", ["notch"]),
        ("clip (2) corners", ["notch"]),
        ("clip two top corners", ["notch"]),
        ("corners (4) clipped", ["notch"]),
        ('corner 1" off', ["notch"]),
        ("cut 2 corners off", ["notch"]),
        ("crop 4 corners 20x20", ["notch"]),
        ("snip 2 corners", ["notch"]),
        ("cope 1 end", ["notch"]),
        ("notch 4 corners 50x50", ["notch"]),
        ("radius all four corners R25", ["notch"]),
        ("chamfer 4 corners", ["notch"]),
        ("chamfer 2 edges 45", ["bevel"]),
        ("bevel 2 long sides 30", ["bevel"]),
        ("bend 2x 90", ["bend"]),
        ("weld 4 places", ["weld"]),
        ("tap 2 M12", ["tap"]),
        ("drill 4 holes and tap 2 M10", ["drill", "tap"]),
        ("countersink 2 holes 90", ["countersink"]),
        ("burn 4 holes", ["burn the holes"]),
        ("smooth 2 edges", ["grind"]),
        ("mill 1 edge to 20", ["machine"]),
        ("cut in 2 pieces, drill 4 holes", ["drill", "cut up"]),
        ("do not clip 2 corners", []),
        ("clip 2 corners by customer", []),
    ],
)
def test_figures_between_the_words_lose_no_work(text: str, asked: list[str]) -> None:
    assert works(text) == asked


@pytest.mark.parametrize(
    ("text", "own"),
    [
        ("snip", "snip"),
        ("clip 2 corners", "clip"),
        ("clip corners 20", "clip corners"),
        ("abschrägen 30°", "abschrägen"),
    ],
)
def test_the_word_of_the_list_is_kept(text: str, own: str) -> None:
    assert [one.said for one in asked_work([text], in_notes=True)[text]] == [own]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "urgent",
        "holes drilled by customer",
        "drilling by others",
        "do not weld",
        "not painted",
        "no bevel",
        "before galvanising",
        "ohne Fase",
        "remove slag",
        "hot rolled plate",
        "sawtooth edge to drawing",
        "grounds for the tank",
    ],
)
def test_a_note_of_other_things_or_of_others_work_asks_for_none(text: str) -> None:
    assert works(text) == []


@pytest.mark.parametrize("text", ["Weld plate", "Drill jig", "Tap wrench stand", "Slot cover", "Paint rack"])
def test_a_part_that_is_called_after_work_asks_for_none_in_a_description(text: str) -> None:
    assert works(text, in_notes=False) == []
    assert works(text, in_notes=True) != []


def test_one_angle_in_a_note_is_the_angle_to_type() -> None:
    assert asked_work(["bevel 37.5 deg"], in_notes=True)["bevel 37.5 deg"][0].do == "type 37.5 under Bevel"
    for text in ("bevel edge", "bevel 30 or 45", "bevel 12 mm deep"):
        assert asked_work([text], in_notes=True)[text][0].do == "type the angle under Bevel"


def test_each_word_stands_once_and_finds_its_own_work() -> None:
    seen: dict[str, str] = {}
    for row in word_table("work_words"):
        for word in (*words_of(row["words"]), *words_of(row["in_notes"])):
            assert seen.setdefault(word, row["work"]) == row["work"]
            assert row["work"] in works(word.rstrip("*")), word
        assert row["status"]
        assert row["source_id"]
