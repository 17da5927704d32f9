"""A helper on site, heats and waits, and the minutes of the mass heated beside the typed ones; worked by hand."""

import datetime as dt

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.shop_book import WorkRate
from estimator.pricing.explain import explain_line, line_sentence
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.words import Site, Steel, Work

ORDER = JobOrder(date=dt.date(2026, 11, 2))
NAN = float("nan")


def on_site(share: float | None) -> Estimate:
    shop = example_shop()
    if share is not None:
        row = WorkRate(row=2, name="site_helper_share", likely=share)
        shop = shop.model_copy(update={"work_rates": (*shop.work_rates, row)})
    cuts = CutList(
        mark=["A", "B"],
        quantity=np.array([3.0, 2.0]),
        thickness_mm=np.array([12.0, 12.0]),
        cut_length_mm=np.array([1200.0, 1200.0]),
        site=np.array([Site.SITE, Site.SHOP], dtype=np.int8),
        steel=np.array([Steel.EXCLUDED] * 2, dtype=np.int8),
    )
    return estimate_job(cuts, shop, ORDER)


def test_a_helper_on_site_is_paid_for_his_part_of_the_mans_time_there():
    job = on_site(0.5)
    (row,) = [row for row in job.job.rows if row.key == "site_helper"]
    assert row.paid_time_min == pytest.approx(0.5 * job.job.lines.paid_time_min[0])


def test_without_a_helper_there_is_no_such_row():
    assert "site_helper" not in [row.key for row in on_site(None).job.rows]


def bend(*, heats: float = NAN, minutes: float = NAN, kg: float = NAN) -> Estimate:
    shop = example_shop()
    cuts = CutList(
        mark=["H"],
        quantity=np.array([4.0]),
        thickness_mm=np.array([20.0]),
        work=np.array([Work.BEND], dtype=np.int8),
        tip=[shop.flame_tips[0].name],
        flame_min_each=np.array([minutes]),
        heated_kg_each=np.array([kg]),
        heats=np.array([heats]),
        wait_min_each=np.array([10.0]),
    )
    return estimate_job(cuts, shop, ORDER)


def test_each_heat_takes_its_flame_and_its_wait():
    one, three = bend(minutes=3.0), bend(minutes=3.0, heats=3.0)
    assert (one.job.lines.flame_work_min[0], one.job.lines.wait_min[0]) == (12.0, 40.0)
    assert (three.job.lines.flame_work_min[0], three.job.lines.wait_min[0]) == (36.0, 120.0)
    assert three.job.lines.fuel_m3[0] == pytest.approx(3 * one.job.lines.fuel_m3[0])


def test_the_mass_heated_counts_once_for_each_heat():
    assert bend(kg=1.9, heats=2.0).job.lines.flame_work_min[0] == pytest.approx(
        2 * bend(kg=1.9).job.lines.flame_work_min[0]
    )


def test_minutes_by_the_mass_stand_beside_the_typed_ones_which_hold():
    both, by_mass = bend(minutes=3.0, kg=1.9), bend(kg=1.9)
    (step,) = [step for step in explain_line(both, 0) if step.name == "flame by the mass heated"]
    assert step.answer == f"{by_mass.job.lines.flame_work_min[0] / 4:.1f} min a heat; typed 3.0"
    assert both.job.lines.flame_work_min[0] == 12.0


def test_a_bend_is_told_as_one():
    assert line_sentence(bend(minutes=3.0, heats=2.0), 0).startswith("4 x H, ")
    assert "bend 6.0" in line_sentence(bend(minutes=3.0, heats=2.0), 0)
    assert "wait for it to cool 20.0" in line_sentence(bend(minutes=3.0, heats=2.0), 0)
