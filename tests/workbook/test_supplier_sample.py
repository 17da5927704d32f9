"""The committed sample price lists are what the script makes, and read back without a problem."""

from __future__ import annotations

import importlib.util
from pathlib import Path

from estimator.check.price_lists_book import read_price_lists
from estimator.pricing.rent import RentCount
from estimator.read.load import load_book
from estimator.sheets.price_list import RENT_RULES
from estimator.write.book import write_book

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "sample_jobs" / "suppliers" / "price_lists.xlsx"


def test_the_committed_price_lists_are_the_ones_the_script_makes(tmp_path):
    spec = importlib.util.spec_from_file_location("make_supplier_sample", ROOT / "scripts" / "make_supplier_sample.py")
    assert spec is not None
    assert spec.loader is not None
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    made = tmp_path / "price_lists.xlsx"
    with made.open("wb") as file:
        write_book(script.build, title="Price lists (invented)")(file)
    fresh, committed = read_price_lists([load_book(made)]), read_price_lists([load_book(SAMPLE)])
    assert fresh == committed


def test_the_sample_reads_back_without_a_problem_and_every_name_says_invented():
    lists, problems = read_price_lists([load_book(SAMPLE)])
    assert problems == []
    assert len(lists.offers) == 9
    assert len(lists.suppliers) == 3
    assert all("(invented)" in supplier for supplier in lists.suppliers)


def test_the_rent_rules_of_the_sheet_are_the_rules_that_are_counted():
    assert tuple(RentCount) == RENT_RULES
