"""The committed sample price lists are what the script makes, and read back without a problem."""

from __future__ import annotations

import importlib.util
import re
import zipfile
from pathlib import Path

from estimator.check.price_lists_book import read_price_lists
from estimator.pricing.landed import Component
from estimator.read.load import load_book
from estimator.tasks_compare import compare_books
from estimator.write.book import write_book
from estimator.write.comparison_book import comparison_workbook
from tests.price_list_books import OFFER, TERM, price_list_book

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


def test_a_suppliers_name_that_looks_like_a_formula_stays_a_text_in_the_comparison(tmp_path):
    hostile = '=HYPERLINK("http://example.invalid","x")'
    book = price_list_book(
        offers=[OFFER | {"supplier": hostile}, OFFER | {"price": 40.0}],
        terms=[TERM | {"supplier": hostile}, TERM],
        fees=[],
    )
    comparison, _ = compare_books([book])
    assert comparison is not None
    assert comparison.best.name == hostile
    path = tmp_path / "comparison.xlsx"
    with path.open("wb") as file:
        comparison_workbook(comparison)(file)
    with zipfile.ZipFile(path) as parts:
        for name in parts.namelist():
            text = parts.read(name).decode("utf-8")
            formulas = "".join(re.findall(r"<(?:c:)?f>.*?</(?:c:)?f>", text))
            assert "HYPERLINK" not in formulas, name
            assert "example.invalid" not in text or name.startswith(("xl/sharedStrings", "xl/charts/")), name


def test_a_currency_without_decimals_is_compared_in_whole_units(tmp_path):
    comparison, _ = compare_books([price_list_book()], decimals=0)
    assert comparison is not None
    plan = comparison.best.plans[0]
    # 40 m³ at 15 °C, 1 bar of 34.00 for 10.6 m³: 128.30 for the gas used, rounded to 128
    assert plan.component_minor(Component.GAS) == 128
    path = tmp_path / "comparison.xlsx"
    with path.open("wb") as file:
        comparison_workbook(comparison)(file)
    totals = [c for row in load_book(path).sheets[0].rows for c in row if c == float(comparison.best.total_minor)]
    assert totals
