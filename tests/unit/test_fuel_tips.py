"""Tips for the shop's fuel: its own, or another fuel's standing in, and then always said. Invented shop."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np
import pytest

from estimator import tasks
from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.fuel_tips import fuel_tips, has_built_in_flow
from estimator.check.shop_book import ChartRow, FactorRow, ShopBook
from estimator.check.shop_book_reading import whole_book_problems
from estimator.check.torch_kit import torch_kit, work_rates
from estimator.pricing.job import JobOrder
from estimator.pricing.rack.card import card_of_settings
from estimator.pricing.settings_card import setting_for_thickness
from estimator.problems import WorkbookProblemsError
from estimator.sheets.torch import BUILT_IN_STATUS
from estimator.words import Steel
from estimator.write.rack.card_words import card_rows
from estimator.write.settings_text import settings_json, settings_text

ACETYLENE_TIPS = tuple(
    tip.model_copy(update={"row": number})
    for number, tip in enumerate(example_shop().tips, 5)
    if tip.fuel == "acetylene"
)
OWN_ROW = ChartRow(tip="1.2", mode="hand", thickness_mm=10.0, speed_mm_min=400.0, fuel_m3_h=0.3, row=5)


def shop(fuel: str = "propane", **changes: Any) -> ShopBook:
    form = example_shop().shop.model_copy(update={"fuel": fuel})
    changed = {"shop": form, "tips": ACETYLENE_TIPS, "file": "shop_book.xlsx"} | changes
    return example_shop().model_copy(update=changed)


def cuts() -> CutList:
    return CutList(
        mark=["A"], quantity=np.ones(1), thickness_mm=np.array([12.0]), cut_length_mm=np.array([1000.0]),
        steel=np.array([Steel.THEIRS], dtype=np.int8), row=np.array([2]), sheet=["list"], file="list.csv",
    )  # fmt: skip


def priced(book: ShopBook) -> Any:
    return tasks.estimate_list(cuts(), book, JobOrder(date=dt.date(2026, 11, 2)))


def test_tips_of_the_fuel_come_first_and_nothing_stands_in() -> None:
    rows, lent_by = fuel_tips(example_shop(), "propane")
    assert [tip.name for tip in rows] == ["0.8 P", "1.2 P", "1.6 P", "2.0 P"]
    assert lent_by == ""


def test_acetylene_tips_stand_in_by_bore_range_and_oxygen_pressure_without_a_fuel_pressure() -> None:
    rows, lent_by = fuel_tips(shop(), "propane")
    assert lent_by == "acetylene"
    kept = ("name", "bore_mm", "from_mm", "to_mm", "pressure_from_bar", "pressure_to_bar", "price")
    assert [[getattr(tip, n) for n in kept] for tip in rows] == [[getattr(t, n) for n in kept] for t in ACETYLENE_TIPS]
    assert {(tip.fuel, tip.fuel_pressure_bar, tip.fuel_pressure_high_bar) for tip in rows} == {("propane", 0.0, None)}
    assert np.isnan(torch_kit(shop(), "propane").tips.fuel_pressure_bar).all()


def test_a_shop_whose_acetylene_tips_stand_in_uses_the_gas_of_one_with_propane_tips_of_those_bores() -> None:
    # the example shop's propane tips have the bores of its acetylene tips
    lent, own = priced(shop()), priced(shop(tips=example_shop().tips))
    assert float(lent.job.lines.fuel_m3[0]) == pytest.approx(float(own.job.lines.fuel_m3[0]))
    assert float(lent.job.lines.cutting_oxygen_m3[0]) == pytest.approx(float(own.job.lines.cutting_oxygen_m3[0]))
    assert "W313" in [p.code for p in lent.problems]
    assert "W313" not in [p.code for p in own.problems]


def test_what_stands_in_is_said_once_for_a_job_and_names_the_rows() -> None:
    said = [p for p in priced(shop()).problems if p.code == "W313"]
    assert len(said) == 1
    assert "rows 5 to 8 of Tips" in said[0].do
    assert said[0].found == "'tips on hand: 4 for acetylene'"


@pytest.mark.parametrize(
    ("book", "found"),
    [
        (shop(tips=()), "none"),
        (shop(tips=tuple(t.model_copy(update={"on_hand": False}) for t in ACETYLENE_TIPS)), "none"),
        (shop(own_chart=(OWN_ROW,)), "4 for acetylene"),
    ],
)
def test_where_nothing_can_stand_in_the_job_has_one_problem_with_the_cause(book: ShopBook, found: str) -> None:
    with pytest.raises(WorkbookProblemsError) as caught:
        priced(book)
    errors = [p for p in caught.value.problems if p.level == "error"]
    assert [p.code for p in errors] == ["E314"]
    assert errors[0].found == f"'tips on hand: {found}'"
    assert errors[0].do.startswith("type your tips for propane" if found == "none" else "choose propane under Fuel")


def test_a_fuel_without_built_in_flows_is_not_stood_in_for() -> None:
    assert [has_built_in_flow(fuel) for fuel in ("propane", "natural gas", "propylene", "mps")] == [
        True,
        True,
        False,
        False,
    ]
    assert fuel_tips(shop("propylene"), "propylene") == ([], "")


def test_factors_of_a_tip_hold_where_it_stands_in_for_the_shops_own_fuel_and_not_for_another() -> None:
    own = (FactorRow(what="fuel", tip="1.2", value=1.5, row=5),)
    here = torch_kit(shop("propane", factors=own), "propane").factors[1].fuel
    elsewhere = torch_kit(shop("acetylene", factors=own), "propane").factors[1].fuel
    assert (here, elsewhere) == (1.5, 1.0)


def test_the_settings_name_no_pressure_of_a_fuel_that_another_fuels_tips_stand_in_for() -> None:
    found = setting_for_thickness(shop(), 12.0, "propane")
    text = settings_text(found)
    assert np.isnan(found[0].fuel_pressure_bar)
    assert "by the torch's own manual: no pressure is known here" in text
    assert "0.14" not in text.partition("speed by hand")[0]
    assert "stands in: bore" in text
    assert "0.14 to 0.21 bar" in settings_text(setting_for_thickness(shop("acetylene"), 12.0, "acetylene"))


@pytest.mark.parametrize("fuel", ["propane", "natural gas"])
def test_the_example_shop_claims_no_pressure_of_a_fuel_that_no_source_gives(fuel: str) -> None:
    rows = [tip for tip in example_shop().tips if tip.fuel == fuel]
    assert rows
    for tip in rows:
        assert (tip.fuel_pressure_bar, tip.fuel_pressure_low_bar, tip.fuel_pressure_high_bar) == (0.0, None, None)
        assert tip.status.endswith(f"no pressure of {fuel} known")
        assert "sources" not in tip.status


def test_the_pierce_of_the_settings_is_the_fuels_own() -> None:
    # the fuel slows starts by the factor of the work rates: definition
    work = work_rates(example_shop())
    slower = {"acetylene": 1.0, "propane": work.start_propane, "natural gas": work.start_natural_gas}
    pierce = {fuel: setting_for_thickness(example_shop(), 20.0, fuel)[0].pierce_s for fuel in slower}
    assert pierce["propane"] > pierce["acetylene"]
    assert pierce == {fuel: pytest.approx(pierce["acetylene"] * factor) for fuel, factor in slower.items()}
    found = setting_for_thickness(example_shop(), 20.0, "propane")
    assert f"pierce            about {pierce['propane']:.0f} s" in settings_text(found)
    assert settings_json(found)["settings"][0]["pierce_s"] == pierce["propane"]
    (card,) = card_of_settings(found)
    shown = next(row for row in card_rows(card) if row.label == "Pierce, about")
    assert shown.figures[0].main == f"{pierce['propane']:.0f} s"


def test_the_pierce_of_a_shops_own_chart_is_its_fuels_and_not_slowed_again() -> None:
    typed = OWN_ROW.model_copy(update={"tip": "1.2 P", "pierce_s": 18.0})
    found = setting_for_thickness(shop(tips=example_shop().tips, own_chart=(typed,)), 10.0, "propane")
    assert found[0].pierce_s == pytest.approx(18.0)


def test_a_built_in_row_that_says_propane_is_told_of_at_its_row() -> None:
    status = f"{BUILT_IN_STATUS}seen): type your own manual's figures"
    changed = tuple(t.model_copy(update={"fuel": "propane", "status": status}) for t in ACETYLENE_TIPS[:2])
    mended = tuple(t.model_copy(update={"fuel": "propane", "status": "own manual"}) for t in ACETYLENE_TIPS[2:])
    problems = whole_book_problems(shop(tips=(*changed, *mended)))
    assert [(p.code, p.place.row) for p in problems] == [("W315", 5), ("W315", 6)]
    kit = torch_kit(shop(tips=(*changed, *mended)), "propane")
    assert np.isnan(kit.tips.fuel_pressure_bar).tolist() == [True, True, False, False]
    typed = tuple(t.model_copy(update={"fuel_pressure_bar": 0.5}) for t in changed)
    assert torch_kit(shop(tips=typed), "propane").tips.fuel_pressure_bar.tolist() == [0.5, 0.5]
    acetylene = tuple(t.model_copy(update={"status": status}) for t in ACETYLENE_TIPS)
    assert whole_book_problems(shop(tips=acetylene)) == []
