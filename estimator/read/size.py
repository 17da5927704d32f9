"""What a size string says: shape, thickness, sides, area of a section, holes."""

from __future__ import annotations

from dataclasses import dataclass

from estimator.read.hole_words import Holes
from estimator.read.lengths import Length
from estimator.words import Shape

__all__ = ["Size"]


@dataclass(frozen=True, slots=True)
class Size:
    """What a size string says; what it does not say is None."""

    shape: Shape | None = None
    """None when only a thickness is said."""
    thickness: Length | None = None
    a: Length | None = None
    """Length of a rectangle, outside diameter, or depth of a section."""
    b: Length | None = None
    """Width of a rectangle or flat, inside diameter, or second leg."""
    piece_length: Length | None = None
    """Length of a section, when it is said."""
    flat: bool = False
    """A flat bar of width ``b``."""
    web: Length | None = None
    """Web of a beam or channel whose flange is ``thickness``."""
    mass_kg_m: float | None = None
    """Mass of a metre of a section that is named by it."""
    holes: Holes | None = None
    plain: bool = True
    remark: str = ""

    def __str__(self) -> str:
        name = "flat" if self.flat else self.shape.name.lower().replace("_", " ") if self.shape is not None else ""
        sizes = " x ".join(str(d) for d in (self.a, self.b) if d is not None)
        thick = f"{self.thickness} thick" if self.thickness is not None else ""
        web = f"web {self.web}" if self.web is not None else ""
        mass = f"{self.mass_kg_m:g} kg/m" if self.mass_kg_m is not None else ""
        holes = str(self.holes) if self.holes is not None else ""
        return ", ".join(part for part in (f"{name} {sizes}".strip(), thick, web, mass, holes) if part)
