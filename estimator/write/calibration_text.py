"""What was learned from jobs, in the words of the terminal and as JSON. The same sentences head the report."""

from __future__ import annotations

import math
from typing import Any

from estimator import __version__
from estimator.learning.calibration_result import CalibratedFactor, JudgedObservation, KindError
from estimator.learning.observation import Kind
from estimator.learning.quoted import QuotedClass
from estimator.plain_words import list_words
from estimator.pricing.learn import Calibration, Learned
from estimator.write.quoted_sheet import trend_words

__all__ = ["calibration_json", "calibration_text", "kind_words", "measured_gas", "ordered_errors", "verdict"]

SCHEMA = "kerfledger/1"
_ODD_SHOWN = 5
_ORDER = (Kind.PAID_TIME, Kind.FLAME_TIME, Kind.CYLINDER_SPAN, Kind.GAUGE)
_KIND_WORDS = {
    Kind.PAID_TIME: "hours",
    Kind.FLAME_TIME: "torch-lit minutes",
    Kind.CYLINDER_SPAN: "from bottle tags",
    Kind.GAUGE: "from two readings",
}


def calibration_text(calibration: Calibration) -> str:
    """Return what the terminal prints: how far off the handbook was, what is yours now, what looks wrong.

    Parameters
    ----------
    calibration : Calibration
        The finished calibration.

    Returns
    -------
    str
        Lines for people.
    """
    learned = calibration.learned
    parts = [verdict(learned), "\n".join(_table(learned.changed)), _kept(learned), "\n".join(_odd(learned))]
    if learned.before.is_example:
        parts.append("No shop book of your own was given: the invented example stood in for it.")
    return "\n\n".join(part for part in parts if part)


def verdict(learned: Learned) -> str:
    """Return how far off the handbook was and how far off the shop's own factors are, in one or two sentences."""
    jobs = {job for each in learned.result.observations for job in each.seen.jobs}
    if not learned.changed:
        return f"{_counted(len(jobs), 'job')} logged; the handbook's figures are kept, the log cannot carry others yet."
    count = len(learned.changed)
    said = f"{_counted(count, 'figure')} of your own from {_counted(len(jobs), 'logged job')}."
    better = [error for error in ordered_errors(learned) if error.left_out < error.before]
    if not better:
        return f"{said} They foretell the logged jobs no better than the handbook yet."
    off = [f"{kind_words(e.kind, e.gas)} {e.before:.0%} and {e.left_out:.0%}" for e in better]
    return f"{said} Off with the handbook, and now, each foretold from the other jobs: {', '.join(off)}."


def ordered_errors(learned: Learned) -> list[KindError]:
    """Return how far off each kind was, hours first."""
    return sorted(learned.result.errors, key=lambda error: (_ORDER.index(error.kind), error.gas))


def kind_words(kind: Kind, gas: str) -> str:
    """Return what was measured, in words: ``hours``, ``oxygen from bottle tags``."""
    if kind in (Kind.PAID_TIME, Kind.FLAME_TIME):
        return _KIND_WORDS[kind]
    return f"{measured_gas(gas)} {_KIND_WORDS[kind]}"


def measured_gas(quantity: str) -> str:
    """Return the gas of a quantity that was measured: ``natural gas`` of ``natural_gas_m3``."""
    return quantity.removesuffix("_m3").replace("_", " ")


def calibration_json(calibration: Calibration) -> dict[str, Any]:
    """Return the calibration in its JSON form.

    Parameters
    ----------
    calibration : Calibration
        The finished calibration.

    Returns
    -------
    dict
        Keys are house names; the same calibration gives the same dict.
    """
    learned = calibration.learned
    return {
        "schema": SCHEMA,
        "task": "calibrate",
        "engine_version": __version__,
        "inputs": [
            {"name": calibration.log_file, "sha256": calibration.log_sha256},
            {"name": learned.before.file, "sha256": learned.before.sha256},
        ],
        "example_prices": learned.before.is_example,
        "date": learned.today.isoformat(),
        "factors": [_factor_json(learned, factor) for factor in learned.result.factors],
        "errors": [
            {
                "measured": str(error.kind),
                "quantity": error.gas,
                "count": error.count,
                "before": error.before,
                "each_from_the_others": error.left_out,
                "new_job_low": error.new_job.low,
                "new_job_high": error.new_job.high,
            }
            for error in learned.result.errors
        ],
        "observations": [_observation_json(each) for each in learned.result.observations],
        "quoted": [_quoted_json(each) for each in learned.quoted.classes] if learned.quoted else [],
        "not_used": [{"what": each.what, "place": each.place, "why": each.why} for each in learned.not_used],
        "problems": [problem.as_json() for problem in calibration.problems],
    }


def _table(factors: list[CalibratedFactor]) -> list[str]:
    if not factors:
        return []
    width = max(len(factor.name) for factor in factors)
    lines = [f"{'Against the handbook':{width}}  yours  four in five   jobs"]
    for factor in factors:
        between = f"{factor.low:.2f} to {factor.high:.2f}"
        lines.append(f"{factor.name:{width}}  {factor.value:5.2f}  {between:13}  {factor.jobs:4d}")
    return lines


def _kept(learned: Learned) -> str:
    kept = [factor for factor in learned.result.factors if not factor.changed]
    reasons: dict[str, list[str]] = {}
    for factor in kept:
        reasons.setdefault(factor.reason, []).append(factor.name)
    lines = [f"  {list_words(names)}: {reason}" for reason, names in reasons.items()]
    return "\n".join(["Kept as the handbook has it:", *lines]) if lines else ""


def _odd(learned: Learned) -> list[str]:
    odd = sorted((each for each in learned.result.observations if each.odd), key=lambda each: each.weight)
    if not odd:
        return []
    lines = [f"{_counted(len(odd), 'logged figure')} out of line, kept with little weight:"]
    for each in odd[:_ODD_SHOWN]:
        where = f" at {each.seen.place}" if each.seen.place else ""
        times = each.seen.logged / each.after
        lines.append(f"  {each.seen.what}{where}: {_times(times)} what was expected; {each.reason}")
    if len(odd) > _ODD_SHOWN:
        lines.append(f"  and {len(odd) - _ODD_SHOWN} more on the report's sheet 'What was logged'")
    return lines


def _times(ratio: float) -> str:
    return f"{ratio:.1f} times" if ratio >= 1 else f"1/{1 / ratio:.1f} of"


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _factor_json(learned: Learned, factor: CalibratedFactor) -> dict[str, Any]:
    key = learned.keys[factor.name]
    return {
        "what": key.what,
        "tip": key.tip,
        "by": key.by,
        "value": factor.value,
        "low": factor.low,
        "high": factor.high,
        "handbook_low": factor.handbook.low,
        "handbook_high": factor.handbook.high,
        "jobs": factor.jobs,
        "latest": factor.latest.isoformat() if factor.latest else None,
        "weight": factor.weight,
        "changed": factor.changed,
        "reason": factor.reason,
    }


def _observation_json(each: JudgedObservation) -> dict[str, Any]:
    seen = each.seen
    return {
        "measured": str(seen.kind),
        "what": seen.what,
        "place": seen.place,
        "jobs": list(seen.jobs),
        "date": seen.when.isoformat(),
        "quantity": seen.gas,
        "logged": seen.logged,
        "handbook": each.before,
        "with_factors": each.after,
        "from_the_others": each.left_out if math.isfinite(each.left_out) else None,
        "weight": each.weight,
        "age_weight": each.age_weight,
        "reason": each.reason,
    }


def _quoted_json(each: QuotedClass) -> dict[str, Any]:
    known = math.isfinite(each.high)
    return {
        "work_class": each.work_class,
        "jobs": each.jobs,
        "actual_over_quoted": each.ratio,
        "low": each.low if known else None,
        "high": each.high if known else None,
        "correction": each.correction,
        "trend": trend_words(each),
        "reason": each.reason,
    }
