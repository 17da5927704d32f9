"""Minutes typed beside a piece are hand work on each of its pieces: priced, and said in its reading."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import openpyxl
import pytest

from estimator.check.cut_list import CutList
from estimator.commands.refused import shown_of_refusal
from estimator.pricing.explain import explain_line
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.problems import Problem, WorkbookProblemsError
from estimator.read.cells import Book, SheetCells
from estimator.read.cut_list import read_cut_list
from estimator.read.headings import match_heading
from estimator.words import Work
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.read_as import interpreted, pieces_said
from estimator.write.save import save
from tests.samples.jobs import DATE, NAN, changed_shop, estimated, plates

HEAD = ["Pos", "What", "Pcs", "Thick (mm)", "Size (mm)", "Remark"]
STRAP = ["3", "strap", 6, 8, "60x400", "heat and bend 90"]
GATE = ["10", "gate", 1, None, None, "straighten"]


def read(*rows: list[object], head: list[str] | None = None) -> tuple[CutList, list[Problem]]:
    held = [[float(v) if isinstance(v, int) else v for v in row] for row in (head or HEAD, *rows)]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", held)])  # type: ignore[arg-type]
    return read_cut_list(book)


def priced(*rows: list[object], head: list[str] | None = None) -> Estimate:
    cuts, problems = read(*rows, head=head)
    return estimate_job(cuts, changed_shop(steel_when_silent="theirs"), JobOrder(date=DATE), problems=problems)


def codes(problems: list[Problem], code: str) -> list[str]:
    return [p.do for p in problems if p.code == code]


def with_minutes(minutes: float) -> Estimate:
    cuts = plates(3)
    cuts.minutes_each = np.array([NAN, minutes, NAN])
    return estimated(cuts)


def test_minutes_beside_a_piece_that_is_cut_are_paid_once_a_piece_with_rest_and_burn_no_gas() -> None:
    without, timed = with_minutes(NAN), with_minutes(8.0)
    q = float(timed.cuts.quantity[1])
    more = timed.paid_time_min - without.paid_time_min
    assert more.tolist() == pytest.approx([0.0, q * 8.0 * (1.0 + timed.work.rest_allowance), 0.0])
    assert timed.job.lines.other_work_min[1] == pytest.approx(q * 8.0)
    assert timed.job.lines.flame_time_min.tolist() == without.job.lines.flame_time_min.tolist()
    assert timed.job.lines.fuel_m3.tolist() == without.job.lines.fuel_m3.tolist()
    assert timed.lines.price[1] > without.lines.price[1]


def test_twice_the_minutes_cost_twice_as_much_more() -> None:
    paid = [with_minutes(minutes).paid_time_min[1] for minutes in (0.0, 5.0, 10.0)]
    assert paid[2] - paid[0] == pytest.approx(2 * (paid[1] - paid[0]))


def test_minutes_are_added_to_the_flame_minutes_of_a_heated_piece() -> None:
    cuts = plates(1)
    cuts.work[0], cuts.tip[0], cuts.flame_min_each = Work.HEAT, "H-60", np.array([3.0])
    heated = estimated(cuts)
    cuts.minutes_each = np.array([4.0])
    both = estimated(cuts)
    assert both.job.lines.flame_time_min[0] == heated.job.lines.flame_time_min[0]
    assert both.job.lines.other_work_min[0] == pytest.approx(4.0 * cuts.quantity[0])


def test_the_reading_and_the_working_of_a_line_name_its_minutes() -> None:
    estimate = priced([*STRAP, 8], head=[*HEAD, "Minutes each"])
    assert pieces_said(estimate.cuts, 1.0) == ["rectangle 400 x 60, 8 min of work each"]
    step = next(step for step in explain_line(estimate, 0) if step.name == "other work")
    assert (step.figures, step.answer) == ("work by hand: 6 x 8 min, as typed", "48.00 min")


def test_the_warning_names_the_cell_and_goes_when_it_is_obeyed() -> None:
    asked = codes(read(STRAP)[1], "W236")
    assert len(asked) == 1
    assert asked[0].startswith("type its minutes for a piece in row 2 of a new column headed Minutes each;")
    head = [*HEAD, "Minutes each"]
    asked = codes(read([*STRAP, None], head=head)[1], "W236")
    assert asked[0].startswith("type its minutes for a piece in G2 under 'Minutes each';")
    assert codes(read([*STRAP, 8], head=head)[1], "W236") == []


def test_minutes_price_no_bevel_which_has_a_column_of_its_own() -> None:
    bevelled = [*STRAP[:5], "bevel one long side 45", 8]
    assert len(codes(read(bevelled, head=[*HEAD, "Minutes each"])[1], "W236")) == 1


@pytest.mark.parametrize(("work", "other"), [("other", ""), ("", "bend"), ("bend", ""), ("", "on the press")])
def test_a_row_of_work_with_minutes_settles_the_words_of_its_mark(work: str, other: str) -> None:
    row = ["3", None, 6, None, None, None, work or None, other or None, 8]
    head = [*HEAD, "Work", "Other work", "Minutes each"]
    assert codes(read([*STRAP, None, None, None], row, head=head)[1], "W236") == []
    estimate = priced([*STRAP, None, None, None], row, head=head)
    assert estimate.job.lines.other_work_min.tolist() == pytest.approx([0.0, 48.0])


def test_a_bend_typed_in_the_row_of_its_piece_is_told_of_unless_another_row_cuts_it() -> None:
    head = [*HEAD, "Work", "Minutes each"]
    bent = [*STRAP, "bend", 8]
    assert len(codes(read(bent, head=head)[1], "W252")) == 1
    assert codes(read([*STRAP, None, None], bent, head=head)[1], "W252") == []


def test_a_row_of_work_on_pieces_counts_none_of_them_again() -> None:
    row = ["3", None, 6, None, None, None, 8]
    trip = [None, "collect", 2, None, None, None, 30]
    estimate = priced([*STRAP, None], row, [*GATE, 45], trip, head=[*HEAD, "Minutes each"])
    assert estimate.cuts.is_piece.tolist() == [True, False, True, False]
    assert estimate.cuts.pieces == 7


def test_the_first_sheet_counts_pieces_and_names_what_the_lists_words_ask_for(tmp_path: Path) -> None:
    estimate = priced([*STRAP, None], [*GATE, 45], head=[*HEAD, "Minutes each"])
    save(tmp_path / "e.xlsx", estimate_workbook(estimate))
    first = openpyxl.load_workbook(tmp_path / "e.xlsx", data_only=True).worksheets[0]
    rows = [[cell.value for cell in row] for row in first.iter_rows()]
    assert next(row[1] for row in rows if row[0] == "Pieces") == 7
    texts = [row[0] for row in rows]
    not_in_it = texts[texts.index("What is not in it") :]
    assert "row 2: the note says bend, which is not priced." in not_in_it


def test_a_size_and_words_that_make_it_a_triangle_are_read_once() -> None:
    cuts = read(["2", "gusset", 12, 10, "120x120", "triangle"])[0]
    assert [said for _, said in interpreted(cuts)] == ["E2: “120x120” read as right triangle 120 mm x 120 mm"]


@pytest.mark.parametrize(
    ("heading", "column"),
    [
        *((text, "flame_min_each") for text in ("Flame minutes", "Heating minutes", "Minutes of flame", "Flame time")),
        *((text, "minutes_each") for text in ("Min each", "Mins", "min/pc", "Bend minutes")),
        ("Mass heated", "heated_kg_each"),
        ("Kg heated", "heated_kg_each"),
    ],
)
def test_minutes_and_heated_mass_are_read_by_these_headings(heading: str, column: str) -> None:
    found = match_heading(heading)
    assert found is not None
    assert found.column == column


def test_a_row_of_work_and_the_work_of_other_rows_are_asked_for_at_once() -> None:
    problems = read(STRAP, GATE)[1]
    told, _ = shown_of_refusal(problems, {"show_all": False})
    assert {p.code for p in told} == {"W236", "E244"}
    mended = read([*STRAP, 8], [*GATE, 45], head=[*HEAD, "Minutes each"])[1]
    assert not {"W236", "E244"} & {p.code for p in mended}


def test_a_refusal_that_asks_for_a_column_shows_the_heading_that_may_be_it() -> None:
    cuts, problems = read([*STRAP, "bend", 3], head=[*HEAD, "Work", "Burner flame mins"])
    with pytest.raises(WorkbookProblemsError) as caught:
        estimate_job(cuts, changed_shop(), JobOrder(date=DATE), problems=problems)
    told, _ = shown_of_refusal(caught.value.problems, {"show_all": False})
    assert {p.code for p in told} == {"E275", "N128"}
    note = next(p for p in told if p.code == "N128")
    assert "H1 'Burner flame mins' is not read" in note.fact
    assert '--columns "flame_min_each=H"' in note.do
