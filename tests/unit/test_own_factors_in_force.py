"""An estimate runs on the shop's own factors: each moves what it names and nothing else."""

import pytest

from estimator.check.example_shop import example_shop
from estimator.check.shop_book import FactorRow
from estimator.check.torch_kit import torch_kit, work_rates


def shop_with(**row):
    return example_shop().model_copy(update={"factors": (FactorRow(**row),)})


def test_paid_hours_lengthen_all_work_that_rests():
    plain, own = work_rates(example_shop()), work_rates(shop_with(what="man-hours", value=1.25))
    assert 1 + own.rest_allowance == pytest.approx(1.25 * (1 + plain.rest_allowance))
    assert own.layout_min_per_m == plain.layout_min_per_m


def test_cleaning_moves_the_norm_of_every_thickness():
    shop = shop_with(what="cleaning", value=1.5)
    plain, own = (torch_kit(s, "acetylene").charts[0].cleaning_min_per_m for s in (example_shop(), shop))
    assert own.likely == pytest.approx(1.5 * plain.likely)
    assert work_rates(shop).clean_above_30_per_mm == pytest.approx(
        1.5 * work_rates(example_shop()).clean_above_30_per_mm
    )


def test_a_speed_of_one_tip_leaves_the_others():
    kit = torch_kit(shop_with(what="travel speed", tip="1.2", by="hand", value=0.8), "acetylene")
    speeds = dict(zip(kit.tips.name, kit.factors, strict=True))
    assert speeds["1.2"].hand_speed == 0.8
    assert speeds["1.2"].machine_speed == speeds["1.6"].hand_speed == 1.0


def test_the_scatter_of_one_job_moves_no_likely_figure():
    shop = shop_with(what="one job's hours", value=1.0, low=0.9, high=1.1)
    assert work_rates(shop) == work_rates(example_shop())
