"""A variation is priced at the won quote's own rates, date and typed figures, and stands in the register."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from pathlib import Path

import pytest

from estimator.check.cut_list import TitleBlock
from estimator.pricing.job import Estimate, JobOrder, Reopened, estimate_job
from estimator.problems import WorkbookProblemsError
from estimator.tasks_quote import QuoteOrder, reopen_estimate, send_quote
from estimator.tasks_register import decide, open_register
from estimator.tasks_won import VariationOrder, send_variation, won_jobs
from tests.samples.estimates import own_shop, rate_cell, typed_in, written
from tests.samples.jobs import DATE, estimated, plates

EXTRA = "Mark,Qty,Thickness mm,Shape,Size A,Size B,Steel\nX1,4,20,rectangle,200,150,ours\n"
ON = dt.date(2026, 11, 20)


@pytest.fixture
def register(tmp_path: Path) -> Path:
    """A quote whose owner typed a markup, a work rate and a price of oxygen, and won it."""
    title = TitleBlock(customer="Example Works", job="Base plates")
    book = written(estimated(replace(plates(3), title=title, sha256="a" * 64), own_shop()), tmp_path / "e.xlsx")
    cells = {
        rate_cell(book, "Markup"): 0.4,
        rate_cell(book, "Setting a straightedge"): 1.5,
        rate_cell(book, "Oxygen: fees per cylinder"): 11.0,
    }
    send_quote(typed_in(book, tmp_path / "typed.xlsx", cells), QuoteOrder())
    (tmp_path / "extra.csv").write_text(EXTRA)
    return tmp_path / "quotes_register.xlsx"


def sent(register: Path, **order: object) -> Estimate:
    order = {"on": ON} | order
    return send_variation(register, "Q-0001", register.with_name("extra.csv"), VariationOrder(**order)).estimate  # type: ignore[arg-type]


def test_only_a_won_quote_is_varied(register: Path) -> None:
    with pytest.raises(WorkbookProblemsError) as caught:
        sent(register)
    assert [p.code for p in caught.value.problems] == ["E922"]


def by_hand(*, set_up_again: bool, lines: Estimate) -> Estimate:
    """The same lines priced by a shop book that holds what the owner typed."""
    once = {} if set_up_again else dict.fromkeys(("setup_job_min", "site_load_min", "site_travel_min"), 0.0)
    shop = own_shop(markup=0.4, **({} if set_up_again else {"minimum_job": 0.0, "delivery": 0.0}))
    gas = tuple(g.model_copy(update={"cylinder_fees": 11.0}) if g.gas == "oxygen" else g for g in shop.gas_prices)
    return estimate_job(
        lines.cuts,
        shop.model_copy(update={"gas_prices": gas}),
        JobOrder(date=DATE),
        reopened=Reopened(work_rates={"straightedge_min": 1.5, **once}),
    )


@pytest.mark.parametrize("set_up_again", [False, True])
def test_extras_take_the_quotes_own_rates_date_and_typed_figures(register: Path, set_up_again: bool) -> None:
    decide(register, "Q-0001", "won")
    estimate = sent(register, set_up_again=set_up_again)
    assert estimate.totals == by_hand(set_up_again=set_up_again, lines=estimate).totals
    assert (estimate.date, estimate.cuts.title.customer) == (DATE, "Example Works")
    assert any(
        row.key == "setup_job" and row.minutes_each == (20.0 if set_up_again else 0.0) for row in estimate.rows.rows
    )


def test_the_slip_says_what_it_belongs_to_and_has_a_line_to_sign(register: Path) -> None:
    decide(register, "Q-0001", "won")
    done = send_variation(register, "Q-0001", register.with_name("extra.csv"), VariationOrder(on=ON, pdf=True))
    assert done.page.title == "Variation 1 to quotation Q-0001, revision A"
    assert done.page.date == ON
    assert dict(done.page.terms)["Priced at"] == "The rates of quotation Q-0001, revision A, of 2026-11-02."
    assert [path.name for path, _ in done.files] == [
        "Q-0001_A_V1.xlsx", "Q-0001_A_V1.pdf", "Q-0001_A_V1_estimate.xlsx",
    ]  # fmt: skip


def test_a_variation_is_a_row_of_its_own_and_the_same_one_is_not_counted_twice(register: Path) -> None:
    decide(register, "Q-0001", "won", job_number="J-7")
    first = sent(register)
    sent(register, force=True)
    register.with_name("extra.csv").write_text(EXTRA.replace("X1,4", "X1,6"))
    sent(register)
    found, _ = open_register(register)
    rows = [(row.revision, row.variation, row.state, row.job_number) for row in found.quotes]
    assert rows == [("A", None, "won", "J-7"), ("A", 1, "open", "J-7"), ("A", 2, "open", "J-7")]
    assert round(found.quotes[1].price * 100) == first.totals.taxable


def test_a_won_variation_belongs_to_the_job_and_reopens_at_its_price(register: Path) -> None:
    decide(register, "Q-0001", "won")
    estimate = sent(register)
    assert len(won_jobs(register, "Q-0001")[0]) == 1
    decide(register, "Q-0001", "won", variation=1)
    jobs, problems = won_jobs(register, "Q-0001")
    assert [job.row.variation for job in jobs] == [None, 1]
    assert jobs[1].reopened.estimate.totals == estimate.totals
    assert not [p for p in problems if p.level == "error"]


def test_a_kept_estimate_that_was_changed_since_is_not_worked_from(register: Path) -> None:
    decide(register, "Q-0001", "won")
    kept = register.with_name("Q-0001_A_estimate.xlsx")
    typed_in(kept, kept, {rate_cell(kept, "Markup"): 0.9})
    assert reopen_estimate(kept).estimate.shop.shop.markup == 0.9
    with pytest.raises(WorkbookProblemsError) as caught:
        sent(register)
    assert [p.code for p in caught.value.problems] == ["E923"]
