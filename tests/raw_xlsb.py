"""A small writer of .xlsb, since no library writes it: records by [MS-XLSB] 2.4, as little as a reader needs."""

from __future__ import annotations

import struct
from pathlib import Path

from tests.raw_xlsx import PACKAGE, RELS, write_parts

__all__ = ["cell", "record", "row", "wide", "write_xlsb"]

_BOOK_TYPE = "application/vnd.ms-excel.sheet.binary.macroEnabled.main"


def record(kind: int, data: bytes = b"") -> bytes:
    """Return a record: its number and its size in bytes of seven bits, then its bytes."""
    return _varying(kind) + _varying(len(data)) + data


def wide(text: str) -> bytes:
    """Return a counted UTF-16 text."""
    return struct.pack("<I", len(text.encode("utf-16-le")) // 2) + text.encode("utf-16-le")


def row(number: int, *, hidden: bool = False) -> bytes:
    """Return the record that begins a row, counted from 0."""
    return record(0, struct.pack("<IIHBBBI", number, 0, 300, 0, 0x10 if hidden else 0, 0, 0))


def cell(kind: int, column: int, data: bytes = b"", style: int = 0) -> bytes:
    """Return a cell's record."""
    return record(kind, struct.pack("<II", column, style) + data)


def write_xlsb(
    path: Path, rows: bytes, *, strings: tuple[str, ...] = (), behind: bytes = b"", epoch_1904: bool = False
) -> Path:
    """Write a workbook of one sheet, ``Parts``; style 1 is the date format ``d-mmm``, style 2 a format of its own."""
    types = (
        f'<Types xmlns="{PACKAGE}/content-types"><Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Default Extension="bin" ContentType="{_BOOK_TYPE}"/></Types>'
    )
    links = "".join(
        f'<Relationship Id="{name}" Type="{RELS}/{kind}" Target="{target}"/>'
        for name, kind, target in (
            ("rId1", "worksheet", "worksheets/sheet1.bin"),
            ("rId2", "styles", "styles.bin"),
            ("rId3", "sharedStrings", "sharedStrings.bin"),
        )
    )
    book = f'<Relationship Id="rId1" Type="{RELS}/officeDocument" Target="xl/workbook.bin"/>'
    xfs = b"".join(record(47, struct.pack("<HHHHHIH", 0, code, 0, 0, 0, 0, 0)) for code in (0, 16, 164))
    parts: dict[str, str | bytes] = {
        "[Content_Types].xml": types,
        "_rels/.rels": f'<Relationships xmlns="{PACKAGE}/relationships">{book}</Relationships>',
        "xl/_rels/workbook.bin.rels": f'<Relationships xmlns="{PACKAGE}/relationships">{links}</Relationships>',
        "xl/workbook.bin": record(131)
        + record(153, struct.pack("<III", int(epoch_1904), 0, 0))
        + record(143)
        + record(156, struct.pack("<II", 0, 1) + wide("rId1") + wide("Parts"))
        + record(144)
        + record(132),
        "xl/styles.bin": record(278)
        + record(615, struct.pack("<I", 1))
        + record(44, struct.pack("<H", 164) + wide("0.0 %"))
        + record(616)
        + record(626, struct.pack("<I", 1))
        + record(47, struct.pack("<HHHHHIH", 0xFFFF, 22, 0, 0, 0, 0, 0))
        + record(627)
        + record(617, struct.pack("<I", 3))
        + xfs
        + record(618)
        + record(279),
        "xl/sharedStrings.bin": record(159, struct.pack("<II", len(strings), len(strings)))
        + b"".join(record(19, b"\0" + wide(text)) for text in strings)
        + record(160),
        "xl/worksheets/sheet1.bin": record(129)
        + record(148, struct.pack("<IIII", 0, 20, 0, 20))
        + record(145)
        + rows
        + record(146)
        + behind
        + record(130),
    }
    return write_parts(path, parts)


def _varying(number: int) -> bytes:
    out = bytearray()
    while True:
        byte, number = number & 0x7F, number >> 7
        out.append(byte | (0x80 if number else 0))
        if not number:
            return bytes(out)
