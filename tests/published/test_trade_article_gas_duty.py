"""Gas cost by duty, from a trade article.

Source: thefabricator.com, "Shielding gas consumption efficiency", part I (read as an excerpt): gas at 2.50 per 100 ft³,
flow 45 ft³/h; 8 hours of steady flow cost 9.00, at a duty of 30 % they cost 2.70. It is about shielding gas; only the
arithmetic of price, flow and time is checked. The printed answers are exact to the cent, so is the tolerance.
"""

from __future__ import annotations

import pytest

from estimator.pricing.gas_price import cylinder_price, gas_cost_per_m3
from estimator.pricing.money import to_minor

FT3_IN_M3 = 0.3048**3  # definition of the foot; one reference state throughout
FLOW_M3_H = 45 * FT3_IN_M3


@pytest.mark.parametrize(("duty", "printed_minor"), [(1.0, 900), (0.30, 270)])
def test_eight_hours_at_45_cubic_feet_an_hour_cost_the_printed_sum(duty, printed_minor):
    price = cylinder_price(2.50, content_m3=250 * FT3_IN_M3, priced_amount_m3=100 * FT3_IN_M3)
    cost = gas_cost_per_m3(price, cylinder_fees=0, content_m3=250 * FT3_IN_M3, uncredited_m3=0)
    assert to_minor(cost * FLOW_M3_H * 8 * duty) == printed_minor
