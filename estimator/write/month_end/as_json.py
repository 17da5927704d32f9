"""The month end as JSON: money as decimal strings, gas as numbers at 15 °C and 101.325 kPa. Versioned."""

from __future__ import annotations

from typing import Any

from estimator import __version__
from estimator.pricing.bill_checks.finding import Finding
from estimator.pricing.gas_balance import GasVerdict
from estimator.pricing.month_end import Month
from estimator.pricing.month_report import MonthReport
from estimator.pricing.month_trend import MonthTrend
from estimator.pricing.span_balance import CylinderSpan

__all__ = ["SCHEMA", "month_end_json"]

SCHEMA = "kerfledger/1"


def month_end_json(report: MonthReport) -> dict[str, Any]:
    """Return the month end as plain data.

    Parameters
    ----------
    report : MonthReport
        The finished month end.

    Returns
    -------
    dict
        The steps of each month's bridge add to its total; the jobs' parts add back to what they share.

    Notes
    -----
    Source: definition.
    """
    return {
        "schema": SCHEMA,
        "task": "month end",
        "engine": __version__,
        "date": report.as_of.isoformat(),
        "currency": report.currency,
        "example_prices": report.example_shop,
        "files": [{"name": file.name, "sha256": file.sha256} for file in report.files],
        "reconciles": report.done.reconciles,
        "billed": report.money(report.total_minor),
        "too_much": report.money(report.done.money_minor),
        "findings": [_finding(finding, report) for finding in report.done.findings],
        "months": [_month(month, report) for month in report.done.months],
        "cylinder_spans": [_span(span) for span in report.spans],
        "trends": [_trend(trend) for trend in report.trends],
        "problems": [problem.as_json() for problem in report.problems],
    }


def _finding(finding: Finding, report: MonthReport) -> dict[str, Any]:
    return {
        "kind": finding.kind.name.lower(),
        "what": str(finding.kind),
        "supplier": finding.supplier,
        "bill_number": finding.bill_number,
        "gas": finding.gas,
        "size": finding.size,
        "money": report.money(finding.money_minor),
        "days_left": finding.days_left,
        "said": finding.said,
        "expected": finding.expected,
        "found": finding.found,
        "evidence": [{"sheet": place.sheet, "cell": place.cell} for place in finding.evidence],
    }


def _month(month: Month, report: MonthReport) -> dict[str, Any]:
    return {
        "after": month.after.isoformat(),
        "until": month.until.isoformat(),
        "bills": [bill.bill_number for bill in month.bills],
        "explanation": None if month.explanation is None else month.explanation.name.lower(),
        "gases": [
            {
                "gas": used.gas,
                "opening_m3": used.opening.amount_m3,
                "delivered_m3": used.delivered.amount_m3,
                "closing_m3": used.closing.amount_m3,
                "sent_back_m3": used.sent_back.amount_m3,
                "used_m3": used.used_m3,
                "used_standard_uncertainty_m3": used.doubt_m3,
                "gas_lost_share": month.lost_share(used.gas),
                "own_ratio": month.learned[used.gas].ratio if used.gas in month.learned else None,
                **_of_verdict(next((v for v in month.verdicts if v.gas == used.gas), None)),
            }
            for used in month.used
        ],
        "where_the_money_went": [
            {"step": part.key, "gas": part.gas, "said": part.said, "money": report.money(part.minor)}
            for part in month.bridge.parts
        ],
        "jobs": [
            {
                "job": job.job,
                "modelled_gas_cost": report.money(job.modelled_minor),
                "gas_cost": report.money(job.gas_minor),
                "other_cost": report.money(job.other_minor),
                "cost": report.money(job.cost_minor),
                "paid_time_min": report.paid_time_min.get(job.job, 0.0),
                "quoted": _quoted(job.job, report),
            }
            for job in month.jobs
        ],
    }


def _quoted(job: str, report: MonthReport) -> dict[str, Any] | None:
    """Return what a job was quoted at; None where no quote of it is known."""
    quote = report.quotes.get(report.quote_of_job.get(job, ""))
    if quote is None:
        return None
    return {
        "number": quote.number,
        "price": report.money(quote.price_minor),
        "paid_time_min": quote.paid_time_min,
        "gas_cost": report.money(quote.gas_minor),
    }


def _span(span: CylinderSpan) -> dict[str, Any]:
    tag = span.tag
    return {
        "cylinder": tag.cylinder,
        "gas": tag.gas,
        "size": tag.size,
        "date_on": tag.date_on.isoformat(),
        "date_off": tag.date_off.isoformat() if tag.date_off else None,
        "jobs": list(span.jobs),
        "given_m3": span.verdict.used_m3,
        **_of_verdict(span.verdict),
    }


def _of_verdict(verdict: GasVerdict | None) -> dict[str, Any]:
    if verdict is None:
        return {}
    return {
        "expected_m3": verdict.expected_m3,
        "expected_standard_uncertainty_m3": verdict.expected_doubt_m3,
        "difference_m3": verdict.difference_m3,
        "limit_m3": verdict.limit_m3,
        "explained": verdict.explained,
    }


def _trend(trend: MonthTrend) -> dict[str, Any]:
    line = trend.line
    return {
        "gas": trend.gas,
        "flame_time_h": list(trend.hours),
        "used_m3": list(trend.used_m3),
        "expected_m3": list(trend.expected_m3),
        "fixed_m3": line.fixed if line else None,
        "fixed_low_m3": line.fixed_low if line else None,
        "fixed_high_m3": line.fixed_high if line else None,
        "variable_m3_per_h": line.variable if line else None,
        "refused": trend.refused,
        "running_sum_up": [float(value) for value in trend.summed.up],
        "running_sum_down": [float(value) for value in trend.summed.down],
        "alarm_month": trend.summed.alarm_month,
    }
