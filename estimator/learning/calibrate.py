"""From the shop's log to its own factors: what the log supports is changed, the rest is kept, and each says why.

Knows no workbook; the modelled figures come with the observations. The numbers behind the rules are in ``fit``.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from estimator.learning.calibration_inputs import SCATTERS, CalibrationInputs, calibration_inputs
from estimator.learning.calibration_result import (
    CalibratedFactor,
    CalibrationResult,
    HandbookFactor,
    JudgedObservation,
    KindError,
)
from estimator.learning.fit import (
    FEWEST_JOBS,
    LEAST_SPREAD,
    Method,
    activity_spread,
    robust_centre,
    student_t,
)
from estimator.learning.joint_fit import JointFit
from estimator.learning.observation import Kind, Observation
from estimator.learning.prior import age_weight
from estimator.learning.spread import from_log_sd
from estimator.learning.suspects import ODD_WEIGHT, likely_slip

__all__ = ["calibrate_factors"]

_LEVEL = 0.80
_SPEAKS = 0.05
"""An observation speaks of a factor when this share of it moves with the factor."""
_LEAST_WEIGHT = 0.40
"""Weight of the shop's own data under which the handbook is kept. Source: judgement."""
_SHOWN_AGE = 0.75
"""Weight left by age under which age is named as a reason."""
_PINNED = 1e-6
"""Spread left to a factor of which the log says too little, so that the others are fitted as if it were known."""
_MOST_ODD = 1 / 3
"""Share of odd observations of a kind from which the log contradicts itself. Source: judgement."""
_MOST_SCATTER = 0.5
"""Job-to-job scatter (log) from which the log contradicts itself. Source: judgement."""

Flags = NDArray[np.bool_]
Floats = NDArray[np.float64]


def calibrate_factors(
    observations: Sequence[Observation],
    handbook: Sequence[HandbookFactor],
    *,
    today: date,
    shared_errors: Mapping[str, float] | None = None,
    half_life_days: float = math.inf,
) -> CalibrationResult:
    """Return the shop's own factors as far as its log supports them.

    Parameters
    ----------
    observations : sequence of Observation
        What was logged, each with the terms of the handbook's model.
    handbook : sequence of HandbookFactor
        Every factor that the terms name.
    today : date
        Day from which ages count.
    shared_errors : mapping of str to float, optional
        Relative standard uncertainty of each error that observations share (a gauge, a scale).
    half_life_days : float
        Age at which an observation keeps half of its weight; infinite where nothing fades [days].

    Returns
    -------
    CalibrationResult
        One entry for each factor of the handbook, in its order, and one for each observation.

    Notes
    -----
    Fewer than 3 jobs keep the handbook. Odd ones lose weight however few there are (``docs/decisions.md`` says why).
    Jobs whose quantities are all alike (largest under 1.5 times the smallest) keep the handbook, and so does a log
    that contradicts itself. A factor of which the log says too little is pinned to the handbook and the others fitted
    once more, so that what is kept and what is changed belong together. An error that observations share is fitted
    beside the factors, so that it widens them however many readings there are; so is how the work of a day fell on two
    cylinders. Source: definition.
    """
    learned = [factor for factor in handbook if factor.spread.log_sd_about_likely > 0]
    age = np.array([age_weight((today - seen.when).days, half_life_days) for seen in observations])
    inputs = calibration_inputs(observations, handbook, learned, dict(shared_errors or {}), age)
    weak = _too_little(inputs.fit(), inputs.prior_log_sd, len(learned))
    inputs = replace(inputs, prior_log_sd=np.where(weak, _PINNED, inputs.prior_log_sd))
    whole = inputs.fit()
    contradicts = _contradictions(whole, inputs)
    found = {
        factor.name: _judge(factor, index, whole, inputs, contradicts, too_little=bool(weak[index]))
        for index, factor in enumerate(learned)
    }
    changed = _changed(found, inputs)
    judged = _judge_observations(whole, inputs, changed)
    factors = (found.get(f.name) or _kept(f, "the handbook gives no band") for f in handbook)
    return CalibrationResult(tuple(factors), tuple(judged), _kind_errors(judged, inputs))


def _too_little(first: JointFit, prior_log_sd: Floats, learned: int) -> Flags:
    """Return the factors of which the log says next to nothing; errors that readings share are not among them."""
    weak = 1 - np.diag(first.covariance) / prior_log_sd**2 < _LEAST_WEIGHT
    return np.asarray(weak & (np.arange(len(prior_log_sd)) < learned))


def _contradictions(whole: JointFit, inputs: CalibrationInputs) -> Flags:
    """Return the kinds whose observations disagree too much to carry anything."""
    groups = len(inputs.groups)
    odd = np.bincount(inputs.group, weights=whole.weights < ODD_WEIGHT, minlength=groups)
    share = odd / np.maximum(np.bincount(inputs.group, minlength=groups), 1)
    return np.asarray((share > _MOST_ODD) | (whole.scatter > _MOST_SCATTER))


def _changed(found: Mapping[str, CalibratedFactor], inputs: CalibrationInputs) -> Flags:
    """Return which columns of the fit are the shop's own from now on: changed factors, and every part of a day."""
    named = [name in found and found[name].changed for name in inputs.names]
    return np.array(named + [True] * int(inputs.table.is_part.sum()), dtype=bool)


def _kept(factor: HandbookFactor, reason: str, jobs: int = 0, latest: date | None = None) -> CalibratedFactor:
    """Return the factor as the handbook has it."""
    spread = factor.spread
    return CalibratedFactor(
        factor.name, 1.0, spread.low, spread.high, jobs, latest, 0.0, Method.HANDBOOK, reason, spread
    )


def _judge(
    factor: HandbookFactor,
    index: int,
    whole: JointFit,
    inputs: CalibrationInputs,
    contradicts: Flags,
    *,
    too_little: bool,
) -> CalibratedFactor:
    """Decide whether the log supports a figure of the shop's own for one factor."""
    observations = inputs.observations
    speaks = np.abs(whole.slopes[:, index]) >= _SPEAKS if len(observations) else np.zeros(0, dtype=bool)
    heard = [seen for seen, yes in zip(observations, speaks, strict=True) if yes]
    # A cylinder over many jobs is one measurement; many measurements of two jobs are two jobs.
    jobs = min(len({seen.jobs for seen in heard}), len({job for seen in heard for job in seen.jobs}))
    if jobs == 0:
        named = any(_amount_under(seen, factor.name) > 0 for seen in observations)
        return _kept(factor, "too small a part of what was logged" if named else "nothing in the log speaks of it")
    latest = max(seen.when for seen in heard)
    all_contradict = bool(np.all(contradicts[inputs.group[speaks]]))
    why = _why_kept(factor, heard, jobs, all_contradict=all_contradict, too_little=too_little)
    if why:
        return _kept(factor, why, jobs, latest)
    return _own_figure(factor, index, whole, inputs, speaks, jobs, latest)


def _why_kept(
    factor: HandbookFactor, heard: Sequence[Observation], jobs: int, *, all_contradict: bool, too_little: bool
) -> str:
    """Say why the handbook is kept although the log speaks of a factor; empty when it is not."""
    if jobs < FEWEST_JOBS:
        return f"{jobs} logged, {FEWEST_JOBS} are needed"
    spread = activity_spread([_amount_under(seen, factor.name) for seen in heard])
    if spread < LEAST_SPREAD:
        return f"all of one size: the largest is {spread:.1f} times the smallest, {LEAST_SPREAD} is needed"
    if all_contradict:
        return "the logged figures contradict each other"
    return "the log says too little of it" if too_little else ""


def _own_figure(
    factor: HandbookFactor,
    index: int,
    whole: JointFit,
    inputs: CalibrationInputs,
    speaks: Flags,
    jobs: int,
    latest: date,
) -> CalibratedFactor:
    """Return the shop's own figure with its interval, by Student's t."""
    log_u = math.sqrt(float(whole.covariance[index, index]))
    freedom = float(np.sum((whole.weights * inputs.age_weight)[speaks])) + 2.0
    half = student_t(_LEVEL, freedom) * log_u
    value = math.exp(float(whole.log_factors[index]))
    odd = int(np.sum(whole.weights[speaks] < ODD_WEIGHT))
    return CalibratedFactor(
        name=factor.name,
        value=value,
        low=value * math.exp(-half),
        high=value * math.exp(half),
        jobs=jobs,
        latest=latest,
        weight=1 - (log_u / float(inputs.prior_log_sd[index])) ** 2,
        method=Method.ROBUST,
        reason=f"from {jobs} logged" + (f", {odd} of them odd and weighing little" if odd else ""),
        handbook=factor.spread,
    )


def _amount_under(seen: Observation, name: str) -> float:
    """Return the modelled part of an observation that a factor moves."""
    return float(sum(term.amount for term in seen.terms if term.powers.get(name)))


def _left_out(inputs: CalibrationInputs, changed: Flags, start: Floats) -> Floats:
    """Return the log of each figure as foretold by factors that were learned without its jobs."""
    observations = inputs.observations
    foretold = np.zeros(len(observations))
    for jobs in {seen.jobs for seen in observations}:
        own = np.array([bool(set(seen.jobs) & set(jobs)) for seen in observations])
        asked = np.array([seen.jobs == jobs for seen in observations])
        without = inputs.fit(~own, start)
        foretold[asked] = inputs.table.model(np.where(changed, without.log_factors, 0.0))[0][asked]
    return foretold


def _judge_observations(whole: JointFit, inputs: CalibrationInputs, changed: Flags) -> list[JudgedObservation]:
    """Set each observation beside what was expected, with the likely reason where it is odd."""
    if not inputs.observations:
        return []
    after = np.exp(inputs.table.model(np.where(changed, whole.log_factors, 0.0))[0])
    foretold = _left_out(inputs, changed, whole.log_factors)
    return [
        JudgedObservation(
            seen=seen,
            before=seen.modelled,
            after=float(after[index]),
            left_out=math.exp(foretold[index]),
            weight=float(whole.weights[index]),
            age_weight=float(inputs.age_weight[index]),
            reason="; ".join(_why_light(seen, index, whole, inputs)),
        )
        for index, seen in enumerate(inputs.observations)
    ]


def _why_light(seen: Observation, index: int, whole: JointFit, inputs: CalibrationInputs) -> list[str]:
    """Say why an observation weighs less than the others."""
    reasons = []
    if float(whole.weights[index]) < ODD_WEIGHT:
        scatter = math.hypot(float(whole.scatter[inputs.group[index]]), seen.reading_u)
        reasons.append(likely_slip(seen.kind, float(whole.residuals[index]), scatter))
    if inputs.age_weight[index] < _SHOWN_AGE:
        reasons.append(f"age leaves it {inputs.age_weight[index]:.0%}")
    return reasons


def _kind_errors(judged: Sequence[JudgedObservation], inputs: CalibrationInputs) -> tuple[KindError, ...]:
    return tuple(
        _kind_error(group, [one for one, of in zip(judged, inputs.group, strict=True) if of == at])
        for at, group in enumerate(inputs.groups)
    )


def _kind_error(group: tuple[Kind, str], judged: Sequence[JudgedObservation]) -> KindError:
    """Return how far off one kind was, and what that says of the next job."""
    expected = SCATTERS[group[0]]
    logged = np.array([each.seen.logged for each in judged])
    before = np.array([each.before for each in judged])
    left_out = np.array([each.left_out for each in judged])
    # A line that is odd tells how the log is kept, not how the next job will go.
    sound = np.array([not each.odd for each in judged])
    errors = np.log(logged / left_out)[sound]
    _, robust_sd = robust_centre(np.concatenate([errors, -errors])) if sound.any() else (0.0, expected.prior_sd)
    count = len(judged)
    told = int(sound.sum())
    total = expected.prior_weight * expected.prior_sd**2 + told * robust_sd**2
    new_job = math.sqrt(total / (expected.prior_weight + told))
    # Student's t for the few jobs behind the spread, so that the 80 % interval is one.
    widened = new_job * student_t(_LEVEL, told + expected.prior_weight - 1) / NormalDist().inv_cdf((1 + _LEVEL) / 2)
    return KindError(
        group[0],
        group[1],
        count,
        float(np.median(np.abs(before / logged - 1))),
        float(np.median(np.abs(left_out / logged - 1))),
        from_log_sd(1.0, widened),
    )
