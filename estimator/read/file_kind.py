"""What a file is by its content and by its name; the two must agree."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path

from estimator.problems import files as said
from estimator.read.compound import SIGNATURE, CompoundFile
from estimator.read.preflight import FileRefusedError

__all__ = ["FORMATS", "SUFFIXES", "kind_of_bytes", "kind_of_name", "rename"]

FORMATS = {
    "xlsx": "an .xlsx workbook",
    "xlsm": "an .xlsm workbook",
    "xlsb": "an .xlsb workbook",
    "xls": "an .xls workbook",
    "ods": "an .ods workbook",
    "csv": "a .csv text",
    "tsv": "a .tsv text",
    "text": "plain text",
}
SUFFIXES = {
    ".xlsx": "xlsx", ".xlsm": "xlsm", ".xlsb": "xlsb", ".xls": "xls", ".ods": "ods",
    ".csv": "csv", ".tsv": "tsv", ".tab": "tsv", ".txt": "csv",
}  # fmt: skip
_KNOWN = ".xlsx, .xlsm, .xls, .xlsb, .ods, .csv, .tsv"
_OLD_SHEETS = (b"\x09\x00\x04\x00", b"\x09\x02\x06\x00", b"\x09\x04\x06\x00", b"\x09\x08\x08\x00", b"\x09\x08\x10\x00")
_OTHERS = (
    (b"%PDF", "a PDF"),
    (b"{\\rtf", "a rich text document"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"Rar!", "a packed archive"),
    (b"7z\xbc\xaf", "a packed archive"),
    (b"\x1f\x8b", "a packed archive"),
)
_MARKUP = re.compile(
    rb"^(?:\xef\xbb\xbf)?\s*<(?:\?xml|!doctype|!--|html|head|body|table|meta|style|div)", re.IGNORECASE
)


def kind_of_name(path: Path) -> str:
    """Return the format that a file's name states; an unknown ending is a problem."""
    kind = SUFFIXES.get(path.suffix.casefold())
    if kind is None:
        what = f"of the kind {path.suffix}" if path.suffix else "of no kind that its name tells"
        raise FileRefusedError(said.FILE_NOT_TABLE, what=what, formats=_KNOWN)
    return kind


def kind_of_bytes(data: bytes) -> str:
    """Return the format that a file's content shows.

    Parameters
    ----------
    data : bytes
        The whole file, at least one byte.

    Returns
    -------
    str
        xlsx, xlsm, xlsb, xls, ods, or text.

    Raises
    ------
    FileRefusedError
        When it is something else, protected by a password, or not whole.

    Notes
    -----
    Source: signatures of the formats' own specifications; the words in the messages are ours.
    """
    if data.startswith(b"PK"):
        return _kind_of_archive(data)
    if data.startswith(SIGNATURE):
        return _kind_of_compound(data)
    if data.startswith(_OLD_SHEETS):
        return "xls"
    for signature, what in _OTHERS:
        if data.startswith(signature):
            raise FileRefusedError(said.FILE_NOT_TABLE, what=what, formats=_KNOWN)
    if _MARKUP.match(data[:400]):
        return _refuse_markup(data[:4000])
    return "text"


def rename(path: Path, kind: str) -> str:
    """Return a file's name with the ending that fits its content."""
    return path.with_suffix(".csv" if kind == "text" else f".{kind}").name


def _kind_of_archive(data: bytes) -> str:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            names = set(archive.namelist())
            if "mimetype" in names and "content.xml" in names:
                return _kind_of_open_document(archive, names)
            if "[Content_Types].xml" not in names:
                raise FileRefusedError(said.FILE_NOT_TABLE, what="a packed archive", formats=_KNOWN)
            types = _start(archive, "[Content_Types].xml")
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError, EOFError) as error:
        raise FileRefusedError(said.FILE_DAMAGED, reason="its table of parts is missing or wrong") from error
    if b"sheet.binary.macroEnabled.main" in types:
        return "xlsb"
    if b"sheet.macroEnabled.main" in types:
        return "xlsm"
    if b"spreadsheetml.sheet.main" in types:
        return "xlsx"
    raise FileRefusedError(said.FILE_NOT_TABLE, what="a document of another kind", formats=_KNOWN)


def _kind_of_open_document(archive: zipfile.ZipFile, names: set[str]) -> str:
    if "opendocument.spreadsheet" not in _start(archive, "mimetype").decode("ascii", "replace"):
        raise FileRefusedError(said.FILE_NOT_TABLE, what="a document of another kind", formats=_KNOWN)
    if "META-INF/manifest.xml" in names and b"encryption-data" in _start(archive, "META-INF/manifest.xml"):
        raise FileRefusedError(said.FILE_LOCKED_BY_PASSWORD)
    return "ods"


def _kind_of_compound(data: bytes) -> str:
    """Return xls for a compound file that holds a workbook; its directory names what else it may be."""
    names = CompoundFile(data).names
    if "EncryptedPackage" in names:
        raise FileRefusedError(said.FILE_LOCKED_BY_PASSWORD)
    if "Workbook" in names or "Book" in names:
        return "xls"
    raise FileRefusedError(said.FILE_NOT_TABLE, what="a document of another kind", formats=_KNOWN)


def _start(archive: zipfile.ZipFile, name: str) -> bytes:
    """Return the first megabyte of a part, which has not been looked at yet and may be a bomb."""
    with archive.open(name) as part:
        return part.read(1 << 20)


def _refuse_markup(start: bytes) -> str:
    lowered = start.lower()
    if b"excel.sheet" in lowered or b"opendocument" in lowered:
        raise FileRefusedError(said.FILE_NOT_TABLE, what="a workbook saved as one XML page", formats=_KNOWN)
    if b"<html" in lowered or b"<table" in lowered or b"<!doctype html" in lowered or b"<body" in lowered:
        raise FileRefusedError(said.FILE_IS_WEB_PAGE, formats=_KNOWN)
    raise FileRefusedError(said.FILE_NOT_TABLE, what="an XML page", formats=_KNOWN)
