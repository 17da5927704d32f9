"""The pieces of one table while they are read: thickness, shape and sizes, one array each."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

__all__ = ["Pieces"]

Floats = NDArray[np.float64]


@dataclass(slots=True)
class Pieces:
    """Thickness, shape and sizes of the pieces of one table; NaN and BLANK where nothing says them."""

    thickness_mm: Floats
    length_mm: Floats
    width_mm: Floats
    diameter_mm: Floats
    inside_mm: Floats
    size_a_mm: Floats
    size_b_mm: Floats
    cut_length_mm: Floats
    total_cut_length_mm: Floats
    section_area_cm2: Floats
    section_length_mm: Floats
    holes: Floats
    hole_diameter_mm: Floats
    shape: NDArray[np.int8]
    made_from: NDArray[np.int8]
    refused: NDArray[np.bool_]
    """Rows whose size was refused; nothing more is asked of them."""
    by_cut_length: NDArray[np.bool_] = field(default_factory=lambda: np.empty(0, dtype=np.bool_))
    """Rows whose words name a shape that their sizes do not make; their cut length is typed."""
    sized: dict[int, str] = field(default_factory=dict)
    """Column that a row's size string stood in, by line."""
    unread: dict[int, tuple[str, str, str]] = field(default_factory=dict)
    """Column, text and reason of words of plate or flat that could not be read, by line."""
