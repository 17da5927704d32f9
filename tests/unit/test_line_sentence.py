"""What a customer could be told of a line: one sentence in words of the shop floor, whose minutes add to those paid."""

import datetime as dt
import re
from dataclasses import replace

import numpy as np
import pytest

from estimator.pricing.explain import line_sentence
from estimator.pricing.job import Estimate, JobOrder
from estimator.tasks import ReadOptions
from estimator.tasks import estimate as estimate_file
from scripts.make_trial_page import ROOT, trial_cuts
from scripts.make_trial_page import estimate as priced

JARGON = re.compile(r"jet|norm|layout|flame time|setting|kerf|restart|factor|allowance|_|nan", re.IGNORECASE)
SENTENCE = re.compile(r"\d+ x .+, [\d.]+ min( each)?: [a-z0-9 ]+ [\d.]+(, [a-z0-9 ]+ [\d.]+)*")


@pytest.fixture(scope="module")
def jobs() -> list[Estimate]:
    samples = ROOT / "sample_jobs"
    order = JobOrder(date=dt.date(2026, 11, 2))
    return [
        priced(trial_cuts()),
        estimate_file(samples / "cut_list.xlsx", samples / "shop_book.xlsx", order, ReadOptions()),
    ]


def test_every_line_of_the_trial_and_the_sample_is_said_in_words_of_the_shop_floor(jobs):
    said = [line_sentence(job, line) for job in jobs for line in range(len(job.cuts))]
    assert len(said) > 25
    for sentence in said:
        assert SENTENCE.fullmatch(sentence), sentence
        assert not JARGON.search(sentence.split(" min", 1)[1]), sentence


def test_what_is_told_adds_to_the_minutes_that_are_paid(jobs):
    for job in jobs:
        for line in range(len(job.cuts)):
            each, parts = re.fullmatch(r".*, ([\d.]+) min(?: each)?: (.*)", line_sentence(job, line)).groups()
            told = sum(float(part.rsplit(" ", 1)[1]) for part in parts.split(", "))
            assert float(each) == pytest.approx(job.paid_time_min[line] / job.cuts.quantity[line], abs=0.051)
            assert told == pytest.approx(float(each), abs=0.4)  # each figure is rounded to a tenth


def test_holes_and_lifts_are_named_and_straightening_is_called_by_its_name(jobs):
    said = " | ".join(line_sentence(job, line) for job in jobs for line in range(len(job.cuts)))
    assert "drill 4 holes 12.1" in said
    assert "lift with a helper 10.0" in said
    assert "straighten 3.0" in said


def test_minutes_that_the_owner_typed_are_said_to_be_the_shops_own(jobs):
    job = jobs[0]
    mine = np.full(len(job.cuts), np.nan)
    mine[0] = 160.0
    assert line_sentence(replace(job, my_minutes=mine), 0) == "8 x Base plate, 20.0 min each: by our own count 20.0"
