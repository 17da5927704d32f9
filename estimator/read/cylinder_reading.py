"""What a gauge, a scale or a look says of one cylinder: ``150 bar``, ``2200 psi``, ``31.5 kg``, ``about 1/2``.

What amount of gas that is depends on the cylinder, and is left to ``pricing.cylinder_content``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from estimator.read.number_text import plain_text, read_number_text
from estimator.units import to_house

__all__ = ["CylinderReading", "Means", "read_cylinder", "read_cylinders"]


class Means(StrEnum):
    """What was read."""

    PRESSURE = "pressure"
    """Gauge pressure, bar."""
    MASS = "mass"
    """Mass of the cylinder with its gas, kg."""
    SHARE = "share"
    """Share of a full cylinder, judged by eye or by feel."""


@dataclass(frozen=True, slots=True)
class CylinderReading:
    """One reading of one cylinder."""

    means: Means
    value: float
    """Bar gauge, kg gross, or share from 0 to 1."""
    rough: bool = False
    """Judged rather than read."""
    said: str = ""
    """As typed."""


_WORDS = {"full": 1.0, "new": 1.0, "half": 0.5, "empty": 0.0, "run down": 0.0}
_QUARTERS = {"¼": "1/4", "½": "1/2", "¾": "3/4"}
_ROUGHLY = re.compile(r"^(?:about|approx\.?|ca\.?|c\.|~|≈) ?")
_SHARE = re.compile(r"(\d{1,2})/(\d{1,2})(?: full)?")
_PERCENT = re.compile(r"([\d.,]+) ?%(?: full)?")
_MEASURE = re.compile(r"([\d.,' ]*\d) ?(bar|barg|mpa|kpa|psi|psig|kg|lb|lbs)?")
_PRESSURE_UNITS = {"bar": "bar", "barg": "bar", "mpa": "MPa", "kpa": "kPa", "psi": "psi", "psig": "psi"}
_MASS_UNITS = {"kg": "kg", "lb": "lb", "lbs": "lb"}


def read_cylinder(text: str, bare_unit: str = "") -> CylinderReading:
    """Return what one text says about one cylinder.

    Parameters
    ----------
    text : str
        Such as ``150 bar``, ``31,5 kg``, ``3/4 full``, ``about ½``, ``75 %``, ``full``, ``empty``.
    bare_unit : str
        Unit of a number without one, where the heading says it (``bar`` or ``kg``).

    Returns
    -------
    CylinderReading

    Raises
    ------
    ValueError
        When the text is none of these, or a number has no unit and the heading gives none.

    Notes
    -----
    Shares are rough by nature; ``full`` and ``empty`` are not. Source: definition.

    Examples
    --------
    >>> round(read_cylinder("2200 psi").value, 3)
    151.685
    >>> read_cylinder("about ¾").rough
    True
    """
    said = plain_text(text)
    body = said.casefold()
    for sign, plain in _QUARTERS.items():
        body = body.replace(sign, plain)
    rough = bool(_ROUGHLY.match(body))
    body = _ROUGHLY.sub("", body)
    if body in _WORDS:
        return CylinderReading(Means.SHARE, _WORDS[body], rough or body == "half", said)
    share = _share(body)
    if share is not None:
        if share > 1:
            raise ValueError(f"{text!r} is more than a full cylinder")
        return CylinderReading(Means.SHARE, share, rough=True, said=said)
    return _measured(body, bare_unit, rough, said)


def read_cylinders(text: str, bare_unit: str = "") -> tuple[CylinderReading, ...]:
    """Return one reading for each part of a text that semicolons divide; ``3 x 200 bar`` is three.

    Parameters
    ----------
    text : str
        Readings with semicolons between.
    bare_unit : str
        As for ``read_cylinder``.

    Returns
    -------
    tuple of CylinderReading

    Raises
    ------
    ValueError
        When one part is not a reading.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> [reading.value for reading in read_cylinders("2 x 200 bar; 1/2")]
    [200.0, 200.0, 0.5]
    """
    found: list[CylinderReading] = []
    for part in filter(None, (piece.strip() for piece in plain_text(text).split(";"))):
        times = re.fullmatch(r"(\d{1,3}) ?[x×] ?(.+)", part)
        found += [read_cylinder(times[2] if times else part, bare_unit)] * (int(times[1]) if times else 1)
    return tuple(found)


def _share(body: str) -> float | None:
    fraction, percent = _SHARE.fullmatch(body), _PERCENT.fullmatch(body)
    if fraction and int(fraction[2]):
        return float(Fraction(int(fraction[1]), int(fraction[2])))
    return read_number_text(percent[1]) / 100.0 if percent else None


def _measured(body: str, bare_unit: str, rough: bool, said: str) -> CylinderReading:
    match = _MEASURE.fullmatch(body)
    unit = (match[2] or bare_unit) if match else ""
    if match is None or not unit:
        raise ValueError(f"{said!r} is not a reading of a cylinder")
    value = read_number_text(match[1])
    if unit in _PRESSURE_UNITS:
        return CylinderReading(Means.PRESSURE, to_house("pressure_bar", value, _PRESSURE_UNITS[unit]), rough, said)
    return CylinderReading(Means.MASS, to_house("mass_kg", value, _MASS_UNITS[unit]), rough, said)
