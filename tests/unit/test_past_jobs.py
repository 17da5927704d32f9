"""Finished jobs stand beside what would have been said of them: the estimate's own figures, job by job."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from typer.testing import CliRunner

from estimator.check.past_jobs import metres_list, read_past_jobs
from estimator.cli import app
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import JobOrder
from estimator.pricing.past_jobs import PastReport, past_summary
from estimator.problems import WorkbookProblemsError
from estimator.read.load import load_book
from estimator.tasks import ReadOptions, estimate, estimate_list
from estimator.tasks_past import check_past
from estimator.write.past_text import past_text
from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook
from tests.samples.estimates import own_shop

HEAD = (
    "Job,Cut list,Thickness,Metres cut,Pieces,Pierces,Torch guided by,Man-hours,Oxygen cylinders,Fuel cylinders,"
    "Price charged\n"
)
LIST = "Customer,Example Works\n\nMark,Qty,Thickness mm,Shape,Size A,Size B,Steel\nP1,8,20,rectangle,300,300,ours\n"
ROWS = (
    "J-1,gate.csv,,,,,,9.5,0.5,0.1,900",
    "J-2,,20,4.8,8,,straightedge,3.3,0.2,,263",
    "J-2,,10,4.4,24,12,track,1.0,,,",
    "J-3,,25,4.1,2,2,circle guide,1.4,,,",
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    save(tmp_path / "shop_book.xlsx", shop_book_workbook(own_shop(), title="Shop book"))
    (tmp_path / "gate.csv").write_text(LIST)
    return tmp_path


def checked(folder: Path, *rows: str, **order: object) -> PastReport:
    (folder / "past.csv").write_text(HEAD + "\n".join(rows or ROWS))
    return check_past(folder / "past.csv", None, JobOrder(**order))  # type: ignore[arg-type]


def test_a_job_with_a_list_is_what_its_estimate_says(folder: Path) -> None:
    report = checked(folder)
    done = estimate(folder / "gate.csv", folder / "shop_book.xlsx", JobOrder(date=report.date), ReadOptions())
    answer, oxygen, fuel = report.answers[0], done.job.drawn_oxygen_m3, done.job.drawn_fuel_m3
    ranges = estimate_ranges(done)
    assert answer.hours.said == done.whole_paid_time_min / 60
    assert (answer.hours.low, answer.hours.high) == (ranges.paid_time_min.low / 60, ranges.paid_time_min.high / 60)
    assert answer.oxygen.said == oxygen / done.rates.oxygen.usable_m3
    assert answer.fuel.said == fuel / done.rates.fuel.usable_m3
    assert answer.price.said * 100 == pytest.approx(done.totals.taxable)
    assert (answer.hours.was, answer.oxygen.was, answer.fuel.was, answer.price.was) == (9.5, 0.5, 0.1, 900)


def test_metres_are_lines_of_bare_lengths_without_steel(folder: Path) -> None:
    report = checked(folder)
    jobs, problems = read_past_jobs(load_book(folder / "past.csv"))
    assert problems == []
    cuts = metres_list(jobs[1])
    assert cuts.cut_length_mm.tolist() == pytest.approx([600.0, 4400 / 24])
    assert cuts.pierces.tolist()[1] == 0.5
    done = estimate_list(cuts, own_shop(), JobOrder(date=report.date))
    assert done.job.lines.cut_m.tolist() == pytest.approx([4.8, 4.4])
    assert done.totals.parts["steel"] == 0
    assert report.answers[1].hours.said == pytest.approx(done.whole_paid_time_min / 60)


def test_rows_of_one_job_are_added(folder: Path) -> None:
    answer = checked(folder).answers[1]
    assert (answer.job, answer.hours.was, answer.oxygen.was, answer.fuel.was) == ("J-2", 4.3, 0.2, None)


def test_the_whole_is_the_middle_of_the_jobs(folder: Path) -> None:
    report = checked(folder)
    ratios = sorted(a.hours.was / a.hours.said for a in report.answers if a.hours.was)
    whole = past_summary(report.answers)
    assert (whole.ratio, whole.least, whole.most, whole.told) == (ratios[1], ratios[0], ratios[2], 3)
    assert whole.inside == sum(bool(a.hours.low <= (a.hours.was or 0) <= a.hours.high) for a in report.answers)


def test_hours_that_are_far_off_give_the_factor_to_type_and_the_factor_brings_them_right(folder: Path) -> None:
    long = tuple(row.replace(",9.5,", ",19,").replace(",3.3,", ",6.6,").replace(",1.4,", ",2.8,") for row in ROWS)
    report = checked(folder, *long)
    ratio = past_summary(report.answers).ratio
    assert ratio is not None
    text = past_text(report)
    assert f"'man-hours', value {ratio:.2f}" in text
    shop = own_shop().model_copy(update={"factors": (_factor(round(ratio, 2)),)})
    save(folder / "shop_book.xlsx", shop_book_workbook(shop, title="Shop book"), force=True)
    again = past_summary(checked(folder, *long).answers).ratio
    assert again == pytest.approx(1.0, abs=0.08), "drilling takes no rest, so it is not lengthened"


def _factor(value: float) -> object:
    from estimator.check.shop_book import FactorRow

    return FactorRow(what="man-hours", value=value)


def test_the_newest_rates_are_taken_unless_a_day_is_named(folder: Path) -> None:
    newest = max(row.from_date for row in own_shop().labour)
    assert checked(folder).date >= newest  # type: ignore[operator]
    assert checked(folder, date=dt.date(2026, 12, 1)).date == dt.date(2026, 12, 1)


@pytest.mark.parametrize(
    ("rows", "code"),
    [
        (("J-1,,12,,,,,4,,,",), "E941"),
        (("J-1,none.csv,,,,,,4,,,",), "E943"),
        ((",,,,,,,,,,",), "E940"),
        (("J-1,,12,-3,,,,4,,,",), "E163"),
    ],
)
def test_what_cannot_be_used_is_said(folder: Path, rows: tuple[str, ...], code: str) -> None:
    with pytest.raises(WorkbookProblemsError) as caught:
        checked(folder, *rows)
    assert code in [p.code for p in caught.value.problems]


def test_the_command_prints_every_job_and_works_on_the_blank_that_is_handed_out(folder: Path) -> None:
    checked(folder)
    run = CliRunner().invoke(app, ["check-past", str(folder / "past.csv")])
    assert run.exit_code == 0
    assert all(f"\n{job}\n" in run.output for job in ("J-1", "J-2", "J-3"))
    blanks = CliRunner().invoke(app, ["blanks", str(folder / "blanks")])
    assert "past_jobs.xlsx" in blanks.output
    blank, shop = folder / "blanks" / "past_jobs.xlsx", folder / "shop_book.xlsx"
    empty = CliRunner().invoke(app, ["check-past", str(blank), "--shop", str(shop)])
    assert empty.exit_code == 3
    assert "E940" in empty.output
