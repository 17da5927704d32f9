"""One broken or hostile file of each class, made in code: each maker writes into a folder and returns the path."""

from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Callable
from pathlib import Path

from tests.raw_compound import compound_file
from tests.raw_xlsb import cell, row, write_xlsb
from tests.raw_xlsx import NS, PACKAGE, RELS, sheet_xml, write_parts, write_xlsx

__all__ = ["BAD_FILES", "ENCODINGS"]

Maker = Callable[[Path], Path]
ROW = '<row r="1"><c r="A1"><v>12</v></c></row>'
# The first records of an .xls: BOF of a workbook in BIFF8, then FILEPASS, which says that the rest is encrypted.
LOCKED_XLS = b"\x09\x08\x10\0\0\x06\x05\0\xbb\x0d\xcc\x07\0\0\0\0\x06\0\0\0" + b"\x2f\0\x06\0\1\0\1\0\1\0"
ENCODINGS = {"named encoding does not fit": "utf-8", "unknown encoding": "utf-9", "encoding that is no text": "rot13",
             "named encoding against the file's mark": "cp1252"}  # fmt: skip
"""The encoding that the user names for a class; the others name none."""


def raw(name: str, data: bytes) -> Maker:
    """Return a maker of a file with these bytes."""

    def make(folder: Path) -> Path:
        path = folder / name
        path.write_bytes(data)
        return path

    return make


def sheet(rows: str, **parts: str | bytes) -> Maker:
    """Return a maker of a workbook with one sheet of these rows."""
    around = {key: str(parts.pop(key)) for key in ("before", "after") if key in parts}
    return lambda folder: write_xlsx(folder / "list.xlsx", sheet_xml(rows, **around), **parts)


def cells(xml: str) -> Maker:
    """Return a maker of a workbook with one row of these cells."""
    return sheet(f'<row r="1">{xml}</row>')


def whole() -> bytes:
    """Return a good workbook's bytes."""
    memory = io.BytesIO()
    write_xlsx(memory, sheet_xml(ROW))
    return memory.getvalue()


def archive(name: str, parts: dict[str, str | bytes]) -> Maker:
    """Return a maker of an archive of these parts."""
    return lambda folder: write_parts(folder / name, parts)


def folder_called(name: str) -> Maker:
    """Return a maker of a folder."""

    def make(folder: Path) -> Path:
        (folder / name).mkdir()
        return folder / name

    return make


def wrong_checksum(folder: Path) -> Path:
    """A stored part with one digit changed: 12 becomes 72."""
    path = write_xlsx(folder / "list.xlsx", sheet_xml(ROW))
    with zipfile.ZipFile(path) as good:
        parts = {name: good.read(name) for name in good.namelist()}
    write_parts(path, parts, compressed=False)
    path.write_bytes(path.read_bytes().replace(b"<v>12</v>", b"<v>72</v>"))
    return path


def locked_part(folder: Path) -> Path:
    """A part that the archive's table says is encrypted."""
    path = write_xlsx(folder / "list.xlsx", sheet_xml(ROW))
    data = bytearray(path.read_bytes())
    at = data.rindex(b"PK\x01\x02")
    struct.pack_into("<H", data, at + 8, 1)
    path.write_bytes(data)
    return path


def endless_chain(folder: Path) -> Path:
    """A stream whose last sector points back to its first."""
    data = bytearray(compound_file({"Workbook": b"x"}))
    struct.pack_into("<I", data, 512 + 4 * 9, 2)
    return raw("list.xls", bytes(data))(folder)


def links(kind: str) -> str:
    """Return the workbook's links with one sheet of a kind."""
    link = f'<Relationship Id="r1" Type="{RELS}/{kind}" Target="worksheets/sheet1.xml"/>'
    return f'<Relationships xmlns="{PACKAGE}/relationships">{link}</Relationships>'


WORD = "application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"
LAUGHS = '<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;">]>'
OUTSIDE = '<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/hostname">]>'
BOMB = sheet_xml(f'<row r="1"><c r="A1" t="inlineStr"><is><t>{" " * 6_000_000}</t></is></c></row>')
ODS = "application/vnd.oasis.opendocument.spreadsheet"
MANIFEST = "<manifest:manifest><manifest:encryption-data/></manifest:manifest>"

BAD_FILES: dict[str, Maker] = {
    # what cannot be opened
    "missing": lambda folder: folder / "list.xlsx",
    "folder": folder_called("list.xlsx"),
    "empty": raw("list.xlsx", b""),
    "mark of an open workbook": raw("~$list.xlsx", b"\x05Owner"),
    "mark of an open document": raw(".~lock.list.ods#", b"Owner"),
    # what is something else
    "web page called xls": raw("list.xls", b"<html><body><table><tr><td>A1</td></tr></table></body></html>"),
    "web page with its declaration": raw("list.xlsx", b'\xef\xbb\xbf\n<!DOCTYPE html>\n<html lang="en">'),
    "XML page called xls": raw(
        "list.xls", b'<?xml version="1.0"?>\n<?mso-application progid="Excel.Sheet"?>\n<Workbook/>'),
    "other XML": raw("list.csv", b'<?xml version="1.0"?><parts/>'),
    "PDF": raw("list.xlsx", b"%PDF-1.7\n"),
    "picture": raw("list.csv", b"\x89PNG\r\n\x1a\n"),
    "text document": archive("list.xlsx", {"[Content_Types].xml": f'<Types><Override ContentType="{WORD}"/></Types>'}),
    "packed archive": archive("list.xlsx", {"notes.txt": "none"}),
    "other OpenDocument": archive("list.ods", {"mimetype": ODS.replace("spreadsheet", "text"), "content.xml": "<a/>"}),
    "other compound file": raw("list.xls", compound_file({"WordDocument": b"x"})),
    "unknown ending": raw("list.numbers", b"x"),
    "no ending": raw("list", b"x"),
    # what has another format's name
    "workbook called csv": lambda folder: write_xlsx(folder / "list.csv", sheet_xml(ROW)),
    "csv called xlsx": raw("list.xlsx", b"Mark,Qty\nA1,4\n"),
    "xls called xlsx": raw("list.xlsx", compound_file({"Workbook": b"x"})),
    "ods called xlsx": archive("list.xlsx", {"mimetype": ODS, "content.xml": "<a/>"}),
    # passwords
    "workbook with a password": raw("list.xlsx", compound_file({"EncryptedPackage": b"x", "EncryptionInfo": b"x"})),
    "locked part": locked_part,
    "ods with a password": archive(
        "list.ods", {"mimetype": ODS, "content.xml": "x", "META-INF/manifest.xml": MANIFEST}),
    # damage
    "cut off": lambda folder: raw("list.xlsx", whole()[:-30])(folder),
    "wrong checksum": wrong_checksum,
    "xls cut off": raw("list.xls", compound_file({"Workbook": b"x"})[:2048]),
    "xls whose container is shorter than its head": raw("list.xls", compound_file({})[:300]),
    "xls whose chain of sectors never ends": endless_chain,
    "xls whose workbook is none": raw("list.xls", compound_file({"Workbook": b"x" * 5000})),
    "xls with a password": raw("list.xls", compound_file({"Workbook": LOCKED_XLS})),
    "old xls cut off": raw("list.xls", b"\x09\x08\x10\x00\x00\x06"),
    "no way to the workbook": sheet(ROW, rels=f'<Relationships xmlns="{PACKAGE}/relationships"/>'),
    "sheet that is missing": lambda folder: write_xlsx(folder / "list.xlsx", links=links("worksheet"), workbook=(
        f'<workbook xmlns="{NS}" xmlns:r="{RELS}"><sheets><sheet name="S1" r:id="r1"/></sheets></workbook>')),
    "sheet that is not XML": lambda folder: write_xlsx(
        folder / "list.xlsx", f'<worksheet xmlns="{NS}"><sheetData><row'),
    "sheet of another encoding than it says": lambda folder: write_xlsx(
        folder / "list.xlsx", sheet_xml('<row r="1"><c r="A1" t="str"><v>½</v></c></row>').encode("cp1252")),
    "control character": cells('<c r="A1" t="str"><v>a\x01b</v></c>'),
    "shared text that is not there": cells('<c r="A1" t="s"><v>7</v></c>'),
    "shared text below zero": cells('<c r="A1" t="s"><v>-1</v></c>'),
    "number that is none": cells('<c r="A1"><v>12x</v></c>'),
    "number with an underscore": cells('<c r="A1"><v>1_000</v></c>'),
    "date that is none": cells('<c r="A1" t="d"><v>soon</v></c>'),
    "cell type that is none": cells('<c r="A1" t="q"><v>1</v></c>'),
    "cell that stands twice": cells('<c r="B1"><v>1</v></c><c r="B1"><v>2</v></c>'),
    "cell of another row": cells('<c r="A2"><v>1</v></c>'),
    "cell that is none": cells('<c r="1A"><v>1</v></c>'),
    "column beyond the last": cells('<c r="XFE1"><v>1</v></c>'),
    "row beyond the last": sheet('<row r="1048577"><c r="A1048577"><v>1</v></c></row>'),
    "row zero": sheet('<row r="0"><c r="A0"><v>1</v></c></row>'),
    "rows out of order": sheet('<row r="2"><c r="A2"><v>1</v></c></row><row r="1"><c r="A1"><v>1</v></c></row>'),
    "hidden columns without numbers": sheet(ROW, before='<cols><col min="x" max="2" hidden="1"/></cols>'),
    "xlsb cut off": lambda folder: write_xlsb(folder / "list.xlsb", row(0) + b"\x05\x30\0"),
    "xlsb shared text that is not there": lambda folder: write_xlsb(
        folder / "list.xlsb", row(0) + cell(7, 0, struct.pack("<I", 9))),
    "xlsb text longer than its record": lambda folder: write_xlsb(
        folder / "list.xlsb", row(0) + cell(6, 0, struct.pack("<I", 999))),
    # what is not safe
    "declared expansion": lambda folder: declared_expansion(folder),
    "bomb": lambda folder: write_xlsx(folder / "list.xlsx", BOMB),
    "entities that expand": lambda folder: write_xlsx(folder / "list.xlsx", LAUGHS + sheet_xml(ROW)),
    "entity that reads a file": lambda folder: write_xlsx(folder / "list.xlsx", OUTSIDE + sheet_xml(ROW)),
    "document type in other letters": lambda folder: write_xlsx(
        folder / "list.xlsx", ('<?xml version="1.0" encoding="utf-16"?>' + LAUGHS + sheet_xml(ROW)).encode("utf-16")),
    "document type in the shared texts": lambda folder: write_xlsx(
        folder / "list.xlsx", sheet_xml(ROW), strings=OUTSIDE + f'<sst xmlns="{NS}"/>'),
    "cell far right": cells('<c r="A1"><v>1</v></c><c r="XFD1"><v>1</v></c>'),
    "cell far below": sheet(ROW + '<row r="1048576"><c r="A1048576"><v>1</v></c></row>'),
    "cell far below and right": sheet(ROW + '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'),
    "huge merge": sheet(ROW, after='<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'),
    # nothing in it
    "no value": sheet('<row r="1"><c r="A1" s="1"/></row>'),
    "chart sheets only": sheet(ROW, links=links("chartsheet")),
    "blank lines": raw("list.csv", b"\n\n,,\n"),
    # texts
    "not UTF-8": raw("list.csv", "Mark,Thickness\nA1,½\n".encode("cp1252")),
    "named encoding does not fit": raw("list.csv", "Mark,Thickness\nA1,½\n".encode("cp1252")),
    "unknown encoding": raw("list.csv", b"Mark\nA1\n"),
    "encoding that is no text": raw("list.csv", b"Mark\nA1\n"),
    "named encoding against the file's mark": raw("list.csv", b"\xef\xbb\xbfMark\nA1\n"),
    "half a letter": raw("list.csv", b"\xff\xfea"),
    "zero bytes": raw("list.csv", b"Mark,Qty\nA1,4\0\n"),
    "two signs between the columns": raw("list.csv", b"Mark,a;Qty,b\nA1,c;4,d\n"),
    "quotation mark that never closes": raw("list.csv", b'Mark,Qty\nA1,"4\nA2,5\n'),
    "quotation mark in the wrong place": raw("list.csv", b'Mark,Qty\nA1,"4"x\n'),
    "ditto mark that swallows rows": raw("list.csv", b'Mark,Size,Qty\nA1,",4\nA2,",5\n'),
}  # fmt: skip


def declared_expansion(folder: Path) -> Path:
    """A part that says it expands to two gigabytes."""
    path = write_xlsx(folder / "list.xlsx", sheet_xml(ROW))
    data = bytearray(path.read_bytes())
    struct.pack_into("<I", data, data.rindex(b"PK\x01\x02") + 24, 2 << 30)
    path.write_bytes(data)
    return path
