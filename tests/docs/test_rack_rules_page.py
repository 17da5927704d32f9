"""The page of the rack's rules says what the code and its tables say."""

import re
from pathlib import Path

from estimator.check.example_shop import example_shop
from estimator.check.torch_kit import work_rates
from estimator.pricing.rack.contents import ReadingErrors
from estimator.reference import gas_density_kg_m3, table
from estimator.units import HOUSE_STATE

PAGE = (Path(__file__).parents[2] / "docs" / "rack_rules.md").read_text(encoding="utf-8")


def test_the_page_names_every_published_limit_with_its_status():
    for name in ("acetylene_draw_rules",):
        rows = table(name)
        for printed, status in zip(rows.column("as_printed"), rows.column("status"), strict=True):
            (line,) = [line for line in PAGE.splitlines() if line.startswith(f"| {printed} |")]
            assert status in line


def test_the_page_gives_the_densities_and_errors_that_are_used():
    errors = ReadingErrors.of(work_rates(example_shop()))
    assert f"{errors.gauge_bar:g} bar and {errors.temperature_c:g} °C" in PAGE
    assert f"{errors.scale_kg:g} kg of scale, {errors.tare_kg:g} kg of tare" in PAGE
    assert f"{errors.rough_share * 100:.0f} % of a full cylinder" in PAGE
    for gas in ("acetylene", "propane"):
        assert re.search(rf"{gas} {gas_density_kg_m3(gas, HOUSE_STATE):.3f} kg/m³", PAGE)


def test_the_specific_volume_of_the_page_follows_from_its_density():
    ft3_per_lb = 0.45359237 / gas_density_kg_m3("acetylene", HOUSE_STATE) / 0.3048**3
    assert f"{ft3_per_lb:.1f} follows from" in PAGE
    at_freezing = 0.45359237 / gas_density_kg_m3("acetylene", "0C_1atm") / 0.3048**3
    assert abs(at_freezing - 13.6) < 0.1
