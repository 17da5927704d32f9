"""The number formats of an .ods, which are trees of elements there, as the format codes that other workbooks use."""

from __future__ import annotations

from estimator.read.xml_parts import Element, attribute, children, local_name

__all__ = ["read_formats"]

_PLACES = {"automatic-styles", "styles"}
_LETTERS = {"day": "d", "day-of-week": "ddd", "hours": "h", "minutes": "m", "seconds": "s", "am-pm": "AM/PM"}


def read_formats(content: Element, styles: Element | None) -> tuple[dict[str, str], set[str]]:
    """Return the format code of each cell style that has one, and the names of table styles that hide their sheet.

    Parameters
    ----------
    content : Element
        Root of the content part.
    styles : Element or None
        Root of the styles part.

    Returns
    -------
    tuple of (dict of str to str, set of str)
        Style name to format code; names of hiding styles.

    Notes
    -----
    Only what other steps look at is translated: dates and times by their order, percent, fractions, decimals.
    Source: OpenDocument 1.3 part 3, 16.29 (data styles).
    """
    codes: dict[str, str] = {}
    named: dict[str, str] = {}
    parents: dict[str, str] = {}
    hidden: set[str] = set()
    for root in (styles, content):
        for style in [
            s for place in (root if root is not None else ()) if local_name(place.tag) in _PLACES for s in place
        ]:
            name = attribute(style, "name")
            if local_name(style.tag) == "style":
                named[name] = attribute(style, "data-style-name")
                parents[name] = attribute(style, "parent-style-name")
                if any(attribute(p, "display") == "false" for p in children(style, "table-properties")):
                    hidden.add(name)
            else:
                codes[name] = _code(style)
    found = {name: codes.get(named[name] or named.get(parents[name], ""), "") for name in named}
    return {name: code for name, code in found.items() if code}, hidden


def _code(style: Element) -> str:
    """Return a data style as a format code; empty for a plain number of any decimals."""
    kind = local_name(style.tag)
    if kind in {"date-style", "time-style"}:
        return "".join(_date_code(part) for part in style)
    if kind not in {"number-style", "percentage-style", "currency-style"}:
        return "@" if kind == "text-style" else ""
    percent = "%" if kind == "percentage-style" else ""
    for part in style:
        if local_name(part.tag) == "fraction":
            return (
                "# " + "?" * _digits(part, "min-numerator-digits") + "/" + "?" * _digits(part, "min-denominator-digits")
            )
        if local_name(part.tag) == "number" and (attribute(part, "decimal-places") or percent):
            places = _digits(part, "decimal-places", 0)
            return ("0." + "0" * places if places else "0") + percent
    return percent and f"0{percent}"


def _date_code(part: Element) -> str:
    name, long = local_name(part.tag), attribute(part, "style") == "long"
    if name == "month":
        letters = 3 if attribute(part, "textual") == "true" else 1
        return "m" * (letters + long)
    if name == "year":
        return "yyyy" if long else "yy"
    if name == "text":
        return part.text or ""
    letter = _LETTERS.get(name, "")
    return letter * 2 if long and len(letter) == 1 else letter


def _digits(part: Element, name: str, default: int = 1) -> int:
    stated = attribute(part, name)
    return min(int(stated), 20) if stated.isascii() and stated.isdigit() else default
