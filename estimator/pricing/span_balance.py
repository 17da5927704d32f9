"""One cylinder at a time: what it gave between the day it went on and the day it came off, against the jobs between.

A month says that gas is missing; a cylinder says when.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from estimator.check.work_log import CylinderTag, LogEntry, WorkLog
from estimator.pricing.cylinder_content import CylinderSize, GasInCylinder, ReadingDoubts, gas_in_cylinder, heel_of
from estimator.pricing.expected_gas import ExpectedGas
from estimator.pricing.gas_balance import GasVerdict, balance
from estimator.pricing.month_end import Month
from estimator.pricing.own_ratio import OwnRatio

__all__ = ["CylinderSpan", "cylinder_spans"]

_UNIFORM_SD = 0.2886751345948129
"""Standard deviation of a share that lies anywhere from 0 to 1: 1 / √12."""


@dataclass(frozen=True, slots=True)
class CylinderSpan:
    """One cylinder's span with what its jobs explain."""

    tag: CylinderTag
    jobs: tuple[str, ...]
    verdict: GasVerdict


def cylinder_spans(
    log: WorkLog,
    model: Callable[[WorkLog], ExpectedGas],
    size_of: Callable[[str, str], CylinderSize | None],
    months: Sequence[Month] = (),
    doubts: ReadingDoubts | None = None,
) -> list[CylinderSpan]:
    """Set what each tagged cylinder gave beside what the jobs between its dates need.

    Parameters
    ----------
    log : WorkLog
        Entries and tags.
    model : function of WorkLog
        Gas that the entries of a log need.
    size_of : function of gas and size
        The cylinder's size; None where it is not known.
    months : sequence of Month
        Closed months, for the shop's own ratio on the day a cylinder came off.
    doubts : ReadingDoubts, optional
        Standard uncertainties of readings.

    Returns
    -------
    list of CylinderSpan
        Finished spans of known sizes with logged work, in the order of the tags; those of one gas are a family.

    Notes
    -----
    A row that several cylinders of one gas cover is shared between them evenly, and how it really fell is in doubt.
    Source: definition.
    """
    doubts = doubts or ReadingDoubts()
    rows = [row for tag in log.tags if (row := _row(tag, log, model, size_of, months, doubts))]
    spans = []
    for gas in dict.fromkeys(tag.gas for tag, *_ in rows):
        of_gas = [row for row in rows if row[0].gas == gas]
        names = [tag.gas for tag, *_ in of_gas]
        columns = np.array([[u.amount_m3, u.doubt_m3, e.amount_m3, e.doubt_m3] for _, _, u, e in of_gas]).T
        verdicts = balance(names, *columns)
        spans += [CylinderSpan(tag, jobs, v) for (tag, jobs, _, _), v in zip(of_gas, verdicts, strict=True)]
    order = {id(tag): index for index, tag in enumerate(log.tags)}
    return sorted(spans, key=lambda span: order[id(span.tag)])


_Row = tuple[CylinderTag, tuple[str, ...], GasInCylinder, GasInCylinder]


def _row(
    tag: CylinderTag,
    log: WorkLog,
    model: Callable[[WorkLog], ExpectedGas],
    size_of: Callable[[str, str], CylinderSize | None],
    months: Sequence[Month],
    doubts: ReadingDoubts,
) -> _Row | None:
    size = size_of(tag.gas, tag.size)
    covered = [entry for entry in log.entries if tag.covers(entry)]
    if tag.date_off is None or size is None or not covered:
        return None
    given = _given(tag, size, doubts)
    if given is None:
        return None
    needed = _needed(tag, covered, log.tags, model, _learned(tag, months))
    return tag, tuple(dict.fromkeys(entry.job for entry in covered)), given, needed


def _given(tag: CylinderTag, size: CylinderSize, doubts: ReadingDoubts) -> GasInCylinder | None:
    """Return the gas that left a cylinder between its two readings; None where a reading says nothing."""
    try:
        on = gas_in_cylinder(tag.reading_on, size, doubts)
        off = heel_of(size) if tag.reading_off is None else gas_in_cylinder(tag.reading_off, size, doubts)
    except ValueError:
        return None
    return GasInCylinder(on.amount_m3 - off.amount_m3, float(np.hypot(on.doubt_m3, off.doubt_m3)))


def _needed(
    tag: CylinderTag,
    covered: Sequence[LogEntry],
    tags: Sequence[CylinderTag],
    model: Callable[[WorkLog], ExpectedGas],
    learned: OwnRatio | None,
) -> GasInCylinder:
    """Return the gas that the covered rows need of this cylinder."""
    by_share: dict[int, list[LogEntry]] = {}
    for entry in covered:
        sharing = sum(other.gas == tag.gas and other.covers(entry) for other in tags)
        by_share.setdefault(max(sharing, 1), []).append(entry)
    amount = common = squares = 0.0
    for sharing, entries in by_share.items():
        expected = model(WorkLog(entries=tuple(entries)))
        whole = expected.total_m3(tag.gas)
        amount += whole / sharing
        common = max(common, expected.common_doubt(tag.gas))
        squares += (expected.own_doubt_m3.get(tag.gas, 0.0) / sharing) ** 2
        squares += (_UNIFORM_SD * whole) ** 2 / len(entries) if sharing > 1 else 0.0
    ratio, doubt = (learned.ratio, learned.doubt) if learned else (1.0, common)
    return GasInCylinder(amount * ratio, float(np.sqrt(squares + (amount * ratio * doubt) ** 2)))


def _learned(tag: CylinderTag, months: Sequence[Month]) -> OwnRatio | None:
    for month in months:
        if tag.date_off is not None and month.after < tag.date_off <= month.until:
            return month.learned.get(tag.gas)
    return None
