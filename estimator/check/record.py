"""What the checked rows of our own sheets have in common: they cannot change, and they remember their cells."""

from __future__ import annotations

import datetime as dt

from pydantic import BaseModel, ConfigDict, Field

from estimator.problems.code import Place

__all__ = ["DatedRecord", "SheetRecord"]


class SheetRecord(BaseModel):
    """One checked row; frozen, so that what was checked stays checked."""

    model_config = ConfigDict(frozen=True, arbitrary_types_allowed=True)

    place: Place = Field(default=Place(), repr=False)
    """The row it came from."""
    places: dict[str, Place] = Field(default_factory=dict, repr=False)
    """The cell of each house name."""

    def at(self, name: str) -> Place:
        """Return the cell of a house name, or the row."""
        return self.places.get(name, self.place)


class DatedRecord(SheetRecord):
    """One checked row that holds from a day on, and to a day where one is typed."""

    valid_from: dt.date
    valid_to: dt.date | None = None

    def in_force(self, on: dt.date) -> bool:
        """Whether the row holds on a day."""
        return self.valid_from <= on and (self.valid_to is None or on <= self.valid_to)
