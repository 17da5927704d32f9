"""Gas used between two rack counts: opening + delivered - closing - sent back, with the doubt of each part."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from estimator.check.bills import Delivery, RackCount
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.cylinder_content import CylinderSize, GasInCylinder, ReadingDoubts, gas_in_cylinder, heel_of
from estimator.problems import bills as said
from estimator.problems.code import Place, Problem
from estimator.read.cylinder_reading import CylinderReading

__all__ = ["GasUsed", "count_dates", "gas_used"]


@dataclass(frozen=True, slots=True)
class GasUsed:
    """One gas between two counts; amounts and standard uncertainties in m³."""

    gas: str
    after: dt.date
    """Day of the opening count; the month starts the day after."""
    until: dt.date
    """Day of the closing count."""
    opening: GasInCylinder
    delivered: GasInCylinder
    closing: GasInCylinder
    sent_back: GasInCylinder

    @property
    def used_m3(self) -> float:
        """Gas that left the cylinders."""
        opening, closing = self.opening.amount_m3, self.closing.amount_m3
        return opening + self.delivered.amount_m3 - closing - self.sent_back.amount_m3

    @property
    def doubt_m3(self) -> float:
        """Standard uncertainty of ``used_m3``."""
        parts = (self.opening, self.delivered, self.closing, self.sent_back)
        return float(np.sqrt(sum(part.doubt_m3**2 for part in parts)))


def count_dates(checking: Checking, gas: str) -> list[dt.date]:
    """Return the days on which a gas was counted, in order."""
    return sorted({count.date for count in checking.book.counts if count.gas == gas})


def gas_used(
    checking: Checking, gas: str, after: dt.date, until: dt.date, doubts: ReadingDoubts
) -> tuple[GasUsed, list[Problem]]:
    """Gas used between two counts.

    Parameters
    ----------
    checking : Checking
        The bills workbook, for counts, notes and the content of sizes.
    gas : str
        The gas.
    after, until : date
        Days of the opening and the closing count; both hold for the end of their day.
    doubts : ReadingDoubts
        Standard uncertainties of readings.

    Returns
    -------
    tuple of (GasUsed, list of Problem)
        Sizes without a known content are left out, and said.

    Notes
    -----
    ``opening + delivered - closing - sent back``. A full cylinder holds its agreed content, with one doubt shared by
    all, so it falls on the balance of full cylinders; a part-used one what was read; an empty one what is left in the
    bottle at change-over. A delivery whose readings on receipt show less than full counts as read, and so do its
    cylinders that still stand full on the rack; the oldest are taken to be used first.
    Source: definition; uncertainties of independent parts add in squares (JCGM 100:2008, 5.1.2).
    """
    problems: dict[str, Problem] = {}

    def size_of(size: str, supplier: str, place: Place) -> CylinderSize | None:
        known = checking.size_of(gas, size, supplier)
        if known is None:
            problems[size] = said.SIZE_UNKNOWN.at(place, gas=gas, size=size)
        return known

    counts = [c for c in checking.book.counts if c.gas == gas]
    notes = [d for d in checking.book.deliveries if d.gas == gas and after < d.date <= until]
    every_note = [d for d in checking.book.deliveries if d.gas == gas]
    opening = _on_rack([c for c in counts if c.date == after], every_note, size_of, doubts)
    closing = _on_rack([c for c in counts if c.date == until], every_note, size_of, doubts)
    delivered = _came(notes, size_of, doubts)
    sent_back = _sent_back(notes, size_of, doubts)
    net_full_m3 = opening.full_m3 + delivered.full_m3 - closing.full_m3
    shared = GasInCylinder(
        delivered.amount.amount_m3, _root(delivered.amount.doubt_m3, doubts.fill_share * net_full_m3)
    )
    used = GasUsed(
        gas,
        after,
        until,
        opening.amount,
        shared,
        closing.amount,
        sent_back,
    )
    return used, list(problems.values())


@dataclass(frozen=True, slots=True)
class _Stock:
    amount: GasInCylinder
    full_m3: float
    """The part that is full cylinders, whose fill is in doubt together."""


_SizeOf = Callable[[str, str, Place], CylinderSize | None]


def _on_rack(rows: list[RackCount], notes: list[Delivery], size_of: _SizeOf, doubts: ReadingDoubts) -> _Stock:
    full_m3 = shared_doubt = 0.0
    parts: list[GasInCylinder] = []
    for row in rows:
        size = size_of(row.size, row.supplier, row.place)
        if size is None:
            continue
        came = [d for d in notes if (d.size, d.supplier, d.owner) == (row.size, row.supplier, row.owner)]
        fills = _last_fills([d for d in came if d.date <= row.date], row.full, size, doubts)
        full_m3 += sum(fill.amount_m3 for fill in fills)
        shared_doubt += sum(fill.doubt_m3 for fill in fills)
        parts += [_reading(reading, size, doubts) for reading in row.part_readings]
        parts += [heel_of(size)] * row.empty
    return _Stock(_sum([*parts, GasInCylinder(0.0, shared_doubt)], full_m3), full_m3)


def _came(notes: list[Delivery], size_of: _SizeOf, doubts: ReadingDoubts) -> _Stock:
    full_m3 = shared_doubt = 0.0
    for note in notes:
        size = size_of(note.size, note.supplier, note.place)
        if size is not None:
            fill = _fill_of(note, size, doubts)
            full_m3 += note.full_in * fill.amount_m3
            shared_doubt += note.full_in * fill.doubt_m3
    return _Stock(GasInCylinder(full_m3, shared_doubt), full_m3)


def _last_fills(
    notes: list[Delivery], cylinders: int, size: CylinderSize, doubts: ReadingDoubts
) -> list[GasInCylinder]:
    """Return what the last cylinders that came hold; those that no note brought hold their rated content."""
    fills: list[GasInCylinder] = []
    for note in sorted(notes, key=lambda d: d.date, reverse=True):
        fills += [_fill_of(note, size, doubts)] * min(note.full_in, cylinders - len(fills))
    return fills + [GasInCylinder(size.content_m3, 0.0)] * (cylinders - len(fills))


def _fill_of(note: Delivery, size: CylinderSize, doubts: ReadingDoubts) -> GasInCylinder:
    """Return what one cylinder of a note holds: rated, or as read where that is plainly less.

    The doubt of a rated fill is added later, on the balance of full cylinders; that of a reading is shared by all.
    """
    read = [_reading(reading, size, doubts) for reading in note.readings_in]
    if read:
        mean = float(np.mean([r.amount_m3 for r in read]))
        doubt = float(np.mean([r.doubt_m3 for r in read]))
        if size.content_m3 - mean > 2 * doubt:
            return GasInCylinder(mean, doubt)
    return GasInCylinder(size.content_m3, 0.0)


def _sent_back(notes: list[Delivery], size_of: _SizeOf, doubts: ReadingDoubts) -> GasInCylinder:
    parts: list[GasInCylinder] = []
    for note in notes:
        size = size_of(note.size, note.supplier, note.place)
        if size is None:
            continue
        read = [_reading(reading, size, doubts) for reading in note.readings_out]
        parts += read + [heel_of(size)] * max(0, note.empty_out - len(read))
    by_kind: dict[float, list[GasInCylinder]] = defaultdict(list)
    for part in parts:
        by_kind[part.amount_m3].append(part)
    # What is left at change-over is a habit of the shop: its doubt is shared, so it adds up and not in squares.
    shared = [GasInCylinder(sum(p.amount_m3 for p in same), sum(p.doubt_m3 for p in same)) for same in by_kind.values()]
    return _sum(shared, 0.0)


def _reading(reading: CylinderReading, size: CylinderSize, doubts: ReadingDoubts) -> GasInCylinder:
    try:
        return gas_in_cylinder(reading, size, doubts)
    except ValueError:
        # The size's pressure or tare is not known: half full, give or take, and the doubt says so.
        return GasInCylinder(0.5 * size.content_m3, 0.29 * size.content_m3)


def _sum(parts: list[GasInCylinder], full_m3: float) -> GasInCylinder:
    return GasInCylinder(full_m3 + sum(p.amount_m3 for p in parts), _root(*(p.doubt_m3 for p in parts)))


def _root(*doubts: float) -> float:
    return float(np.sqrt(sum(d * d for d in doubts)))
