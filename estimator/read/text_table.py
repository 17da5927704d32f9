"""A .csv or .tsv: its encoding, the sign between its columns and its decimal mark, each by the file's own evidence.

Every cell stays text, as it was typed; what it means is the business of whoever reads the column.
"""

from __future__ import annotations

import codecs
import csv
import difflib
import io
import itertools
from collections import Counter

from estimator.problems import files as said
from estimator.read.cells import CellValue
from estimator.read.number_text import decimal_mark_of, plain_text
from estimator.read.preflight import FileRefusedError
from estimator.read.sheet_grid import SheetGrid

__all__ = ["decode_text", "read_text_table"]

_MARKS = (
    (codecs.BOM_UTF8, "utf-8", "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32", "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16", "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16", "utf-16"),
)
_SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "upright strokes"}
_USUAL_ENCODINGS = (
    "utf-8",
    "utf-16",
    "cp1250",
    "cp1251",
    "cp1252",
    "cp1253",
    "cp1254",
    "latin-1",
    "shift-jis",
    "gb18030",
)
_SAMPLE_LINES = 400
_NUMBER_STARTS = frozenset("0123456789+-.,")


def decode_text(data: bytes, encoding: str | None = None) -> str:
    """Return the text of a file.

    Parameters
    ----------
    data : bytes
        The file.
    encoding : str or None
        The encoding that the user named; None when it is for the file to say.

    Returns
    -------
    str
        The text without its byte order mark.

    Raises
    ------
    FileRefusedError
        When the bytes are not text in the encoding, or the name is none, or the file's own mark contradicts it.

    Notes
    -----
    Without a name and without a mark the text must be UTF-8; nothing is replaced or left out. Source: definition.

    Examples
    --------
    >>> decode_text("½".encode("cp1252"), "cp1252")
    '½'
    """
    for mark, name, codec in _MARKS:
        if data.startswith(mark):
            if encoding and _codec_name(encoding) not in {name, codec, f"{name}-le", f"{name}-be"}:
                raise FileRefusedError(said.ENCODING_DIFFERS, encoding=encoding, mark=name)
            return _decode(data, codec)
    return _decode(data, _codec_name(encoding) if encoding else "utf-8")


def read_text_table(text: str, grid: SheetGrid, *, tabs: bool = False) -> str:
    """Read the rows of a text file into a grid and return its decimal mark; empty when it shows none.

    Parameters
    ----------
    text : str
        The whole text.
    grid : SheetGrid
        An empty grid with the sheet's name.
    tabs : bool
        Whether the file's name says that tabs stand between the columns.

    Returns
    -------
    str
        ``.``, ``,`` or empty.

    Raises
    ------
    FileRefusedError
        When two signs may stand between the columns, or a quotation mark is left open.

    Notes
    -----
    A first line ``sep=;`` names the sign, as spreadsheet programs understand it, and is not a row. Where commas stand
    between the columns and no number has a comma, the decimal mark is the point. Source: RFC 4180 for quoting; the rest
    common practice, no source.
    """
    separator, text = _named_separator(text)
    separator = separator or ("\t" if tabs and "\t" in text else _separator(text))
    texts: set[str] = set()
    records = _records(text, separator)
    if len(records) > (limit := grid.budget.limits.rows):
        raise FileRefusedError(said.TEXT_TOO_LONG, rows=f"{len(records):,}", limit=f"{limit:,}")
    for row, fields in enumerate(records):
        values: list[CellValue] = [field or None for field in fields]
        while values and values[-1] is None:
            values.pop()
        texts.update(field for field in fields if ("," in field or "." in field) and field[0] in _NUMBER_STARTS)
        grid.add_row(row, values, [""] * len(values))
    return decimal_mark_of(texts) or ("." if separator == "," and not _comma_numbers(texts) else "")


def _codec_name(encoding: str) -> str:
    try:
        codec = codecs.lookup(encoding)
    except (LookupError, ValueError):
        codec = None
    if codec is None or not getattr(codec, "_is_text_encoding", True):
        near = difflib.get_close_matches(encoding.lower(), _USUAL_ENCODINGS, 1, 0.5)
        hint = "correct the name after --encoding" + (f"; the nearest is {near[0]}" if near else "")
        raise FileRefusedError(said.ENCODING_UNKNOWN, encoding=encoding, hint=hint)
    return codec.name


def _decode(data: bytes, codec: str) -> str:
    try:
        text = data.decode(codec)
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        found = data[max(0, error.start - 12) : error.start + 12].decode("ascii", "replace")
        raise FileRefusedError(said.TEXT_NOT_DECODED, found=found, line=line, encoding=codec) from error
    if "\0" in text:
        line = text[: text.index("\0")].count("\n") + 1
        raise FileRefusedError(said.TEXT_NOT_DECODED, line=line, encoding=codec)
    return text


def _named_separator(text: str) -> tuple[str, str]:
    first, _, rest = text.partition("\n")
    first = first.rstrip("\r")
    if first.casefold().startswith("sep=") and len(first) == 5:
        return first[4], rest
    return "", text


def _separator(text: str) -> str:
    """Return the sign that sets off the columns; a comma for a table of one column; two that may are a problem."""
    sample = "".join(itertools.islice(io.StringIO(text), _SAMPLE_LINES))
    present = [sign for sign in _SEPARATORS if sign in sample]
    widths = {sign: _widths(sample, sign) for sign in present}
    lines = sum(1 for line in sample.splitlines() if line.strip())
    usual = [
        sign for sign in present if sum(n for width, n in widths[sign].items() if width > 1) >= lines / 2
    ] or present
    apart = [sign for sign in usual if not any(_is_decimal_in(sample, sign, other) for other in usual if other != sign)]
    regular = [sign for sign in apart if max(widths[sign].values(), default=1) >= 0.9 * widths[sign].total()]
    if len(apart) <= 1 or len(regular) == 1:
        return (regular or apart or [","])[0]
    first, second = (regular or apart)[:2]
    raise FileRefusedError(
        said.SEPARATOR_UNCLEAR,
        found=text.splitlines()[0][:60],
        sign=first,
        first=_SEPARATORS[first],
        second=_SEPARATORS[second],
    )


def _widths(sample: str, sign: str) -> Counter[int]:
    """Return how many lines have how many columns when a sign sets them off."""
    return Counter(len(fields) for fields in csv.reader(io.StringIO(sample), delimiter=sign) if any(fields))


def _is_decimal_in(sample: str, sign: str, other: str) -> bool:
    """Return whether one sign stands only inside numbers when the other sets off the columns: ``12,5;3,2``."""
    if sign not in ",.":
        return False
    fields = [f for fields in csv.reader(io.StringIO(sample), delimiter=other) for f in fields if sign in f]
    return bool(fields) and all(_is_number(field) for field in fields)


def _is_number(field: str) -> bool:
    return all(sign.isdigit() or sign in " +-.,'" for sign in plain_text(field)) and any(s.isdigit() for s in field)


def _comma_numbers(texts: set[str]) -> bool:
    return any("," in text for text in texts)


def _records(text: str, separator: str) -> list[list[str]]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    records: list[list[str]] = []
    begins = 1
    try:
        for fields in reader:
            _hold_to_lines(fields, separator, begins, reader.line_num)
            records.append(fields)
            begins = reader.line_num + 1
    except csv.Error as error:
        end = "never closes" if "unexpected end" in str(error) else "does not close before the next column"
        raise FileRefusedError(said.QUOTE_OPEN, line=begins, end=end) from error
    return records


def _hold_to_lines(fields: list[str], separator: str, begins: int, ends: int) -> None:
    """Refuse a quoted text that runs over lines each of which looks like a row of its own."""
    if ends == begins:
        return
    for field in fields:
        lines = field.splitlines()
        if len(lines) > 1 and separator in lines[0] and separator in lines[-1]:
            raise FileRefusedError(
                said.QUOTE_OPEN, line=begins, end=f"runs on to line {ends}, over what look like rows"
            )
