"""Words that tell what a row is: totals, notes, examples, titles that multiply, alternates."""

from __future__ import annotations

import re

from estimator.read.text import plain_text

__all__ = ["is_example", "is_note", "is_total", "may_be_total", "multiplier", "names_alternate"]

_TOTALS = (
    r"(?:grand|sub|overall|running|page|sheet|job|net|section|group)?[ -]?totals?|sums?|"
    r"gesamt(?:summe|menge|gewicht)?|summe|zwischensumme|insgesamt|total[ -]?g[ée]n[ée]ral|sous[ -]?total|"
    r"somme|suma(?: total)?|totales|totais|total geral|soma|totale(?: generale)?|subtotale|somma|totali|"
    r"razem|suma częściowa|ogółem|łącznie|podsuma|итого|всего|подытог|итог|общий итог|"
    r"合計|合计|小計|小计|總計|总计|总和|tổng(?: cộng)?|cộng"
)
_OF = (
    r"weight|wt|mass|qty|quantity|pcs|pieces|parts|plates?|steel|kg|lbs?|t|mm|in|area|m2|for|of|this|page|sheet|list|"
    r"gewicht|masse|stück|menge|blech|poids|pièces|peso|piezas|peças|pezzi|szt|sztuk|waga|masa|кг|шт|масса|листов|dla|für|"
    r"pour|para|per|по|list[ay]?|the"
)
_TOTAL = re.compile(rf"(?:{_TOTALS})(?:[ :=.,\-/()\"]*(?:(?:{_OF})\b|[0-9]+))*[ :=.,\-/()\"]*", re.IGNORECASE)
_TOTAL_AND_WORDS = re.compile(rf"(?:{_TOTALS})\b.{{0,40}}", re.IGNORECASE)
_STARTS = frozenset(
    {
        "tot",
        "sub",
        "gra",
        "sum",
        "ove",
        "run",
        "pag",
        "she",
        "job",
        "net",
        "sec",
        "gro",
        "ges",
        "zwi",
        "ins",
        "som",
        "sou",
    }
    | {
        "raz",
        "ogó",
        "łąc",
        "pod",
        "ито",
        "все",
        "общ",
        "tổn",
        "cộn",
        "合計",
        "合计",
        "小計",
        "小计",
        "總計",
        "总计",
        "总和",
    }
)
_NOTE = re.compile(
    r"(?:notes?|nb|n\.b|remarks?|hinweis|anmerkung|bemerkung|remarque|nota|observaci|obs|uwaga|uwagi|примечани|прим|"
    r"备注|備註|ghi chú|all dim|alle maße|\*|\(|\d{1,2}[.)]\s+\S+\s+\S+)",
    re.IGNORECASE,
)
_EXAMPLE = re.compile(
    r"\b(?:example|sample row|beispiel|exemple|ejemplo|exemplo|esempio|przykład|пример)\b|示例|范例", re.IGNORECASE
)
_MULTIPLIES = re.compile(
    r"(?:^|[^\d\s.,x×])\s*[(\[]?\s?[x×*]\s?(\d{1,4})(?=\s*(?:[)\],;]|off\b|no\b|$))"
    r"|(?:^|[\s(\[,:-])(\d{1,4})\s?(?:x|×|off|sets?|req'?d|required|nos?\.?|pcs|thus|stk|stück|mal|szt|шт|pz|uds?)(?=[\s)\],;.:]|$)(?!\s?\d)",
    re.IGNORECASE,
)
_ALTERNATE = re.compile(
    r"\b(?:alternates?|alternatives?|alt\.|optional|option [a-z0-9]\b|instead of|not required|deleted|void|cancelled|"
    r"superseded|entfällt|wahlweise|en option|opcional|opzionale|opcja|вариант|по выбору)",
    re.IGNORECASE,
)


def is_total(text: str, *, with_words: bool = False) -> bool:
    """Return whether a label says that its row is a total or subtotal.

    Parameters
    ----------
    text : str
        A label.
    with_words : bool
        Take a label that goes on in other words as well; only for rows that give no sizes.

    Returns
    -------
    bool
        Whether it is one.

    Examples
    --------
    >>> is_total("Sub-total 10 mm:"), is_total("ИТОГО"), is_total("Total support bracket")
    (True, True, False)
    """
    said = plain_text(text).strip(" *-=")
    return bool(_TOTAL.fullmatch(said)) or (with_words and bool(_TOTAL_AND_WORDS.fullmatch(said)))


def may_be_total(text: str) -> bool:
    """Return cheaply whether a label might say so; false labels are sorted out by ``is_total``."""
    start = text[:3].lower()
    return start in _STARTS or start[:2] in _STARTS or not start[:1].isalnum()


def is_note(text: str) -> bool:
    """Return whether a lone text reads as a note and not as a title."""
    said = plain_text(text)
    return len(said) > 60 or bool(_NOTE.match(said))


def is_example(text: str) -> bool:
    """Return whether a title says that its table is an example."""
    return bool(_EXAMPLE.search(text))


def multiplier(text: str) -> int | None:
    """Return by how much a title multiplies the rows below it; 0 when it names several numbers, None when it does not.

    Examples
    --------
    >>> multiplier("FRAME A (x2)"), multiplier("Bracket - 4 off"), multiplier("PLATES 10 x 150"), multiplier("FLOOR 2")
    (2, 4, None, None)
    """
    found = {int(match[1] or match[2]) for match in _MULTIPLIES.finditer(plain_text(text))} - {0, 1}
    if not found:
        return None
    return found.pop() if len(found) == 1 else 0


def names_alternate(text: str) -> bool:
    """Return whether a row's words say that it may not be wanted."""
    return bool(_ALTERNATE.search(text))
