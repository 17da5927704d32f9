"""Guards for numbers that physics cannot take: each names the argument and the value that was refused."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["above_zero", "within", "zero_or_above"]


def zero_or_above(**argument: ArrayLike) -> NDArray[np.float64]:
    """Return one named argument as floats; ValueError names it when a value is below zero or not finite."""
    name, values = _one(argument)
    _refuse(name, values, values >= 0, "zero or above")
    return values


def above_zero(**argument: ArrayLike) -> NDArray[np.float64]:
    """Return one named argument as floats; ValueError names it when a value is not above zero or not finite."""
    name, values = _one(argument)
    _refuse(name, values, values > 0, "above zero")
    return values


def within(low: float, high: float, **argument: ArrayLike) -> NDArray[np.float64]:
    """Return one named argument as floats; ValueError names it when a value lies outside low to high."""
    name, values = _one(argument)
    _refuse(name, values, (values >= low) & (values <= high), f"from {low:g} to {high:g}")
    return values


def _one(argument: dict[str, ArrayLike]) -> tuple[str, NDArray[np.float64]]:
    ((name, given),) = argument.items()
    return name, np.asarray(given, dtype=np.float64)


def _refuse(name: str, values: NDArray[np.float64], good: NDArray[np.bool_], needs: str) -> None:
    bad = ~(good & np.isfinite(values))
    if np.any(bad):
        raise ValueError(f"{name} must be {needs}, got {float(values[bad].flat[0]):g}")
