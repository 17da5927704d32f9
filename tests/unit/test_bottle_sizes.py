"""What a full bottle of each fuel holds, as the month end counts it."""

from __future__ import annotations

import pytest

from estimator.check.example_shop import example_shop
from estimator.pricing.cylinder_content import sizes_of_shop
from estimator.reference import gas_density_kg_m3
from estimator.words import Fuel


@pytest.mark.parametrize("fuel", [fuel.value for fuel in Fuel])
def test_a_bottle_of_every_fuel_that_a_shop_may_buy_has_a_content(fuel: str) -> None:
    book = example_shop()
    bought = {"gas": fuel, "content": 8.0, "content_unit": "kg", "content_state": ""}
    rows = [row.model_copy(update=bought) for row in book.gas_prices if row.gas == "acetylene"]
    sizes = sizes_of_shop(book.model_copy(update={"gas_prices": tuple(rows)}))
    assert [size.gas for size in sizes] == [fuel]
    # by definition: 8 kg over the density at 15 °C and 101.325 kPa
    assert sizes[0].content_m3 == pytest.approx(8.0 / gas_density_kg_m3(fuel, "15C_1atm"))
