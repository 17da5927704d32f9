"""What a quote leaves unsaid, or says in a way that a customer will ask about: told to the shop as it is written."""

from __future__ import annotations

import datetime as dt

from estimator.pricing.job import Estimate
from estimator.pricing.money import format_minor
from estimator.problems import Place, Problem
from estimator.problems import quotes as say
from estimator.sheets.shop_form import SHOP
from estimator.write.book import a1
from estimator.write.own_sheets import cell_of

__all__ = ["quote_gaps"]

_MUCH = 0.1
"""Share of the lines above which a customer asks what the work for the whole job is; judgement, it moves nothing."""


def quote_gaps(estimate: Estimate, on: dt.date, today: dt.date | None = None) -> list[Problem]:
    """Return what to look at before a quote is sent.

    Parameters
    ----------
    estimate : Estimate
        The job as it is quoted.
    on : datetime.date
        Day that an undated job is quoted on.
    today : datetime.date, optional
        The day itself; without it nothing is said of a quote that is no longer valid.

    Returns
    -------
    list of Problem
        Warnings of a shop, customer or job that is not named, and of a validity that is past; notes of the day and of
        set-up as a line of its own.
    """
    title, totals, shop = estimate.cuts.title, estimate.totals, estimate.shop.shop
    place = Place(estimate.cuts.file)
    found = []
    if not shop.shop_name:
        found.append(say.NO_SHOP_NAME.at(Place(estimate.shop.file), **_setting(estimate, "shop_name")))
    if not title.customer:
        found.append(say.NO_CUSTOMER.at(place))
    if not title.job:
        found.append(say.NO_JOB_TITLE.at(place))
    if estimate.date is None:
        found.append(say.DATED_AS_WRITTEN.at(place, date=on.isoformat()))
    until = (estimate.date or on) + dt.timedelta(days=shop.validity_days)
    if today is not None and until < today:
        days = {"date": (estimate.date or on).isoformat(), "until": until.isoformat(), "today": today.isoformat()}
        found.append(say.VALIDITY_PAST.at(place, **days))
    if not shop.lump_sum and totals.job_rows > _MUCH * totals.lines:
        amount, lines = (format_minor(minor, shop.decimals) for minor in (totals.job_rows, totals.lines))
        found.append(say.SETUP_STANDS.at(place, amount=amount, lines=lines, **_setting(estimate, "spread_job_rows")))
    return found


def _setting(estimate: Estimate, name: str) -> dict[str, str]:
    """Return where a setting of the shop book is typed: its cell, its heading, and the book's own name."""
    cell = f"'{SHOP.name}'!{a1(*cell_of(SHOP, name))}"
    return {"cell": cell, "heading": SHOP.column(name).heading, "book": estimate.shop.file or "the shop book"}
