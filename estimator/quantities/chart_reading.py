"""What the tips' charts say at the thicknesses of a job's settings, and the shop's own factors of each tip."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.check.torch_figures import Chart, Curve, TipFactors
from estimator.quantities.chart import interpolate_log
from estimator.quantities.sorted_values import distinct

__all__ = ["ChartGroup", "ChartReading", "cleaning_rate_min_per_m", "read_charts"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class ChartGroup:
    """Settings of one tip, by hand or on a track: they read one chart and share the tip's own factors."""

    here: NDArray[np.bool_]
    chart: Chart
    own: TipFactors
    on_track: bool

    @property
    def speed_mm_min(self) -> Curve:
        """The curve of speeds by hand or on a track."""
        return self.chart.machine_speed_mm_min if self.on_track else self.chart.hand_speed_mm_min

    @property
    def own_speed(self) -> float:
        """The shop's own factor of that speed."""
        return self.own.machine_speed if self.on_track else self.own.hand_speed


@dataclass(frozen=True, slots=True)
class ChartReading:
    """The charts of m settings, read at their thicknesses: shape (m,), NaN where a chart says nothing."""

    thickness_mm: Floats
    groups: list[ChartGroup]

    def each(self, value: Callable[[ChartGroup, Floats], ArrayLike]) -> Floats:
        """Put together what each group says of its thicknesses."""
        read = np.full(len(self.thickness_mm), np.nan)
        for of in self.groups:
            read[of.here] = value(of, self.thickness_mm[of.here])
        return read

    def likely(self, curve_of: Callable[[ChartGroup], Curve]) -> Floats:
        """Return the likely figure of a curve."""
        return self.each(lambda of, at: _between(at, curve_of(of), curve_of(of).likely))

    def band(self, curve_of: Callable[[ChartGroup], Curve]) -> tuple[Floats, Floats, Floats]:
        """Return the likely, the low and the high figure of a curve."""
        low = self.each(lambda of, at: _between(at, curve_of(of), curve_of(of).low))
        high = self.each(lambda of, at: _between(at, curve_of(of), curve_of(of).high))
        return self.likely(curve_of), low, high

    def factor(self, factor_of: Callable[[ChartGroup], float]) -> Floats:
        """Return one of the shop's own factors."""
        return self.each(lambda of, _: factor_of(of))


def read_charts(
    tip_index: NDArray[np.int64],
    machine: NDArray[np.bool_],
    thickness_mm: Floats,
    *,
    charts: Sequence[Chart],
    factors: Sequence[TipFactors],
) -> ChartReading:
    """Return the charts of m settings, ready to be read.

    Parameters
    ----------
    tip_index : ndarray of int, shape (m,)
        Tip of each setting, an index into ``charts``.
    machine : ndarray of bool, shape (m,)
        Whether the torch runs on a track.
    thickness_mm : ndarray of float, shape (m,)
        Thickness along the cut [mm].
    charts : sequence of Chart
        Chart of each tip.
    factors : sequence of TipFactors
        Calibrated factors of each tip.

    Returns
    -------
    ChartReading
    """
    groups = [
        ChartGroup((tip_index == tip) & (machine == on_track), charts[int(tip)], factors[int(tip)], on_track)
        for tip in distinct(tip_index)
        for on_track in (False, True)
    ]
    return ChartReading(thickness_mm, groups)


def cleaning_rate_min_per_m(thickness_mm: Floats, curve: Curve, above_per_mm: float) -> Floats:
    """Return the slag-cleaning norm of the next thickness up; beyond the table in proportion to thickness.

    Parameters
    ----------
    thickness_mm : ndarray of float, shape (n,)
        Thickness [mm].
    curve : Curve
        Norms "to 6, 8, 10 ... mm" [min/m].
    above_per_mm : float
        Minutes per metre for each millimetre beyond the last row [min/m/mm].

    Returns
    -------
    ndarray of float, shape (n,)
        Minutes per metre of edge [min/m].

    Notes
    -----
    Source: ENiR E40-2-4 A inside the table; judgement beyond it.

    Examples
    --------
    >>> steps = Curve(*(np.array(v) for v in ([6.0, 30.0], [0.9, 2.7], [0.9, 2.7], [0.9, 2.7])))
    >>> cleaning_rate_min_per_m(np.array([5.0, 6.5, 40.0]), steps, 0.09)
    array([0.9, 2.7, 3.6])
    """
    row = np.searchsorted(curve.thickness_mm, thickness_mm - 1e-9)
    inside = row < len(curve.thickness_mm)
    norm = curve.likely[np.minimum(row, len(curve.thickness_mm) - 1)]
    return np.where(inside, norm, above_per_mm * thickness_mm)


def _between(at_mm: Floats, curve: Curve, values: Floats) -> Floats:
    return interpolate_log(at_mm, curve.thickness_mm, values)
