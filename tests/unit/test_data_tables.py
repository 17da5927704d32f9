"""Every table of figures: rows sourced, keys unique, values plausible, neighbours smooth, nothing moved unseen.

Bounds here are plausibility, from common practice and physics, no source.
"""

import csv
import hashlib
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from estimator.reference import Table, sources, table, table_names
from tests.published.rows import FOLDER, published_rows

DATA = Path(__file__).parents[2] / "estimator" / "data"
NO_SOURCE = "common practice, no source"
STATUSES = {"seen", "calculated", "memory", "judgement", NO_SOURCE}
# Files of cutting and gas rows; a certified data set that is one source whole (statistics) names it in its test.
PUBLISHED = [path.stem for path in sorted(FOLDER.glob("*.csv")) if "source_id" in path.read_text("utf-8")]
PROVENANCE = {"source_id", "locator", "status"}
# What makes a row the only one of its kind, where that is more than the first column.
KEYS = {
    "chart_fuel": ("fuel", "thickness_mm"),
    "chart_pierce": ("fuel", "thickness_mm"),
    "chart_speed": ("mode", "thickness_mm"),
    "gas_densities": ("gas", "state"),
    "norm_end_cleaning": ("section", "size_from"),
    "oxygen_density": ("pressure_bar_gauge", "temperature_c"),
}
FIGURES = [name for name in table_names() if "source_id" in table(name).columns]
# Columns by the way they end: lowest and highest plausible value.
PLAUSIBLE = {
    "thickness_mm": (1, 310),
    "_from_mm": (1, 310),
    "_to_mm": (5, 310),
    "bore_mm": (0.5, 4),
    "_mm_min": (40, 900),
    "_m3_h_70f_1atm": (0.05, 3),
    "_s": (1, 250),
    "_bar_at_from": (0.7, 7),
    "_bar_at_to": (0.7, 7),
    "low_bar": (0.05, 1.03),
    "high_bar": (0.05, 1.03),
    "_x_likely": (0.5, 1.5),
    "fraction_per_h": (1 / 20, 1 / 5),
    "density_kg_m3": (0.08, 700),
    "_kj_kg": (250, 450),
    "_btu_ft3_60f_1atm": (250, 2700),
}
LOW_LIKELY_HIGH = [
    ("chart_speed", "low_mm_min", "likely_mm_min", "high_mm_min"),
    ("chart_fuel", "low_m3_h_70f_1atm", "likely_m3_h_70f_1atm", "high_m3_h_70f_1atm"),
    ("chart_kerf", "low_mm", "likely_mm", "high_mm"),
    ("chart_pierce", "low_s", "likely_s", "high_s"),
    ("work_rates", "low", "likely", "high"),
    ("tip_fuel_pressure", "low_bar", "likely_bar", "high_bar"),
    ("heels", "low", "likely", "high"),
]
CURVES = [
    ("chart_speed", "mode", "mm_min", -1),
    ("chart_fuel", "fuel", "m3_h_70f_1atm", 1),
    ("chart_kerf", None, "mm", 1),
    ("chart_pierce", "fuel", "s", 1),
]


def curves() -> Iterator[tuple[str, str, int, Table]]:
    for name, by, unit, sign in CURVES:
        whole = table(name)
        for value in dict.fromkeys(whole.column(by)) if by else [None]:
            rows = whole.where(**{by: value}) if by else whole
            yield name, unit, sign, rows


@pytest.mark.parametrize("name", FIGURES)
def test_every_row_names_a_known_source_where_in_it_and_a_status(name: str) -> None:
    rows = table(name)
    for row in range(len(rows)):
        provenance = rows.source(row)
        assert provenance.sources
        assert provenance.locator or provenance.status not in {"seen", "calculated"}
        assert provenance.status in STATUSES


@pytest.mark.parametrize("name", PUBLISHED)
def test_every_published_row_beside_the_tests_is_sourced_too(name: str) -> None:
    rows = published_rows(name)
    assert rows
    for row in rows:
        assert set(row["source_id"].split("+")) <= set(sources())
        assert row["locator"]
        assert row["status"] in STATUSES


@pytest.mark.parametrize("name", sorted(set(table_names()) - set(FIGURES)))
def test_a_table_without_sources_holds_words_and_no_figure(name: str) -> None:
    assert all(values.dtype.kind == "U" for values in table(name).columns.values())


def test_nothing_recalled_or_judged_is_called_seen() -> None:
    for name in FIGURES:
        rows = table(name)
        for row in range(len(rows)):
            provenance = rows.source(row)
            if {source.status for source in provenance.sources} <= {"memory", "judgement", "common practice"}:
                assert provenance.status not in {"seen", "calculated"}, f"{name}, row {row + 2}"


@pytest.mark.parametrize("name", FIGURES)
def test_keys_are_unique(name: str) -> None:
    rows = table(name)
    key = KEYS.get(name, (next(iter(rows.columns)),))
    keys = list(zip(*(rows.column(column) for column in key), strict=True))
    assert len(set(keys)) == len(keys)


@pytest.mark.parametrize("name", FIGURES)
def test_values_are_plausible(name: str) -> None:
    for column, values in table(name).columns.items():
        if column in PROVENANCE or values.dtype.kind != "f":
            continue
        filled = values[~np.isnan(values)]
        assert np.all(np.isfinite(filled))
        for ending, (low, high) in PLAUSIBLE.items():
            if column.endswith(ending):
                assert np.all((filled >= low) & (filled <= high)), f"{column}: {filled.min()} to {filled.max()}"


@pytest.mark.parametrize(("name", "low", "likely", "high"), LOW_LIKELY_HIGH)
def test_low_likely_and_high_stand_in_order(name: str, low: str, likely: str, high: str) -> None:
    rows = table(name)
    assert np.all(rows.column(low) <= rows.column(likely))
    assert np.all(rows.column(likely) <= rows.column(high))
    assert np.all(rows.column(low) < rows.column(high)) or name == "work_rates"


@pytest.mark.parametrize("place", ["low", "likely", "high"])
def test_chart_curves_run_one_way_and_change_smoothly(place: str) -> None:
    """Slope in log against log: no more than 2 either way, so that a slipped digit (x 10) cannot hide."""
    seen = 0
    for name, unit, sign, rows in curves():
        thickness, values = rows.column("thickness_mm"), rows.column(f"{place}_{unit}")
        assert np.all(np.diff(thickness) > 0)
        assert np.all(sign * np.diff(values) >= 0), f"{name} {place}"
        steps = np.abs(np.diff(np.log(values)))
        assert np.all(steps <= np.maximum(2.0 * np.diff(np.log(thickness)), 0.1)), f"{name} {place}"
        seen += 1
    assert seen == 7  # two modes, three fuels, kerf, pierce


def test_the_machine_is_never_slower_than_the_hand() -> None:
    hand, machine = (table("chart_speed").where(mode=mode).column("likely_mm_min") for mode in ("hand", "machine"))
    assert np.all(machine >= hand)


def test_chart_curves_cover_one_range_and_pierces_end_at_100_mm() -> None:
    ends = {name: (rows.column("thickness_mm")[0], rows.column("thickness_mm")[-1]) for name, _, _, rows in curves()}
    assert ends == {
        "chart_speed": (3, 306),
        "chart_fuel": (3, 306),
        "chart_kerf": (3, 306),
        "chart_pierce": (3, 100),
    }


def test_tips_grow_and_their_ranges_and_pressures_meet_without_a_gap() -> None:
    tips = table("tips")
    assert np.all(np.diff(tips.column("tip_bore_mm")) > 0)
    for row, after in pairwise(range(len(tips))):
        assert tips.column("thickness_from_mm")[after] <= tips.column("thickness_to_mm")[row]
        step = (
            tips.column("cutting_oxygen_pressure_bar_at_from")[after]
            - tips.column("cutting_oxygen_pressure_bar_at_to")[row]
        )
        assert abs(step) <= 0.31
    assert tips.column("thickness_from_mm")[0] == table("chart_speed").column("thickness_mm").min()
    assert tips.column("thickness_to_mm")[-1] == table("chart_speed").column("thickness_mm").max()


def test_kerf_lies_at_1_4_to_2_4_times_the_bore_that_cuts_it() -> None:
    """1.4 to 2.2 x bore is the rule the kerf table was made by (judgement); 0.2 for rounding and overlaps."""
    tips, kerf = table("tips"), table("chart_kerf")
    for thickness, likely in zip(kerf.column("thickness_mm"), kerf.column("likely_mm"), strict=True):
        bore = tips.column("tip_bore_mm")[np.argmax(thickness <= tips.column("thickness_to_mm"))]
        assert 1.4 <= likely / bore <= 2.4


def test_the_sheet_gauge_is_its_weight_over_41_82() -> None:
    """Manufacturers' standard gauge: 41.82 lb/ft² for an inch of sheet (from memory, as the table is)."""
    gauge = table("sheet_gauge")
    assert gauge.column("weight_lb_ft2") / 41.82 == pytest.approx(gauge.column("thickness_in"), abs=6e-5)
    assert gauge.column("thickness_in") * 25.4 == pytest.approx(gauge.column("thickness_mm"), abs=6e-4)
    assert list(gauge.column("gauge")) == list(range(3, 17))


def test_norms_rise_with_size() -> None:
    for name, size, hours in (
        ("norm_plate_cleaning", "thickness_to_mm", "hours_per_10_m"),
        ("norm_bolt_heads", "head_diameter_to_mm", "hours_per_10_heads_acetylene"),
        ("norm_bolt_heads", "head_diameter_to_mm", "hours_per_10_heads_propane"),
    ):
        rows = table(name)
        assert np.all(np.diff(rows.column(size)) > 0)
        assert np.all(np.diff(rows.column(hours)) > 0)


def test_oxygen_density_rises_with_pressure_and_falls_with_temperature_on_a_full_grid() -> None:
    rows = table("oxygen_density")
    density = rows.column("density_kg_m3").reshape(33, 15)
    assert np.all(np.diff(density, axis=0) > 0)
    assert np.all(np.diff(density, axis=1) < 0)
    assert np.abs(np.diff(density, n=2, axis=0)[1:]).max() < 0.6  # smooth: a slipped digit bends it more


def test_propane_saturation_is_smooth() -> None:
    rows = table("propane_saturation")
    assert np.all(np.diff(rows.column("vapour_pressure_bar_gauge")) > 0)
    assert np.all(np.diff(rows.column("latent_heat_kj_kg")) < 0)
    assert np.abs(np.diff(rows.column("latent_heat_kj_kg"), n=2)).max() < 1.0


def test_no_figure_moves_unseen() -> None:
    """A figure changes in a commit of its own, with its source; the checksum beside this test changes with it."""
    with (Path(__file__).parent / "data_checksums.csv").open(newline="", encoding="utf-8") as file:
        kept = {row["table"]: row["sha256"] for row in csv.DictReader(file)}
    found = {path.stem: hashlib.sha256(path.read_bytes()).hexdigest() for path in DATA.glob("*.csv")}
    assert {name: found[name] for name in FIGURES} == kept


def test_every_listed_source_is_used() -> None:
    used = {
        source.id for name in FIGURES for row in range(len(table(name))) for source in table(name).source(row).sources
    }
    for name in PUBLISHED:
        used |= {source_id for row in published_rows(name) for source_id in row["source_id"].split("+")}
    assert set(sources()) - used <= {"IFC", "COMMON"}
