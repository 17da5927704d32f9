"""The estimate command as its user meets it: what it prints, what it writes, how it ends."""

from __future__ import annotations

import csv
import json
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from estimator.cli import app
from tests.samples.estimates import heading_cell, typed_in

RUNNER = CliRunner()
SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"
HEADINGS = ("Mark", "Qty", "Thickness mm", "Cut length mm", "Pierces", "Steel")


def write_list(folder: Path, rows: Sequence[Sequence[object]], headings: Sequence[str] = HEADINGS) -> Path:
    path = folder / "list.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([headings, *rows])
    return path


def run(*arguments: object) -> Result:
    return RUNNER.invoke(app, [str(a) for a in arguments])


def codes(result: Result) -> set[str]:
    return {p["code"] for p in json.loads(result.stdout)["problems"] if p["level"] == "error"}


GOOD = ["A", 4, 12, 1000, 1, "theirs"]


@pytest.mark.parametrize(
    ("row", "code", "cell"),
    [
        (["B", 4, 400, 1000, 1, "theirs"], "E270", "C3"),
        (["B", "", 12, 1000, 1, "theirs"], None, "B3"),
        (["B", 4, 12, -5, 1, "theirs"], None, "D3"),
        (["B", 4, "see dwg", 1000, 1, "theirs"], None, "C3"),
    ],
    ids=["no tip", "no quantity", "negative length", "no thickness"],
)
def test_a_bad_line_is_a_coded_problem_at_its_cell_and_nothing_is_priced(
    tmp_path: Path, row: list[object], code: str | None, cell: str
) -> None:
    path = write_list(tmp_path, [GOOD, row])
    result = run("estimate", path, "--date", "2026-11-02", "--json")
    assert result.exit_code == 3
    found = [p for p in json.loads(result.stdout)["problems"] if p["level"] == "error"]
    assert found
    assert cell in {p["cell"] for p in found}
    if code:
        assert code in codes(result)
    assert [p.name for p in tmp_path.iterdir()] == ["list.csv"]


def test_partial_prices_the_rest_and_says_incomplete(tmp_path: Path) -> None:
    path = write_list(tmp_path, [GOOD, ["B", 4, "see dwg", 1000, 1, "theirs"]])
    result = run("estimate", path, "--date", "2026-11-02", "--partial", "--out", tmp_path / "out.xlsx")
    assert result.exit_code == 3
    assert "INCOMPLETE" in result.stdout
    assert (tmp_path / "out.xlsx").exists()
    data = json.loads(run("estimate", path, "--date", "2026-11-02", "--partial", "--json", "--force").stdout)
    assert data["incomplete"] is True
    assert [line["mark"] for line in data["lines"]] == ["A"]


def test_the_sums_of_the_json_are_the_sums_of_its_lines() -> None:
    data = json.loads(run("estimate", SAMPLES / "cut_list.xlsx", "--out", "never.xlsx", "--json", "--read-only").stdout)
    assert len(data["lines"]) == 25


def test_every_cost_part_of_a_line_adds_to_its_cost(tmp_path: Path) -> None:
    out = tmp_path / "out.xlsx"
    result = run("estimate", SAMPLES / "cut_list.xlsx", "--shop", SAMPLES / "shop_book.xlsx", "--out", out, "--json")
    data = json.loads(result.stdout)
    assert result.exit_code == 0, result.stderr
    parts = ("gas", "labour", "consumables", "rent", "material", "add_on", "overhead")
    for line in [*data["lines"], *data["job_rows"]]:
        assert sum(Decimal(line[f"{part}_cost"]) for part in parts) == Decimal(line["cost"])
    assert sum(Decimal(line["price"]) for line in data["lines"]) == Decimal(data["totals"]["price"])
    steps = {k: Decimal(v) for k, v in data["price_steps"].items()}
    assert sum(v for k, v in steps.items() if k != "taxable") == steps["taxable"]
    assert steps["taxable"] + Decimal(data["tax"]) == Decimal(data["total"])
    assert Decimal(data["price_range"]["low"]) < Decimal(data["total"]) < Decimal(data["price_range"]["high"])


def test_example_prices_are_said_on_the_face_and_in_the_json(tmp_path: Path) -> None:
    path = write_list(tmp_path, [GOOD])
    text = run("estimate", path, "--date", "2026-11-02", "--out", tmp_path / "a.xlsx")
    assert "EXAMPLE PRICES" in text.stdout
    data = run("estimate", path, "--date", "2026-11-02", "--out", tmp_path / "b.xlsx", "--json")
    assert json.loads(data.stdout)["example_prices"] is True


def test_an_output_is_replaced_only_with_force(tmp_path: Path) -> None:
    path = write_list(tmp_path, [GOOD])
    out = tmp_path / "out.xlsx"
    assert run("estimate", path, "--date", "2026-11-02", "--out", out).exit_code == 0
    typed_in(out, out, {heading_cell(out, "My minutes", 0): 50})
    before = out.read_bytes()
    again = run("estimate", path, "--date", "2026-11-02", "--out", out)
    assert again.exit_code == 3
    assert out.read_bytes() == before
    assert run("estimate", path, "--date", "2026-11-02", "--out", out, "--force").exit_code == 0


def test_a_misspelt_fuel_is_answered_with_the_nearest(tmp_path: Path) -> None:
    result = run("estimate", write_list(tmp_path, [GOOD]), "--fuel", "acetelyne")
    assert result.exit_code == 3
    assert "nearest is acetylene" in result.stderr


def test_strict_turns_a_warning_into_an_error(tmp_path: Path) -> None:
    path = write_list(tmp_path, [GOOD])
    assert run("estimate", path, "--out", tmp_path / "a.xlsx").exit_code == 0
    assert run("estimate", path, "--out", tmp_path / "b.xlsx", "--strict").exit_code == 3


def test_explain_works_one_line_with_figures_and_sources() -> None:
    result = run("explain", SAMPLES / "cut_list.xlsx", "RI1", "--shop", SAMPLES / "shop_book.xlsx")
    assert result.exit_code == 0
    for said in ("2 x Ring", "cutting-oxygen flow: 4.09", "chart speed: 310 mm/min", "common practice", "price each"):
        assert said in result.stdout
    assert max(len(line) for line in result.stdout.splitlines()) <= 80


def test_settings_at_19_mm_agree_with_the_trade() -> None:
    """Common practice, no source: a tip rated to 19 mm runs 30 to 35 psi oxygen and 3 to 5 psi acetylene."""
    data = json.loads(run("settings", "19mm", "--json").stdout)
    psi = {k: v * 14.5038 for k, v in data["settings"][0].items() if k.endswith("pressure_bar")}
    assert 30 * 0.9 <= psi["oxygen_pressure_bar"] <= 35 * 1.1
    low, high = (data["settings"][0][f"fuel_pressure_{end}_bar"] * 14.5038 for end in ("low", "high"))
    assert low <= 5
    assert high >= 3
    text = run("settings", "3/4in").stdout
    assert "2 to 3 psi" in text
    assert "common practice, no source" in text


def test_our_own_steel_without_sizes_is_left_out_and_said(tmp_path: Path) -> None:
    path = write_list(tmp_path, [["A", 4, 12, 1000, 1, "ours"]])
    result = run("estimate", path, "--date", "2026-11-02", "--out", tmp_path / "a.xlsx", "--json")
    data = json.loads(result.stdout)
    assert "W280" in {p["code"] for p in data["problems"]}
    assert data["lines"][0]["material_cost"] == "0.00"
