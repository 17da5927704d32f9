"""The settings card: two tips a page, its figures metric and inch, every caution with its source."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from typer.testing import CliRunner

from estimator.check.example_shop import example_shop
from estimator.cli import app
from estimator.pricing.rack.card import COLUMNS_PER_TIP, card_of_settings
from estimator.pricing.settings_card import setting_for_thickness
from estimator.write.rack.card_words import card_rows

SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"
NEEDS_PDFTOTEXT = pytest.mark.skipif(shutil.which("pdftotext") is None, reason="pdftotext is not installed")


def run(*arguments: object) -> int:
    return CliRunner().invoke(app, [str(a) for a in arguments]).exit_code


def pages(pdf: Path) -> list[str]:
    text = subprocess.run(["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True).stdout.decode()
    return text.split("\f")[:-1]


@NEEDS_PDFTOTEXT
def test_each_page_has_two_tips_and_every_tip_at_work_once(tmp_path: Path) -> None:
    run("rack", SAMPLES / "cut_list.xlsx", SAMPLES / "heating_list.csv", "--card", tmp_path / "card.pdf",
        "--out", tmp_path / "plan.xlsx")  # fmt: skip
    tips = [re.findall(r"TIP (\S+)", page) for page in pages(tmp_path / "card.pdf")]
    assert [one for one in tips if one] == [["0.8", "1.2"], ["1.6", "H-60"], ["W-3"]]


@NEEDS_PDFTOTEXT
def test_every_page_defers_to_the_manual_and_says_that_the_example_is_one(tmp_path: Path) -> None:
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    listed = shutil.copy(SAMPLES / "heating_list.csv", folder)
    run("rack", listed, "--card", tmp_path / "card.pdf")
    for page in pages(tmp_path / "card.pdf"):
        assert "Your torch's own manual and your local codes come first." in page
        assert "EXAMPLE FIGURES" in page


@NEEDS_PDFTOTEXT
def test_a_heating_tip_that_one_cylinder_cannot_feed_says_stop_on_the_card(tmp_path: Path) -> None:
    run("rack", SAMPLES / "heating_list.csv", "--card", tmp_path / "card.pdf", "--out", tmp_path / "plan.xlsx")
    (page,) = [page for page in pages(tmp_path / "card.pdf") if "TIP H-60" in page]
    assert "STOP: pulls" in page
    assert "approved manifold" in page


@NEEDS_PDFTOTEXT
def test_the_card_of_one_thickness_sets_pressures_with_the_lever_down_and_names_every_source(tmp_path: Path) -> None:
    assert run("settings", "3/4in", "--pdf", tmp_path / "card.pdf") == 0
    said = pages(tmp_path / "card.pdf")
    assert "Oxygen, lever down" in said[0]
    assert "3/4 in" in said[0]
    whole = "\n".join(said)
    bullets = re.findall(r"(?m)^ *- +\w", whole)
    assert len(bullets) > 30
    assert len(re.findall(r"\[", whole)) == len(bullets)
    assert run("settings", "3/4in", "--pdf", tmp_path / "card.pdf") == 3
    assert run("settings", "3/4in", "--pdf", tmp_path / "card.pdf", "--force") == 0


def test_metric_and_inch_figures_are_the_same_quantities() -> None:
    (card,) = card_of_settings(setting_for_thickness(example_shop(), 20.0, ""))
    factors = {"Oxygen, lever down": 14.5038, "Speed by hand": 1 / 25.4, "Cutting oxygen": 35.3147}
    found = {row.label: row.figures[0] for row in card_rows(card)}
    for label, factor in factors.items():
        metric, inch = (float(text.split()[0]) for text in (found[label].main, found[label].beside))
        assert inch == pytest.approx(metric * factor, rel=0.04, abs=0.6)


def test_many_thicknesses_keep_to_one_entry_with_the_thinnest_and_the_thickest() -> None:
    shop = example_shop()
    found = [s for mm in (20, 25, 30, 40, 50, 60, 75) for s in setting_for_thickness(shop, float(mm), "")]
    (card,) = card_of_settings(found)
    shown = [column.thickness_mm for column in card.columns]
    assert len(shown) == COLUMNS_PER_TIP
    assert (shown[0], shown[-1]) == (20, 75)
    assert sorted([*shown, *card.between_mm]) == [20, 25, 30, 40, 50, 60, 75]
