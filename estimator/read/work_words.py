"""Words of a note or description that ask for work besides the cut: bevel, drill, bend, paint and the like."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache

from estimator.read.text import plain_text
from estimator.sheets.word_tables import word_table, words_of

__all__ = ["AskedWork", "asked_work", "whole_words", "work_of_row"]


@dataclass(frozen=True, slots=True)
class AskedWork:
    """Work that words ask for: what the trade calls it, what prices it, and what to type."""

    work: str
    priced_by: str
    do: str
    other_work: str = ""
    """Its name among the built-in other work; empty where it has none."""
    said: str = ""
    """The text's own word for it; empty for what no text was read for."""

    @property
    def by_minutes(self) -> bool:
        """Whether minutes typed in the row price it."""
        return "{minutes}" in self.do

    def do_in(self, minutes: str) -> str:
        """Return what to type, with the cell or column that takes minutes."""
        return self.do.replace("{minutes}", minutes)


_ANGLE = re.compile(
    r"(?<![\w.,/x×])([1-6][0-9](?:[.,]5)?)(?= ?(?:°|deg|grad|$|[ ,;.)])(?! ?(?:mm|cm|in\b|\"|x|×|off|no)))"
)
_BY_OTHERS = re.compile(
    r"\bby (?:the )?(?:customer|client|others?|owner|purchaser|buyer|site|them|you)\b|\bcustomer (?:to|will)\b"
    r"|\bothers to\b|\bbauseits\b|\bvom kunden\b|\bpar (?:le )?client\b|\bpor (?:el |o )?cliente\b|\bdal cliente\b"
    r"|\bprzez klienta\b|заказчик"
)
_NOT = re.compile(
    r"(?:\b(?:no|not|do not|don't|dont|never|without|w/o|before|prior to|nicht|kein|keine|ohne|vor|pas de|sans|avant"
    r"|no|sin|antes de|sem|não|non|senza|prima di|nie|bez|przed|не|без|перед)(?: to| be| the| any| de)*) ?$"
)
_COUNTS = re.compile(
    r"(?<=[^\W\d_])(?<!\bin)(?<!\binto)"
    r"(?: (?:\(?[0-9][0-9.,/x×\"'-]*\)?(?: ?(?:mm|cm|in|inch|off|nos?|x|ea|pcs)\b)?\.?|one|two|three|four|five|six"
    r"|both|all|each|every|the|of|any|top|bottom|upper|lower|outer|inner|outside|inside|left|right|lh|rh))+"
    r"(?= [^\W\d_])"
)
"""Counts, sizes and places that stand between the words of one work, as in clip 2 corners."""


def asked_work(texts: Iterable[str], *, in_notes: bool) -> dict[str, tuple[AskedWork, ...]]:
    """Return the texts that ask for work, each with what it asks for.

    Parameters
    ----------
    texts : iterable of str
        What stands in the cells of a column.
    in_notes : bool
        Whether they say what to do; of a description only the words count that name no part, as weld plate does.

    Returns
    -------
    dict of str to tuple of AskedWork
        Each work once a text. Not there: texts that say that others do it, or that it is not done.

    Examples
    --------
    >>> [one.do for one in asked_work(["bevel one long side 45"], in_notes=True)["bevel one long side 45"]]
    ['type 45 under Bevel']
    >>> asked_work(["Weld plate"], in_notes=False), asked_work(["holes drilled by customer"], in_notes=True)
    ({}, {})
    """
    folded = {text: plain_text(text).lower() for text in set(texts) if text}
    bare = {text: _COUNTS.sub("", said) for text, said in folded.items()}
    patterns = _patterns_in("\n".join([*folded.values(), *bare.values()]), in_notes=in_notes)
    found = {text: _asked(said, bare[text], patterns) for text, said in folded.items()} if patterns else {}
    return {text: asked for text, asked in found.items() if asked}


def work_of_row(text: str) -> AskedWork | None:
    """Return the work that a row without any size asks for; its words may be ones that name no work beside a size.

    Examples
    --------
    >>> work_of_row("straighten the bent frame").other_work, work_of_row("collect from yard").other_work
    ('straighten', 'collect')
    >>> work_of_row("bracket") is None
    True
    """
    said = plain_text(text).lower()
    patterns = [(asked, re.compile(whole_words(words))) for asked, words in _works_of_rows()]
    found = [(match.start(), n) for n, (_, pattern) in enumerate(patterns) if (match := pattern.search(said))]
    return patterns[min(found)[1]][0] if found else None


def whole_words(words: Iterable[str]) -> str:
    """Return the pattern of any of the words by itself, with any ending where a star stands; Chinese has no bounds.

    Examples
    --------
    >>> bool(re.search(whole_words(["tri", "oval*"]), "ovals")), bool(re.search(whole_words(["tri"]), "trim"))
    (True, False)
    """
    spelled = sorted(words, key=len, reverse=True)
    bounded = "|".join(re.escape(word.rstrip("*")) + (r"\w*" if word.endswith("*") else "") for word in spelled)
    free = [re.escape(word) for word in spelled if any("\u3000" <= ch <= "\u9fff" for ch in word)]
    return "|".join([rf"(?<![^\W\d_])(?:{bounded})(?!\w)", *free])


def _asked(said: str, bare: str, patterns: list[tuple[AskedWork, re.Pattern[str]]]) -> tuple[AskedWork, ...]:
    """Return what a text asks for, once as it stands and once without the counts between its words."""
    hits = _hits(bare, patterns)
    if bare != said:
        hits = [one for one in _hits(said, patterns) if not _said_longer(one, hits)] + hits
    if not hits or _BY_OTHERS.search(said):
        return ()
    angles = _ANGLE.findall(said)
    angle = angles[0] if len(angles) == 1 else "the angle"
    works: dict[str, AskedWork] = {}
    for one in hits:
        works.setdefault(one.work, one)
    return tuple(
        replace(one, do=one.do.replace("{angle}", angle), said=one.said if one.said in said else one.said.split()[0])
        for one in works.values()
    )


def _hits(said: str, patterns: list[tuple[AskedWork, re.Pattern[str]]]) -> list[AskedWork]:
    """Return each work with the words that name it, less those of what is not done."""
    spans = [(asked, found.span()) for asked, pattern in patterns for found in pattern.finditer(said)]
    return [
        replace(asked, said=said[slice(*span)])
        for asked, span in spans
        if not _NOT.search(said[max(0, span[0] - 30) : span[0]]) and not _within_another(span, spans)
    ]


def _said_longer(one: AskedWork, others: list[AskedWork]) -> bool:
    """Return whether other work has longer words that begin with the same ones, as chamfer corners with chamfer."""
    return any(other.said.startswith(one.said) and other.said != one.said for other in others)


def _within_another(span: tuple[int, int], spans: list[tuple[AskedWork, tuple[int, int]]]) -> bool:
    """Return whether the words of one work are part of longer words of another, as chamfer in chamfer corners."""
    return any(start <= span[0] and span[1] <= end and (start, end) != span for _, (start, end) in spans)


def _patterns_in(whole: str, *, in_notes: bool) -> list[tuple[AskedWork, re.Pattern[str]]]:
    """One pattern for each work that may stand in a column; a look at the whole column mostly finds none."""
    patterns = []
    for asked, words in _works(in_notes):
        if here := tuple(word for word in words if word.rstrip("*") in whole):
            patterns.append((asked, re.compile(whole_words(here))))
    return patterns


@cache
def _works(in_notes: bool) -> list[tuple[AskedWork, tuple[str, ...]]]:
    return [
        (
            AskedWork(row["work"], row["priced_by"], row["do"], row["other_work"]),
            words_of(row["words"]) + (words_of(row["in_notes"]) if in_notes else ()),
        )
        for row in word_table("work_words")
    ]


@cache
def _works_of_rows() -> list[tuple[AskedWork, tuple[str, ...]]]:
    alone = [words_of(row["alone"]) for row in word_table("work_words")]
    return [(asked, words + more) for (asked, words), more in zip(_works(in_notes=True), alone, strict=True)]
