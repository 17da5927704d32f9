"""The rack command as its user meets it: what it prints, what it writes, how it ends."""

from __future__ import annotations

import json
from pathlib import Path

import openpyxl
import pytest
from typer.testing import CliRunner, Result

from estimator.cli import app
from estimator.reference import table
from tests.rack_shop import heating_tip, shop_with, write_list, write_shop
from tests.samples.estimates import saved_again

RUNNER = CliRunner()
SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"
RACK = [
    {"cylinder_id": "O1", "gas": "oxygen", "cylinder": "O-10", "full_pressure_bar": 200, "gauge_bar": 150},
    {"cylinder_id": "A1", "gas": "acetylene", "cylinder": "A-7", "gross_kg": 64, "tare_kg": 58},
]
PLATES = ["P1", 8, "20 mm", "cut", "", "", "", "rectangle", "300 mm", "300 mm"]
HEATS = ["B1", 1, "20 mm", "bend", "H", 12, "", "", "", ""]


def run(*arguments: object) -> Result:
    return RUNNER.invoke(app, ["rack", *(str(a) for a in arguments)])


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write_shop(tmp_path / "shop_book.xlsx", shop_with(RACK, flame_tips=(heating_tip(1.66),)))
    write_list(tmp_path / "plates.csv", [PLATES])
    write_list(tmp_path / "heats.csv", [HEATS], date="2026-11-09")
    return tmp_path


def test_the_sample_shows_the_lines_at_which_its_cylinders_run_down(tmp_path: Path) -> None:
    result = run(SAMPLES / "cut_list.xlsx", "--out", tmp_path / "plan.xlsx")
    assert result.exit_code == 0
    assert "The rack does NOT finish the work: oxygen runs short at row" in result.stdout
    for cylinder in ("C-01", "C-02"):
        (row,) = [line for line in result.stdout.splitlines() if line.startswith(f"  {cylinder} ")]
        assert "row " in row
    assert "2 x O-10 from Supplier A (invented), ordered by 2026-" in " ".join(result.stdout.split())


def test_no_line_is_wider_than_a_terminal(tmp_path: Path) -> None:
    result = run(
        SAMPLES / "cut_list.xlsx", SAMPLES / "heating_list.csv", "--torches", 2, "--out", tmp_path / "plan.xlsx"
    )
    assert max(len(line) for line in result.stdout.splitlines() if not line.startswith("Wrote ")) <= 80


def test_a_head_over_its_limit_stops_with_the_count_and_the_plan_is_still_written(folder: Path) -> None:
    out = folder / "plan.xlsx"
    result = run(folder / "heats.csv", "--out", out)
    assert result.exit_code == 3
    assert "STOP: do not light tip H on this rack" in result.stdout
    assert "4 by 1/15, 3 by 1/10, 2 by 1/7 (too few for a heating tip)" in " ".join(result.stdout.split())
    assert "E420" in result.stderr
    assert out.exists()


def test_the_json_is_versioned_and_says_what_the_text_says(folder: Path) -> None:
    result = run(folder / "heats.csv", folder / "plates.csv", "--json", "--out", folder / "plan.xlsx")
    assert result.exit_code == 3
    answer = json.loads(result.stdout)
    assert (answer["schema"], answer["task"], answer["stop"]) == ("kerfledger/1", "rack", True)
    assert [one["file"] for one in answer["inputs"]] == ["plates.csv", "heats.csv", "shop_book.xlsx"]
    assert all(len(one["sha256"]) == 64 for one in answer["inputs"])
    (draw,) = [one for one in answer["draws"] if one["tip"] == "H"]
    assert draw["full_cylinders_needed"] == {"1/15": 4, "1/10": 3, "1/7": 2}
    assert draw["level"] == "stop"


@pytest.mark.parametrize(("psi", "refused"), [(15, False), (16, True)])
def test_a_working_pressure_of_16_psi_acetylene_is_refused_with_the_reason(
    tmp_path: Path, psi: float, refused: bool
) -> None:
    bar = psi * 0.0689475729
    tip = heating_tip(0.3).model_copy(update={"fuel_pressure_bar": bar})
    shop = write_shop(tmp_path / "shop_book.xlsx", shop_with(RACK, flame_tips=(tip,)))
    result = run(write_list(tmp_path / "plates.csv", [PLATES]), "--shop", shop)
    assert ("E401" in result.stderr) is refused
    assert result.exit_code == (3 if refused else 0)
    if refused:
        assert "can decompose by itself and explode" in result.stderr
        assert not (tmp_path / "plates_rack.xlsx").exists()


def test_a_cylinder_at_250_psi_is_no_working_pressure_and_passes(tmp_path: Path) -> None:
    rack = [RACK[0], RACK[1] | {"gauge_bar": 250 * 0.0689475729}]
    shop = write_shop(tmp_path / "shop_book.xlsx", shop_with(rack))
    result = run(write_list(tmp_path / "plates.csv", [PLATES]), "--shop", shop)
    assert result.exit_code == 0
    assert "E401" not in result.stderr
    assert "N410" in result.stderr


def test_the_workbook_has_every_sheet_a_falling_chart_for_each_gas_and_figures_that_add_up(folder: Path) -> None:
    run(folder / "plates.csv")
    book = openpyxl.load_workbook(folder / "plates_rack.xlsx", data_only=True)
    assert book.sheetnames == [
        "Plan",
        "Line by line",
        "Settings card",
        "Cautions",
        "The cart",
        "How worked out",
        "Problems",
    ]
    assert len(book["Plan"]._charts) == 2
    for sheet in book:
        assert sheet.page_setup.paperSize == "9" or sheet.page_setup.paperSize == 9
        assert sheet.print_area
    lines = [[cell.value for cell in row] for row in book["Line by line"].iter_rows(min_row=6)]
    left = [row[8] for row in lines if row[8] is not None]
    assert left == sorted(left, reverse=True)
    cautions = [[cell.value for cell in row][:3] for row in book["Cautions"].iter_rows(min_row=5)]
    assert cautions
    assert all(text and source for _, text, source in cautions)


def test_the_same_plan_gives_the_same_bytes(folder: Path) -> None:
    for name in ("one", "two"):
        run(folder / "plates.csv", "--out", folder / f"{name}.xlsx", "--card", folder / f"{name}.pdf")
    for kind in ("xlsx", "pdf"):
        assert (folder / f"one.{kind}").read_bytes() == (folder / f"two.{kind}").read_bytes()


def test_an_existing_plan_is_kept_unless_force_and_an_input_is_never_overwritten(folder: Path) -> None:
    assert run(folder / "plates.csv").exit_code == 0
    saved_again(folder / "plates_rack.xlsx")
    assert run(folder / "plates.csv").exit_code == 3
    assert run(folder / "plates.csv", "--force").exit_code == 0
    before = (folder / "shop_book.xlsx").read_bytes()
    result = run(
        folder / "plates.csv", "--shop", folder / "shop_book.xlsx", "--out", folder / "shop_book.xlsx", "--force"
    )
    assert result.exit_code == 3
    found_beside = run(folder / "plates.csv", "--out", folder / "shop_book.xlsx", "--force")
    assert found_beside.exit_code == 3
    assert (folder / "shop_book.xlsx").read_bytes() == before


def test_quiet_prints_problems_only(folder: Path) -> None:
    assert run(folder / "plates.csv", "--quiet").stdout == ""


def test_strict_stops_on_a_warning_and_writes_nothing(tmp_path: Path) -> None:
    rack = [{k: v for k, v in RACK[0].items() if k != "gauge_bar"}, RACK[1]]
    shop = write_shop(tmp_path / "shop_book.xlsx", shop_with(rack))
    listed = write_list(tmp_path / "plates.csv", [PLATES])
    assert run(listed, "--shop", shop, "--out", tmp_path / "plan.xlsx").exit_code == 0
    result = run(listed, "--shop", shop, "--strict", "--out", tmp_path / "strict.xlsx")
    assert result.exit_code == 3
    assert "W406" in result.stderr
    assert not (tmp_path / "strict.xlsx").exists()


def test_partial_leaves_out_what_cannot_be_known_and_says_so(tmp_path: Path) -> None:
    rack = [*RACK, {"cylinder_id": "A9", "gas": "acetylene", "cylinder": "A-7", "gauge_bar": 15}]
    shop = write_shop(tmp_path / "shop_book.xlsx", shop_with(rack))
    listed = write_list(
        tmp_path / "plates.csv", [PLATES, ["P2", 4, "see dwg", "cut", "", "", "", "rectangle", 100, 100]]
    )
    assert run(listed, "--shop", shop).exit_code == 3
    result = run(listed, "--shop", shop, "--partial")
    assert result.exit_code == 3
    assert "INCOMPLETE" in result.stdout
    assert "E402" in result.stderr
    assert (tmp_path / "plates_rack.xlsx").exists()


def test_the_limits_shown_are_the_published_ones_with_their_status(folder: Path) -> None:
    run(folder / "plates.csv")
    book = openpyxl.load_workbook(folder / "plates_rack.xlsx")
    said = " ".join(str(cell.value) for row in book["How worked out"].iter_rows() for cell in row if cell.value)
    for rule in table("acetylene_draw_rules").column("as_printed"):
        assert f"{rule} of the content an hour" in said
    assert "50 ft³/h from a cylinder of 225 ft³" in said
    assert "(memory)" in said
