"""Words that say what kind of steel a size string describes: plate, flat, disc, or a rolled or drawn section."""

from __future__ import annotations

import re

from estimator.words import Shape

__all__ = ["FLAT", "HARDWARE", "PLATE", "form_of", "without_grades"]

PLATE = "plate"
FLAT = "flat"
HARDWARE = "hardware"
DISC = "disc"
RING = "ring"

_WORDS: dict[str | Shape, tuple[str, ...]] = {
    HARDWARE: (
        *("u-bolt", "bolt", "bolts", "nut", "nuts", "screw", "screws", "washer", "washers", "hinge", "rivet", "stud"),
        *("schraube", "mutter", "vis", "écrou", "tornillo", "tuerca", "parafuso", "porca", "śruba", "nakrętka"),
        *("болт", "гайка", "винт", "шайба", "螺栓", "螺母", "bu lông", "bearing", "lager", "hose", "gasket", "cable"),
    ),
    Shape.SQUARE_TUBE: (
        *("shs", "rhs", "hss", "box section", "box", "square tube", "rectangular tube", "square tubing", "sq tube"),
        *("rectangular tubing", "tubing", "tube", "vierkantrohr", "quadratrohr", "rechteckrohr", "tube carré"),
        *("tubo cuadrado", "tubo rectangular", "tubo quadrado", "tubo retangular", "tubolare", "profil zamknięty"),
        *("профильная труба", "труба профильная", "方管", "矩形管", "thép hộp", "hộp"),
    ),
    Shape.PIPE: (
        *("chs", "pipe", "rohr", "round tube", "round tubing", "tube rond", "tubo redondo", "tubo", "rura", "труба"),
        *("圆管", "圓管", "钢管", "鋼管", "ống", "rundrohr"),
    ),
    Shape.ANGLE: (
        *("angle", "angle iron", "equal angle", "unequal angle", "ea", "ua", "winkel", "winkelstahl", "cornière"),
        *("corniere", "ángulo", "angulo", "cantoneira", "angolare", "kątownik", "уголок", "角钢", "角鋼", "thép góc"),
        *("l-profil", "rsa"),
    ),
    Shape.CHANNEL: (
        *("channel", "pfc", "upn", "unp", "upe", "uap", "u-profil", "profilé u", "canal", "perfil u", "ceownik"),
        *("швеллер", "槽钢", "槽鋼", "mc", "rsc"),
    ),
    Shape.BEAM: (
        *("beam", "i-beam", "h-beam", "ub", "uc", "ubp", "wf", "hea", "heb", "hem", "ipe", "ipn", "inp", "hw", "hn"),
        *("hp", "rh", "hm", "wide flange", "träger", "poutrelle", "viga", "trave", "dwuteownik", "двутавр"),
        *("балка", "工字钢", "h型钢", "h型鋼", "rsj", "joist"),
    ),
    Shape.ROUND_BAR: (
        *("rod", "round bar", "round", "rnd", "rundstahl", "rond", "redondo", "rebar", "shaft", "welle", "pręt"),
        *("pręt okrągły", "круг", "圆钢", "圓鋼", "tondo", "barra redonda", "dowel", "pin"),
    ),
    Shape.SQUARE_BAR: ("square bar", "sq bar", "vierkant", "vierkantstahl", "carré", "cuadrado", "kwadrat", "квадрат"),
    Shape.RAIL: ("rail", "schiene", "рельс", "szyna"),
    RING: ("ring", "annulus", "anneau", "anillo", "anel", "anello", "pierścień", "кольцо", "圆环"),
    DISC: (
        *("disc", "disk", "circle", "round plate", "circular plate", "rondelle", "ronde", "scheibe", "disque", "disco"),
        *("krążek", "диск", "圆板", "圓板", "circle disc", "blank disc", "od", "o.d", "dia", "diam", "diameter"),
    ),
    FLAT: (
        *("flat", "flat bar", "fb", "flt", "fl", "flach", "flachstahl", "flachst", "fla", "flats", "ms flat"),
        *(
            "plat",
            "fer plat",
            "pletina",
            "llanta",
            "barra chata",
            "piatto",
            "płaskownik",
            "полоса",
            "扁钢",
            "扁鋼",
            "la",
        ),
    ),
    PLATE: (
        *("plate", "pl", "plt", "plates", "baseplate", "base plate", "bl", "blech", "blechplatte", "platte", "tôle"),
        *("tole", "chapa", "placa", "lamiera", "piastra", "blacha", "лист", "пластина", "thk", "thick", "stark"),
        *("钢板", "鋼板", "板", "tấm", "tôn", "thép tấm", "gusset", "стенка", "sheet", "steel"),
    ),
}
_CODES = {
    "l": Shape.ANGLE,
    "u": Shape.CHANNEL,
    "c": Shape.CHANNEL,
    "w": Shape.BEAM,
    "i": Shape.BEAM,
    "h": Shape.BEAM,
    "s": Shape.BEAM,
    "[": Shape.CHANNEL,
    "∟": Shape.ANGLE,
    "∠": Shape.ANGLE,
    "□": Shape.SQUARE_TUBE,
}
"""Single letters and signs that name a section when they stand straight before its sizes."""

_BOUNDED = {
    form: re.compile(
        r"(?<![^\W\d_])(?:" + "|".join(re.escape(w) for w in sorted(words, key=len, reverse=True)) + r")(?![^\W\d_])"
    )
    for form, words in _WORDS.items()
}
_CODE = re.compile(r"^([a-z\[∟∠□]) ?(?=[0-9])")
_GRADE = re.compile(
    r"""(?<![\w/.,x×*]) (?:(?:astm|en|din|jis|gost|гост|is|bs)[ -]?)? (?:
      s\ ?(?:185|235|275|355|420|450|460|690)[a-z0-9+]{0,4}
    | a\ ?(?:36|53|106|283|285|500|514|515|516|572|588|709|992)(?:[ -]?gr\.?(?:ade)?\ ?[a-z0-9]{1,3})?
    | ss\ ?400 | sm\ ?(?:400|490)[abc]? | q\ ?(?:195|215|235|275|345|355)[a-z]?
    | st\ ?(?:37|44|52)(?:[-.][0-9])? | [cс]\ ?(?:235|245|255|275|345|355)
    | e\ ?(?:24|250|350)[a-z]? | fe\ ?(?:360|430|510)[a-z]? | ст\ ?3(?:сп|пс)?[0-9]? | 09г2с
    | gr\.?\ ?(?:36|43|50|250|300|350)[a-z]?
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
    >>> form_of("ms flat"), form_of("", "l3x3x1/4").name, form_of("gantry plate")
    ('flat', 'ANGLE', 'plate')
    """
    if found := _CODE.match(before):
        return _CODES.get(found[1])
    return next((form for form, pattern in _BOUNDED.items() if pattern.search(words)), None)


def without_grades(text: str) -> str:
    """Return a folded text without the steel grades in it, whose figures are no sizes.

    Examples
    --------
    >>> without_grades("pl10 s355jr"), without_grades("1/4 a36 plate")
    ('pl10 ', '1/4 plate')
    """
    return _GRADE.sub("", text)
