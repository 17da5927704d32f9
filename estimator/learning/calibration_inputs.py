"""What a calibration fits: the logged figures as terms of factors, each factor's band, each figure's weight by age."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from estimator.learning.calibration_result import HandbookFactor
from estimator.learning.joint_fit import JointFit, Scatter, fit_jointly
from estimator.learning.observation import Kind, Observation
from estimator.learning.observation_table import ObservationTable, observation_table

__all__ = ["SCATTERS", "CalibrationInputs", "calibration_inputs"]

Flags = NDArray[np.bool_]
Floats = NDArray[np.float64]

SCATTERS = {
    # A cylinder's jobs even each other out; its unmeasured parts leave little to tell its scatter by.
    Kind.CYLINDER_SPAN: Scatter(prior_sd=0.03, prior_weight=20.0),
    Kind.GAUGE: Scatter(prior_sd=0.08, prior_weight=2.0),
    Kind.FLAME_TIME: Scatter(prior_sd=0.10, prior_weight=2.0),
    Kind.PAID_TIME: Scatter(prior_sd=0.09, prior_weight=2.0),
}
"""Job-to-job scatter before the log speaks. Source: judgement."""
_PART_LOG_SD = 1.2
"""Spread of the log of a part before the log speaks: with two parts, about evenly anything between none and all."""


@dataclass(frozen=True, slots=True)
class CalibrationInputs:
    """What is fitted, kept together so that it can be fitted once more with a job left out."""

    observations: Sequence[Observation]
    table: ObservationTable
    names: list[str]
    """Of the factors, then of the errors that observations share; parts of a day follow them without names."""
    prior_log_sd: Floats
    groups: list[tuple[Kind, str]]
    """Kinds of figure, each gas by itself."""
    group: NDArray[np.int64]
    """Of each observation."""
    age_weight: Floats

    def fit(self, keep: Flags | None = None, start: Floats | None = None) -> JointFit:
        """Fit all observations, or some of them from where the fit of all has settled."""
        kept = np.ones(len(self.group), dtype=bool) if keep is None else keep
        return fit_jointly(
            self.table if keep is None else self.table.rows(kept),
            self.prior_log_sd,
            self.group[kept],
            [SCATTERS[kind] for kind, _ in self.groups],
            self.age_weight[kept],
            start,
        )


def calibration_inputs(
    observations: Sequence[Observation],
    handbook: Sequence[HandbookFactor],
    learned: Sequence[HandbookFactor],
    shared_errors: Mapping[str, float],
    age_weights: Floats,
) -> CalibrationInputs:
    """Put together what is fitted: factors that have a band, shared errors, and the parts of a day on two cylinders.

    Parameters
    ----------
    observations : sequence of Observation
        What was logged, n of them.
    handbook, learned : sequence of HandbookFactor
        Every factor that the terms name, and those of them that have a band.
    shared_errors : mapping of str to float
        Relative standard uncertainty of each error that observations share.
    age_weights : ndarray of float, shape (n,)
        Weight that its age leaves each observation.

    Returns
    -------
    CalibrationInputs
    """
    names = [factor.name for factor in learned] + list(shared_errors)
    fixed = {factor.name for factor in handbook} - set(names)
    table = observation_table([_without(seen, fixed) for seen in observations], names)
    prior = [f.spread.log_sd_about_likely for f in learned] + list(shared_errors.values())
    groups = sorted({(seen.kind, seen.gas) for seen in observations})
    return CalibrationInputs(
        observations,
        table,
        names,
        np.append(np.array(prior, dtype=np.float64), np.full(int(table.is_part.sum()), _PART_LOG_SD)),
        groups,
        np.array([groups.index((seen.kind, seen.gas)) for seen in observations], dtype=np.int64),
        age_weights,
    )


def _without(seen: Observation, fixed: set[str]) -> Observation:
    """Return the observation without the factors that cannot be learned."""
    if not fixed:
        return seen
    terms = tuple(replace(t, powers={n: p for n, p in t.powers.items() if n not in fixed}) for t in seen.terms)
    return replace(seen, terms=terms)
