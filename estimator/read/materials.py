"""Materials that an oxy-fuel torch cannot cut, by the words and grades of a list."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from estimator.read.text import plain_text
from estimator.sheets.word_tables import word_table, words_of

__all__ = ["Uncuttable", "uncuttable"]


@dataclass(frozen=True, slots=True)
class Uncuttable:
    """A material that a torch cannot cut, and why."""

    material: str
    why: str


def uncuttable(text: str, *, is_material: bool) -> Uncuttable | None:
    """Return the material that words of a row name, when a torch cannot cut it; None otherwise.

    Parameters
    ----------
    text : str
        A material, grade or description cell.
    is_material : bool
        Whether the column is for the material; in others only words that nothing but the material is called by count.

    Returns
    -------
    Uncuttable or None
        The first material whose word or grade stands in the text by itself.

    Examples
    --------
    >>> uncuttable("AISI 304L", is_material=True).material
    'stainless steel'
    >>> uncuttable("Plate 304 x 304", is_material=False), uncuttable("Glass clamp", is_material=False)
    (None, None)
    """
    said = plain_text(text).lower()
    if not said:
        return None
    return next((kind for kind, pattern in _patterns(is_material) if pattern.search(said)), None)


@cache
def _patterns(is_material: bool) -> list[tuple[Uncuttable, re.Pattern[str]]]:
    columns = ("words", "grades") if is_material else ("anywhere",)
    found = []
    for row in word_table("uncuttable"):
        if words := [word for name in columns for word in words_of(row[name])]:
            found.append((Uncuttable(row["material"], row["why"]), _whole(words)))
    return found


def _whole(words: list[str]) -> re.Pattern[str]:
    """Match any of the words standing by itself; words without letters of ours need no bounds."""
    spelled = sorted(words, key=len, reverse=True)
    bounded = "|".join(re.escape(w) for w in spelled if not _is_cjk(w))
    free = [re.escape(w) for w in spelled if _is_cjk(w)]
    return re.compile("|".join([rf"(?<![\w.,/x×*])(?:{bounded})(?![\w/x×*]|[.,]\d)", *free]))


def _is_cjk(word: str) -> bool:
    return any("\u3000" <= ch <= "\u9fff" for ch in word)
