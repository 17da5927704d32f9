"""From the sample price lists to the answer: the order at sight is wrong, and two sentences explain the right one."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from estimator.problems import WorkbookProblemsError
from estimator.tasks_compare import CompareOrder, compare
from estimator.write.comparison_json import comparison_json
from estimator.write.comparison_text import explanation, summary_text

SAMPLES = Path(__file__).parents[2] / "sample_jobs"
SAMPLE = SAMPLES / "suppliers" / "price_lists.xlsx"
SHOP, LIST = SAMPLES / "shop_book.xlsx", SAMPLES / "cut_list.xlsx"


@pytest.fixture(scope="module")
def sample():
    return compare([SAMPLE])


def test_the_samples_order_at_sight_is_the_reverse_of_its_order_by_landed_cost(sample):
    assert [sight.supplier[:3] for sight in sample.at_sight] == ["Ash", "Bir", "Ced"]
    assert [mix.name[:3] for mix in sample.singles] == ["Ced", "Bir", "Ash"]
    assert sample.best.name == "Cedar (invented)"


def test_the_order_at_sight_is_what_a_person_reads_off_the_lists(sample):
    # by hand, printed numbers taken at face value: Ash oxygen 7.90 and acetylene 32.00 per 100 ft³ (2.8317 m³),
    # for 42 and 5.5 m³ at 15 °C, 1 bar, which are 41.450 and 5.428 m³ at 15 °C, 101.325 kPa
    by_hand = 41.4505 * 7.90 / 2.831685 + 5.4276 * 32 / 2.831685
    assert by_hand == pytest.approx(176.98, abs=0.01)
    assert sample.at_sight[0].month_minor == 17698


def test_the_answer_is_explained_in_two_sentences_with_the_money_in_them(sample):
    said = explanation(sample)
    assert said.count(". ") == 1
    assert "Cedar (invented) is cheapest for this shop: 262.87 XTS a month" in said
    assert "it turns because Ash (invented) adds" in said
    for component in ("rent", "deliveries"):
        assert component in said


def test_the_summary_says_what_to_order_and_that_a_manifold_is_the_suppliers_to_approve(sample):
    said = summary_text(sample)
    assert "hold 3" in said
    assert "approved by the supplier" in said
    assert "m³ of oxygen a month Birch (invented) is cheapest" in said


def test_the_samples_best_month_is_what_a_hand_calculation_gives(sample):
    # Cedar, by hand. Oxygen: 10 Nm³ is 10 x 1.42903 / 1.35436 = 10.5513 m³, 1 % goes back: 10.4458 usable.
    # 41.4505 / 10.4458 = 3.9682 fills. Acetylene: 8 kg / 1.10919 = 7.2125 m³, 8 % goes back: 6.6355; 0.8180 fills.
    # Gas left and used together: fills x price = 150.79 + 79.34; handling 1.20 x 4.7862 = 5.74;
    # rent 54 / 12 = 4.50 each on 3 + 3 cylinders = 27.00; no van, no invoice. Together 262.87.
    plan = sample.best.plans[0]
    assert [choice.held for choice in plan.choices] == [3, 3]
    fills = (41.4505 / (10 * 1.42903 / 1.35436 * 0.99), 5.4276 / (8 / 1.10919 * 0.92))
    by_hand = fills[0] * 38 + fills[1] * 97 + sum(fills) * 1.20 + 6 * 4.50
    assert by_hand == pytest.approx(262.87, abs=0.02)
    assert sample.best.total_minor == 26287


def test_face_value_hides_money_where_a_list_counts_small_cubic_metres_or_feet(sample):
    by_list = {(r.supplier[:3], r.gas, r.cylinder): r for r in sample.restated}
    # by hand: oxygen at 70 °F, 1 atm is 1.32614 / 1.35436 = 0.9792 of the same volume at 15 °C: 2.1 % less gas
    ash = by_list[("Ash", "oxygen", "250")]
    assert ash.content_m3 / ash.naive_m3 == pytest.approx(1.32614 / 1.35436)
    assert ash.difference_minor > 0
    # a normal cubic metre is 5.5 % more gas: Cedar looks dearer than it is
    cedar = by_list[("Ced", "oxygen", "50 L 200 bar")]
    assert cedar.content_m3 / cedar.naive_m3 == pytest.approx(1.42903 / 1.35436)
    assert cedar.difference_minor < 0
    # a mass has no reference state
    assert by_list[("Bir", "acetylene", "L50")].difference_minor == 0


def test_what_the_offers_leave_unsaid_becomes_questions(sample):
    asked = {(q.supplier[:3], q.ask) for q in sample.questions}
    assert ("Ash", "How long does the contract bind us?") in asked
    assert ("Ash", "Does the day of return count for rent?") in asked
    assert ("Ced", "Is rent paid back when a cylinder goes back within the year?") in asked
    assert not any(supplier == "Bir" and "minimum order" in ask for supplier, ask in asked)


def test_the_ranking_turns_at_more_than_twice_the_present_use(sample):
    assert sample.spans[0].mix == "Cedar (invented)"
    assert sample.spans[-1].mix == "Birch (invented)"
    assert 1.5 < sample.spans[0].to_factor < 3


def test_the_json_form_holds_the_ranking_and_its_parts_add_up(sample):
    form = json.loads(json.dumps(comparison_json(sample)))
    assert form["schema"] == "kerfledger/1"
    assert form["inputs"][0]["name"] == "price_lists.xlsx"
    first = form["ranking"][0]
    parts = [
        float(amount)
        for plan in first["plans"]
        for lines in [plan["shared"], *(gas["components"] for gas in plan["gases"])]
        for amount in lines.values()
    ]
    assert sum(parts) == pytest.approx(float(first["month_cost"]))
    assert first["month_cost"] == "262.87"


def test_strictly_nothing_is_interpreted(tmp_path):
    assert compare([SAMPLE], CompareOrder(strict=True)).best.name == "Cedar (invented)"
    with pytest.raises(WorkbookProblemsError, match="E0"):
        compare([tmp_path / "absent.xlsx"])


def test_the_samples_cut_list_says_the_use_and_compares_the_fuels():
    order = CompareOrder(shop=SHOP, cut_list=LIST, months=0.5)
    half, quarter = (compare([SAMPLE], replace(order, months=months)) for months in (0.5, 0.25))
    assert [use.gas for use in half.uses] == ["oxygen", "acetylene"]
    for one, two in zip(half.uses, quarter.uses, strict=True):
        assert two.month_m3 == pytest.approx(2 * one.month_m3)
    assert "cut_list.xlsx" in half.use_from
    assert half.fuels is not None
    assert {cost.fuel for cost in half.fuels.costs} == {"acetylene", "propane"}
    propane, acetylene = (half.fuels.work_on(fuel).work for fuel in ("propane", "acetylene"))
    assert propane.use_of("oxygen").month_m3 > acetylene.use_of("oxygen").month_m3
    assert propane.change_cost == 420.0
    assert acetylene.change_cost == 0.0
    assert "The same work is cheapest on" in summary_text(half)
    assert comparison_json(half)["fuels"]["fuels"][0]["month_cost"]
    assert [name for name, _ in half.inputs] == ["price_lists.xlsx", "cut_list.xlsx"]
