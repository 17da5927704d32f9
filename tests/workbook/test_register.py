"""The register of quotes keeps what the owner typed, and what was written reads back."""

from __future__ import annotations

import datetime as dt
import zipfile
from pathlib import Path

import openpyxl
import pytest
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.utils.datetime import CALENDAR_MAC_1904

from estimator.check.register import QuotedLine, QuoteKey, QuoteRow, Register, read_register
from estimator.problems import WorkbookProblemsError
from estimator.read.load import load_book
from estimator.tasks_register import decide, find_register
from estimator.write.own_cells import OwnUnits
from estimator.write.register import changing_register, lock_of
from tests.cross_check.recalculate import resaved

DATE = dt.date(2026, 11, 2)


def row(number: str, **more: object) -> QuoteRow:
    return QuoteRow.model_validate(
        {"number": number, "date": DATE, "customer": "Example Works", "price": 1308.0, "total": 1556.52, "hours": 16.3}
        | {"oxygen_m3": 7.6, "fuel": "acetylene", "fuel_m3": 0.99}
        | more
    )


def line(number: str, mark: str = "P1", **more: object) -> QuotedLine:
    values = {"number": number, "mark": mark, "quantity": 8, "price_each": 21.5, "amount": 172.0, "thickness_mm": 19.05}
    return QuotedLine.model_validate(values | more)


def add(path: Path, *rows: QuoteRow, units: OwnUnits | None = None) -> None:
    for one in rows:
        with changing_register(path) as change:
            change.add(one, [line(one.number, revision=one.revision, variation=one.variation)])
            assert change.write(units=units) == []


def read(path: Path) -> Register:
    register, problems = read_register(load_book(path))
    assert not [p for p in problems if p.level == "error"]
    return register


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "quotes_register.xlsx"


def without_rows(records: list[QuoteRow]) -> list[QuoteRow]:
    return [one.model_copy(update={"row": 0}) for one in records]


def test_what_is_added_reads_back_from_a_new_register_and_from_one_that_is_there(path: Path) -> None:
    rows = [
        row("Q-0001"),
        row("Q-0001", revision="B", why="=1+1", work_from=DATE, state="won"),
        row("Q-0001", revision="B", variation=1, title="two more holes <r>"),
    ]
    add(path, *rows)
    found = read(path)
    assert without_rows(found.quotes) == rows
    assert [one.key for one in found.lines] == [one.key for one in rows]
    assert {one.thickness_mm for one in found.lines} == {19.05}


def test_an_inch_shops_register_keeps_its_lengths(path: Path) -> None:
    add(path, row("Q-0001"), row("Q-0002"), units=OwnUnits("in"))
    values = openpyxl.load_workbook(path)["Quoted lines"]
    assert [one.thickness_mm for one in read(path).lines] == pytest.approx([19.05, 19.05])
    assert [c.value for c in values["F"] if isinstance(c.value, float)] == [0.75, 0.75]


def owner_edits(path: Path) -> None:
    """Do what an owner does: a column, a sheet, a colour, a comment, a chart of his own, another order of columns."""
    book = openpyxl.load_workbook(path)
    sheet = book["Quotes"]
    sheet["AB3"], sheet["AB5"], sheet["AB90"] = "Called back", "Tuesday", "far below"
    sheet["E5"].comment = Comment("pays late", "owner")
    sheet.column_dimensions["E"].width = 41
    notes = book.create_sheet("My notes", 0)
    notes["A1"] = "ring the mill"
    chart = BarChart()
    chart.add_data(Reference(sheet, min_col=7, min_row=5, max_row=6))
    notes.add_chart(chart, "C3")
    book.save(path)


def test_what_the_owner_added_stays_when_rows_are_added(path: Path) -> None:
    add(path, row("Q-0001"))
    owner_edits(path)
    before = {name: zipfile.ZipFile(path).read(name) for name in zipfile.ZipFile(path).namelist()}
    add(path, row("Q-0002"))
    decide(path, "Q-0001", "won", job_number="J-1")
    after = {name: zipfile.ZipFile(path).read(name) for name in zipfile.ZipFile(path).namelist()}
    assert before.keys() == after.keys()
    assert sum(before[name] != after[name] for name in before) == 2, "only the two sheets of the register"
    sheet = openpyxl.load_workbook(path)["Quotes"]
    assert [sheet[cell].value for cell in ("AB3", "AB5", "AB90")] == ["Called back", "Tuesday", "far below"]
    assert sheet["E5"].comment.text == "pays late"
    assert [(one.number, one.state, one.job_number) for one in read(path).quotes] == [
        ("Q-0001", "won", "J-1"),
        ("Q-0002", "open", ""),
    ]


@pytest.mark.recalculate
def test_a_register_saved_by_another_spreadsheet_program_is_written_on(path: Path, tmp_path: Path) -> None:
    add(path, row("Q-0001"))
    resaved(path, path)
    add(path, row("Q-0002", work_from=DATE))
    resaved(path, path)
    decide(path, "Q-0002", "lost", why="too dear", on=DATE)
    found = read(path)
    assert [one.number for one in found.quotes] == ["Q-0001", "Q-0002"]
    assert (found.quotes[1].state, found.quotes[1].work_from, found.quotes[1].decided_on) == ("lost", DATE, DATE)
    assert found.quotes[0].date == DATE


def test_dates_are_right_in_a_workbook_that_counts_from_1904(path: Path) -> None:
    add(path, row("Q-0001"))
    book = openpyxl.load_workbook(path)
    book.epoch = CALENDAR_MAC_1904
    book.save(path)
    add(path, row("Q-0002"))
    assert [one.date for one in read(path).quotes] == [DATE, DATE]


def test_a_row_that_cannot_be_read_stays_and_its_number_is_not_given_again(path: Path) -> None:
    add(path, row("Q-0001"))
    book = openpyxl.load_workbook(path)
    book["Quotes"]["A6"], book["Quotes"]["D6"], book["Quotes"]["G6"] = "Q-0007", "next week", 10
    book.save(path)
    with changing_register(path) as change:
        number = change.register.next_number()
        assert [p.place.cell for p in change.problems if p.level == "error"] == ["D6"]
        assert number == "Q-0008"
        change.add(row(number), [])
        change.write()
    sheet = openpyxl.load_workbook(path)["Quotes"]
    assert [sheet[f"A{n}"].value for n in (5, 6, 7)] == ["Q-0001", "Q-0007", "Q-0008"]
    assert sheet["D6"].value == "next week"


def test_a_formula_of_the_owners_is_not_typed_over(path: Path) -> None:
    add(path, row("Q-0001"))
    book = openpyxl.load_workbook(path)
    state = next(c for c in book["Quotes"][3] if c.value == "State").column_letter
    book["Quotes"][f"{state}5"] = '=IF(1,"open","won")'
    book.save(path)
    resaved(path, path)
    before = path.read_bytes()
    with pytest.raises(WorkbookProblemsError) as caught:
        decide(path, "Q-0001", "won")
    assert [p.code for p in caught.value.problems] == ["E916"]
    assert path.read_bytes() == before


def test_a_register_that_another_program_saved_meanwhile_is_left_alone(path: Path) -> None:
    add(path, row("Q-0001"))
    with changing_register(path) as change:
        owner_edits(path)
        change.add(row("Q-0002"), [])
        with pytest.raises(WorkbookProblemsError) as caught:
            change.write()
    assert [p.code for p in caught.value.problems] == ["E916"]
    assert [one.number for one in read(path).quotes] == ["Q-0001"]


def test_a_register_that_is_open_in_a_spreadsheet_program_is_left_alone(path: Path) -> None:
    add(path, row("Q-0001"))
    path.with_name(f".~lock.{path.name}#").touch()
    with pytest.raises(WorkbookProblemsError) as caught, changing_register(path):
        pytest.fail("the register was given out")
    assert [p.code for p in caught.value.problems] == ["E806"]


def test_a_second_run_waits_and_then_says_that_the_register_is_busy(path: Path) -> None:
    with (
        changing_register(path),
        pytest.raises(WorkbookProblemsError) as caught,
        changing_register(path, patience_s=0.1),
    ):
        pytest.fail("two runs hold the register")
    assert [p.code for p in caught.value.problems] == ["E915"]
    assert lock_of(path).exists()


def test_one_key_is_never_added_twice(path: Path) -> None:
    add(path, row("Q-0001"))
    with changing_register(path) as change, pytest.raises(ValueError, match="in the register already"):
        change.add(row("q-0001", revision="a"), [])


def test_the_register_of_the_shop_is_found_from_a_jobs_own_folder(tmp_path: Path) -> None:
    job = tmp_path / "2026" / "gate"
    job.mkdir(parents=True)
    assert find_register(job / "estimate.xlsx") == job / "quotes_register.xlsx"
    (tmp_path / "shop_book.xlsx").touch()
    assert find_register(job / "estimate.xlsx") == tmp_path / "quotes_register.xlsx"
    (tmp_path / "2026" / "quotes_register.xlsx").touch()
    assert find_register(job / "estimate.xlsx") == tmp_path / "2026" / "quotes_register.xlsx"


def test_a_quote_is_found_whatever_the_case_of_its_number(path: Path) -> None:
    add(path, row("Q-0001"), row("Q-0001", revision="B"))
    assert read(path).find(QuoteKey("Q-0001", "B")) is not None
    now, _ = decide(path, "q-0001", "won", revision="b")
    assert (now.revision, now.state) == ("B", "won")
