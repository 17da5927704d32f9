"""The customer's page from the estimate command: written when asked for, never with invented prices."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook
from tests.cli.test_estimate import GOOD, codes, run, write_list
from tests.samples.jobs import changed_shop


@pytest.fixture
def shop_file(tmp_path: Path) -> Path:
    path = tmp_path / "shop.xlsx"
    save(path, shop_book_workbook(changed_shop(prices_are_examples=False), title="Shop book"))
    return path


def test_quote_and_pdf_are_written_beside_the_estimate(tmp_path: Path, shop_file: Path) -> None:
    cut_list = write_list(tmp_path, [GOOD])
    quote = tmp_path / "quote.xlsx"
    options = ("--shop", shop_file, "--date", "2026-11-02", "--quote-number", "Q-0031", "--quote", quote, "--pdf")
    result = run("estimate", cut_list, *options)
    assert result.exit_code == 0, result.output
    assert sorted(p.name for p in tmp_path.iterdir()) == [
        "list.csv",
        "list_estimate.xlsx",
        "quote.pdf",
        "quote.xlsx",
        "shop.xlsx",
    ]
    assert "quote.pdf" in result.stdout
    assert "a draft, not in your register" in result.stdout
    assert "before you send the page, number it and put it in the register" in " ".join(result.stdout.split())
    assert "$ kerfledger quote" in result.stdout
    texts = [cell.value for row in openpyxl.load_workbook(quote)["Quotation"].iter_rows() for cell in row]
    assert "Quotation Q-0031" in texts


def test_invented_prices_write_no_quote_and_nothing_else(tmp_path: Path) -> None:
    cut_list = write_list(tmp_path, [GOOD])
    result = run("estimate", cut_list, "--date", "2026-11-02", "--quote", tmp_path / "quote.xlsx", "--json")
    assert result.exit_code == 3
    assert codes(result) == {"E817"}
    assert [p.name for p in tmp_path.iterdir()] == ["list.csv"]


def test_a_filled_list_is_refused_with_invented_prices_and_of_other_kinds_and_nothing_is_written(
    tmp_path: Path, shop_file: Path
) -> None:
    cut_list = write_list(tmp_path, [GOOD])
    for options, code in (((), "E814"), (("--force",), "E814")):
        asked = ("--shop", shop_file, "--date", "2026-11-02", "--fill", tmp_path / "filled.csv", "--json", *options)
        result = run("estimate", cut_list, *asked)
        assert (result.exit_code, codes(result)) == (3, {code})
    sheet = as_workbook(cut_list)
    result = run("estimate", sheet, "--date", "2026-11-02", "--fill", tmp_path / "filled.xlsx", "--json")
    assert (result.exit_code, codes(result)) == (3, {"E817"})
    assert sorted(p.name for p in tmp_path.iterdir()) == ["list.csv", "list.xlsx", "shop.xlsx"]


def test_the_reading_alone_is_asked_for_in_a_filled_list_named_after_the_list(tmp_path: Path, shop_file: Path) -> None:
    sheet = as_workbook(write_list(tmp_path, [GOOD]))
    result = run("estimate", sheet, "--shop", shop_file, "--date", "2026-11-02", "--fill-read-as")
    assert result.exit_code == 0, result.output
    headings = [cell.value for cell in openpyxl.load_workbook(tmp_path / "list_filled.xlsx").active[1]]
    assert {"Price each XTS", "Quantity read", "Notes on reading"} <= set(headings)


def as_workbook(cut_list: Path) -> Path:
    """Write a csv list as a workbook beside it."""
    book = openpyxl.Workbook()
    for line in cut_list.read_text(encoding="utf-8").splitlines():
        book.active.append([float(cell) if cell.isdigit() else cell for cell in line.split(",")])
    book.save(cut_list.with_suffix(".xlsx"))
    return cut_list.with_suffix(".xlsx")


def test_a_pdf_alone_is_named_after_the_list(tmp_path: Path, shop_file: Path) -> None:
    cut_list = write_list(tmp_path, [GOOD])
    result = run("estimate", cut_list, "--shop", shop_file, "--date", "2026-11-02", "--pdf")
    assert result.exit_code == 0, result.output
    assert (tmp_path / "list_quote.pdf").read_bytes().startswith(b"%PDF")
    assert not (tmp_path / "quote.xlsx").exists()
