"""Every list of the corpus reads to its expected rows exactly, in memory and out of a workbook file."""

from pathlib import Path

import pytest

from estimator.check.cut_list import CutList
from estimator.problems import Problem
from estimator.read.cells import Book
from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.read.load import load_book
from tests.workbook.corpus.case import Case, book_of, rows_read, write_case
from tests.workbook.corpus.cases import CASES


def read(case: Case, book: Book) -> tuple[CutList, list[Problem]]:
    return read_cut_list(book, sheet=case.sheet, columns=case.columns, shop_defaults=ListDefaults(unit=case.unit))


def as_expected(row: tuple[object, ...]) -> tuple[object, ...]:
    return tuple(float(v) if isinstance(v, int) and n else v for n, v in enumerate(row))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_list_reads_to_its_expected_rows(case: Case) -> None:
    cuts, problems = read(case, book_of(case))
    assert rows_read(cuts) == [as_expected(row) for row in case.expect], [p.text() for p in problems]
    assert " ".join(sorted(p.code for p in problems)) == case.codes, "\n".join(p.text() for p in problems)
    for name, value in case.title.items():
        assert getattr(cuts.title, name) == value
    if case.grades is not None:
        assert cuts.grade == case.grades


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_every_row_of_the_sheet_is_accounted_for(case: Case) -> None:
    cuts, _ = read(case, book_of(case))
    for counts in cuts.counts:
        assert sum(counts.by_kind.values()) == counts.rows
    if case.counts:
        said = {kind: int(n) for kind, n in (part.rsplit(" ", 1) for part in case.counts.split(", "))}
        assert cuts.counts[0].by_kind == said


@pytest.mark.parametrize("case", [case for case in CASES if case.in_file], ids=lambda case: case.name)
def test_a_list_reads_the_same_out_of_a_file(case: Case, tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    write_case(case, path)
    cuts, problems = read(case, load_book(path))
    assert rows_read(cuts) == [as_expected(row) for row in case.expect], [p.text() for p in problems]
    assert " ".join(sorted(p.code for p in problems)) == case.codes


def test_the_corpus_is_as_large_as_promised() -> None:
    assert len(CASES) >= 40
