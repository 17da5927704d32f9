"""The closed lists of words that a shop types (shapes, methods, surfaces), each with the code that arrays hold."""

from __future__ import annotations

from enum import IntEnum, StrEnum

__all__ = [
    "BLANK",
    "EdgeFinish",
    "Fuel",
    "MadeFrom",
    "Method",
    "MoreBy",
    "OwnFactor",
    "Per",
    "RentCount",
    "Shape",
    "Site",
    "Steel",
    "Surface",
    "WordCode",
    "Work",
]

BLANK = -1
"""Code of a blank cell in an array of word codes."""


class WordCode(IntEnum):
    """A word from a closed list; arrays hold the number, people see the word."""

    @property
    def word(self) -> str:
        """The word as typed and printed."""
        return self.name.lower().replace("_", " ")

    @classmethod
    def words(cls) -> tuple[str, ...]:
        """Every word of the list, in order."""
        return tuple(member.word for member in cls)


class Work(WordCode):
    """What is done to the piece. ``other`` is any work named in the shop book's other-work sheet."""

    CUT = 0
    HEAT = 1
    BEND = 2
    STRAIGHTEN = 3
    WELD = 4
    BRAZE = 5
    OTHER = 6


class Shape(WordCode):
    """Shape from which cut length and starts are worked out."""

    RECTANGLE = 0
    STRIP = 1
    BAR_END = 2
    RIGHT_TRIANGLE = 3
    DISC = 4
    RING = 5
    ANGLE = 6
    CHANNEL = 7
    BEAM = 8
    SQUARE_TUBE = 9
    PIPE = 10
    ROUND_BAR = 11
    SQUARE_BAR = 12
    RAIL = 13
    BOLT_HEAD = 14
    SHEET_PILE = 15


class MadeFrom(WordCode):
    """What the piece is cut out of."""

    PLATE = 0
    FLAT = 1
    BLANK = 2


class Method(WordCode):
    """How the torch is guided. Only ``track`` runs at machine speed."""

    FREE_HAND = 0
    STRAIGHTEDGE = 1
    CIRCLE_GUIDE = 2
    TEMPLATE = 3
    TRACK = 4


class Surface(WordCode):
    """State of the surface under the torch."""

    CLEAN = 0
    RUSTY = 1
    PAINTED = 2


class Steel(WordCode):
    """Whose steel it is; asked each time, never assumed."""

    OURS = 0
    THEIRS = 1
    EXCLUDED = 2


class SteelCharged(WordCode):
    """What a job pays of the plate that is bought for it."""

    BY_WEIGHT = 0
    """The pieces' mass with the steel row's left-over share."""
    WHOLE_PLATES = 1
    """Every plate, shared over lines by area; what is left over is charged, less its scrap."""
    AREA_USED = 2
    """The area that the pieces take with their spacing; the rest stays the shop's."""


class EdgeFinish(WordCode):
    """What is done to the cut edge after the slag is off."""

    AS_CUT = 0
    TOUCH_UP = 1
    BRIGHT = 2


class Site(WordCode):
    """Where the work is done."""

    SHOP = 0
    SITE = 1


class Per(WordCode):
    """What one unit of other work is."""

    PIECE = 0
    HOLE = 1
    METRE = 2
    KG = 3
    TONNE = 4
    JOB = 5
    DAY = 6


class MoreBy(WordCode):
    """The size that other work grows with, beyond the minutes each unit takes."""

    NOTHING = 0
    CM3_REMOVED = 1
    CM2_OF_SECTION = 2
    KG = 3
    MM_OF_THICKNESS = 4


class Fuel(StrEnum):
    """Fuel gases that the engine knows by name."""

    ACETYLENE = "acetylene"
    PROPANE = "propane"
    PROPYLENE = "propylene"
    NATURAL_GAS = "natural gas"
    MPS = "mps"


class OwnFactor(StrEnum):
    """What a factor of the shop's own multiplies."""

    SPEED = "travel speed"
    CUTTING_OXYGEN = "cutting oxygen"
    PREHEAT_OXYGEN = "preheat oxygen"
    FUEL = "fuel"
    START_TIME = "start time"
    LAYOUT = "layout"
    HANDLING = "handling"
    CLEANING = "cleaning"
    MAN_HOURS = "man-hours"
    ONE_JOB = "one job's hours"
    """Not a factor of the likely figure: how far one job's hours stray from what is expected."""


class RentCount(StrEnum):
    """How a supplier counts what rent is charged on."""

    NONE = "no rent"
    DAILY = "daily on balance"
    MONTH_END = "month-end balance"
    MONTH_AVERAGE = "average balance of the month"
    MONTH_HIGHEST = "highest balance of the month"
    MONTH_ADDED = "full month for each cylinder added"
    """In arrears: the balance the month opens with, and each cylinder added in the month, count a whole month."""
    ANNUAL_ADVANCE = "annual in advance"
    LEASE = "lease of several years"
    OWNED = "owned, yearly test and maintenance fee"
