"""The exact text of every problem of bills and work logs, each from workbooks with that one fault.

The texts stand in ``month_end.txt`` beside this file: read them aloud when one changes.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from estimator.problems import Level, Problem, WorkbookProblemsError, all_codes
from estimator.problems import bills as of_bills
from estimator.problems import work_log as of_log
from estimator.problems.code import ProblemCode
from estimator.read.cells import Book
from estimator.tasks_month_end import close_books
from tests.month_end_books import AGREED, BILL, COUNTS, ENTRY, LINES, NOTE, TAG, TERM, bills_file, day, log_file

TEXTS = Path(__file__).with_name("month_end.txt")
OTHER_BILL = BILL | {"supplier": "Supplier B", "bill_number": "7"}
OTHER_LINE = LINES[0] | {"bill_number": "7", "supplier": "Supplier B"}
FULL_LINES = [row | {"supplier": "Supplier A"} for row in LINES]
RIGHT = log_file()
ODD = {"size": "Z-99"}

CASES: dict[str, tuple[Book, Book | None]] = {
    "E601": (bills_file(bills=[], lines=[], notes=[], counts=[], agreed=[], terms=[]), None),
    "E602": (bills_file(lines=[LINES[0] | {"bill_number": "11"}, *LINES]), None),
    "E603": (bills_file(bills=[BILL, OTHER_BILL], lines=[*FULL_LINES, OTHER_LINE]), None),
    "W604": (bills_file(notes=[NOTE | {"supplier": "Suplier A"}]), None),
    "E605": (bills_file(bills=[BILL | {"currency": "XAA"}, BILL | {"bill_number": "2", "currency": "XBB"}]), None),
    "E606": (bills_file(bills=[BILL | {"period_to": day(27, 2)}]), None),
    "E607": (bills_file(agreed=[AGREED[0] | {"content": "10 m³"}, AGREED[1]]), None),
    "W608": (bills_file(lines=[LINES[0] | {"unit": "m³", "quantity": 30.0, "unit_price": 4.2}, LINES[1]]), None),
    "E609": (bills_file(bills=[BILL | {"kind": "credit note"}]), None),
    "W610": (
        bills_file(
            lines=[row | ODD for row in LINES],
            notes=[NOTE | ODD],
            counts=[row | ODD for row in COUNTS],
            agreed=[row | ODD | {"content": None} for row in AGREED],
        ),
        RIGHT,
    ),
    "W611": (bills_file(notes=[]), None),
    "W612": (bills_file(counts=[]), None),
    "W613": (bills_file(counts=COUNTS[:1]), None),
    "W614": (bills_file(agreed=[AGREED[0] | {"valid_from": day(6)}, AGREED[1]]), None),
    "N615": (bills_file(terms=[]), None),
    "W616": (bills_file(terms=[TERM | {"rent_rule": None}]), None),
    "E701": (bills_file(), log_file(entries=[])),
    "W702": (bills_file(), log_file(entries=[ENTRY | {"cut_length_m": None, "flame_time_min": None}])),
    "N703": (bills_file(), log_file(entries=[ENTRY | {"flame_time_min": None}])),
    "W704": (bills_file(), log_file(entries=[ENTRY | {"oxygen_before": "90", "oxygen_after": "120 bar"}])),
    "E705": (bills_file(), log_file(tags=[TAG | {"date_off": day(1)}])),
    "W706": (bills_file(), log_file(tags=[TAG | {"jobs": "J-11"}])),
    "W707": (bills_file(), log_file(tags=[TAG, TAG | {"date_on": day(5), "date_off": day(12)}])),
    "W708": (bills_file(notes=[NOTE | {"date": day(18)}]), RIGHT),
    "N709": (bills_file(), log_file(entries=[ENTRY, ENTRY | {"date": day(9, 4)}])),
    "W710": (bills_file(), log_file(entries=[ENTRY | {"fuel_before": "11 bar"}])),
    "W711": (bills_file(), log_file(entries=[ENTRY, ENTRY | {"thickness_mm": 400.0}])),
}


def problems_of(code: str) -> list[Problem]:
    bills, log = CASES[code]
    try:
        return list(close_books(bills, log).problems)
    except WorkbookProblemsError as refused:
        return refused.problems


def text_of(code: str) -> str:
    return next(problem.text() for problem in problems_of(code) if problem.code == code)


def test_the_right_month_has_no_problem_at_all():
    assert close_books(bills_file(), RIGHT).problems == ()


def test_every_text_stands_as_it_was_read_and_agreed():
    assert "\n\n".join(text_of(code) for code in CASES) + "\n" == TEXTS.read_text(encoding="utf-8")


def test_every_code_of_bills_and_log_has_its_workbook():
    stated = {c.code for module in (of_bills, of_log) for c in vars(module).values() if isinstance(c, ProblemCode)}
    assert stated == set(CASES)
    assert stated <= set(all_codes())


@pytest.mark.parametrize("code", CASES)
def test_only_an_error_stops_the_month_end(code):
    bills, log = CASES[code]
    if code.startswith("E"):
        with pytest.raises(WorkbookProblemsError) as refused:
            close_books(bills, log)
        assert code in {p.code for p in refused.value.problems if p.level is Level.ERROR}
    else:
        assert close_books(bills, log).total_minor != 0


def test_strictly_a_warning_stops_it_too():
    bills, log = CASES["W702"]
    with pytest.raises(WorkbookProblemsError):
        close_books(bills, log, strictly=True)
