"""The plan of a rack from priced jobs: draws, stops, orders, dates, several lists, fuels."""

import datetime as dt

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.pricing.job import JobOrder, estimate_job
from estimator.pricing.rack.report import plan_the_rack
from estimator.problems import WorkbookProblemsError
from estimator.quantities.draw_verdict import DrawLevel
from estimator.units import ReferenceState, gas_volume_m3
from estimator.words import Shape, Steel, Work
from tests.rack_shop import ft3_acetylene, heating_tip, shop_with

MONDAY = dt.date(2026, 11, 2)
OXYGEN = [
    {"cylinder_id": f"O{i}", "gas": "oxygen", "cylinder": "O-10", "full_pressure_bar": 200, "gauge_bar": bar}
    for i, bar in enumerate((140, 200), 1)
]
ACETYLENE = [
    {"cylinder_id": f"A{i}", "gas": "acetylene", "cylinder": "A-7", "gross_kg": 58 + kg, "tare_kg": 58}
    for i, kg in enumerate((5.7, 7.3), 1)
]


def plates(count=8.0):
    return CutList(
        mark=["P"],
        quantity=np.array([count]),
        thickness_mm=np.array([20.0]),
        shape=np.array([Shape.RECTANGLE], dtype=np.int8),
        size_a_mm=np.array([300.0]),
        size_b_mm=np.array([300.0]),
        steel=np.array([Steel.THEIRS], dtype=np.int8),
        row=np.array([5]),
        file="plates.csv",
    )


def heats(minutes=12.0, wait=0.0, tip="H", pieces=1.0):
    return CutList(
        mark=["B"],
        quantity=np.array([pieces]),
        thickness_mm=np.array([20.0]),
        work=np.array([Work.BEND], dtype=np.int8),
        tip=[tip],
        flame_min_each=np.array([minutes]),
        wait_min_each=np.array([wait]),
        row=np.array([5]),
        file="heats.csv",
    )


def plan(cuts, shop, date=MONDAY, fuel="", **options):
    lists = cuts if isinstance(cuts, list) else [cuts]
    dates = date if isinstance(date, list) else [date] * len(lists)
    orders = [JobOrder(date=one, fuel=fuel) for one in dates]
    return plan_the_rack([estimate_job(c, shop, o) for c, o in zip(lists, orders, strict=True)], **options)


def heated(rack, flow_m3_h, **changes):
    shop = shop_with([*OXYGEN, *rack], flame_tips=(heating_tip(flow_m3_h),))
    return shop.model_copy(update=changes)


def test_a_150_cubic_foot_cylinder_may_not_feed_a_head_of_80_and_8_6_or_4_may():
    """A 150 ft³ acetylene cylinder and a heating tip of 80 ft³/h: common practice, no source."""
    bare = shop_with([])
    prices = ft3_acetylene(150, bare)
    flow = gas_volume_m3(80, unit="ft3", gas="acetylene", state=ReferenceState.F70_ATM)
    full = {"gas": "acetylene", "cylinder": "A-ft3", "left_share": 1.0}
    alone = heated([{"cylinder_id": "A1", **full}], flow, gas_prices=prices)
    report = plan(heats(), alone)
    (said,) = report.draws
    assert report.stop
    assert said.verdict.level is DrawLevel.STOP
    assert dict(said.counts) == {"1/15": 8, "1/10": 6, "1/7": 4}
    for count, level in ((8, DrawLevel.WITHIN), (7, DrawLevel.WARNING), (6, DrawLevel.WARNING), (5, DrawLevel.STOP)):
        together = [{"cylinder_id": f"A{i}", "manifold": "M", **full} for i in range(count)]
        assert plan(heats(), heated(together, flow, gas_prices=prices)).draws[0].verdict.level is level


def test_a_stop_says_the_ways_out_before_the_manifold_and_forbids_tees_and_copper():
    report = plan(heats(), heated(ACETYLENE, 1.66))
    (stop,) = [p for p in report.problems if p.code == "E420"]
    do = stop.do
    assert do.index("smaller tip") < do.index("propane") < do.index("larger cylinder") < do.index("manifold")
    assert "approved by the supplier" in do
    assert "never tees" in do
    assert "never plain copper" in do
    assert not report.finishes
    assert report.gases[1].first_short_step == 0
    assert report.gases[1].chance == 0.0
    assert not report.orders[1].helps


def test_the_supplier_s_written_figure_moves_a_heating_stop_but_never_beyond_a_seventh_of_a_full_cylinder():
    draw = 0.8
    plain = plan(heats(), heated(ACETYLENE, draw))
    written = [row | {"supplier_draw_fraction": 0.14} for row in ACETYLENE]
    assert plain.draws[0].verdict.level is DrawLevel.STOP
    assert plan(heats(), heated(written, draw)).draws[0].verdict.level is DrawLevel.WITHIN
    anything = [row | {"supplier_draw_fraction": 1.0} for row in ACETYLENE]
    assert plan(heats(), heated(anything, 1.0)).draws[0].verdict.level is DrawLevel.STOP


def test_a_heating_tip_leaves_a_half_empty_cylinder_to_the_cutting_before_its_heel():
    report = plan([heats(minutes=120.0), plates()], heated(ACETYLENE, 0.5), date=[MONDAY, dt.date(2026, 11, 3)])
    first, second = report.gases[1].cylinders
    assert not report.stop
    assert report.gases[1].plan.taken_m3[1].sum() > 0
    by_heating = report.gases[1].plan.taken_m3[: len([s for s in report.steps.each if s.is_heating])].sum(axis=0)
    assert first.content.now_m3 - by_heating[0] >= 0.5 / (1 / 10) - 1e-9
    assert second.used_m3 > 0


def test_torches_on_one_rack_add_up():
    shop = shop_with([*OXYGEN, *ACETYLENE])
    levels = [plan(plates(), shop, torches=n).draws[0] for n in (1, 2, 4)]
    assert levels[1].draw_m3_h == pytest.approx(2 * levels[0].draw_m3_h)
    assert [one.verdict.level for one in levels] == [DrawLevel.WITHIN, DrawLevel.WITHIN, DrawLevel.STOP]
    keys = {c.key for c in plan(plates(), shop, torches=2).cautions}
    assert "several torches" in keys


def test_a_torch_on_a_line_of_two_counts_twice():
    two = plates()
    two.torches = np.array([2.0])
    shop = shop_with([*OXYGEN, *ACETYLENE])
    assert plan(two, shop).draws[0].draw_m3_h == pytest.approx(2 * plan(plates(), shop).draws[0].draw_m3_h)


def test_short_heats_with_waits_are_intermittent_and_long_ones_continuous():
    shop = heated(ACETYLENE, 0.5)
    assert not plan(heats(minutes=4, wait=10, pieces=6), shop).draws[0].is_continuous
    assert plan(heats(minutes=4, wait=0, pieces=6), shop).draws[0].is_continuous
    assert plan(heats(minutes=12, wait=30), shop).draws[0].is_continuous


def test_the_gas_of_the_plan_is_the_gas_of_the_estimate_with_losses_and_lightings():
    shop = shop_with([*OXYGEN, *ACETYLENE])
    estimate = estimate_job(plates(), shop, JobOrder(date=MONDAY))
    lines, rows = estimate.job.lines, estimate.job.rows
    oxygen = float((lines.cutting_oxygen_m3 + lines.preheat_oxygen_m3 + lines.lost_oxygen_m3).sum())
    oxygen += sum(r.preheat_oxygen_m3 + r.lost_oxygen_m3 for r in rows)
    fuel = float((lines.fuel_m3 + lines.lost_fuel_m3).sum()) + sum(r.fuel_m3 + r.lost_fuel_m3 for r in rows)
    report = plan_the_rack([estimate])
    assert report.gases[0].used_m3 == pytest.approx(oxygen)
    assert report.gases[1].used_m3 == pytest.approx(fuel)


def test_a_short_rack_says_what_to_order_by_when_and_the_order_makes_it_finish():
    shop = shop_with([*OXYGEN, *ACETYLENE])
    report = plan(plates(100), shop)
    order = report.orders[0]
    assert report.gases[0].first_short_step is not None
    assert order.cylinders >= 1
    assert order.cylinders_sure >= order.cylinders
    assert order.order_by < order.needed_on
    assert np.busday_count(order.order_by, order.needed_on) == shop.shop.lead_time_days
    more = [{**OXYGEN[1], "cylinder_id": f"N{i}"} for i in range(order.cylinders)]
    assert plan(plates(100), shop_with([*OXYGEN, *more, *ACETYLENE])).gases[0].first_short_step is None
    fewer = more[:-1]
    assert plan(plates(100), shop_with([*OXYGEN, *fewer, *ACETYLENE])).gases[0].first_short_step is not None


def test_lists_are_worked_by_their_dates_and_share_the_rack():
    shop = shop_with([*OXYGEN, *ACETYLENE])
    later, sooner = plates(30), plates(20)
    later.file, sooner.file = "later.csv", "sooner.csv"
    report = plan([later, sooner], shop, date=[dt.date(2026, 11, 9), MONDAY])
    assert [one.cuts.file for one in report.estimates] == ["sooner.csv", "later.csv"]
    assert report.steps.each[0].file == "sooner.csv"
    alone = [plan(one, shop).gases[0].used_m3 for one in (later, sooner)]
    assert report.gases[0].used_m3 == pytest.approx(sum(alone))


def test_working_by_tip_changes_no_total_and_no_more_tips():
    cuts = plates().take([0, 0, 0])
    cuts.thickness_mm = np.array([20.0, 10.0, 20.0])
    cuts.row = np.array([5, 6, 7])
    shop = shop_with([*OXYGEN, *ACETYLENE])
    shop = shop.model_copy(update={"shop": shop.shop.model_copy(update={"keep_tip_in": False})})
    by_list, by_tip = plan(cuts, shop), plan(cuts, shop, by_tip=True)
    assert [s.row for s in by_tip.steps.each if s.row] == [6, 5, 7]
    assert by_tip.gases[0].used_m3 == pytest.approx(by_list.gases[0].used_m3)


def test_more_gas_on_the_rack_never_lowers_the_chance():
    chances = []
    for bar in (40, 60, 70, 80, 100, 200):
        rack = [{**OXYGEN[0], "gauge_bar": bar}, *ACETYLENE]
        chances.append(plan(plates(), shop_with(rack)).gases[0].chance)
    assert chances == sorted(chances)
    assert chances[0] < 0.5
    assert chances[-1] > 0.95
    assert any(0.02 < chance < 0.98 for chance in chances)


def test_piped_gas_has_no_cylinder_to_run_dry_and_asks_for_the_meter():
    report = plan(plates(), shop_with(OXYGEN), fuel="natural gas")
    fuel = report.gases[1]
    assert fuel.piped
    assert fuel.used_m3 > 0
    assert fuel.short_m3 == 0
    assert report.orders[1].cylinders == 0
    assert [p.code for p in report.problems if p.code == "N413"] == ["N413"]


def test_propane_is_checked_against_what_still_air_evaporates():
    warm = {
        "cylinder_id": "P1",
        "gas": "propane",
        "cylinder": "P-18",
        "gross_kg": 30,
        "tare_kg": 16,
        "temperature_c": 15,
    }
    mild = plan(plates(), shop_with([*OXYGEN, warm]), fuel="propane")
    (said,) = mild.propane
    assert said.low_kg_h < said.likely_kg_h < said.high_kg_h
    assert not [p for p in mild.problems if p.code == "W423"]
    low = {**warm, "gross_kg": 17, "temperature_c": -12}
    cold = plan(plates(), shop_with([*OXYGEN, low]), fuel="propane")
    assert [p for p in cold.problems if p.code == "W423"]
    assert not cold.stop


@pytest.mark.parametrize("fuel", ["propylene", "mps"])
def test_a_fuel_without_a_chart_is_asked_for_its_own(fuel):
    with pytest.raises(WorkbookProblemsError) as caught:
        plan(plates(), shop_with(OXYGEN), fuel=fuel)
    assert [p.code for p in caught.value.problems if p.level == "error"] == ["E415"]


def test_heating_with_propylene_needs_no_chart():
    prices = shop_with([]).gas_prices
    shop = shop_with(OXYGEN, flame_tips=(heating_tip(1.2, fuel="propylene"),), gas_prices=prices)
    report = plan(heats(), shop, fuel="propylene")
    assert report.gases[1].used_m3 > 0


def test_an_empty_rack_starts_from_nothing_and_orders_all_of_it():
    report = plan(plates(), shop_with([]))
    assert [p.code for p in report.problems if p.code == "W412"] == ["W412", "W412"]
    assert [order.cylinders for order in report.orders] == [1, 1]


def test_a_cylinder_that_cannot_be_known_stops_the_plan_unless_it_is_partial():
    rack = [*OXYGEN, ACETYLENE[0], {"cylinder_id": "A9", "gas": "acetylene", "cylinder": "A-7", "gauge_bar": 15}]
    with pytest.raises(WorkbookProblemsError) as caught:
        plan(plates(), shop_with(rack))
    assert "E402" in {p.code for p in caught.value.problems}
    report = plan(plates(), shop_with(rack), partial=True)
    assert report.incomplete
    assert [c.cylinder_id for c in report.rack if c.gas == "acetylene"] == ["A1"]


def test_unlike_cylinders_on_one_manifold_are_warned_of():
    rack = [{**row, "manifold": "M"} for row in ACETYLENE]
    codes = [p.code for p in plan(plates(), shop_with([*OXYGEN, *rack])).problems]
    assert "W409" in codes


def test_the_cart_is_checked_for_the_tips_at_work_only():
    shop = heated([{**ACETYLENE[1], "supplier_draw_fraction": 0.14}], 1.66)
    codes = {p.code for p in plan(heats(), shop).outfit}
    assert "W457" in codes  # the example's acetylene regulator passes 1.5 m³/h
    assert not plan(plates(), shop).outfit
