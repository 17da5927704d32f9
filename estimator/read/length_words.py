"""Words that stand in a length cell: units in eleven languages, and labels such as THK, PL or L=."""

from __future__ import annotations

import re
from fractions import Fraction

__all__ = ["MM_PER", "PREFIX_LABEL", "SUFFIX_LABEL", "UNIT_NAMES", "UNIT_PATTERN", "UNIT_WORDS", "label_of", "unit_of"]

MM_PER = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
}
"""Millimetres in one unit. Source: definition (international inch and foot)."""

UNIT_NAMES = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches", "ft": "feet"}
"""Units as messages name them."""

UNIT_WORDS = {
    "mm": ("mm", "mms", "millimetre", "millimetres", "millimeter", "millimeters", "millimètres", "мм", "毫米", "ly"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters", "см", "厘米", "公分"),
    "m": ("m", "metre", "metres", "meter", "meters", "mtr", "mtrs", "mètre", "mètres", "metros", "м", "米", "公尺"),
    "in": (
        *('"', "in", "ins", "inch", "inches", "zoll", "pulg", "pulgada", "pulgadas", "pol", "polegada", "polegadas"),
        *("pouce", "pouces", "po", "pollice", "pollici", "cal", "cale", "cali", "дюйм", "дюйма", "дюймов"),
        *("英寸", "吋"),
    ),
    "ft": ("'", "ft", "foot", "feet", "pied", "pieds", "фут", "英尺", "呎"),
}
_UNIT_OF = {word: unit for unit, words in UNIT_WORDS.items() for word in words}
UNIT_PATTERN = "|".join(re.escape(word) for word in sorted(_UNIT_OF, key=len, reverse=True))

_BEFORE = {
    "thickness": (
        *("t", "thk", "th", "tk", "thick", "thickness", "pl", "plt", "plate", "ms plate", "base ?plate", "steel plate"),
        *("bl", "blech", "blechdicke", "blechstärke", "stärke", "dicke", "e", "ep", "ép", "épaisseur", "epaisseur"),
        *("tôle", "tole", "esp", "espesor", "espessura", "chapa", "placa", "sp", "spess", "spessore", "lamiera"),
        *(
            "gr",
            "grub",
            "grubość",
            "blacha",
            "bl",
            "лист",
            "толщина",
            "толщ",
            "пластина",
            "--",
            "δ",
            "厚",
            "钢板",
            "鋼板",
        ),
        *("tấm", "dày", "s", "g"),
    ),
    "length": ("l", "lg", "long", "length", "länge", "lang", "longueur", "largo", "lungh", "dł", "длина", "长", "長"),
    "width": ("w", "b", "width", "breite", "largeur", "ancho", "larg", "szer", "ширина", "宽", "寬"),
    "diameter": ("Ø", "ø", "dia", "diam", "d", "od", "o.d", "o/d", "φ", "ф"),
}
_AFTER = {
    "thickness": (
        *("thk", "thick", "th", "thickness", "pl", "plt", "plate", "steel plate", "ms plate", "stark", "dick"),
        *("épais", "épaisseur", "de espesor", "de espessura", "blech", "blacha", "厚"),
    ),
    "length": ("lg", "long", "lang", "length", "length each", "de long"),
    "width": ("wide", "breit", "width"),
    "diameter": ("dia", "diam", "diameter", "Ø", "ø", "od", "o.d", "disc", "disk"),
    "": ("typ", "nom", "nominal", "each", "ea", "(nom)", "(typ)", "(thk)", "(thick)"),
}
_LETTERS = frozenset("lwbsegd")
"""Letters that must be tied to a figure by ``=``: ``l0`` may be a slip for 10."""


def _choice(words: tuple[str, ...]) -> str:
    return "|".join(word.replace(".", r"\.") for word in sorted(set(words), key=len, reverse=True))


PREFIX_LABEL = re.compile(
    "(?:"
    + "|".join(f"(?P<{kind}>{_choice(words)})" for kind, words in _BEFORE.items())
    + r")(?P<tie>\.? ?[=:]? ?)(?=[0-9.])"
)
SUFFIX_LABEL = re.compile(
    r"(?:(?<=[0-9\"'.) ])|(?<=[0-9 ][mcм]m)|(?<=[0-9 ]in)|(?<=[0-9 ]мм))(?P<gap>[ .,]*)(?:(?<=[0-9])(?P<t>t)|"
    + "|".join(f"(?P<{kind or 'plain'}>{_choice(words)})" for kind, words in _AFTER.items())
    + r")\.?$"
)


def unit_of(word: str) -> str | None:
    """Return ``mm``, ``cm``, ``m``, ``in`` or ``ft`` for a unit word; None when it is not one.

    Examples
    --------
    >>> unit_of("Zoll"), unit_of("kg")
    ('in', None)
    """
    folded = word.strip().casefold()
    return _UNIT_OF.get(folded) or _UNIT_OF.get(folded.rstrip("."))


def label_of(found: re.Match[str]) -> str:
    """Return which label a match of PREFIX_LABEL or SUFFIX_LABEL found.

    Empty for words that say nothing; ``?`` for a lone letter that is not tied to its figure by ``=``.
    """
    named = {key: word for key, word in found.groupdict().items() if word is not None and key not in {"tie", "gap"}}
    kind, word = next(iter(named.items()))
    if "tie" in found.re.groupindex and word in _LETTERS and not found["tie"].strip(" ."):
        return "?"
    return {"plain": "", "t": "thickness"}.get(kind, kind)
