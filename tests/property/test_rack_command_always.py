"""Whatever stands on the rack and in the list: gas used + left + heel = gas at the start, for every cylinder."""

import json
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from typer.testing import CliRunner

from estimator.cli import app
from tests.rack_shop import heating_tip, shop_with, write_list, write_shop

oxygen = st.builds(
    lambda bar, celsius, heel: {
        "gas": "oxygen",
        "cylinder": "O-10",
        "full_pressure_bar": 200,
        "gauge_bar": bar,
        "temperature_c": celsius,
        "heel_share": heel,
    },
    st.integers(0, 200),
    st.integers(-20, 50),
    st.sampled_from([0.0, 0.02, 0.3]),
)
acetylene = st.builds(
    lambda kg, manifold, heel: {
        "gas": "acetylene",
        "cylinder": "A-7",
        "gross_kg": round(58 + kg, 2),
        "tare_kg": 58,
        "manifold": manifold,
        "heel_share": heel,
    },
    st.floats(0, 7.3),
    st.sampled_from(["", "M1"]),
    st.sampled_from([0.0, 0.08]),
)
lines = st.lists(
    st.one_of(
        st.tuples(st.just("cut"), st.integers(1, 60), st.sampled_from(["6 mm", "20 mm", "40 mm"])),
        st.tuples(st.sampled_from(["bend", "straighten"]), st.integers(1, 10), st.just("20 mm")),
    ),
    min_size=1,
    max_size=5,
)


def rows(work):
    for number, (what, quantity, thickness) in enumerate(work):
        if what == "cut":
            yield [f"C{number}", quantity, thickness, what, "", "", "", "rectangle", "300 mm", "200 mm"]
        else:
            yield [f"H{number}", quantity, thickness, what, "H", 5, 0, "", "", ""]


@settings(max_examples=20, deadline=None)
@given(st.lists(st.one_of(oxygen, acetylene), max_size=5), lines, st.sampled_from([0.3, 0.55, 1.5]), st.integers(1, 3))
def test_used_and_left_and_heel_are_what_was_there_for_every_cylinder(rack, work, flow, torches):
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        numbered = [row | {"cylinder_id": f"N{i}"} for i, row in enumerate(rack)]
        shop = write_shop(folder / "shop_book.xlsx", shop_with(numbered, flame_tips=(heating_tip(flow),)))
        listed = write_list(folder / "list.csv", list(rows(work)))
        out = ["--out", str(folder / "plan.xlsx"), "--torches", str(torches), "--json"]
        result = CliRunner().invoke(app, ["rack", str(listed), "--shop", str(shop), *out])
    assert result.exit_code in (0, 3), result.output
    answer = json.loads(result.stdout)
    assert result.exit_code == (3 if answer["stop"] else 0)
    cylinders = [one for gas in answer["gases"] for one in gas["cylinders"]]
    assert sorted(one["cylinder"] for one in cylinders) == sorted(row["cylinder_id"] for row in numbered)
    for one in cylinders:
        assert one["used_m3"] + one["left_m3"] + one["heel_m3"] == pytest.approx(one["start_m3"], abs=1e-9)
        assert min(one["used_m3"], one["left_m3"], one["heel_m3"]) >= 0
    for gas in answer["gases"]:
        drawn = sum(one["used_m3"] for one in gas["cylinders"])
        assert drawn + gas["short_m3"] == pytest.approx(gas["used_m3"], abs=1e-9)
