"""The month end in plain words: the verdict, each finding, each gas, where the money went. Shared by all outputs."""

from __future__ import annotations

from estimator.pricing.bill_checks.finding import Finding
from estimator.pricing.bridge import BridgePart
from estimator.pricing.gas_balance import Explanation, GasVerdict, smallest_seen
from estimator.pricing.month_end import Month
from estimator.pricing.month_report import MonthReport
from estimator.pricing.span_balance import CylinderSpan
from estimator.shown_units import ShownUnits

__all__ = ["days_left", "gas_line", "gathered_steps", "month_name", "month_verdict", "span_line", "verdict"]

_SHORT = {
    Explanation.ONE_GAS: "a leak, a flame left burning or cylinders that came short",
    Explanation.ALL_GASES: "work that is not in the log",
    Explanation.TOO_LITTLE: "a count, a note or the log is wrong",
    Explanation.MIXED: "a count, a note or the log is wrong",
}


def verdict(report: MonthReport) -> str:
    """Return the first sentence: what is asked, how much of it is not right."""
    asked = f"The bills ask {report.money(report.total_minor)} {report.currency}".strip()
    findings = report.done.findings
    unexplained = sum(month.explanation not in (None, Explanation.EXPLAINED) for month in report.done.months)
    if not findings:
        right = f"{asked}; nothing in them is wrong as far as they could be checked"
        return f"{right}, but the work does not explain the gas." if unexplained else f"{right}."
    count = "1 thing is" if len(findings) == 1 else f"{len(findings)} things are"
    over = report.done.money_minor
    if over > 0:
        return f"{asked}; {count} not right: {report.money(over)} too much."
    if over < 0:
        return f"{asked}; {count} not right: {report.money(-over)} too little is asked."
    return f"{asked}; {count} not right."


def days_left(finding: Finding) -> str:
    """Return how long a finding can be disputed."""
    left = finding.days_left
    if left is None:
        return "days to object not typed"
    if left < 0:
        return f"the time to object ran out {-left} days ago"
    return f"{left} days left to object" if left != 1 else "1 day left to object"


def month_name(month: Month) -> str:
    """Return the days of a month as ``1 to 31 March 2026`` would be said, in digits."""
    return f"{month.after} to {month.until}"


def gas_line(month: Month, one: GasVerdict, units: ShownUnits) -> str:
    """Return one gas of a month in a sentence."""
    used, wanted, limit, more = _shown(one, units)
    unit = units.gas_unit(one.gas)
    start = f"{one.gas}: {used:.1f} {unit} used, the work explains {wanted:.1f} {unit}, give or take {limit:.1f}"
    learned = month.learned.get(one.gas)
    if learned is not None and learned.months:
        months = "month" if learned.months == 1 else f"{learned.months} months"
        start += f" (the model x {learned.ratio:.2f}, from your own last {months})"
    if one.explained:
        seen = smallest_seen(one)
        return f"{start}: explained; a loss under {seen:.0%} would not be seen."
    word = "more" if one.difference_m3 > 0 else "less"
    return f"{start}: {abs(more):.1f} {unit} {word} than the work."


def span_line(span: CylinderSpan, units: ShownUnits) -> str:
    """Return one tagged cylinder in a sentence."""
    tag, one = span.tag, span.verdict
    used, wanted, limit, more = _shown(one, units)
    unit = units.gas_unit(one.gas)
    name = " ".join(filter(None, (tag.gas, tag.size, tag.cylinder)))
    start = f"{name}, {tag.date_on} to {tag.date_off}: {used:.1f} {unit} given, its jobs explain {wanted:.1f}"
    if one.explained:
        return f"{start}, give or take {limit:.1f}"
    word = "more" if one.difference_m3 > 0 else "less"
    return f"{start}: {abs(more):.1f} {unit} {word} than they need, look there first"


def month_verdict(month: Month) -> str:
    """Return what the gases of a month look like together."""
    if month.explanation is None:
        return "No log: nothing is said about the work."
    if month.explanation is Explanation.EXPLAINED:
        return "The work explains the gas."
    return f"The work does not explain the gas; it looks like {_SHORT[month.explanation]}."


def gathered_steps(month: Month) -> list[BridgePart]:
    """Return the steps of the bridge with all gases together, those without money left out; start and total stay."""
    parts = month.bridge.parts
    by_key: dict[str, int] = {}
    for part in parts[1:-1]:
        by_key[part.key] = by_key.get(part.key, 0) + part.minor
    said = {part.key: part.said for part in parts}
    steps = [BridgePart(key, said[key], minor) for key, minor in by_key.items() if minor]
    return [parts[0], *steps, parts[-1]]


def _shown(one: GasVerdict, units: ShownUnits) -> tuple[float, float, float, float]:
    """Return what was used, what is explained, the limit of their difference, and it, in the shop's unit."""
    each = units.gas(1.0, one.gas)
    return one.used_m3 * each, one.expected_m3 * each, one.limit_m3 * each, one.difference_m3 * each
