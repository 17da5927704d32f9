"""The words and figures of the job card, said once for the page and the workbook."""

from __future__ import annotations

import itertools
import math
from dataclasses import fields
from typing import Any

from estimator.pricing.card_log import CardLogRow
from estimator.pricing.job_card import CardGroup, CardLine, JobCard
from estimator.quantities.cut_sizes import larger_by_kerf_mm, triangle_path_mm
from estimator.shown_units import INCH, METRIC, ShownUnits
from estimator.units import FACTORS

__all__ = [
    "LOG_HEADINGS",
    "boxes",
    "card_json",
    "cut_words",
    "facts",
    "group_words",
    "keep_words",
    "log_records",
    "log_row_words",
    "log_title",
    "mass_shown",
    "mass_unit",
    "note_words",
    "piece_words",
    "title_words",
]

_MOST_BOXES = 30
"""Pieces up to here get a box each to tick; more get one at every ten (or fifty, or hundred) and one at the last."""
LOG_HEADINGS = (
    "Row of the log",
    "Date",
    "Who",
    "Hours on",
    "Hours off",
    "Oxygen cylinder on / off",
    "Fuel cylinder on / off",
    "What went wrong",
)
_MM_PER_INCH = 25.4
_PSI_PER_BAR = 1.0 / FACTORS["pressure_bar"]["psi"]


def title_words(card: JobCard) -> str:
    """Return the card's title."""
    return f"Job card {card.job_number}".strip()


def facts(card: JobCard) -> list[tuple[str, str]]:
    """Return what stands at the head of the card, blanks left out."""
    said = (
        ("Quote", card.quote),
        ("Customer", card.customer),
        ("Job", card.title),
        ("Begins", card.work_from.isoformat() if card.work_from else ""),
        ("Fuel", card.fuel),
        ("Pieces", f"{card.pieces}"),
    )
    return [(what, text) for what, text in said if text]


def group_words(group: CardGroup, card: JobCard) -> tuple[str, str]:
    """Return the head of a group: what is in the torch, and what it is set to."""
    if not group.tip:
        return "Without a torch", ""
    if group.guide == "heating":
        name = f"Heating tip {group.tip}"
    else:
        name = f"Tip {group.tip}, {_length(group.thickness_mm, card)} {_unit(card)}, {group.guide}"
    set_to = [
        f"oxygen {_pressure(group.oxygen_bar, card)}" if group.oxygen_bar == group.oxygen_bar else "",
        f"{card.fuel} {_pressure(group.fuel_bar, card)}" if group.fuel_bar == group.fuel_bar else "",
        "lever down",
    ]
    pace = ""
    if group.speed_mm_min == group.speed_mm_min:
        pace = f"; about {_speed(group.speed_mm_min, card)}, kerf {_length(group.kerf_mm, card)} {_unit(card)}"
    return name, ", ".join(filter(None, set_to)) + pace


def piece_words(line: CardLine, card: JobCard) -> str:
    """Return what the piece is when it is done."""
    sizes = [size for size in (line.size_a_mm, line.size_b_mm, line.thickness_mm) if size == size]
    shown = " x ".join(_length(size, card) for size in sizes)
    parts = [f"{line.shape} {shown}".strip() if line.shape else ""]
    if not line.shape and _known(line.cut_length_mm):
        parts.append(f"cut length {_length(line.cut_length_mm, card)}")
    if not line.shape and _known(line.thickness_mm):
        parts.append(f"{_length(line.thickness_mm, card)} {_unit(card)} plate")
    if line.holes:
        size = f" Ø {_length(line.hole_diameter_mm, card)}" if line.hole_diameter_mm == line.hole_diameter_mm else ""
        parts.append(f"{line.holes} hole{'s' if line.holes > 1 else ''}{size}")
    return ", ".join(part for part in (line.description, *parts) if part)


def cut_words(line: CardLine, card: JobCard) -> str:
    """Return the sizes at the centre of the cut, kerf allowed; what is drilled instead."""
    a, b, kerf = line.size_a_mm, line.size_b_mm, line.kerf_mm
    said = ""
    if line.from_flat:
        said = f"length {_wider(a, kerf, card)}" if line.shape == "rectangle" and _known(a) else ""
    elif line.shape in ("rectangle", "strip") and _known(a, b):
        said = f"{_wider(a, kerf, card)} x {_wider(b, kerf, card)}"
    elif line.shape == "right triangle" and _known(a, b):
        said = " x ".join(_length(leg, card) for leg in triangle_path_mm(a, b, kerf)) + " legs"
    elif line.shape == "disc" and _known(a):
        said = f"Ø {_wider(a, kerf, card)}"
    elif line.shape == "ring" and _known(a, b):
        said = f"Ø {_wider(a, kerf, card)}, inside Ø {_wider(b, -kerf, card)}"
    if line.holes and line.drilled:
        hole = f" Ø {_length(line.hole_diameter_mm, card)}" if _known(line.hole_diameter_mm) else ""
        return ", ".join(filter(None, (said, f"drill {line.holes}{hole}")))
    if line.holes and _known(line.hole_diameter_mm):
        return ", ".join(filter(None, (said, f"holes Ø {_wider(line.hole_diameter_mm, -kerf, card)}")))
    return said


def mass_unit(card: JobCard) -> str:
    """Return the unit in which pieces are weighed on the card."""
    return _units(card).unit("kg")


def mass_shown(line: CardLine, card: JobCard) -> float:
    """Return what a piece weighs in the unit of the card."""
    return _units(card).number(line.mass_each_kg, "kg")


def note_words(line: CardLine, card: JobCard) -> str:
    """Return what else is done to a piece, and what to mind."""
    mass = f"{mass_shown(line, card):.0f} {mass_unit(card).upper()}"
    heavy = f"{mass}: SUPPORT BEFORE THE LAST CUT" if line.heavy else ""
    return "; ".join(filter(None, (heavy, *line.notes)))


def boxes(quantity: int) -> list[str]:
    """Return what stands beside each box to tick: nothing, or how many pieces are done when it is ticked.

    Examples
    --------
    >>> boxes(3), boxes(32), len(boxes(200)), boxes(1250)[:2]
    (['', '', ''], ['10', '20', '30', '32'], 20, ['50', '100'])
    """
    if quantity <= _MOST_BOXES:
        return [""] * quantity
    steps = (first * 10**power for power in itertools.count(1) for first in (1, 2, 5))
    step = next(each for each in steps if quantity <= each * _MOST_BOXES)
    return [str(min(done, quantity)) for done in range(step, quantity + step, step)]


def log_title(card: JobCard) -> str:
    """Return what stands over the rows of the log."""
    number = f" of job {card.job_number}" if card.job_number else ""
    return f"Back to the work log{number}: a row each, hours as man-minutes; cylinders go on their tags"


def log_row_words(row: CardLogRow, card: JobCard) -> str:
    """Return what the quote reckons for one row of the log: its columns that are known before the work."""
    what = row.operation if row.thickness_mm != row.thickness_mm else f"{_length(row.thickness_mm, card)} {_unit(card)}"
    said = [f"{what}, {row.method}" if row.method else what, f"{row.pieces} piece{'s' if row.pieces != 1 else ''}"]
    if row.cut_length_m:
        said.append(f"{row.cut_length_m / 0.3048:.1f} ft" if card.inch else f"{row.cut_length_m:.2f} m")
    counts = ((row.pierces, "pierce"), (row.edge_starts, "edge start"))
    said += [f"{count} {name}{'s' if count != 1 else ''}" for count, name in counts if count]
    return ", ".join(said)


def log_records(card: JobCard) -> list[dict[str, Any]]:
    """Return the rows of the work log by house name, as far as they are known before the work."""
    named = {"job": card.job_number, "quote_number": card.quote_number}
    rows = []
    for row in card.log_rows:
        known = {field.name: getattr(row, field.name) for field in fields(row)}
        known |= {"thickness_mm": _null(row.thickness_mm), "cut_length_m": round(row.cut_length_m, 2) or None}
        rows.append(named | {name: value or None for name, value in known.items()})
    return rows


def keep_words(card: JobCard) -> str:
    """Return what is left over and kept; empty for nothing named."""
    named = [f"{_length(g.thickness_mm, card)} {_unit(card)}: {one}" for g in card.groups for one in g.keep]
    return "; ".join(named)


def card_json(card: JobCard) -> dict[str, Any]:
    """Return the card as ``--json`` gives it: figures in house units, blanks as null."""
    return {
        "schema": "kerfledger/1",
        "job_number": card.job_number,
        "quote": card.quote,
        "customer": card.customer,
        "title": card.title,
        "work_from": card.work_from.isoformat() if card.work_from else None,
        "fuel": card.fuel,
        "pieces": card.pieces,
        "groups": [_group_json(group) for group in card.groups],
        "log_rows": log_records(card),
        "cautions": [{"text": one.text, "source": one.source} for one in card.cautions],
    }


def _group_json(group: CardGroup) -> dict[str, Any]:
    return {
        "tip": group.tip,
        "guide": group.guide,
        "thickness_along_cut_mm": _null(group.thickness_mm),
        "oxygen_pressure_bar": _null(group.oxygen_bar),
        "fuel_pressure_bar": _null(group.fuel_bar),
        "travel_speed_mm_min": _null(group.speed_mm_min),
        "kerf_mm": _null(group.kerf_mm),
        "lines": [
            {
                "mark": line.mark,
                "drawing": line.drawing,
                "description": line.description,
                "quantity": line.quantity,
                "plate_thickness_mm": _null(line.thickness_mm),
                "shape": line.shape,
                "size_a_mm": _null(line.size_a_mm),
                "size_b_mm": _null(line.size_b_mm),
                "cut_length_mm": _null(line.cut_length_mm),
                "holes": line.holes,
                "hole_diameter_mm": _null(line.hole_diameter_mm),
                "drilled": line.drilled,
                "mass_each_kg": line.mass_each_kg,
                "support_before_last_cut": line.heavy,
                "notes": list(line.notes),
            }
            for line in group.lines
        ],
        "keep": group.keep,
    }


def _null(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _known(*sizes: float) -> bool:
    return all(size == size for size in sizes)


def _units(card: JobCard) -> ShownUnits:
    return INCH if card.inch else METRIC


def _unit(card: JobCard) -> str:
    return "in" if card.inch else "mm"


def _wider(size_mm: float, kerf_mm: float, card: JobCard) -> str:
    return _length(larger_by_kerf_mm(size_mm, kerf_mm), card)


def _length(mm: float, card: JobCard) -> str:
    return f"{round(mm / _MM_PER_INCH, 3):g}" if card.inch else f"{round(mm, 1):g}"


def _pressure(bar: float, card: JobCard) -> str:
    return f"{bar * _PSI_PER_BAR:.0f} psi" if card.inch else f"{bar:.2g} bar"


def _speed(mm_min: float, card: JobCard) -> str:
    return f"{mm_min / _MM_PER_INCH:.0f} in/min" if card.inch else f"{round(mm_min, -1):.0f} mm/min"
