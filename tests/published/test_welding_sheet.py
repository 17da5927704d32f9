"""A welding calculation sheet, read in two stored copies (idoc.tips, welding-calculation-2; html.pdfcookie.com,
0256e0reg4l1): 200 mm of 8 mm plate at 2.4 m/h and 0.70 m³/h of each gas, gas at 700 per 100 m³.

The sheet rounds the time to 0.08 h first and so prints 0.056 m³ and 0.40; unrounded it is 0.0583 m³ and 0.408.
"""

import pytest

from estimator.quantities.gas_use import gas_m3


def test_the_gas_and_its_cost_follow_without_rounding_the_time_first() -> None:
    gas = float(gas_m3(0.2 / 2.4 * 60, 0.70))
    assert gas == pytest.approx(0.0583, abs=0.00005)
    assert gas * 700 / 100 == pytest.approx(0.408, abs=0.0005)


def test_with_the_time_rounded_first_the_printed_answers_come_out() -> None:
    gas = float(gas_m3(round(0.2 / 2.4, 2) * 60, 0.70))
    assert gas == pytest.approx(0.056, abs=1e-9)
    assert round(gas * 700 / 100, 1) == 0.4  # 0.392, printed as 0.40
