"""From the shop's log to its own factors: what the log supports is changed, the rest is kept, and each says why.

Knows no workbook; the modelled figures come with the observations. The numbers behind the rules are in ``fit``.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

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
from estimator.learning.joint_fit import JointFit, Scatter, fit_jointly
from estimator.learning.observation import Kind, Observation
from estimator.learning.observation_table import ObservationTable, observation_table
from estimator.learning.prior import age_weight
from estimator.learning.spread import from_log_sd
from estimator.learning.suspects import ODD_WEIGHT, likely_slip

__all__ = ["calibrate_factors"]

_LEVEL = 0.80
_SCATTERS = {
    # A cylinder's jobs even each other out; its unmeasured parts leave little to tell its scatter by.
    Kind.CYLINDER_SPAN: Scatter(prior_sd=0.03, prior_weight=20.0),
    Kind.GAUGE: Scatter(prior_sd=0.08, prior_weight=2.0),
    Kind.FLAME_TIME: Scatter(prior_sd=0.10, prior_weight=2.0),
    Kind.PAID_TIME: Scatter(prior_sd=0.09, prior_weight=2.0),
}
"""Job-to-job scatter before the log speaks. Source: judgement."""
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

_PART_LOG_SD = 1.2
"""Spread of the log of a part before the log speaks: with two parts, about evenly anything between none and all."""

Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class _Setting:
    """The fit's inputs, kept together so that it can be repeated with a job left out."""

    table: ObservationTable
    prior_log_sd: NDArray[np.float64]
    kind: NDArray[np.int64]
    scatters: list[Scatter]
    age_weight: NDArray[np.float64]

    def fit(self, keep: Flags | None = None, start: NDArray[np.float64] | None = None) -> JointFit:
        """Fit all observations, or some of them from where the fit of all has settled."""
        kept = np.ones(len(self.kind), dtype=bool) if keep is None else keep
        return fit_jointly(
            self.table if keep is None else self.table.rows(kept),
            self.prior_log_sd,
            self.kind[kept],
            self.scatters,
            self.age_weight[kept],
            start,
        )


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
    shared = dict(shared_errors or {})
    learned = [factor for factor in handbook if factor.spread.log_sd_about_likely > 0]
    names = [factor.name for factor in learned] + list(shared)
    prior = np.array([f.spread.log_sd_about_likely for f in learned] + list(shared.values()), dtype=np.float64)
    groups = sorted({(seen.kind, seen.gas) for seen in observations})
    kind = np.array([groups.index((seen.kind, seen.gas)) for seen in observations], dtype=np.int64)
    fixed = {factor.name for factor in handbook} - set(names)
    table = observation_table([_without(seen, fixed) for seen in observations], names)
    prior = np.append(prior, np.full(int(table.is_part.sum()), _PART_LOG_SD))
    setting = _Setting(
        table,
        prior,
        kind,
        [_SCATTERS[each] for each, _ in groups],
        np.array([age_weight((today - seen.when).days, half_life_days) for seen in observations]),
    )
    weak = _too_little(setting.fit(), prior, len(learned))
    setting = replace(setting, prior_log_sd=np.where(weak, _PINNED, prior))
    whole = setting.fit()
    contradicts = _contradictions(whole, kind, len(groups))
    factors = [
        _judge(factor, index, whole, setting, observations, contradicts, too_little=bool(weak[index]))
        for index, factor in enumerate(learned)
    ]
    found = {each.name: each for each in factors}
    changed = np.array([name in found and found[name].changed for name in names], dtype=bool)
    changed = np.append(changed, np.ones(int(table.is_part.sum()), dtype=bool))
    left_out = _left_out(setting, observations, changed, whole.log_factors)
    judged = _judge_observations(whole, setting, observations, changed, left_out)
    errors = [
        _kind_error(group, [j for j, k in zip(judged, kind, strict=True) if k == at], float(whole.scatter[at]))
        for at, group in enumerate(groups)
    ]
    exact = (_kept(f, "the handbook gives no band") for f in handbook if f.name in fixed)
    by_name = {**found, **{f.name: f for f in exact}}
    return CalibrationResult(tuple(by_name[f.name] for f in handbook), tuple(judged), tuple(errors))


def _without(seen: Observation, fixed: set[str]) -> Observation:
    """Return the observation without the factors that cannot be learned."""
    if not fixed:
        return seen
    terms = tuple(replace(t, powers={n: p for n, p in t.powers.items() if n not in fixed}) for t in seen.terms)
    return replace(seen, terms=terms)


def _too_little(first: JointFit, prior_log_sd: NDArray[np.float64], learned: int) -> Flags:
    """Return the factors of which the log says next to nothing; errors that readings share are not among them."""
    weak = 1 - np.diag(first.covariance) / prior_log_sd**2 < _LEAST_WEIGHT
    return np.asarray(weak & (np.arange(len(prior_log_sd)) < learned))


def _contradictions(whole: JointFit, kind: NDArray[np.int64], groups: int) -> Flags:
    """Return the kinds whose observations disagree too much to carry anything."""
    odd = np.bincount(kind, weights=whole.weights < ODD_WEIGHT, minlength=groups)
    share = odd / np.maximum(np.bincount(kind, minlength=groups), 1)
    return np.asarray((share > _MOST_ODD) | (whole.scatter > _MOST_SCATTER))


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
    setting: _Setting,
    observations: Sequence[Observation],
    contradicts: Flags,
    *,
    too_little: bool,
) -> CalibratedFactor:
    """Decide whether the log supports a figure of the shop's own for one factor."""
    speaks = np.abs(whole.slopes[:, index]) >= _SPEAKS if len(observations) else np.zeros(0, dtype=bool)
    heard = [seen for seen, yes in zip(observations, speaks, strict=True) if yes]
    # A cylinder over many jobs is one measurement; many measurements of two jobs are two jobs.
    jobs = min(len({seen.jobs for seen in heard}), len({job for seen in heard for job in seen.jobs}))
    if jobs == 0:
        named = any(_amount_under(seen, factor.name) > 0 for seen in observations)
        return _kept(factor, "too small a part of what was logged" if named else "nothing in the log speaks of it")
    latest = max(seen.when for seen in heard)
    if jobs < FEWEST_JOBS:
        return _kept(factor, f"{jobs} logged, {FEWEST_JOBS} are needed", jobs, latest)
    spread = activity_spread([_amount_under(seen, factor.name) for seen in heard])
    if spread < LEAST_SPREAD:
        said = f"all of one size: the largest is {spread:.1f} times the smallest, {LEAST_SPREAD} is needed"
        return _kept(factor, said, jobs, latest)
    if bool(np.all(contradicts[setting.kind[speaks]])):
        return _kept(factor, "the logged figures contradict each other", jobs, latest)
    if too_little:
        return _kept(factor, "the log says too little of it", jobs, latest)
    log_u = math.sqrt(float(whole.covariance[index, index]))
    weight = 1 - (log_u / float(setting.prior_log_sd[index])) ** 2
    freedom = float(np.sum((whole.weights * setting.age_weight)[speaks])) + 2.0
    half = student_t(_LEVEL, freedom) * log_u
    value = math.exp(float(whole.log_factors[index]))
    odd = int(np.sum(whole.weights[speaks] < ODD_WEIGHT))
    reason = f"from {jobs} logged" + (f", {odd} of them odd and weighing little" if odd else "")
    return CalibratedFactor(
        factor.name,
        value,
        value * math.exp(-half),
        value * math.exp(half),
        jobs,
        latest,
        weight,
        Method.ROBUST,
        reason,
        factor.spread,
    )


def _amount_under(seen: Observation, name: str) -> float:
    """Return the modelled part of an observation that a factor moves."""
    return float(sum(term.amount for term in seen.terms if term.powers.get(name)))


def _left_out(
    setting: _Setting, observations: Sequence[Observation], changed: Flags, start: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the log of each figure as foretold by factors that were learned without its jobs."""
    foretold = np.zeros(len(observations))
    for jobs in {seen.jobs for seen in observations}:
        own = np.array([bool(set(seen.jobs) & set(jobs)) for seen in observations])
        asked = np.array([seen.jobs == jobs for seen in observations])
        without = setting.fit(~own, start)
        foretold[asked] = setting.table.model(np.where(changed, without.log_factors, 0.0))[0][asked]
    return foretold


def _judge_observations(
    whole: JointFit,
    setting: _Setting,
    observations: Sequence[Observation],
    changed: Flags,
    left_out: NDArray[np.float64],
) -> list[JudgedObservation]:
    """Set each observation beside what was expected, with the likely reason where it is odd."""
    if not observations:
        return []
    after = np.exp(setting.table.model(np.where(changed, whole.log_factors, 0.0))[0])
    judged = []
    for index, seen in enumerate(observations):
        weight = float(whole.weights[index])
        scatter = math.hypot(float(whole.scatter[setting.kind[index]]), seen.reading_u)
        reasons = []
        if weight < ODD_WEIGHT:
            reasons.append(likely_slip(seen.kind, float(whole.residuals[index]), scatter))
        if setting.age_weight[index] < _SHOWN_AGE:
            reasons.append(f"age leaves it {setting.age_weight[index]:.0%}")
        age = float(setting.age_weight[index])
        foretold = math.exp(left_out[index])
        judged.append(
            JudgedObservation(seen, seen.modelled, float(after[index]), foretold, weight, age, "; ".join(reasons))
        )
    return judged


def _kind_error(group: tuple[Kind, str], judged: list[JudgedObservation], scatter: float) -> KindError:
    """Return how far off one kind was, and what that says of the next job."""
    expected = _SCATTERS[group[0]]
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
