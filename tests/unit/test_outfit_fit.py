"""What the outfit checker says of a cart, and that it knows no connection by itself. All names are invented."""

import pytest

from estimator.check.outfit import CylinderOutlet, OutfitItem, TipNeed
from estimator.check.outfit_fit import NEVER_A_PERMISSION, check_outfit
from estimator.problems.code import Level
from estimator.read.cells import Book, SheetCells
from estimator.read.own_sheets import read_records
from estimator.sheets.outfit import CYLINDER_OUTLETS, OUTFIT

OUTLETS = [
    CylinderOutlet(gas="oxygen", outlet="Q-1", outlet_thread="right", full_bar=200),
    CylinderOutlet(gas="acetylene", outlet="Q-2", outlet_thread="left", full_bar=18),
]


def cart(**changes):
    """A cart that fits together; ``changes`` maps a name to the fields that differ, or to None to leave it out."""
    thread = {"oxygen": "right", "acetylene": "left"}
    items = {
        "torch": {
            "item": "torch",
            "gas": "acetylene",
            "inlet": "T-2",
            "inlet_thread": "left",
            "oxygen_inlet": "T-1",
            "oxygen_thread": "right",
        }
    }
    for gas, number in (("oxygen", 1), ("acetylene", 2)):
        hand = {"gas": gas, "inlet_thread": thread[gas], "outlet_thread": thread[gas]}
        items[f"{gas} regulator"] = {"item": "regulator", "inlet": f"Q-{number}", "outlet": f"H-{number}", **hand}
        items[f"{gas} hose"] = {"item": "hose", "inlet": f"H-{number}", "outlet": f"T-{number}", **hand}
        items[f"{gas} valve"] = {"item": "check valve", "gas": gas}
        items[f"{gas} arrestor"] = {"item": "flashback arrestor", "gas": gas}
    items["oxygen regulator"] |= {"most_bar": 10, "most_cylinder_bar": 230, "most_m3_h": 30}
    items["acetylene regulator"] |= {"most_bar": 1.0, "most_cylinder_bar": 25}
    for name, fields in changes.items():
        key = name.replace("_", " ")
        if fields is None:
            del items[key]
        else:
            items[key] = items[key] | fields
    return [OutfitItem(name=name, **fields) for name, fields in items.items()]


def codes(items, outlets=OUTLETS, tips=()):
    return sorted({problem.code for problem in check_outfit(items, outlets, tips)})


def test_a_cart_whose_words_agree_has_nothing_to_say_and_that_is_no_permission():
    assert codes(cart()) == []
    assert "not a permission" in NEVER_A_PERMISSION


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"oxygen_regulator": {"inlet": "Q-9"}}, "W450"),
        ({"acetylene_hose": {"outlet": "T-9"}}, "W450"),
        ({"torch": {"oxygen_inlet": "T-9"}}, "W450"),
        ({"acetylene_regulator": {"inlet_thread": "right"}}, "W451"),
        ({"oxygen_regulator": {"most_cylinder_bar": 150}}, "W453"),
        ({"oxygen_arrestor": None}, "W454"),
        ({"acetylene_valve": None}, "W454"),
        ({"acetylene_hose": {"made_for": "propane, oxygen"}}, "W455"),
        ({"acetylene_hose": None}, "N458"),
        ({"oxygen_hose": {"inlet": ""}}, "N459"),
    ],
)
def test_each_thing_that_does_not_fit_is_named(changes, code):
    assert codes(cart(**changes)) == [code]


def test_capitals_and_blanks_in_a_connection_do_not_matter():
    assert codes(cart(oxygen_regulator={"inlet": "q - 1"})) == []


def test_a_tip_that_needs_more_pressure_or_flow_than_a_part_states_is_named():
    tip = TipNeed(name="3.2", fuel="acetylene", oxygen_bar=12.0, fuel_bar=0.5, oxygen_m3_h=32.0, fuel_m3_h=0.9)
    problems = check_outfit(cart(), OUTLETS, [tip])
    assert [problem.code for problem in problems] == ["W452", "W457"]
    assert "tip 3.2 needs 12 bar of oxygen, and oxygen regulator holds up to 10 bar" in problems[0].text()


def test_a_tip_within_every_stated_limit_is_not_named():
    tip = TipNeed(name="1.6", fuel="acetylene", oxygen_bar=10.0, fuel_bar=1.0, oxygen_m3_h=30.0)
    assert codes(cart(), tips=[tip]) == []


def test_a_tip_for_a_fuel_that_no_torch_is_stated_for_is_named():
    assert codes(cart(), tips=[TipNeed(name="P2", fuel="propane")]) == ["W456"]


def test_two_torches_on_two_carts_each_need_their_own_protection():
    second = [item.model_copy(update={"outfit": "2"}) for item in cart(oxygen_arrestor=None, acetylene_arrestor=None)]
    problems = check_outfit([*cart(), *second], OUTLETS, [])
    assert {problem.code for problem in problems} == {"W454"}
    assert all("cart 2" in problem.fact for problem in problems)


def test_without_an_outfit_nothing_is_said_not_even_of_tips():
    assert check_outfit([], OUTLETS, [TipNeed(name="P2", fuel="propane")]) == []


def test_every_answer_is_a_warning_or_a_note_and_sends_the_reader_to_those_who_decide():
    everything = check_outfit(
        cart(oxygen_regulator={"inlet": "Q-9", "inlet_thread": "left"}, acetylene_arrestor=None), OUTLETS, []
    )
    assert {problem.level for problem in everything} == {Level.WARNING}
    assert all("supplier" in problem.do for problem in everything)


def test_the_sheets_state_every_field_of_their_records():
    assert {c.name for c in OUTFIT.columns} == set(OutfitItem.model_fields) - {"place", "places"}
    assert {c.name for c in CYLINDER_OUTLETS.columns} == set(CylinderOutlet.model_fields) - {"place", "places"}


def test_the_sheets_read_into_the_records_with_the_place_of_each_row(tmp_path):
    rows = [[column.heading for column in OUTFIT.columns], [column.example or None for column in OUTFIT.columns]]
    book = Book(path=tmp_path / "shop.xlsx", sha256="", kind="xlsx", sheets=[SheetCells("Outfit", rows)])
    records, problems = read_records(book, OUTFIT, OutfitItem)
    assert problems == []
    assert (records[0].item, records[0].most_bar, records[0].length_m) == ("regulator", 10.0, 15.0)
    assert str(records[0].place) == "'Outfit'!row 2"
