"""The second look at a priced job: sense checks, plates to buy, own figures. The list is the trial list."""

import datetime as dt

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.explain import explain_line, line_sentence
from estimator.pricing.job import JobOrder
from estimator.pricing.money import to_minor
from estimator.pricing.plates_bought import plates_bought
from estimator.pricing.second_look import own_figures, second_look
from estimator.pricing.sense import Verdict
from estimator.tasks import estimate_list
from estimator.words import MadeFrom, Shape, Steel
from scripts.make_trial_page import estimate, trial_cuts


@pytest.fixture(scope="module")
def excluded():
    return estimate(trial_cuts())


@pytest.fixture(scope="module")
def ours():
    cuts = trial_cuts()
    cuts.steel = np.full(len(cuts), Steel.OURS, dtype=np.int8)
    return estimate(cuts)


def test_the_torch_and_gas_shares_of_hand_one_offs_are_told_and_no_past_is_made_up(excluded):
    look = second_look(excluded)
    assert [check.name for check in look.sense] == ["torch-on share", "gas share"]
    assert all(0 < check.found < 0.25 for check in look.sense)


def test_steel_in_the_price_does_not_move_the_share_of_gas(excluded, ours):
    shares = [second_look(job).sense[1].found for job in (excluded, ours)]
    assert shares[0] == pytest.approx(shares[1], rel=2e-3)  # prices each are rounded up to a step


def test_a_price_by_the_metre_is_set_beside_the_shops_own_jobs(excluded):
    figure = own_figures(excluded).price_per_m
    metres = 4.8 + 4.35 + 6.0 + 4.084 + 2.4 + 4.8 + 2.754 + 3.6
    assert figure == pytest.approx(excluded.totals.taxable / 100 / metres, rel=1e-3)
    past = {"price per metre of cut": [figure / 3] * 6}
    assert second_look(excluded, past).sense[2].verdict is Verdict.HIGH


def test_plates_are_counted_for_our_own_plate_and_for_nothing_else(excluded, ours):
    assert plates_bought(excluded).buys == []
    bought = plates_bought(ours)
    cuts = ours.cuts
    counted = {int(line) for buy in bought.buys for line in buy.lines}
    assert counted == {i for i in range(len(cuts)) if cuts.made_from[i] == MadeFrom.PLATE and cuts.mark[i] != "T8"}
    assert {buy.thickness_mm for buy in bought.buys} == {12, 16, 20, 25, 40}


def test_plates_cost_their_weight_and_what_is_left_is_credited_as_scrap(ours):
    buy = next(buy for buy in plates_bought(ours).buys if buy.thickness_mm == 20)
    assert buy.option.plates == 1
    assert buy.price == pytest.approx(2.5 * 1.25 * 0.020 * 7850 * 1.20)
    assert buy.scrap_credit == pytest.approx(buy.option.drop_mass_kg * 0.18)
    assert "1 plate 20 mm, 2500 x 1250: 23 % used" in buy.words(lambda amount: f"{to_minor(amount)}", "offcut")


def test_a_lifting_lug_of_a_list_is_cautioned_when_it_is_priced():
    cuts = trial_cuts()
    cuts.description[cuts.mark.index("T7")] = "Lifting lug"
    assert "W460" in {problem.code for problem in estimate(cuts).problems}


def test_the_sentence_and_the_steps_of_a_rail_hold_the_whole_norm():
    cuts = CutList(
        mark=["R50"],
        quantity=np.array([10.0]),
        thickness_mm=np.array([np.nan]),
        shape=np.array([Shape.RAIL], dtype=np.int8),
        size_a_mm=np.array([152.0]),
        section_area_cm2=np.array([65.99]),
        steel=np.array([Steel.EXCLUDED], dtype=np.int8),
    )
    priced = estimate_list(cuts, example_shop(), JobOrder(date=dt.date(2026, 11, 2)))
    assert "mark, place and move on 3.0" in line_sentence(priced, 0)
    step = next(step for step in explain_line(priced, 0) if step.name == "rest of the norm")
    assert "13.35 (rail_cm2_min)" in step.figures
