"""Finished jobs beside what would have been said of them, for the terminal and as JSON."""

from __future__ import annotations

import math
from typing import Any

from estimator.pricing.past_jobs import PastAnswer, PastFigure, PastReport, past_summary
from estimator.sheets.shop_rules import FACTORS
from estimator.words import OwnFactor

__all__ = ["past_json", "past_text"]

_CLOSE = 0.15
"""Hours that are off by less, on the whole, need no correction. Source: judgement."""


def past_text(report: PastReport) -> str:
    """Return what the jobs say together, then each of them.

    Parameters
    ----------
    report : PastReport
        The finished jobs.

    Returns
    -------
    str
    """
    currency = report.shop.shop.currency
    on = f", rates of {report.date.isoformat()}" if report.date else ""
    out = [f"What would have been said of {len(report.answers)} finished jobs{on}:"]
    if report.shop.is_example:
        out.append("EXAMPLE SHOP: rates, tips and cylinders are invented. Use --shop with your own book.")
    out += _summary_lines(report)
    for answer in report.answers:
        out += ["", *_job_lines(answer, currency)]
    return "\n".join(out)


def past_json(report: PastReport) -> dict[str, Any]:
    """Return what ``--json`` gives.

    Parameters
    ----------
    report : PastReport
        The finished jobs.

    Returns
    -------
    dict
        Figures as numbers, money as decimal strings, what is not known as null.
    """
    whole = past_summary(report.answers)
    return {
        "schema": "kerfledger/1",
        "currency": report.shop.shop.currency,
        "example_prices": report.shop.is_example,
        "rates_of": report.date.isoformat() if report.date else None,
        "jobs": [_job_json(answer, report.shop.shop.decimals) for answer in report.answers],
        "hours_ratio": whole.ratio,
        "jobs_inside": whole.inside,
        "jobs_with_hours": whole.told,
        "problems": [problem.as_json() for problem in report.problems],
    }


def _job_lines(answer: PastAnswer, currency: str) -> list[str]:
    rows = [
        ("hours", answer.hours, "h", 1),
        ("oxygen", answer.oxygen, "cylinders", 2),
        (answer.fuel_name, answer.fuel, "cylinders", 2),
        ("price", answer.price, currency, 2),
    ]
    return [answer.job + (f" ({answer.note})" if answer.note else ""), *(_figure_line(*row) for row in rows)]


def _figure_line(name: str, figure: PastFigure, unit: str, digits: int) -> str:
    said = f"  {name}: {figure.said:,.{digits}f} {unit}"
    if not math.isnan(figure.low):
        said += f", four times in five {figure.low:,.{digits}f} to {figure.high:,.{digits}f}"
    if figure.was is None:
        return f"{said}; yours is not typed"
    ratio = f", {figure.ratio:.2f} times that" if figure.ratio is not None else ""
    verdict = {True: ": in the range", False: ": OUTSIDE", None: ""}[figure.inside]
    return f"{said}; yours {figure.was:,.{digits}f}{ratio}{verdict}"


def _summary_lines(report: PastReport) -> list[str]:
    whole = past_summary(report.answers)
    if whole.ratio is None:
        return ["Type the hours of a job, and it says how far off it would have been."]
    out = [
        f"On the whole your hours were {whole.ratio:.2f} times what would have been said "
        f"({whole.told} jobs, from {whole.least:.2f} to {whole.most:.2f}); {whole.inside} of {whole.told} lie in the "
        "range."
    ]
    if abs(whole.ratio - 1.0) <= _CLOSE:
        out.append("That is close. Log your jobs, and 'calibrate' makes them the shop's own figures.")
    else:
        out.append(
            f"Until 'calibrate' has your log, type this in the shop book's sheet '{FACTORS.name}': what "
            f"'{OwnFactor.MAN_HOURS}', value {_man_hours_factor(report) * whole.ratio:.2f}. A job that is far off is "
            "often missing work: drilling, grinding, site time."
        )
    return out


def _man_hours_factor(report: PastReport) -> float:
    """Return the factor of man-hours that the shop book holds already."""
    own = (row.value for row in report.shop.factors if row.what == OwnFactor.MAN_HOURS and not row.tip and not row.by)
    return next(own, 1.0)


def _job_json(answer: PastAnswer, decimals: int) -> dict[str, Any]:
    def figure(one: PastFigure) -> dict[str, Any]:
        range_of = [None if math.isnan(end) else end for end in (one.low, one.high)]
        return {"said": one.said, "range": range_of, "was": one.was, "ratio": one.ratio, "inside": one.inside}

    price = answer.price
    return {
        "job": answer.job,
        "hours": figure(answer.hours),
        "oxygen_cylinders": figure(answer.oxygen),
        "fuel_cylinders": figure(answer.fuel),
        "fuel": answer.fuel_name,
        "price": {
            "said": f"{price.said:.{decimals}f}",
            "was": None if price.was is None else f"{price.was:.{decimals}f}",
            "ratio": price.ratio,
        },
        "note": answer.note,
    }
