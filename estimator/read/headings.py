"""Headings in customers' words: which column is meant, and which unit the heading names."""

from __future__ import annotations

import difflib
import re
import unicodedata
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from estimator.read.counts import PIECE_WORDS
from estimator.read.length_words import UNIT_PATTERN, unit_of
from estimator.read.text import plain_text
from estimator.sheets.cut_list import CUT_LIST
from estimator.sheets.statement import Kind
from estimator.sheets.wordings import false_friends, wordings

__all__ = [
    "LENGTH_COLUMNS",
    "Heading",
    "heading_key",
    "likely_column",
    "match_grouped",
    "match_heading",
    "near_heading",
    "nearest_headings",
    "readable_as",
    "unit_in_cell",
]

LENGTH_COLUMNS = frozenset(
    {"thickness_mm", "length", "width", "diameter", "inside_diameter", "size", "cut_length_mm", "total_cut_length_mm"}
    | {column.name for column in CUT_LIST.columns if column.name.endswith("_mm")}
)


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading that is understood."""

    column: str
    """House name, or a name of ``READING_COLUMNS``."""
    unit: str = ""
    """mm, cm, m, in, ft, kg, lb or t where the heading names one; ``ga`` for gauge, ``ga?`` for gauge or thickness."""
    sure: bool = True
    """False when a slip of the pen had to be allowed for."""


_MASS_UNITS = {
    "kg": "kg",
    "kgs": "kg",
    "кг": "kg",
    "lb": "lb",
    "lbs": "lb",
    "t": "t",
    "to": "t",
    "т": "t",
    "公斤": "kg",
}
_OTHER_UNITS = frozenset("- ° deg cm^ cm2 m^ m2 mm2 mm^ м2 м^ min h hr hrs kg/m lb/ft % € $".split())  # noqa: SIM905
_AMOUNT = r"m\^|m2|m3|sqm|sq\.? ?m|sq\.? ?ft|tonnes?|tons?|lfm?|l\.f|running met(?:er|re)s?"
"""Units that make a quantity an amount and fit no other column."""
_UNIT = rf"(?:{_AMOUNT}|{UNIT_PATTERN}|kgs?|кг|lbs?|szt|шт|stk|pcs|ea|pc|штук|kom|个|件|cái)"
_IN_BRACKETS = re.compile(rf"[(\[{{<] ?(?:in )?({_UNIT})\.?(?: ?[x×*] ?{_UNIT}\.?)*(?: ?/ ?[^)]*)? ?[)\]}}>]")
_AT_END = re.compile(rf"(?:,| in | en | w | в |_|/|-| : ?| ) ?({_UNIT})\.?$")
_OTHER_BRACKETS = re.compile(r"[(\[{<]([^)\]}>]*)[)\]}>]")
_NOT_WORD = re.compile(r"[^\w#ø]+|_")
_SCRIPTS = re.compile(r"[\u3000-\u9fff\uf900-\ufaff]+|[^\u3000-\u9fff\uf900-\ufaff]+")
_FEET_AND_INCHES = re.compile(r"(?:ft|feet|')[ .]*[-/&+ ][ ]*(?:in|ins|inch|inches|\")\.?")
_BY = re.compile(r" ?[x×*] ?")
_GAUGE = re.compile(r"(?<![a-z])(?:gauge|gage|ga|calibre)(?![a-z])")
_THICKNESS = re.compile(r"thick|thk|espesor")
_LITTLE = """
    the of a an each per piece pieces part parts plate plates steel material nominal nom overall finished final net raw
    required reqd req ea no number item approx all in for detail de des du la le der die das di del do da
"""
_SAY_LITTLE = frozenset(_LITTLE.split())
_TELL_NOTHING = frozenset(
    "mark drawing description quantity steel grade site tip labour_rate note work other_work section_area_cm2".split()  # noqa: SIM905
)
"""Columns of the cut list whose heading, as one word among others, says too little to ask about."""


def heading_key(text: str) -> str:
    r"""Return a heading as it is compared: small letters without accents, words parted by single spaces.

    Examples
    --------
    >>> heading_key(" Qté.\n(pièces) "), heading_key("T_nom")
    ('qte pieces', 't nom')
    """
    folded = unicodedata.normalize("NFKD", plain_text(text).lower().replace("Ø", "ø"))
    bare = folded if folded.isascii() else "".join(ch for ch in folded if not unicodedata.combining(ch))
    return " ".join(_NOT_WORD.sub(" ", bare).split())


@lru_cache(maxsize=4096)
def match_heading(text: str) -> Heading | None:
    """Return what a heading means.

    Parameters
    ----------
    text : str
        A heading as it stands in the cell, or a group title and its sub-heading joined by a space.

    Returns
    -------
    Heading or None
        None when it is not known, or is known to mean something else.

    Examples
    --------
    >>> match_heading("Länge (mm)")
    Heading(column='length', unit='mm', sure=True)
    >>> match_heading("kerf_allowance_in") is None
    True
    """
    if not text.strip() or len(text) > 80:
        return None
    known = _known()
    said = plain_text(text).lower()
    bare, unit = _without_unit(said)
    column = known.get(heading_key(said))
    if column is None and not _false_friend(bare):
        column = _exact(bare) or _in_parts(text) or _with_fewer_words(bare)
    return _heading(column, unit, said)


def match_grouped(title: str, below: str) -> Heading | None:
    """Return what a group title and the sub-heading below it mean together; the title's unit holds for both.

    Examples
    --------
    >>> match_grouped("Масса, кг", "общая"), match_grouped("Holes", "Qty")
    (Heading(column='mass_total', unit='kg', sure=True), Heading(column='holes', unit='', sure=True))
    """
    if (found := match_heading(f"{title} {below}")) is not None:
        return found
    bare, unit = _without_unit(plain_text(title).lower())
    found = match_heading(f"{bare} {below}") if unit else None
    return replace(found, unit=found.unit or _fitting(unit, found.column)) if found else None


def near_heading(text: str) -> Heading | None:
    """Return what a heading with a slip of the pen most likely means; None when nothing is near.

    Examples
    --------
    >>> near_heading("Tickness (mm)")
    Heading(column='thickness_mm', unit='mm', sure=False)
    """
    said = plain_text(text).lower()
    bare, unit = _without_unit(said)
    found = _heading(_near(heading_key(bare)), unit, said)
    return replace(found, sure=False) if found else None


def unit_in_cell(text: str) -> str | None:
    """Return the unit that a cell of a units row names; ``other`` for pieces, minutes and the like; None if it is none.

    Examples
    --------
    >>> unit_in_cell("[mm]"), unit_in_cell("pcs."), unit_in_cell("S275")
    ('mm', 'other', None)
    """
    word = plain_text(text).lower().strip("()[]{}<> .,")
    if word in PIECE_WORDS or word in _OTHER_UNITS or _FEET_AND_INCHES.fullmatch(word):
        return "other"
    parts = {unit_of(part) for part in _BY.split(word)}
    if len(parts) == 1 and (unit := parts.pop()) is not None:
        return unit
    return _MASS_UNITS.get(word) or unit_of(word)


def nearest_headings(text: str, many: int = 3) -> list[str]:
    """Return known wordings near a heading, for a message."""
    return difflib.get_close_matches(heading_key(text), [key for key, column in _known().items() if column], many, 0.75)


def readable_as(text: str, *, figures: bool) -> str | None:
    """Return the column of shape, size or work that one word of an unknown heading names.

    Parameters
    ----------
    text : str
        A heading that ``match_heading`` does not know.
    figures : bool
        Whether most of its cells hold figures, as those of a size do and those of a word from a list do not.

    Returns
    -------
    str or None
        None for known headings of another meaning.

    Examples
    --------
    >>> readable_as("Bevel in degrees maybe", figures=True), readable_as("Weld length", figures=True)
    ('bevel_deg', None)
    """
    bare = _without_unit(plain_text(text).lower())[0]
    words = f" {heading_key(bare)} "
    if _false_friend(bare):
        return None
    named = {key: name for key, (name, of_figures) in _telling().items() if of_figures == figures}
    return next((name for key, name in named.items() if f" {key} " in words), None)


@lru_cache(maxsize=512)
def likely_column(text: str) -> str | None:
    """Return the column of the cut list whose wordings share most with an unknown heading; None without a shared word.

    Examples
    --------
    >>> likely_column("Flame burn minutes"), likely_column("Bay no")
    ('flame_min_each', None)
    """
    key = heading_key(_without_unit(plain_text(text).lower())[0])
    said = {word for word in key.split() if len(word) > 3} - _SAY_LITTLE
    columns = {column.name for column in CUT_LIST.columns}
    shared = {known: name for known, name in _known().items() if name in columns and said & set(known.split())}
    best = max(shared, key=lambda known: difflib.SequenceMatcher(None, key, known).ratio(), default="")
    return shared.get(best)


@cache
def _telling() -> dict[str, tuple[str, bool]]:
    """Return the headings of columns that change shape, size or work, the longest first, and which hold figures."""
    counted = {Kind.LENGTH, Kind.NUMBER, Kind.WHOLE}
    told = {
        heading_key(c.heading): (c.name, c.kind in counted) for c in CUT_LIST.columns if c.name not in _TELL_NOTHING
    }
    told |= {name.replace("_", " "): (name, True) for name in ("length", "width", "diameter", "inside_diameter")}
    return dict(sorted(told.items(), key=lambda pair: -len(pair[0])))


@cache
def _known() -> dict[str, str]:
    """Every known wording by its key; an empty name for a false friend."""
    known: dict[str, str] = {}
    for word in false_friends():
        known.setdefault(heading_key(word), "")
    for column in CUT_LIST.columns:
        for word in (column.heading, column.name, column.name.rpartition("_")[0] or column.name, *column.wordings):
            known.setdefault(heading_key(word), column.name)
    for name, by_language in wordings().items():
        for words in by_language.values():
            for word in words:
                known.setdefault(heading_key(word), name)
    return known


def _without_unit(said: str) -> tuple[str, str]:
    """Return a folded heading without the unit it names, and that unit."""
    for pattern in (_IN_BRACKETS, _AT_END):
        if found := pattern.search(said):
            bare = (said[: found.start()] + " " + said[found.end() :]).strip()
            if heading_key(bare):
                return bare, _MASS_UNITS.get(found[1]) or unit_of(found[1]) or _amount(found[1])
    return said, ""


def _false_friend(bare: str) -> bool:
    return _known().get(heading_key(bare)) == ""


def _exact(bare: str) -> str | None:
    """Look a heading up whole, then without what stands in brackets."""
    known = _known()
    if found := known.get(heading_key(bare)):
        return found
    inside = " ".join(_OTHER_BRACKETS.findall(bare))
    outside = heading_key(_OTHER_BRACKETS.sub(" ", bare))
    if inside and "total" not in inside:
        return known.get(outside) or None
    return None


def _in_parts(text: str) -> str | None:
    """Match a heading in two languages: parts on lines of their own, beside a slash or in another script."""
    for parts in (
        text.splitlines(),
        text.split("/"),
        _SCRIPTS.findall(text),
        re.split(r"[()]", text),
        text.split(" - "),
    ):
        said = [_without_unit(plain_text(part).lower())[0] for part in parts if heading_key(part)]
        if len(said) < 2:
            continue
        keys = [_known().get(heading_key(part)) for part in said]
        if "" in keys:
            return None
        found = {key for key in keys if key}
        if len(found) == 1 and (None not in keys or parts != text.split("/")):
            return found.pop()
    return None


def _with_fewer_words(bare: str) -> str | None:
    """Match after leaving out words that say little, such as plate, steel and required."""
    words = heading_key(bare).split()
    if len(words) > 5:
        return None
    kept = [word for word in words if word not in _SAY_LITTLE]
    return (_known().get(" ".join(kept)) or None) if kept and len(kept) < len(words) else None


def _near(key: str) -> str | None:
    """Match a heading with a slip of the pen."""
    if len(key) < 5:
        return None
    candidates = [word for word in _known() if len(word) >= 5 and abs(len(word) - len(key)) <= 2]
    if swapped := next((word for word in candidates if _letters_swapped(key, word)), None):
        return _known()[swapped] or None
    near = difflib.get_close_matches(key, candidates, 1, 0.87)
    return (_known()[near[0]] or None) if near else None


def _letters_swapped(key: str, word: str) -> bool:
    """Return whether two neighbouring letters changed places, as in lenght."""
    if len(key) != len(word) or key[0] != word[0]:
        return False
    unlike = [n for n, (a, b) in enumerate(zip(key, word, strict=True)) if a != b]
    return len(unlike) == 2 and unlike[1] == unlike[0] + 1 and key[unlike[0]] == word[unlike[1]]


def _amount(word: str) -> str:
    return "amount" if re.fullmatch(_AMOUNT, word) else ""


def _heading(column: str | None, unit: str, said: str) -> Heading | None:
    """Return a heading with the unit that its column can have; a quantity in metres or kilograms is no quantity."""
    if not column or (column.startswith("quantity") and unit):
        return None
    if column == "thickness_mm" and _GAUGE.search(said):
        return Heading(column, "ga" if not _THICKNESS.search(said) else "ga?")
    return Heading(column, _fitting(unit, column))


def _fitting(unit: str, column: str) -> str:
    """Return a unit only where the column can have it."""
    if column in LENGTH_COLUMNS:
        return unit if unit in {"mm", "cm", "m", "in", "ft"} else ""
    return unit if column.startswith("mass") and unit in {"kg", "lb", "t"} else ""
