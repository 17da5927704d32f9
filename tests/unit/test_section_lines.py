"""Sections in a list: what a piece weighs, who lifts it, whose steel it is, and which tip reaches through it."""

import datetime as dt

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.words import Shape, Steel

NAN = float("nan")


def priced(
    shape: Shape, a: float, b: float = NAN, t: float = NAN, *, area: float = NAN, length: float = NAN
) -> Estimate:
    cuts = CutList(
        mark=["S1"],
        quantity=np.array([2.0]),
        thickness_mm=np.array([t]),
        shape=np.array([shape], dtype=np.int8),
        size_a_mm=np.array([a]),
        size_b_mm=np.array([b]),
        section_area_cm2=np.array([area]),
        section_length_mm=np.array([length]),
        steel=np.array([Steel.OURS], dtype=np.int8),
    )
    return estimate_job(cuts, example_shop(), JobOrder(date=dt.date(2026, 11, 2)))


@pytest.mark.parametrize(
    ("shape", "a", "b", "t", "area", "kg_m"),
    [
        # Masses per metre as section tables print them, from memory; fillets and corner radii are left out here.
        (Shape.ANGLE, 100, 100, 10, NAN, 15.0),
        (Shape.ROUND_BAR, 80, NAN, NAN, NAN, 39.5),
        (Shape.SQUARE_BAR, 50, NAN, NAN, NAN, 19.6),
        (Shape.PIPE, 114.3, NAN, 6.3, NAN, 16.8),
        (Shape.BEAM, 200, 100, 5.6, 28.5, 22.4),
    ],
)
def test_a_section_weighs_its_area_times_its_length(shape, a, b, t, area, kg_m):
    mass = priced(shape, a, b, t, area=area, length=2500.0).job.lines.mass_each_kg[0]
    assert mass == pytest.approx(2.5 * kg_m, rel=0.02)


def test_a_heavy_section_takes_a_lift_and_a_helper_and_its_steel_is_charged():
    heavy = priced(Shape.ROUND_BAR, 80, length=1000.0)  # 39 kg
    light = priced(Shape.ROUND_BAR, 80, length=200.0)  # 8 kg
    assert heavy.job.lines.helper_min[0] == 2 * heavy.work.helper_min_per_lift
    assert light.job.lines.helper_min[0] == 0
    assert light.job.lines.handling_min[0] == pytest.approx(2 * (1 + 0.04 * 7.89), rel=0.01)
    assert heavy.costs.steel[0] == pytest.approx(5 * light.costs.steel[0])
    assert light.costs.steel[0] > 0


def test_without_a_length_a_section_is_handled_by_the_piece_and_its_steel_is_left_out_and_said():
    job = priced(Shape.ROUND_BAR, 80)
    assert np.isnan(job.job.lines.mass_each_kg[0])
    assert job.costs.steel[0] == 0
    assert "W280" in [p.code for p in job.problems]


def test_the_tip_reaches_through_the_whole_bar_and_the_time_follows_the_mean_chord():
    """Tip 1.2 covers to 19.5 mm: the mean chord of a 20 mm bar, 15.7 mm, but not the bar."""
    job = priced(Shape.ROUND_BAR, 20)
    line = int(job.job.lines.setting[0])
    assert job.job.settings.tip[line] == "1.6"
    assert job.job.settings.thickness_mm[line] == pytest.approx(20 * np.pi / 4)


def test_a_bar_whose_mean_chord_a_tip_covers_but_not_its_diameter_is_refused():
    thickest = max(row.to_mm for row in priced(Shape.ROUND_BAR, 20).kit.tip_rows)
    with pytest.raises(Exception, match="E2"):
        priced(Shape.ROUND_BAR, thickest * 1.1)  # its mean chord is 0.86 of what the largest tip covers
