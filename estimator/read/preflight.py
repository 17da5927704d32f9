"""A look at a file before any reader opens it: size, parts, expansion, checksums, document types; what is far or huge.

The limits stand in one place. Nothing is extracted to disk, and nothing outside the file is ever followed.
"""

from __future__ import annotations

import zipfile
import zlib
from dataclasses import dataclass
from xml.parsers import expat

from estimator.problems import files as said
from estimator.problems.code import Place, Problem, ProblemCode
from estimator.read.cells import column_letters

__all__ = [
    "LIMITS",
    "FileRefusedError",
    "Limits",
    "hold_to_cell_budget",
    "hold_to_far_cell",
    "hold_to_merge",
    "hold_to_size",
    "look_at_parts",
]

_CHUNK = 1 << 18


@dataclass(frozen=True, slots=True)
class Limits:
    """What a file may hold at most. A full sheet of 1,048,576 rows by 10 columns stays inside."""

    file_bytes: int = 128 << 20
    parts: int = 5_000
    expanded_bytes: int = 1 << 30
    ratio: int = 300
    """Expanded to packed bytes of one part; held from ``ratio_from_bytes`` on, since small parts pack well."""
    ratio_from_bytes: int = 4 << 20
    rows: int = 1_048_576
    """Rows of a text file: those of the largest sheet that spreadsheet programs know."""
    columns: int = 1_024
    """A value to the right of this many columns is far."""
    row_gap: int = 20_000
    """A value below this many blank rows is far."""
    cells: int = 24_000_000
    """Cells of the whole file, blank ones inside a row included."""
    merged_cells: int = 100_000
    """Cells of one merged range."""


LIMITS = Limits()


class FileRefusedError(Exception):
    """Raised inside the reading of a file; the boundary around reading turns it into one problem."""

    def __init__(
        self,
        code: ProblemCode,
        *,
        found: object = "",
        sheet: str = "",
        row: int = 0,
        column: str = "",
        **fields: object,
    ) -> None:
        self.code, self.found, self.fields = code, found, fields
        self.sheet, self.row, self.column = sheet, row, column
        super().__init__(code.code)

    def problem(self, file: str) -> Problem:
        """Return the problem at its place in a file."""
        return self.code.at(Place(file, self.sheet, self.row, self.column), found=self.found, **self.fields)


def hold_to_size(size: int, limits: Limits = LIMITS) -> None:
    """Refuse an empty file and one that is too large; both are known without opening it."""
    if size == 0:
        raise FileRefusedError(said.FILE_EMPTY)
    if size > limits.file_bytes:
        raise FileRefusedError(said.FILE_TOO_LARGE, size=f"{size:,}", limit=f"{limits.file_bytes:,}")


def look_at_parts(archive: zipfile.ZipFile, limits: Limits = LIMITS) -> None:
    """Unpack every part once, counting, and refuse what is damaged, expands too far or declares a document type.

    Parameters
    ----------
    archive : zipfile.ZipFile
        The open file.
    limits : Limits
        What it may hold.

    Raises
    ------
    FileRefusedError
        At the first part that is refused.

    Notes
    -----
    The sizes that the archive declares are checked first, and the bytes that really come out are counted as well, since
    a declared size can lie. The checksum of each part is checked by unpacking it to its end. Source: definition.
    """
    parts = archive.infolist()
    if len(parts) > limits.parts:
        raise FileRefusedError(said.PARTS_TOO_MANY, count=len(parts), limit=limits.parts)
    if sum(part.file_size for part in parts) > limits.expanded_bytes:
        raise _expands("the file", limits)
    left = limits.expanded_bytes
    for part in parts:
        if part.flag_bits & 1:
            raise FileRefusedError(said.FILE_LOCKED_BY_PASSWORD)
        left -= _unpack(archive, part, left, limits)


def hold_to_far_cell(sheet: str, row: int, column: int, last_row: int, limits: Limits = LIMITS) -> None:
    """Refuse a value far right of, or far below, the rest.

    Parameters
    ----------
    sheet : str
        Sheet name, for the problem.
    row, column : int
        Place of the value, counted from 0.
    last_row : int
        Row of the value before it, counted from 0; -1 when it is the first.
    limits : Limits
        What a sheet may hold.

    Raises
    ------
    FileRefusedError
        At the cell.

    Notes
    -----
    Cells that are formatted but blank do not count, however far. Source: definition.
    """
    if column < limits.columns and row - last_row <= limits.row_gap + 1:
        return
    raise FileRefusedError(
        said.CELL_FAR,
        sheet=sheet,
        row=row + 1,
        column=column_letters(column),
        columns=f"{limits.columns:,}",
        gap=f"{limits.row_gap:,}",
    )


def hold_to_cell_budget(cells: int, limits: Limits = LIMITS) -> None:
    """Refuse a file whose sheets span more cells than one file may."""
    if cells > limits.cells:
        raise FileRefusedError(said.CELLS_TOO_MANY, limit=f"{limits.cells:,}")


def hold_to_merge(sheet: str, merged: tuple[int, int, int, int], limits: Limits = LIMITS) -> None:
    """Refuse a merged range (first row, first column, last row, last column) of more cells than the limit."""
    first_row, first_column, last_row, last_column = merged
    cells = (last_row - first_row + 1) * (last_column - first_column + 1)
    if cells > limits.merged_cells:
        raise FileRefusedError(
            said.MERGE_HUGE,
            sheet=sheet,
            row=first_row + 1,
            column=column_letters(first_column),
            cells=f"{cells:,}",
            limit=f"{limits.merged_cells:,}",
        )


def _unpack(archive: zipfile.ZipFile, part: zipfile.ZipInfo, left: int, limits: Limits) -> int:
    """Return how many bytes a part expands to, having seen each of them."""
    most = max(limits.ratio_from_bytes, part.compress_size * limits.ratio)
    prolog = _Prolog(part.filename)
    size = 0
    try:
        with archive.open(part) as stream:
            while chunk := stream.read(_CHUNK):
                size += len(chunk)
                if size > left:
                    raise _expands("the file", limits)
                if size > most:
                    raise _expands(f"part '{part.filename}'", limits, f"{limits.ratio} times its packed size")
                prolog.feed(chunk)
        prolog.feed(b"", last=True)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, OSError, ValueError) as error:
        raise FileRefusedError(said.PART_DAMAGED, part=part.filename, reason=_reason(error)) from error
    return size


def _expands(what: str, limits: Limits, limit: str = "") -> FileRefusedError:
    limit = limit or f"{limits.expanded_bytes:,} bytes"
    return FileRefusedError(said.PART_EXPANDS, what=what, limit=limit, needs=f"at most {limit}")


def _reason(error: Exception) -> str:
    """Return in plain words why a part cannot be unpacked."""
    if isinstance(error, NotImplementedError):
        return "it is packed in a way that is not known"
    return "its checksum is wrong" if "Bad CRC" in str(error) else "it cannot be unpacked"


class _Prolog:
    """Parses an XML part up to its first element, which is where a document type would stand, in any encoding."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.parser = expat.ParserCreate()
        self.parser.StartDoctypeDeclHandler = self._refuse
        self.parser.StartElementHandler = self._stop
        self.done = not name.lower().endswith((".xml", ".rels", ".vml"))

    def _refuse(self, *_: object) -> None:
        raise FileRefusedError(said.DOCTYPE_FOUND, part=self.name)

    def _stop(self, *_: object) -> None:
        self.done = True
        self.parser.StartElementHandler = None

    def feed(self, chunk: bytes, *, last: bool = False) -> None:
        """Take the next bytes; what is not XML at all is left to the reader of that part.

        Newer parsers put a long unfinished token off until more comes, or until they are told that this was the last.
        """
        if self.done:
            return
        try:
            self.parser.Parse(chunk, last)
        except expat.ExpatError:
            self.done = True
