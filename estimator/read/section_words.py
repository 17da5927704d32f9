"""Words that say what kind of steel a size string describes: plate, flat, disc, or a rolled or drawn section."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from estimator.read.text import plain_text
from estimator.sheets.word_tables import word_table, words_of
from estimator.words import Shape

__all__ = [
    *("DISC", "FLAT", "HARDWARE", "OPEN", "OTHER_SECTION", "PLATE", "RING"),
    *("form_in_words", "form_of", "form_of_title", "without_grades", "word_to_front"),
    *("words_beside_sides", "words_for", "words_often_round"),
]

PLATE = "plate"
FLAT = "flat"
HARDWARE = "hardware"
DISC = "disc"
RING = "ring"
OTHER_SECTION = "other section"
OPEN = "open"
"""A part that may be cut from plate or from the section that its name begins with."""


def _any_of(words: Iterable[str]) -> re.Pattern[str]:
    """Match any of some words standing by itself."""
    spelled = sorted(words, key=len, reverse=True)
    return re.compile(r"(?<![^\W\d_])(?:" + "|".join(map(re.escape, spelled)) + r")s?(?![^\W\d_])")


def _rows(use: str) -> list[tuple[str | Shape, tuple[str, ...]]]:
    """Return the forms and words of one use, in the order of the table: the first that is found counts."""
    shapes = {shape.word: shape for shape in Shape if shape.word not in {DISC, RING}}
    rows = [row for row in word_table("section_words") if row["use"] == use]
    return [(shapes.get(row["form"], row["form"]), words_of(row["words"])) for row in rows]


_BOUNDED = [(form, _any_of(words)) for form, words in _rows("word")]
_CODES = {code: form for form, codes in _rows("code") for code in codes}
_PLATES, _SURE, _OPEN = (
    _any_of(words)
    for use in ("plate beside another word", "plate after another word", "open after another word")
    for _, words in _rows(use)
)
_NO_WORDS_AMONG = frozenset(("ea", "la", "od", "o.d", "dia", "diam", "diameter", "thk", "thick", "sheet", "steel"))
_AMONG_WORDS = {word for use in ("word", "plate beside another word") for _, words in _rows(use) for word in words}
_AMONG = re.compile(
    r"(?<=[0-9\"m]) ?(?P<word>"
    + "|".join(sorted(map(re.escape, _AMONG_WORDS - _NO_WORDS_AMONG), key=len, reverse=True))
    + r") ?(?=[x×*] ?[.0-9Ø])"
)
_CODE = re.compile(r"^([a-z\[∟∠□]|sq\.?) ?(?=[0-9])")
_WITH_SECTIONS = frozenset(
    (
        "steel",
        "mild",
        "iron",
        "section",
        "sections",
        "stock",
        "material",
        "list",
        "hollow",
        "square",
        "hot",
        "rolled",
        "ms",
    )
)
"""Words that may stand beside a section in a title that names it and nothing else."""
_BRACKETS = re.compile(r"\([^)]*\)")
_NEXT_PART = re.compile(r"[,(;:/]| - | for | to | of | with | w/ ")
_GRADE = re.compile(
    r"""(?<![\w/.,x×*]) (?:(?:astm|en|din|jis|gost|гост|is|bs)[ -]?)? (?:
      s\ ?(?:185|235|275|355|420|450|460|690)[a-z0-9+]{0,4}
    | a\ ?(?:36|53|106|283|285|500|514|515|516|572|588|709|992)(?:[ -]?gr\.?(?:ade)?\ ?[a-z0-9]{1,3})?
    | ss\ ?400 | sm\ ?(?:400|490)[abc]? | q\ ?(?:195|215|235|275|345|355)[a-z]?
    | st\ ?(?:37|44|52)(?:[-.][0-9])? | [cс]\ ?(?:235|245|255|275|345|355)
    | e\ ?(?:24|250|350)[a-z]? | fe\ ?(?:360|430|510)[a-z]? | ст\ ?3(?:сп|пс)?[0-9]? | 09г2с
    | gr\.?\ ?(?:36|43|50|250|300|350)[a-z]?
    | (?:aisi\ ?|sae\ ?)?(?:10(?:18|20|45)|1117|1215|41[34]0|4340)(?=\ (?:bar|flat|steel|crs|hrs|plate|rect|round|sq))
    | cs | m\.?s\.? | h\.?r\.? | hot[ -]rolled | cold[ -]rolled | mild | carbon
    ) (?!\w) [ ,;]*""",
    re.VERBOSE,
)


def form_of(words: str, before: str = "") -> str | Shape | None:
    """Return what the words around the figures of a size say it is; None when they say nothing.

    Parameters
    ----------
    words : str
        All words of the text, folded.
    before : str
        The text from its start to its first figure and beyond; a section code may stand there (``L3x3``).

    Examples
    --------
    >>> form_of("ms flat"), form_of("", "l3x3x1/4").name, form_of("bearing plate")
    ('flat', 'ANGLE', 'plate')
    """
    if found := _CODE.match(before):
        return _CODES.get(found[1].rstrip("."))
    form = next((form for form, pattern in _BOUNDED if pattern.search(words)), None)
    return PLATE if form not in {RING, DISC} and _PLATES.search(words) else form


@cache
def words_for(*forms: str | Shape) -> re.Pattern[str]:
    """Match any word of some forms: a quick look at texts of which most name none.

    Examples
    --------
    >>> bool(words_for(RING, DISC).search("flange ring")), bool(words_for(RING, DISC).search("base plate"))
    (True, False)
    """
    return _any_of(word for form, words in _rows("word") if form in forms for word in words)


@cache
def words_beside_sides() -> re.Pattern[str]:
    """Match any word that makes a plate with two equal sides a disc, as *round*; elsewhere it may call a bar so.

    Examples
    --------
    >>> bool(words_beside_sides().search("round")), bool(words_beside_sides().search("rounded"))
    (True, False)
    """
    return _any_of(word for _, words in _rows("disc beside equal sides") for word in words)


@cache
def words_often_round() -> re.Pattern[str]:
    """Match any word for a piece that is often round and may be square, as *flange*.

    Examples
    --------
    >>> bool(words_often_round().search("blind flange")), bool(words_often_round().search("base plate"))
    (True, False)
    """
    return _any_of(word for _, words in _rows("often round") for word in words)


def form_in_words(text: str) -> str | Shape | None:
    """Return what the words of another cell say that a size is: the last word of a name counts, as in *tube cap*.

    Examples
    --------
    >>> form_in_words("side tube").name, form_in_words("tube cap"), form_in_words("angle bracket")
    ('SQUARE_TUBE', 'plate', 'open')
    """
    name = _NEXT_PART.split(text)[0] or text
    form = form_of(name) or form_of(text)
    if not isinstance(form, Shape):
        return form
    pattern = next(pattern for known, pattern in _BOUNDED if known == form and pattern.search(text))
    last = max((found.end() for found in pattern.finditer(name)), default=len(name))
    if _SURE.search(name, last):
        return PLATE
    return OPEN if _OPEN.search(name, last) else form


def form_of_title(text: str) -> str | Shape | None:
    """Return the section or flat that a title names and nothing else, as *Angle iron* or *SQUARE TUBING:*.

    Examples
    --------
    >>> form_of_title("Angle Iron").name, form_of_title("flat bars"), form_of_title("PIPE SUPPORT 1")
    ('ANGLE', 'flat', None)
    """
    said = _BRACKETS.sub(" ", plain_text(text).casefold()).replace(":", " ").replace("-", " ")
    for form, pattern in _BOUNDED:
        if (isinstance(form, Shape) or form == FLAT) and pattern.search(said):
            rest = pattern.sub(" ", said).split()
            return form if all(word in _WITH_SECTIONS for word in rest) else None
    return None


def word_to_front(folded: str) -> str:
    """Return a folded size with the word that stood among its figures before them.

    Examples
    --------
    >>> word_to_front("50 x 50 x 3 shs x 700"), word_to_front("10 pl x 150 x 300"), word_to_front("10x150 plate")
    ('shs 50 x 50 x 3 x 700', 'pl 10 x 150 x 300', '10x150 plate')
    """
    found = _AMONG.search(folded)
    return f"{found['word']} {folded[: found.start()]} {folded[found.end() :]}" if found else folded


def without_grades(text: str) -> str:
    """Return a folded text without the steel grades in it, whose figures are no sizes.

    Examples
    --------
    >>> without_grades("pl10 s355jr"), without_grades("1/4 a36 plate")
    ('pl10 ', '1/4 plate')
    """
    return _GRADE.sub("", text)
