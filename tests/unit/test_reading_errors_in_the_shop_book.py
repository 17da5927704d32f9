"""The doubts of readings are cells of the shop book: the rack, the month end and the log take them from there."""

import numpy as np
import pytest

from estimator.check.example_shop import example_shop
from estimator.check.shop_book import ShopBook, WorkRate
from estimator.check.torch_kit import built_in_work_rates, work_rates
from estimator.pricing.cylinder_content import ReadingDoubts
from estimator.pricing.log_observations import shared_errors
from estimator.pricing.plates_bought import plates_bought
from estimator.pricing.rack.contents import ReadingErrors
from tests.samples.jobs import estimated, plates


def shop_with(**rates: float) -> ShopBook:
    rows = tuple(WorkRate(name=name, likely=value) for name, value in rates.items())
    return example_shop().model_copy(update={"work_rates": rows})


def test_the_month_ends_built_in_doubts_are_half_of_the_tables_limits() -> None:
    assert ReadingDoubts.of(work_rates(example_shop())) == ReadingDoubts()


@pytest.mark.parametrize("gauge_bar", [3.0, 8.0])
def test_a_shop_that_reads_its_gauges_otherwise_says_so_in_one_cell(gauge_bar: float) -> None:
    rates = work_rates(shop_with(read_gauge_bar=gauge_bar, gauge_class_share=0.02))
    assert ReadingErrors.of(rates).gauge_bar == gauge_bar
    assert ReadingDoubts.of(rates).gauge_bar == gauge_bar / 2
    assert shared_errors(rates)["oxygen gauge"] == 0.01


def test_every_work_rate_lies_between_its_low_and_its_high() -> None:
    for name, row in built_in_work_rates().items():
        low, likely, high = (float(row[key]) for key in ("low", "likely", "high"))
        assert low <= likely <= high, name
        assert row["status"], name


def test_the_bore_s_coefficient_moves_the_cutting_oxygen_in_proportion() -> None:
    usual, less = estimated(plates(4)), estimated(plates(4), shop_with(orifice_coefficient=0.81))
    ratio = less.job.lines.cutting_oxygen_m3 / usual.job.lines.cutting_oxygen_m3
    assert ratio == pytest.approx(np.full(4, 0.9))


def test_a_plate_that_is_filled_less_well_asks_for_more_plates() -> None:
    def count(fill: float) -> int:
        return sum(buy.option.plates for buy in plates_bought(estimated(plates(40), shop_with(plate_fill=fill))).buys)

    assert count(0.5) > count(0.95)
