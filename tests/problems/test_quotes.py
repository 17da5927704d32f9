"""The exact text of every problem of quotes and their register, each from a broken workbook, as the terminal prints it.

The texts stand in ``quotes.txt``: read them aloud when one changes.
"""

from __future__ import annotations

import datetime as dt
import json
import re
import zipfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import openpyxl
import pytest

from estimator.check.cut_list import TitleBlock
from estimator.check.register import QuoteRow
from estimator.pricing.job import JobOrder
from estimator.problems import Place, Problem, WorkbookProblemsError, all_codes
from estimator.tasks import ReadOptions
from estimator.tasks_again import OldEstimate, own_figures_for, with_last_prices
from estimator.tasks_past import check_past
from estimator.tasks_quote import QuoteOrder, reopen_estimate, send_quote
from estimator.tasks_register import decide, kept_file, open_register
from estimator.tasks_week import rack_of_won
from estimator.tasks_won import open_won
from estimator.write.estimate import record_sheet
from estimator.write.estimate.kept_figures import ChangedRate, KeptLine
from estimator.write.quote.gaps import quote_gaps
from estimator.write.register import changing_register
from tests.samples.estimates import heading_cell, own_shop, rate_cell, setting_cell, typed_in, written
from tests.samples.jobs import estimated, plates

TEXTS = Path(__file__).with_name("quotes.txt")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("quotes")


@pytest.fixture(scope="module")
def book(folder: Path) -> Path:
    title = TitleBlock(customer="Example Works", job="Base plates")
    return written(estimated(replace(plates(3), title=title, sha256="a" * 64), own_shop()), folder / "estimate.xlsx")


def said(action: Callable[[], object]) -> list[Problem]:
    with pytest.raises(WorkbookProblemsError) as caught:
        action()
    return caught.value.problems


def register_of(folder: Path, *rows: QuoteRow) -> Path:
    folder.mkdir()
    path = folder / "quotes_register.xlsx"
    for row in rows:
        with changing_register(path) as change:
            change.add(row, [])
            change.write()
    return path


def row(number: str, **more: object) -> QuoteRow:
    values = {"number": number, "date": dt.date(2026, 11, 2), "customer": "Another Works", "price": 10.0}
    return QuoteRow.model_validate(values | more)


def reopened(book: Path) -> Callable[[], object]:
    return lambda: reopen_estimate(book)


def every_problem(folder: Path, book: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, list[Problem]]:
    cases: dict[str, list[Problem]] = {}
    plain = openpyxl.Workbook()
    plain.worksheets[0]["A1"] = "Mark"
    plain.save(folder / "list.xlsx")
    cases["not an estimate"] = said(reopened(folder / "list.xlsx"))
    broken = typed_in(book, folder / "broken.xlsx", {("Record", "A2"): "0" * 64})
    cases["record changed"] = said(reopened(broken))
    name_cell = "A" + rate_cell(book, "Markup")[1].lstrip("B")
    cases["row gone"] = said(reopened(typed_in(book, folder / "gone.xlsx", {("Rates", name_cell): "Up"})))
    cases["line moved"] = said(reopened(typed_in(book, folder / "moved.xlsx", {("Lines", "A6"): 99})))
    cases["line typed below"] = said(reopened(typed_in(book, folder / "below.xlsx", {("Lines", "B9"): "P9"})))
    price = setting_cell(book, "Price of a tip")
    cases["two prices of a tip"] = said(reopened(typed_in(book, folder / "typed.xlsx", {price: 77.5})))
    over = heading_cell(book, "Price each", 1)
    cases["sheet says otherwise"] = said(reopened(with_stored(book, folder / "stored.xlsx", over, "99.5")))
    cases["not recalculated"] = reopen_estimate(typed_in(book, folder / "dead.xlsx", {})).problems
    few = typed_in(book, folder / "few.xlsx", {heading_cell(book, "Quantity", 0): "a few"})
    cases["typed figure refused"] = said(reopened(few))
    cases["not to be priced"] = said(
        reopened(typed_in(book, folder / "life.xlsx", {rate_cell(book, "Life of a tip"): 0}))
    )
    real = record_sheet.record_from_data
    monkeypatch.setattr(record_sheet, "record_from_data", lambda data: real(older(data)))
    cases["another engine"] = said(reopened(book))
    cases["another engine, sent before"] = reopen_estimate(book, old_engine_is_a_note=True).problems
    monkeypatch.undo()

    other = register_of(folder / "other", row("Q-0007"))
    order = QuoteOrder(register=other, out=folder / "out.xlsx")
    cases["number of another"] = said(lambda: send_quote(book, replace(order, number="Q-0007")))
    cases["no next number"] = said(
        lambda: send_quote(book, replace(order, register=register_of(folder / "odd", row("spring"))))
    )
    mine = QuoteOrder(register=folder / "mine" / "quotes_register.xlsx", out=folder / "out.xlsx", force=True)
    (folder / "mine").mkdir()
    send_quote(book, mine)
    dearer = typed_in(book, folder / "dearer.xlsx", {rate_cell(book, "Markup"): 0.5})
    cases["revision sent"] = said(lambda: send_quote(dearer, replace(mine, revision="A")))
    cases["same quote"] = send_quote(book, mine).problems
    cases["no such quote"] = said(lambda: decide(other, "Q-0070", "won"))
    with changing_register(other):
        cases["register busy"] = said(lambda: changing_register(other, patience_s=0.05).__enter__())
    double = openpyxl.load_workbook(other)
    for cell in "ADEG":
        double["Quotes"][f"{cell}6"] = double["Quotes"][f"{cell}5"].value
    double.save(folder / "double.xlsx")
    cases["quote twice"] = [p for p in open_register(folder / "double.xlsx")[1] if p.code == "W910"]
    del double["Quoted lines"]
    double.save(folder / "double.xlsx")
    cases["register without its lines"] = said(lambda: changing_register(folder / "double.xlsx").__enter__())
    cases["kept estimate gone"] = said(lambda: kept_file(other, open_register(other)[0].quotes[0]))
    cuts = plates(4)
    cuts.thickness_mm[2] = 900.0
    partly = written(estimated(cuts, own_shop(), partial=True), folder / "partly.xlsx")
    cases["incomplete"] = said(lambda: send_quote(partly, order))
    unsaid = estimated(replace(plates(1), quantity=np.ones(1)), own_shop(shop_name=""), date=None)
    cases["left unsaid"] = quote_gaps(unsaid, dt.date(2026, 11, 2))
    dated = estimated(replace(plates(3), title=TitleBlock(customer="Example Works", job="Plates")), own_shop())
    cases["validity past"] = quote_gaps(dated, dt.date(2027, 6, 1), dt.date(2027, 6, 1))
    typed_in(folder / "out.xlsx", folder / "out.xlsx", {("Quotation", "A1"): "by hand"})
    differs = said(lambda: send_quote(book, replace(mine, force=False)))
    cases["file differs"] = [replace(problem, place=Place("Q-0001_A.xlsx")) for problem in differs]
    cases |= of_won_quotes(mine.register or book, book)
    return cases | of_own_figures(book) | of_the_week(folder) | of_past_jobs(folder)


def of_the_week(folder: Path) -> dict[str, list[Problem]]:
    """A register whose won work is all left out of the plan, and one with nothing won."""
    won = {"state": "won", "fuel": "acetylene"}
    rows = (row("Q-1", **{**won, "fuel": "propane"}), row("Q-2", **won))
    week = register_of(folder / "week", *rows)
    plan = {"until": dt.date(2026, 11, 20)}
    return {"nothing won": said(lambda: rack_of_won(week, (), None, JobOrder(), ReadOptions(), **plan))}


def of_past_jobs(folder: Path) -> dict[str, list[Problem]]:
    head = "Job,Cut list,Thickness,Metres cut,Man-hours\n"
    cases = {}
    for name, rows in (("no past jobs", ""), ("past row empty", "J-1,,12,,4\nJ-2,,12,3,"), ("list", "J-1,a.csv,,,4")):
        path = folder / "past.csv"
        path.write_text(head + rows)
        cases[f"past jobs: {name}"] = said(lambda path=path: check_past(path, None, JobOrder()))
    return cases


def of_won_quotes(register: Path, book: Path) -> dict[str, list[Problem]]:
    def opened() -> object:
        found, _ = open_register(register)
        return open_won(register, found, found.quotes[0])

    cases = {"not won": said(opened)}
    decide(register, "Q-0001", "won")
    kept = register.parent / open_register(register)[0].quotes[0].estimate
    typed_in(kept, kept, {rate_cell(book, "Markup"): 0.9})
    return cases | {"kept estimate changed": said(opened)}


def of_own_figures(book: Path) -> dict[str, list[Problem]]:
    cuts = replace(plates(3).take([0]), title=TitleBlock(customer="Example Works"))
    lines = [
        KeptLine(Place("old.xlsx", "Lines", 6), "P0", 2, float(cuts.thickness_mm[0]), 99.0, 180.0, None, ""),
        KeptLine(Place("old.xlsx", "Lines", 7), "P9", 3, 12.0, 4.0, 25.0, 6.75, "as last time"),
    ]
    rates = [ChangedRate(Place("old.xlsx", "Rates", 6, "B"), "Oxygen: fees per cylinder", "XTS each", "2.5", "11")]
    own = own_figures_for(cuts, OldEstimate(lines, rates))
    again = with_last_prices(estimated(cuts, own_shop()), book.parent / "mine" / "list.xlsx")
    return {"own figures": own.problems, "last prices": [p for p in again.problems if p.code[1] == "9"]}


def older(data: dict[str, object]) -> dict[str, object]:
    return data | {"total_minor": 123456, "engine": "0.0.9"}


def with_stored(book: Path, copy: Path, place: tuple[str, str], value: str) -> Path:
    """Write a copy whose stored value of one worked cell is another, as if its formula had been changed."""
    names = openpyxl.load_workbook(book).sheetnames
    part = f"xl/worksheets/sheet{names.index(place[0]) + 1}.xml"
    with zipfile.ZipFile(book) as old, zipfile.ZipFile(copy, "w") as new:
        for name in old.namelist():
            data = old.read(name)
            if name == part:
                cell = re.compile(rf'(<c r="{place[1]}"[^>]*>.*?<v>)[^<]*(</v>)'.encode())
                data, count = cell.subn(rb"\g<1>" + value.encode() + rb"\g<2>", data)
                assert count == 1
            new.writestr(name, data)
    return copy


def test_every_problem_of_quotes_has_its_exact_text(folder: Path, book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    cases = every_problem(folder, book, monkeypatch)
    text = "\n".join(f"# {name}\n" + "\n".join(p.text() for p in found) + "\n" for name, found in cases.items())
    assert text == TEXTS.read_text("utf-8")
    stated = {code for code in all_codes() if code[1] == "9"}
    found = {problem.code for of_case in cases.values() for problem in of_case}
    assert stated <= found, json.dumps(sorted(stated - found))
