"""Open a file and hand on its cells: the one door through which every file enters, with the boundary around reading.

Whatever is wrong with a file is one coded problem. It is read once, never written to; what it points at stays unread.
"""

from __future__ import annotations

import difflib
import hashlib
import io
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from estimator.problems import files as said
from estimator.problems.code import WorkbookProblemsError
from estimator.read.cells import Book, SheetCells
from estimator.read.collection import collection_paused
from estimator.read.file_kind import FORMATS, kind_of_bytes, kind_of_name, rename
from estimator.read.preflight import LIMITS, FileRefusedError, Limits, hold_to_size, look_at_parts
from estimator.read.sheet_grid import CellBudget, SheetGrid
from estimator.read.text_table import decode_text, read_text_table
from estimator.read.xlsx import read_xlsx

__all__ = ["load_book"]


def load_book(path: Path, *, encoding: str | None = None, limits: Limits = LIMITS) -> Book:
    """Return the cells of a workbook or a csv file.

    Parameters
    ----------
    path : Path
        A file in one of the known formats; the content must be what the name says.
    encoding : str or None
        Encoding of a csv or tsv that is neither UTF-8 nor marked.
    limits : Limits
        What the file may hold.

    Returns
    -------
    Book
        Sheets in the file's order, hidden ones included.

    Raises
    ------
    WorkbookProblemsError
        With one problem when the file cannot be read, or must not be.

    Notes
    -----
    Stored values only: no formula is calculated, no macro run, no link followed. Source: definition.
    """
    try:
        with _boundary():
            return _load(path, encoding, limits)
    except FileRefusedError as refused:
        raise WorkbookProblemsError([refused.problem(path.name)]) from refused


@contextmanager
def _boundary() -> Iterator[None]:
    """Turn whatever a library raises on a bad file into one refusal; the collector rests meanwhile."""
    try:
        with collection_paused():
            yield
    except FileRefusedError:
        raise
    except (KeyboardInterrupt, SystemExit, GeneratorExit):
        raise
    except MemoryError as error:
        raise FileRefusedError(said.FILE_DAMAGED, reason="it needs more memory than there is") from error
    except BaseException as error:
        reason = f"what it holds contradicts itself ({type(error).__name__})"
        raise FileRefusedError(said.FILE_DAMAGED, reason=reason) from error


def _load(path: Path, encoding: str | None, limits: Limits) -> Book:
    data = _bytes_of(path, limits)
    kind = kind_of_bytes(data)
    named = kind_of_name(path)
    if kind != named and not {kind, named} <= {"xlsx", "xlsm"} and not {kind, named} <= {"text", "csv", "tsv"}:
        raise FileRefusedError(
            said.EXTENSION_DIFFERS, named=path.suffix or "nothing", content=FORMATS[kind], rename=rename(path, kind)
        )
    kind = named if kind == "text" else kind
    budget = CellBudget(limits)
    book = Book(path, hashlib.sha256(data).hexdigest(), kind, [])
    if kind in {"csv", "tsv"}:
        grid = SheetGrid(path.stem, budget)
        book.decimal = read_text_table(decode_text(data, encoding), grid, tabs=kind == "tsv")
        book.sheets = [grid.done({})]
    elif kind == "xls":
        from estimator.read.xls import read_xls

        book.sheets = read_xls(data, budget)
    else:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            look_at_parts(archive, limits)
            book.sheets = _sheets_of(archive, kind, budget)
            book.macros = any(name.endswith("vbaProject.bin") for name in archive.namelist())
    _hold_to_cells(book.sheets)
    return book


def _sheets_of(archive: zipfile.ZipFile, kind: str, budget: CellBudget) -> list[SheetCells]:
    if kind == "ods":
        from estimator.read.ods import read_ods

        return read_ods(archive, budget)
    if kind == "xlsb":
        from estimator.read.xlsb import read_xlsb

        return read_xlsb(archive, budget)
    return read_xlsx(archive, budget)


def _hold_to_cells(sheets: list[SheetCells]) -> None:
    if not any(sheet.rows for sheet in sheets):
        raise FileRefusedError(said.SHEETS_MISSING)


def _bytes_of(path: Path, limits: Limits) -> bytes:
    if path.name.startswith(("~$", ".~lock.")):
        workbook = path.name.removeprefix("~$").removeprefix(".~lock.").removesuffix("#")
        raise FileRefusedError(said.FILE_IS_LOCK, workbook=workbook)
    try:
        if path.is_dir():
            raise FileRefusedError(said.FILE_IS_FOLDER)
        hold_to_size(path.stat().st_size, limits)
        return path.read_bytes()
    except FileNotFoundError:
        raise FileRefusedError(said.FILE_MISSING, nearest=_nearest_file(path)) from None
    except OSError as error:
        raise FileRefusedError(said.FILE_UNREADABLE, reason=error.strerror or type(error).__name__) from error


def _nearest_file(path: Path) -> str:
    """Return words that name the file of the same folder whose name is nearest; empty when none is near."""
    try:
        names = [other.name for other in path.parent.iterdir() if not other.name.startswith((".", "~$"))]
    except OSError:
        return f": there is no folder {path.parent}"
    near = difflib.get_close_matches(path.name, names, 1, 0.6)
    return f"; the nearest there is {near[0]}" if near else ""
