"""The strict grammar of lengths: every way a shop writes one, read exactly, or refused with the reason.

Never a library's unit parser: those read ``1 1/2 in`` as half an inch and ``5' 3"`` as fifteen.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from estimator.read.length_words import (
    MM_PER,
    PREFIX_LABEL,
    SUFFIX_LABEL,
    UNIT_PATTERN,
    label_of,
    unit_of,
)
from estimator.read.numbers import Number, Refused, read_fraction, read_number
from estimator.read.text import LONGEST, plain_text

__all__ = ["Length", "read_length", "say_length"]


@dataclass(frozen=True, slots=True)
class Length:
    """A length read from a text."""

    value: Fraction
    unit: str | None = None
    """mm, cm, m, in or ft; None when the text names none."""
    plain: bool = True
    """False when something had to be interpreted; ``remark`` says what."""
    remark: str = ""
    label: str = ""
    """thickness, length, width or diameter when the text says so."""
    is_fraction: bool = False
    reduced: bool = True
    step: Fraction = Fraction(1)
    """One unit of the last digit that was written."""

    def __str__(self) -> str:
        return say_length(self.value, self.unit, as_fraction=self.is_fraction)

    def in_mm(self, unit: str | None = None) -> Fraction:
        """Return the length in millimetres; ``unit`` serves when the text names none."""
        return self.value * MM_PER[self.unit or unit or "mm"]


Gauges = Mapping[int, Fraction]
"""Thickness in inches of each US steel sheet gauge."""

_FEET = re.compile(
    r"(?P<ft>[0-9]+(?:[.,][0-9]+)?) ?(?:'|ft\.?|feet|foot)"
    r"(?:(?: ?- ?| )?(?P<in>[0-9]+(?:(?: |-| -|- )[0-9]+/[0-9]+)?|[0-9]+/[0-9]+|[0-9]*\.[0-9]+)"
    r" ?(?P<mark>\"|in\.?|ins\.?|inch|inches)?)?"
)
_VALUE = re.compile(rf"(?P<num>[0-9.,][0-9., '/+-]*?) ?(?:-(?=[a-z]))?(?P<unit>(?:{UNIT_PATTERN})\.?)?")
_GAUGE = re.compile(r"(?:# ?|no\.? ?)?([0-9]{1,2}) ?-?(?:ga|gauge|gage|gge)\.?|(?:ga|gauge|gage)\.? ?#? ?([0-9]{1,2})")
_ONE_NOTATION = re.compile(
    r"(?P<num>[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+)"
    rf" ?(?P<unit>(?:{UNIT_PATTERN}|gauge|gage|ga)\.?(?![a-z0-9]))?"
)
_BETWEEN = re.compile(r"[ ()/=,;]*")
_TOLERANCE = re.compile(r" ?(?:±|\+/-|\+-) ?[0-9]+(?:[.,][0-9]+)?(?: ?(?:mm|in|\"))?$")

_NUM = r"[0-9]+(?:[.,/][0-9]+)?"
_REASONS = (
    (re.compile(rf"-+ ?{_NUM}.*"), "it is below zero"),
    (
        re.compile(rf".*{_NUM}[^0-9]{{0,4}}?(?: ?(?:-|--|~|÷|\.\.+|…) ?| (?:to|bis|à|a|do|до) ){_NUM}.*"),
        "it is a range",
    ),
    (re.compile(r".*[0-9] ?(?:swg|bwg|awg|s\.w\.g\.?).*"), "wire gauges differ from sheet gauges"),
    (re.compile(r"(?:~|≈|ca\.?|c\.|approx\.?|about|etwa|env\.?|około|ok\.|прибл\.?) ?[0-9].*"), "it is approximate"),
    (re.compile(r"[<>≤≥].*|.*[0-9].*\b(?:min|max)\.?"), "it is a limit, not a length"),
    (re.compile(r".*[0-9].*\?.*"), "it is marked as doubtful"),
    (re.compile(r"[0-9.,]+e[+-]?[0-9]+"), "it is written with an exponent"),
    (re.compile(r"[0-9lo.,]*[lo][0-9lo.,]* ?(?:mm|cm|m|in|\")?"), "a letter stands among the digits"),
    (re.compile(rf"{_NUM} ?(?:m\^|mm\^|m2|m3|kg|lb|lbs|t|g|°|deg|%)\.?"), "the unit is not a length"),
    (re.compile(rf".*{_NUM}.*[x×*].*{_NUM}.*"), "it holds several dimensions"),
    (re.compile(rf"{_NUM}[ ,;/+&]+{_NUM}.*"), "it holds two values"),
    (re.compile(r"#.*"), "the # can mean a gauge or a number"),
    (re.compile(r"[^0-9]*"), "it holds no figure"),
)


def read_length(text: str, decimal: str | None = None, gauges_in: Gauges | None = None) -> Length | Refused:
    r"""Read one length.

    Parameters
    ----------
    text : str
        What stands in the cell.
    decimal : {".", ",", None}
        Decimal mark that the list gives evidence of.
    gauges_in : mapping of int to Fraction, optional
        Thickness of each sheet gauge [in].

    Returns
    -------
    Length or Refused
        The exact length with the unit that the text names, or why it has no single reading.

    Examples
    --------
    >>> read_length('5\'-3 1/2"').in_mm(), read_length("12 THK").label
    (Fraction(16129, 10), 'thickness')
    >>> read_length("12-18 mm").reason
    'it is a range'
    """
    if len(text) > LONGEST:
        return Refused("it is too long for a length")
    said = plain_text(text).casefold()
    bare, label, remark = _without_labels(said)
    if label == "?":
        return Refused("the letter before the figure has no single meaning")
    read = _read_bare(bare, decimal, gauges_in)
    if isinstance(read, Refused):
        return read
    if remark:
        read = replace(read, remark="; ".join(filter(None, (read.remark, remark))), plain=False)
    return replace(read, label=label or read.label)


def say_length(value: Fraction, unit: str | None, *, as_fraction: bool = False) -> str:
    """Return a length as people of that unit write it.

    Examples
    --------
    >>> say_length(Fraction(3, 2), "in"), say_length(Fraction(25, 2), "mm")
    ('1-1/2 in', '12.5 mm')
    """
    suffix = f" {unit}" if unit else ""
    if (as_fraction or unit in {"in", "ft"}) and value.denominator in {2, 4, 8, 16, 32, 64}:
        whole, rest = divmod(value, 1)
        return (f"{whole}-{rest}" if whole else f"{rest}") + suffix
    return f"{float(value):.10g}" + suffix


def _without_labels(said: str) -> tuple[str, str, str]:
    """Return the text without its labels, the label, and a remark on what was left out."""
    label = remark = ""
    if found := PREFIX_LABEL.match(said):
        label = label_of(found)
        said = said[found.end() :]
    for _ in range(2):
        if found := SUFFIX_LABEL.search(said):
            after = label_of(found)
            if label and after and after != label:
                return said, "?", ""
            label = label or after
            said = said[: found.start()].rstrip(" .,") if found["gap"] or after else said[: found.start()]
    if found := _TOLERANCE.search(said):
        said, remark = said[: found.start()], "the tolerance is left out"
    return said.strip(), label, remark


def _read_bare(said: str, decimal: str | None, gauges_in: Gauges | None) -> Length | Refused:
    """Read a length without labels."""
    if found := _FEET.fullmatch(said):
        return _feet(found, said, decimal)
    if found := _GAUGE.fullmatch(said):
        return _gauge(int(found[1] or found[2]), gauges_in)
    if found := _VALUE.fullmatch(said):
        read = _value(found["num"], found["unit"], decimal)
        if not isinstance(read, Refused) or read.reason != "it is not a number":
            return read
    notations = _notations(said, decimal, gauges_in)
    if isinstance(notations, Length):
        return notations
    reason = next((why for pattern, why in _REASONS if pattern.fullmatch(said)), None)
    if notations is not None and reason in {None, "it holds two values", "it holds several dimensions"}:
        return notations
    return Refused(reason or "it is not written as a length")


def _value(num: str, unit_word: str | None, decimal: str | None) -> Length | Refused:
    """Read a number or fraction with its unit word."""
    unit = unit_of(unit_word) if unit_word else None
    read = read_fraction(num)
    if read is None:
        read = read_number(num, "." if unit == "in" and "." in num and "," not in num else decimal)
    if isinstance(read, Refused):
        return read
    if read.is_fraction and unit in {"mm", "cm"}:
        return Refused(f"a fraction of a {unit} is not a shop size")
    return _length(read, unit)


def _length(read: Number, unit: str | None) -> Length:
    """Return a number as a length."""
    return Length(
        read.value, unit, read.plain, read.remark, is_fraction=read.is_fraction, reduced=read.reduced, step=read.step
    )


def _feet(found: re.Match[str], said: str, decimal: str | None) -> Length | Refused:
    """Read feet, or feet and inches."""
    if re.fullmatch(r"[0-9]{1,3}(?:'[0-9]{3})+", said):
        return Refused("the ' can mean feet or group the thousands")
    feet = read_number(found["ft"], decimal)
    if isinstance(feet, Refused) or found["in"] is None:
        return feet if isinstance(feet, Refused) else _length(feet, "ft")
    inches = read_fraction(found["in"]) or read_number(found["in"], ".")
    if isinstance(inches, Refused):
        return inches
    if inches.value >= 12:
        return Refused("the inches after the feet reach 12 or more")
    if feet.value.denominator != 1:
        return Refused("feet with decimals are followed by inches")
    sure = found["mark"] is not None and inches.plain
    remark = inches.remark if found["mark"] else "the figure after the feet is read as inches"
    value = feet.value * 12 + inches.value
    return Length(value, "in", sure, remark, is_fraction=inches.is_fraction, step=inches.step)


def _gauge(number: int, gauges_in: Gauges | None) -> Length | Refused:
    """Read a US steel sheet gauge."""
    thickness = (gauges_in or {}).get(number)
    if thickness is None:
        return Refused("it is a gauge that the sheet-gauge table does not hold")
    remark = f"{number} ga is read as US steel sheet gauge"
    return Length(thickness, "in", False, remark, label="thickness", step=Fraction(1, 10_000))


def _notations(said: str, decimal: str | None, gauges_in: Gauges | None) -> Length | Refused | None:
    """Read one length written in two or three notations; None when it is not that."""
    reads: list[Length] = []
    end = 0
    for found in _ONE_NOTATION.finditer(said):
        if not _BETWEEN.fullmatch(said[end : found.start()]):
            return None
        unit_word = (found["unit"] or "").rstrip(".")
        if unit_word in {"ga", "gauge", "gage"}:
            read = _gauge(int(found["num"]), gauges_in) if found["num"].isdigit() else Refused("it is no gauge")
        else:
            read = _value(found["num"], found["unit"], decimal)
        if isinstance(read, Refused):
            return read
        reads.append(read)
        end = found.end()
    if len(reads) < 2 or not _BETWEEN.fullmatch(said[end:]):
        return None
    return _agreed(reads)


def _agreed(reads: list[Length]) -> Length | Refused:
    """Return the first of several notations when all say one length within their own rounding."""
    named = [read.unit or ("in" if read.is_fraction else None) for read in reads]
    if not any(named):
        return Refused("it holds two values")
    units = [unit or next(u for u in named if u) for unit in named]
    first = reads[0].value * MM_PER[units[0]]
    for read, unit in zip(reads[1:], units[1:], strict=True):
        other = read.value * MM_PER[unit]
        rounding = max(_half_step(reads[0], units[0]), _half_step(read, unit))
        if abs(other - first) > rounding or abs(other - first) * 50 > first:
            both = f"{say_length(reads[0].value, units[0])} and {say_length(read.value, unit)}"
            return Refused(f"its two notations, {both}, are not the same length")
    said = " and ".join(say_length(read.value, unit) for read, unit in zip(reads, units, strict=True))
    return replace(reads[0], unit=units[0], plain=False, remark=f"{said} are taken as one length, the first")


def _half_step(read: Length, unit: str) -> Fraction:
    """Half a unit of the last digit written [mm]; nothing for a fraction, which is exact."""
    return Fraction(0) if read.is_fraction else read.step * MM_PER[unit] / 2
