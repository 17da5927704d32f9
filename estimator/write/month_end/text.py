"""The month end as the terminal prints it: a verdict in a few lines, the money found first."""

from __future__ import annotations

from estimator.pricing.month_end import Month
from estimator.pricing.month_report import MonthReport
from estimator.write.month_end.words import (
    days_left,
    gas_line,
    gathered_steps,
    month_name,
    month_verdict,
    span_line,
    verdict,
)

__all__ = ["month_end_text", "next_step"]

_SHOWN = 8
"""Findings that the terminal shows; the workbook has all."""


def month_end_text(report: MonthReport) -> str:
    """Return what the terminal prints.

    Parameters
    ----------
    report : MonthReport
        The finished month end.

    Returns
    -------
    str
        Verdict, findings ranked by money, gas, where the money went, what could not be checked.

    Notes
    -----
    Source: definition.
    """
    parts = [verdict(report), "\n".join(_findings(report))]
    *earlier, last = report.done.months or (None,)
    parts.append("\n".join(_month_in_brief(month, report) for month in earlier if month))
    parts.append("\n".join(_month(last, report)) if last else "")
    parts.append("\n".join(_cylinders(report)))
    parts.append("\n".join(_months_together(report)))
    parts.append(_closing(report))
    return "\n\n".join(part for part in parts if part) + "\n"


def next_step(report: MonthReport) -> str:
    """Return what to do with the month end, in the words of the terminal."""
    if report.done.findings:
        return "check each against the paper, then send the supplier the page that --letter FILE writes."
    return "pay the bill, and type the counts of today as the first of the new month."


def _findings(report: MonthReport) -> list[str]:
    lines = []
    for number, finding in enumerate(report.done.findings[:_SHOWN], 1):
        money = report.money(finding.money_minor) if finding.money_minor else "-"
        lines.append(f"{number:>3}  {money:>9}  {finding.kind}: {finding.said}")
        where = ", ".join(str(place) for place in finding.evidence[:3] if place.sheet)
        more = f" and {len(finding.evidence) - 3} more" if len(finding.evidence) > 3 else ""
        see = f"; see {where}{more}" if where else ""
        lines.append(f"{'':>16}bill {finding.bill_number}, {days_left(finding)}{see}")
    left = len(report.done.findings) - _SHOWN
    if left > 0:
        lines.append(f"     and {left} more in the workbook")
    return lines


def _month_in_brief(month: Month, report: MonthReport) -> str:
    """Return one line for a month before the last one."""
    return f"{month_name(month)}. {month_verdict(month)} Bills {report.money(month.bridge.total_minor)}."


def _month(month: Month, report: MonthReport) -> list[str]:
    lines = [f"{month_name(month)}. {month_verdict(month)}"]
    lines += [f"  {gas_line(month, one, report.units)}" for one in month.verdicts]
    lines.append("  Where the money went:")
    parts = gathered_steps(month)
    lines += [f"  {report.money(part.minor):>12}  {part.said}" for part in parts]
    return lines


def _cylinders(report: MonthReport) -> list[str]:
    """Say which tagged cylinders gave more or less than their jobs need; how many are in order."""
    if not report.spans:
        return []
    odd = [span for span in report.spans if not span.verdict.explained]
    lines = [
        f"Cylinder tags: {len(report.spans) - len(odd)} of {len(report.spans)} cylinders gave what their jobs need."
    ]
    return lines + [f"  {span_line(span, report.units)}." for span in odd]


def _months_together(report: MonthReport) -> list[str]:
    lines = []
    for trend in report.trends:
        if trend.line is not None:
            line, each, unit = trend.line, report.units.gas(1.0, trend.gas), report.units.gas_unit(trend.gas)
            fixed, low, high = (f"{one * each:.1f}" for one in (line.fixed, line.fixed_low, line.fixed_high))
            lines.append(
                f"Over {len(trend.hours)} months {trend.gas} goes at {line.variable * each:.2f} {unit} a torch-lit "
                f"hour and {fixed} {unit} a month without work (95 %: {low} to {high})."
            )
        if trend.summed.alarm_month is not None:
            lines.append(
                f"The running sum of {trend.gas} shows a lasting loss from month {trend.summed.alarm_month + 1}."
            )
    return lines


def _closing(report: MonthReport) -> str:
    lines = []
    if not report.has_log:
        lines.append(
            "Without a work log only the bills were checked; the log adds where the gas went and what jobs cost."
        )
    if report.example_shop and report.has_log:
        lines.append("No shop book was named: the work was modelled with the invented example shop.")
    unchecked = [problem for problem in report.problems if problem.level == "warning"]
    if unchecked:
        lines.append(f"{len(unchecked)} things could not be checked or look odd; the workbook lists them.")
    return "\n".join(lines)
