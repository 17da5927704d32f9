"""One invented job the whole way: each figure is the same wherever it stands, and the page of the docs shows them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import jsonschema
import openpyxl
import pytest

from estimator.check.register import Register
from estimator.pricing.quote_history import hit_rates
from estimator.read.load import load_book
from estimator.sheets.work_log import WORK_LOG
from estimator.tasks_quote import reopen_estimate
from estimator.tasks_register import open_register
from estimator.write.rack.schema import RACK_SCHEMA
from estimator.write.register_schema import DECIDE_SCHEMA, JOB_CARD_SCHEMA, QUOTE_SCHEMA, REGISTER_SCHEMA
from scripts.make_one_job import JOB, LINES, NUMBER, PAGE, Story, gas_steps, live, page
from tests.cross_check.recalculate import resaved
from tests.samples.estimates import named_cell


@pytest.fixture(scope="module")
def story(tmp_path_factory: pytest.TempPathFactory) -> Story:
    return live(tmp_path_factory.mktemp("one_job"))


@pytest.fixture(scope="module")
def register(story: Story) -> Register:
    return open_register(story.folder / "quotes_register.xlsx")[0]


def minor(text: object) -> int:
    return round(float(str(text)) * 100)


def numbers_in(book: Path) -> set[int]:
    """Return every number of a customer's file, in minor units."""
    sheet = openpyxl.load_workbook(book).worksheets[0]
    return {round(cell.value * 100) for row in sheet.iter_rows() for cell in row if isinstance(cell.value, int | float)}


@pytest.mark.parametrize("revision", ["A", "B", "C"])
def test_sheet_page_and_register_have_one_price(story: Story, register: Register, revision: str) -> None:
    said = story.quotes[revision]["quote"]
    row = next(r for r in register.quotes if r.revision == revision and not r.variation)
    kept = reopen_estimate(story.folder / row.estimate).estimate
    for amount, total in ((said["price"], said["total"]), (row.price, row.total)):
        assert (minor(amount), minor(total)) == (kept.totals.taxable, kept.totals.total)
    assert {kept.totals.taxable, kept.totals.total} <= numbers_in(story.folder / row.file)
    assert (story.folder / row.file).with_suffix(".pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.recalculate
@pytest.mark.parametrize("revision", ["A", "C"])
def test_another_spreadsheet_program_has_the_quoted_total_on_the_sheet_that_was_kept(
    story: Story, revision: str, tmp_path: Path
) -> None:
    kept = story.folder / f"{NUMBER}_{revision}_estimate.xlsx"
    saved = resaved(kept, tmp_path / "saved.xlsx")
    sheet, cell = named_cell(saved, "job_total")
    total = openpyxl.load_workbook(saved, data_only=True)[sheet][cell].value
    assert minor(total) == minor(story.quotes[revision]["quote"]["total"])


def test_what_the_owner_typed_is_in_every_later_revision(register: Register) -> None:
    minutes = {line.revision: line.paid_time_min for line in register.lines if line.mark == "P1"}
    assert minutes == {"A": 190, "B": 190, "C": 190}
    prices = {line.revision: line.price_each for line in register.lines if line.mark == "P4"}
    assert prices["A"] == prices["B"] != 99.5
    assert prices["C"] == 99.5


@pytest.mark.parametrize(("before", "after"), [("A", "B"), ("B", "C")])
def test_the_changes_of_a_revision_add_up_to_the_difference_of_the_prices(
    story: Story, before: str, after: str
) -> None:
    changes = story.quotes[after]["changes"]
    was, now = (minor(story.quotes[revision]["quote"]["price"]) for revision in (before, after))
    assert (changes["since"], minor(changes["was"]), minor(changes["now"])) == (before, was, now)
    assert sum(minor(one["difference"]) for one in changes["lines"]) + minor(changes["rest"]) == now - was


def test_earlier_revisions_are_replaced_and_their_files_are_still_there(story: Story, register: Register) -> None:
    states = [(r.revision, r.variation, r.state) for r in register.quotes]
    assert states == [("A", None, "replaced"), ("B", None, "replaced"), ("C", None, "done"), ("C", 1, "done")]
    assert all((story.folder / name).is_file() for r in register.quotes for name in (r.file, r.estimate))
    assert {r.number for r in register.quotes} == {NUMBER}


def test_the_card_holds_the_pieces_that_were_sold(story: Story, register: Register) -> None:
    sold = {
        line.mark: line.quantity
        for row in register.quotes
        if row.state == "done"
        for line in register.lines_of(row.key)
    }
    on_card = {line["mark"]: line["quantity"] for group in story.card["groups"] for line in group["lines"]}
    assert on_card == sold
    assert story.card["pieces"] == sum(sold.values())
    assert len(sold) == len(LINES) + 1


def agreed(register: Register, name: str) -> float:
    return float(sum(getattr(row, name) for row in register.quotes if row.state == "done"))


def test_the_rack_is_planned_for_the_gas_that_was_quoted(story: Story, register: Register) -> None:
    oxygen, fuel = (gas["used_m3"] for gas in story.rack["gases"])
    assert oxygen == pytest.approx(agreed(register, "oxygen_m3"), abs=0.001)
    assert fuel == pytest.approx(agreed(register, "fuel_m3"), abs=0.001)


def month_job(story: Story) -> dict[str, Any]:
    (job,) = story.month["months"][0]["jobs"]
    assert isinstance(job, dict)
    return job


def test_the_month_end_sets_the_quote_beside_the_log(story: Story, register: Register) -> None:
    job = month_job(story)
    assert (job["job"], job["quoted"]["number"]) == (JOB, NUMBER)
    assert minor(job["quoted"]["price"]) == round(agreed(register, "price") * 100)
    assert job["quoted"]["paid_time_min"] == pytest.approx(60 * agreed(register, "hours"))
    assert minor(job["quoted"]["gas_cost"]) == round(agreed(register, "gas_cost") * 100)
    log = load_book(story.folder / "work_log.xlsx").sheets[0]
    head = next(row for row in log.rows if "Man-minutes" in row)
    column = head.index("Man-minutes")
    typed = [row[column] for row in log.rows if len(row) > column and isinstance(row[column], float)]
    assert job["paid_time_min"] == sum(typed)  # type: ignore[arg-type]


def test_the_bill_is_explained_to_the_last_coin(story: Story) -> None:
    assert story.month["reconciles"]
    assert story.month["findings"] == []
    month = story.month["months"][0]
    steps = {(step["step"], step["gas"]): minor(step["money"]) for step in month["where_the_money_went"]}
    total = steps.pop(("total", ""))
    assert sum(steps.values()) == total == minor(story.month["billed"])
    assert all(gas["explained"] for gas in month["gases"])
    tax = steps["tax", ""]
    assert minor(month_job(story)["cost"]) <= total - tax


@pytest.mark.parametrize("gas", ["oxygen", "acetylene"])
def test_the_bridge_from_quoted_to_explained_gas_adds_up_and_each_step_has_its_cause(story: Story, gas: str) -> None:
    """Quoted lines and lighting are the rack's plan, logged ones what the month end explains; metres differ by cm."""
    step = gas_steps(story)[gas]
    planned = next(each["used_m3"] for each in story.rack["gases"] if each["gas"] == gas)
    explained = next(each["expected_m3"] for each in story.month["months"][0]["gases"] if each["gas"] == gas)
    assert step["quoted lines"] + step["quoted lighting"] == pytest.approx(planned, abs=0.001)
    assert step["logged lines"] + step["logged lighting"] == pytest.approx(explained, abs=0.001)
    assert step["logged lines"] == pytest.approx(step["quoted lines"], rel=0.001)


def _log_of(path: Path) -> Any:
    return next(sheet for sheet in load_book(path).sheets if sheet.name == WORK_LOG.name)


def test_the_rows_at_the_foot_of_the_card_are_those_of_the_log(story: Story) -> None:
    """Copied from the card's workbook, where they stand under the headings of the work log."""
    on_card = _log_of(story.folder / f"{NUMBER}_job_card.xlsx")
    typed = _log_of(story.folder / "work_log.xlsx")
    heads = [next(row for row in sheet.rows if "Man-minutes" in row) for sheet in (on_card, typed)]
    assert heads[0] == heads[1]
    known = [
        heads[0].index(name) for name in ("Job", "Quote", "Tip", "Pieces", "Thickness", "Length cut", "Edge starts")
    ]
    rows = [
        [[row[at] for at in known] for row in sheet.rows if len(row) > 1 and row[1] == JOB]
        for sheet in (on_card, typed)
    ]
    assert rows[0] == rows[1]
    assert len(rows[0]) == len(story.card["log_rows"]) == 5


def test_one_quote_of_one_is_won(story: Story, register: Register) -> None:
    rate = hit_rates(register)[0]
    assert (rate.won, rate.lost, rate.open, rate.of_decided) == (1, 0, 0, 1.0)
    assert rate.won_price == pytest.approx(agreed(register, "price"))
    assert story.register["hit_rates"][0]["won_price"] == f"{rate.won_price:.2f}"


def test_what_each_command_says_as_json_keeps_to_its_published_schema(story: Story) -> None:
    said = [
        *((answer, QUOTE_SCHEMA) for answer in (*story.quotes.values(), story.variation)),
        (story.decided, DECIDE_SCHEMA),
        (story.register, REGISTER_SCHEMA),
        (story.card, JOB_CARD_SCHEMA),
        (story.rack, RACK_SCHEMA),
    ]
    for answer, schema in said:
        jsonschema.Draft202012Validator.check_schema(schema)
        jsonschema.validate(answer, schema)


def test_the_page_of_the_docs_shows_these_figures(story: Story) -> None:
    assert PAGE.read_text("utf-8") == page(story), "run python -m scripts.make_one_job"
