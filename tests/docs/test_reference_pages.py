"""Generated pages are fresh, and what the JSON promises is what it gives."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
from typer.testing import CliRunner

from estimator.cli import app
from estimator.write.estimate_schema import ESTIMATE_SCHEMA
from estimator.write.rack.schema import RACK_SCHEMA
from scripts.make_reference import DOCS, pages

SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"


@pytest.mark.parametrize("name", pages())
def test_a_generated_page_is_fresh(name: str) -> None:
    made = pages()[name]
    assert (DOCS / name).read_text("utf-8") == made, "run python -m scripts.make_reference"


def test_the_json_of_the_sample_keeps_to_the_published_schema(tmp_path: Path) -> None:
    out = tmp_path / "out.xlsx"
    result = CliRunner().invoke(
        app, ["estimate", str(SAMPLES / "cut_list.xlsx"), "--shop", str(SAMPLES / "shop_book.xlsx"), "--out", str(out),
              "--json"],
    )  # fmt: skip
    jsonschema.Draft202012Validator.check_schema(ESTIMATE_SCHEMA)
    jsonschema.validate(json.loads(result.stdout), ESTIMATE_SCHEMA)


@pytest.mark.parametrize("options", [(), ("--fuel", "propane"), ("--fuel", "natural gas"), ("--torches", "4")])
def test_the_json_of_a_rack_plan_keeps_to_the_published_schema(tmp_path: Path, options: tuple[str, ...]) -> None:
    out = tmp_path / "out.xlsx"
    listed = str(SAMPLES / ("heating_list.csv" if not options else "cut_list.xlsx"))
    result = CliRunner().invoke(
        app, ["rack", listed, "--shop", str(SAMPLES / "shop_book.xlsx"), "--out", str(out), "--json", *options]
    )
    jsonschema.Draft202012Validator.check_schema(RACK_SCHEMA)
    jsonschema.validate(json.loads(result.stdout), RACK_SCHEMA)
