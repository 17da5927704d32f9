"""Sentences a person would say: durations, people, bottles of gas, ranges, and what one piece takes."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = [
    "bottles_words",
    "duration_words",
    "line_words",
    "list_words",
]

_PLURALS = {"man": "men", "day": "days", "hour": "hours"}


def duration_words(minutes: float, *, hours_per_day: float = 8.0) -> str:
    """Say a duration as a shop says it.

    Parameters
    ----------
    minutes : float
        Duration, zero or above. [min]
    hours_per_day : float
        Hours that make a working day. [h]

    Returns
    -------
    str
        Whole minutes under an hour, then hours and minutes, then days and hours.

    Raises
    ------
    ValueError
        When minutes are below zero or the day has no hours.

    Notes
    -----
    From one day on the minutes are rounded to the hour. Source: definition.

    Examples
    --------
    >>> [duration_words(m) for m in (0.4, 45, 130, 600, 981)]
    ['under 1 min', '45 min', '2 h 10 min', '1 day 2 h', '2 days']
    """
    _refuse_below_zero(minutes, hours_per_day)
    if minutes < 0.5:
        return "under 1 min" if minutes else "0 min"
    whole = round(minutes)
    if whole < hours_per_day * 60:
        hours, rest = divmod(whole, 60)
        return " ".join(part for part in (f"{hours} h" * bool(hours), f"{rest} min" * bool(rest)) if part)
    days, hours_left = divmod(round(minutes / 60), hours_per_day)
    return " ".join(part for part in (_counted(int(days), "day"), f"{hours_left:g} h" * bool(hours_left)) if part)


def bottles_words(used_m3: float, usable_m3: float) -> str:
    """Say an amount of gas in bottles.

    Parameters
    ----------
    used_m3 : float
        Gas that is used, zero or above. [m³]
    usable_m3 : float
        What one bottle gives before it is changed, above zero, at the same state. [m³]

    Returns
    -------
    str
        To a tenth of a bottle, to the whole bottle from ten on.

    Raises
    ------
    ValueError
        When the amount is below zero or the bottle holds nothing.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> [bottles_words(u, 10.0) for u in (0.0, 0.2, 9.0, 10.0, 23.0, 123.0)]
    ['none', 'under 0.1 of a bottle', '0.9 of a bottle', '1 bottle', '2.3 bottles', '12 bottles']
    """
    _refuse_below_zero(used_m3, usable_m3)
    bottles = used_m3 / usable_m3
    if bottles == 0:
        return "none"
    if bottles < 0.05:
        return "under 0.1 of a bottle"
    said = round(bottles, 1) if bottles < 9.95 else round(bottles)
    if said < 1:
        return f"{said:g} of a bottle"
    return f"{said:g} bottle" if said == 1 else f"{said:g} bottles"


def line_words(quantity: float, name: str, parts: Sequence[tuple[str, float]]) -> str:
    """Say what one piece of a line takes, in minutes, part by part.

    Parameters
    ----------
    quantity : float
        Pieces of the line.
    name : str
        Mark or description, as the list has it.
    parts : sequence of (str, float)
        What is done and its minutes for one piece, in the order of the work. [min]

    Returns
    -------
    str
        One sentence that a customer could be told; parts under three seconds are left out of the telling only.

    Notes
    -----
    The minutes each are the sum of all parts. Source: definition.

    Examples
    --------
    >>> line_words(24, "gusset", [("mark", 0.5), ("cut", 1.12), ("clean", 0.4), ("set", 0.01)])
    '24 x gusset, 2.0 min each: mark 0.5, cut 1.1, clean 0.4'
    >>> line_words(1, "block", [("cut", 13.6)])
    '1 x block, 13.6 min: cut 13.6'
    """
    each = sum(minutes for _, minutes in parts)
    told = ", ".join(f"{what} {minutes:.1f}" for what, minutes in parts if minutes >= 0.05)
    return f"{quantity:g} x {name}, {each:.1f} min{' each' if quantity != 1 else ''}" + (f": {told}" if told else "")


def list_words(items: Sequence[str], *, last: str = "and") -> str:
    """Join words as a sentence does.

    Parameters
    ----------
    items : sequence of str
        Words to join.
    last : str
        Word before the last one.

    Returns
    -------
    str
        Empty when there are none.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> list_words(["drill", "saw", "shear"]), list_words(["drill"])
    ('drill, saw and shear', 'drill')
    """
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def _counted(count: int, unit: str) -> str:
    return f"{count} {unit if count == 1 else _PLURALS[unit]}" if count else ""


def _refuse_below_zero(amount: float, whole: float) -> None:
    if not amount >= 0 or not whole > 0:
        raise ValueError(
            f"the amount must be zero or above and what it is counted in above zero, got {amount}, {whole}"
        )
