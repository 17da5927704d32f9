"""A closed system's leak from its gauge, by the ideal gas law worked by hand."""

import numpy as np
import pytest

from estimator.quantities.pressure_decay import leak_rate_m3_h

R = 8.314462618


def test_the_leak_is_the_moles_that_went_as_volume_at_15_c_and_one_atmosphere():
    volume_m3, hours = 0.012, 0.25
    before = (4.0e5 + 101_325) * volume_m3 / (R * 293.15)
    after = (3.7e5 + 101_325) * volume_m3 / (R * 291.15)
    by_moles = (before - after) * R * 288.15 / 101_325 / hours
    found = leak_rate_m3_h(12, 4.0, 3.7, 15, temperature_before_c=20, temperature_after_c=18)
    assert found == pytest.approx(by_moles, rel=1e-6)


def test_a_fall_that_the_cooling_explains_is_no_leak():
    cooled = (5.0 + 1.01325) * 283.15 / 293.15 - 1.01325
    found = leak_rate_m3_h(10, 5.0, cooled, 60, temperature_before_c=20, temperature_after_c=10)
    assert found == pytest.approx(0.0, abs=1e-12)


def test_it_works_on_whole_columns():
    found = leak_rate_m3_h([10, 20], 3.0, [2.9, 2.9], 30, temperature_before_c=15, temperature_after_c=15)
    assert found[1] == pytest.approx(2 * found[0])
    assert isinstance(found, np.ndarray)


@pytest.mark.parametrize("wrong", [{"volume_l": 0}, {"time_min": 0}, {"pressure_after_bar": -0.1}])
def test_impossible_readings_are_refused(wrong):
    given = {"volume_l": 10, "pressure_before_bar": 3.0, "pressure_after_bar": 2.9, "time_min": 30} | wrong
    with pytest.raises(ValueError, match=r"above zero|zero or above"):
        leak_rate_m3_h(**given, temperature_before_c=15, temperature_after_c=15)
