"""Words that call a piece round: a ring, a disc, or a round, which beside two equal sides is a disc."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from estimator.read.hole_words import MOST_ALONE, Holes, take_holes, without_hole_signs
from estimator.read.section_words import DISC, RING, form_of, words_beside_sides, words_for
from estimator.read.text import plain_text

__all__ = ["ROUND", "round_form", "round_forms"]

ROUND = "round"
"""A word that makes a plate with two equal sides a disc, and may call a bar round elsewhere."""
_FIGURES_FIRST = re.compile(r"^[\W\d_]+")
_NOT_OF_PIECE = (
    r"(?<!all )(?<!half )(?<!semi )(?<!quarter )(?<!half-)(?<!semi-)(?<!not )(?<!no )(?<!not a )(?<!way )(?<!go )"
    r"(?<!turn )(?<!turned )(?:{words})(?![ -]*(?:bars?|rods?|tub|pipe|section|hollow|stock|bolt|nut|head|corner|hole"
    r"|edge|end|off|up|nose|the|a\b|slot|cut|notch|recess|to\b|stahl|ecken|ecke|kant|loch|löch))"
)
"""A round that is denied, or that a corner, a hole or a bar has, is not the piece's."""
_PART_OF_ROUND = re.compile(r"(?:half|semi|quarter)[ -]*(?:circ|disc|disk|round|ring|moon)")


def round_forms(texts: Iterable[str], *, in_note: bool = False) -> dict[str, str]:
    """Return the texts that name a ring, a disc or a round, each with its form; others are looked at once, quickly.

    Examples
    --------
    >>> round_forms(["Flange ring", "base plate"]), round_forms(["base plate"])
    ({'Flange ring': 'ring'}, {})
    """
    quick = _any_round()
    may_be = [text for text in texts if quick.search(text.lower()) or not text.isascii()]
    return {text: form for text in may_be if (form := round_form(text, in_note=in_note)) is not None}


def round_form(text: str, *, in_note: bool = False) -> str | None:
    """Return ring, disc or round where words call a piece so.

    Parameters
    ----------
    text : str
        What stands in a cell.
    in_note : bool
        Whether it is a note: behind other words a note may speak of what the piece goes to.

    Returns
    -------
    str or None
        One of ``RING``, ``DISC`` and ``ROUND``.

    Examples
    --------
    >>> round_form("Flange ring"), round_form("round plate"), round_form("Round"), round_form("round corners R20")
    ('ring', 'disc', 'round', None)
    >>> round_form("weld all round"), round_form("stiffener for ring", in_note=True)
    (None, None)
    """
    folded = without_hole_signs(plain_text(text).lower())
    if (in_note and (not _begins_round(folded) or _is_holes(folded))) or _PART_OF_ROUND.search(folded):
        return None
    if words_for(RING, DISC).search(folded) and (form := form_of(folded)) in {RING, DISC}:
        return str(form)
    return ROUND if _round_word().search(folded) else None


def _is_holes(folded: str) -> bool:
    """Return whether a note is a count of holes and their size, and nothing more, as *4-22 dia*."""
    rest, holes = take_holes(folded, sized=True)
    return isinstance(holes, Holes) and 1 < holes.count <= MOST_ALONE and not rest


def _begins_round(folded: str) -> bool:
    """Return whether a note begins with a word for a ring, a disc or a round."""
    words = _FIGURES_FIRST.sub("", folded)
    return bool(words_for(RING, DISC).match(words) or _round_word().match(words))


@cache
def _any_round() -> re.Pattern[str]:
    return re.compile(f"{words_for(RING, DISC).pattern}|{words_beside_sides().pattern}")


@cache
def _round_word() -> re.Pattern[str]:
    return re.compile(_NOT_OF_PIECE.format(words=words_beside_sides().pattern))
