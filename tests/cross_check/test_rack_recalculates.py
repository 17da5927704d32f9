"""Another spreadsheet program works the rack plan out anew and gets the engine's figures."""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from estimator.cli import app
from tests.cross_check.recalculate import recalculated, stored

SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"


@pytest.mark.recalculate
def test_every_formula_of_the_plan_gives_the_stored_value(tmp_path):
    out = tmp_path / "plan.xlsx"
    lists = [str(SAMPLES / name) for name in ("cut_list.xlsx", "heating_list.csv")]
    CliRunner().invoke(app, ["rack", *lists, "--out", str(out)])
    ours, theirs = stored(out), recalculated(out)
    numbers = {at: value for at, value in ours.items() if isinstance(value, int | float)}
    assert len(numbers) > 200
    for at, value in numbers.items():
        assert theirs[at] == pytest.approx(value, abs=1e-9), at
    assert not [at for at, value in theirs.items() if isinstance(value, str) and value.startswith("#")]
