"""Each class of bad list is said with exactly the text that stands in ``bad_lists.txt``, and never priced in silence.

The texts stand there as the terminal prints them: read them aloud when one changes.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from estimator.cli import app
from estimator.problems import Level, all_codes
from estimator.read.cut_list import ListDefaults, bad_lines, read_cut_list
from tests.problems.bad_lists import BAD_LISTS
from tests.workbook.corpus.case import Case, book_of, write_case

TEXTS = Path(__file__).with_name("bad_lists.txt")


def expected() -> dict[str, str]:
    """Return the text of each class."""
    parts = re.split(r"^== (.+) ==\n", TEXTS.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]
    return {name: text.strip() for name, text in zip(parts[::2], parts[1::2], strict=True)}


def said(case: Case) -> str:
    """Return what is said of a list, as the terminal prints it."""
    defaults = ListDefaults(unit=case.unit)
    cuts, problems = read_cut_list(book_of(case), sheet=case.sheet, columns=case.columns, shop_defaults=defaults)
    errors = [p for p in problems if p.level is Level.ERROR]
    assert bool(errors) == bool(bad_lines(cuts, problems).any() or not len(cuts))
    return "\n".join(p.text() for p in problems if p.level is not Level.NOTE)


@pytest.mark.parametrize("name", BAD_LISTS)
def test_a_bad_list_is_said_with_this_text(name: str) -> None:
    assert said(BAD_LISTS[name]) == expected()[name]


def test_every_stated_text_is_tried_and_every_class_has_one() -> None:
    assert list(expected()) == list(BAD_LISTS)
    assert len(BAD_LISTS) >= 60


def test_every_code_of_tables_and_cells_has_a_bad_list() -> None:
    seen = set(re.findall(r"^(?:error|warning|note) ([EWN]\d{3})", TEXTS.read_text(encoding="utf-8"), re.MULTILINE))
    stated = {code for code in all_codes() if 100 < int(code[1:]) < 150 or 200 < int(code[1:]) < 270}
    # Notes and a second table are no fault of a list: the corpus shows them.
    assert stated - seen == {"N118", "N128", "N133", "N135", "W105"}


@pytest.mark.parametrize("name", [name for name, case in BAD_LISTS.items() if case.in_file])
def test_a_list_with_an_error_ends_with_3_writes_nothing_and_stays_as_it_was(name: str, tmp_path: Path) -> None:
    case = BAD_LISTS[name]
    path = tmp_path / "list.xlsx"
    write_case(case, path)
    before = path.read_bytes()
    options = [*(["--sheet", case.sheet] if case.sheet else []), *(["--columns", case.columns] if case.columns else [])]
    result = CliRunner().invoke(app, ["estimate", str(path), "--date", "2026-11-02", "--json", *options])
    if "error " in expected()[name]:
        assert result.exit_code == 3, result.output
        assert [p.name for p in tmp_path.iterdir()] == ["list.xlsx"]
    assert path.read_bytes() == before
