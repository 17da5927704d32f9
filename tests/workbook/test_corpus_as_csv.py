"""Lists of the corpus read the same out of a csv file, where every number is a text."""

import csv
import datetime as dt
from pathlib import Path

import pytest

from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.read.load import load_book
from tests.workbook.corpus.case import Case, rows_read
from tests.workbook.corpus.cases import CASES
from tests.workbook.test_corpus import as_expected


def can_be_csv(case: Case) -> bool:
    """Return whether a case holds one sheet of texts and numbers and nothing that csv cannot say."""
    held = [value for row in case.rows for value in row]
    apart = case.formats or case.merged or case.others or case.before or case.sheet or not case.in_file
    return not apart and not any(isinstance(value, dt.date | dt.time) for value in held)


def number(value: float, case: Case) -> str:
    """Return a number as the list's own country writes it."""
    text = f"{value:.12g}"
    return text.replace(".", ",") if case.name.startswith("german") else text


PLAIN = [case for case in CASES if can_be_csv(case)]


@pytest.mark.parametrize("case", PLAIN, ids=lambda case: case.name)
def test_a_list_reads_the_same_out_of_a_csv_file(case: Case, tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        for row in case.rows:
            cells = ["" if v is None else number(v, case) if isinstance(v, int | float) else v for v in row]
            csv.writer(file, delimiter=";").writerow(cells)
    cuts, problems = read_cut_list(load_book(path), columns=case.columns, shop_defaults=ListDefaults(unit=case.unit))
    said = "\n".join(p.text() for p in problems)
    assert rows_read(cuts) == [as_expected(row) for row in case.expect], said
    assert " ".join(sorted(p.code for p in problems)) == case.codes, said


def test_most_of_the_corpus_can_be_a_csv_file() -> None:
    assert len(PLAIN) >= 60
