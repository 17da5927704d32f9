"""Quantities as people type them: ``4 ea``, ``x6``, ``2x3``, ``5 szt.``. A whole number, or refused with the reason."""

from __future__ import annotations

import re
from dataclasses import dataclass

from estimator.read.numbers import Refused, read_number
from estimator.read.text import LONGEST, plain_text

__all__ = ["MEASURE_WORDS", "PIECE_WORDS", "Count", "read_count"]


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number of pieces."""

    value: int
    plain: bool = True
    remark: str = ""


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


PIECE_WORDS = _words("""
    ea each pc pcs pce pces pc(s) pce(s) piece pieces off no nos unit units qty req reqd req'd required item items total
    nr stk stck stück stueck st u un und uds ud unid unids unidade unidades uns pieza piezas pza pzas pz pzs peça peças
    pç pçs pièce pièces pezzo pezzi n n° nº szt sztuk sztuki шт штук штука 件 个 個 块 塊 片 支 cái cai tấm chiếc
""")
"""Words that mean pieces and nothing more, in a quantity cell or a unit column."""

_SET_WORDS = _words("""
    set sets satz sätze jeu jeux juego juegos jogo jogos cj conjunto serie serii komplet kpl компл комплект 套 组 bộ lot
""")
_PAIR_WORDS = _words("""
    pair pairs pr prs paar paire paires par pares coppia para pary пара пар 对 對 đôi dozen doz
""")
MEASURE_WORDS = _words("""
    m mm cm ft in lb lbs kg kgs t m2 m^ m3 ml lm rm м кг metre metres meter meters feet inch tonne tonnes
""")
"""Words that make a quantity an amount, not a number of pieces."""

_FIGURES = {
    word: number
    for words in (
        "one two three four five six seven eight nine ten eleven twelve",
        "ein zwei drei vier fünf sechs sieben acht neun zehn elf zwölf",
        "un deux trois quatre cinq six sept huit neuf dix onze douze",
        "uno dos tres cuatro cinco seis siete ocho nueve diez",
        "um dois três quatro cinco seis sete oito nove dez",
        "uno due tre quattro cinque sei sette otto nove dieci",
        "jeden dwa trzy cztery pięć sześć siedem osiem dziewięć dziesięć",
        "один два три четыре пять шесть семь восемь девять десять",
    )
    for number, word in enumerate(words.split(), 1)
} | {"eins": 1, "eine": 1, "einen": 1, "zwo": 2, "una": 1, "une": 1, "uma": 1, "duas": 2, "jedna": 1, "dwie": 2}
_IN_WORDS = re.compile(rf"(?:{'|'.join(_FIGURES)})(?![^\W\d_])")
_DOZENS = re.compile(r"(?:(half a|1/2|½)|an?|one|([0-9]{1,3}))? ?(?:dozen|doz)\.?")
_ONE_PAIR = re.compile(r"(?:(?:an?|one|1|ein|eine|un|une|una?|para) )?(?:pair|pr|paar|paire|par|para|coppia)\.?")
_WORD = r"[^\W\d_](?:[^\W\d_]|['.°])*(?:\(s\))?"
_NUMBER = r"[0-9][0-9.,' ]*[0-9]|[0-9]"
_PLAIN = re.compile(rf"(?P<before>{_WORD}|n°)?[ .:=]*(?P<num>{_NUMBER}) ?(?P<after>{_WORD})?\.?")
_IN_BRACKETS = re.compile(r"\((.+)\)")
_TIMES = re.compile(r"(?:[x×*✕х] ?([0-9]{1,7})|([0-9]{1,7}) ?[x×*✕х])")
_PRODUCT = re.compile(r"([0-9]{1,5}) ?(?:[x×*✕х]|sets? (?:of|x)|sätze zu) ?([0-9]{1,5})(?: ?(?:ea|pcs|off|no)\.?)?")
_SUM = re.compile(r"[0-9]{1,5}(?: ?\+ ?[0-9]{1,5})+")
_HAND = r"(?:l\.?h\.?|r\.?h\.?|l|r|left|right|links|rechts|izq|der|lewe|prawe)"
_HANDS = re.compile(rf"([0-9]{{1,5}}) ?x? ?{_HAND}(?: ?[+&,;/] ?| and | )([0-9]{{1,5}}) ?x? ?{_HAND}")
"""Pieces of two hands: both are cut alike."""
_REASONS = (
    (re.compile(r"-+ ?[0-9].*"), "it is below zero"),
    (re.compile(r".*[0-9] ?(?:-+|to|bis|~|\.\.+) ?[0-9].*"), "it is a range"),
    (re.compile(r".*[0-9] ?(?:@|at|à|a) ?[0-9].*"), "it holds a length as well"),
    (re.compile(r"(?:~|≈|ca\.?|approx\.?|about|etwa|ok\.?) ?[0-9].*"), "it is approximate"),
    (re.compile(r".*\?.*"), "it is marked as doubtful"),
    (re.compile(r"[0-9]+ ?/.*"), "it is a share or a rate"),
    (re.compile(r"[^0-9]*"), "it holds no figure"),
)


def read_count(text: str, decimal: str | None = None) -> Count | Refused:
    """Read a quantity.

    Parameters
    ----------
    text : str
        What stands in the cell.
    decimal : {".", ",", None}
        Decimal mark that the list gives evidence of.

    Returns
    -------
    Count or Refused
        The whole number of pieces, or why there is not one.

    Examples
    --------
    >>> read_count("4 ea").value, read_count("2x3").remark
    (4, '2 x 3 is read as 6')
    >>> read_count("2L + 2R").value, read_count("1 LH 1 RH").value
    (4, 2)
    >>> read_count("two").value, read_count("four off").value, read_count("a dozen").remark
    (2, 4, 'a dozen is read as 12')
    >>> read_count("ALL").reason, read_count("0,3m").reason
    ('it holds no figure', 'it is an amount, not a number of pieces')
    """
    if len(text) > LONGEST:
        return Refused("it is too long for a number of pieces")
    said = plain_text(text).casefold()
    if found := _IN_BRACKETS.fullmatch(said):
        said = found[1]
    if found := _ONE_PAIR.fullmatch(said):
        return Count(2, False, f"{said} is read as 2")
    if (found := _DOZENS.fullmatch(said)) and (found[1] is None or not found[2]):
        many = 6 if found[1] else 12 * int(found[2] or 1)
        return Count(many, False, f"{said} is read as {many}")
    said = _IN_WORDS.sub(lambda word: str(_FIGURES[word[0]]), said, count=1) if _IN_WORDS.match(said) else said
    if found := _TIMES.fullmatch(said):
        return Count(int(found[1] or found[2]))
    if found := _PRODUCT.fullmatch(said):
        first, second = int(found[1]), int(found[2])
        return Count(first * second, False, f"{first} x {second} is read as {first * second}")
    if _SUM.fullmatch(said):
        total = sum(int(part) for part in said.split("+"))
        return Count(total, False, f"{said} is read as {total}")
    if found := _HANDS.fullmatch(said):
        total = int(found[1]) + int(found[2])
        return Count(total, False, f"{found[1]} and {found[2]} of two hands are read as {total}")
    if found := _PLAIN.fullmatch(said):
        return _with_words(found["num"], _bare(found["before"]), _bare(found["after"]), decimal)
    return Refused(next((why for pattern, why in _REASONS if pattern.fullmatch(said)), "it is not a number of pieces"))


def _bare(word: str | None) -> str:
    return (word or "").replace(".", "")


def _with_words(num: str, before: str, after: str, decimal: str | None) -> Count | Refused:
    """Read a number with a word before or after it."""
    if before and before not in PIECE_WORDS:
        return Refused("the word before the figure is not known")
    if after in MEASURE_WORDS:
        return Refused("it is an amount, not a number of pieces")
    if after in _PAIR_WORDS:
        return Refused("pairs and dozens leave open how many pieces are meant")
    if after and after not in PIECE_WORDS and after not in _SET_WORDS:
        return Refused("the word after the figure is not known")
    read = read_number(num.strip(), decimal)
    if isinstance(read, Refused):
        return read
    if read.value.denominator != 1:
        return Refused("it is not a whole number")
    value = int(read.value)
    if after in _SET_WORDS:
        return Count(value, False, f"{value} {after} is read as {value} of this piece")
    return Count(value, read.plain, read.remark)
