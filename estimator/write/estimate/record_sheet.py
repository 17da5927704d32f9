"""The last sheet of an estimate: the job itself as packed data, so that the workbook can be priced again on its own."""

from __future__ import annotations

import base64
import binascii
import hashlib
import json
import zlib

from estimator.pricing.job import Estimate
from estimator.pricing.job_record import JobRecord, job_record, record_data, record_from_data
from estimator.problems import Place, WorkbookProblemsError
from estimator.problems import quotes as say
from estimator.read.cells import Book, CellValue
from estimator.write.book import OutputBook
from estimator.write.estimate.as_written import Shape, packed_shape, shape_of, unpacked_shape
from estimator.write.estimate.look_of_numbers import SHEETS
from estimator.write.plain_text import whole_characters
from estimator.write.styles import Look

__all__ = ["read_job_record", "read_shape", "write_record"]

_TITLE = "What this estimate was priced from. kerfledger reads it back; change nothing here."
_CHUNK = 30_000
"""Characters of a cell; a cell holds 32,767."""
_FIRST_ROW = 2
_MOST_BYTES = 200_000_000


def write_record(book: OutputBook, estimate: Estimate) -> None:
    """Write the job's record on a sheet of its own, out of sight.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    estimate : Estimate
        The priced job.
    """
    data = json.dumps(record_data(job_record(estimate)), separators=(",", ":"), allow_nan=False, ensure_ascii=False)
    text = whole_characters(data)
    packed = base64.b64encode(zlib.compress(text.encode(), 3)).decode("ascii")
    filled = packed_shape(shape_of(book))
    sheet = book.sheet(SHEETS.record)
    sheet.set_column(0, 0, 80.0)
    sheet.text(0, 0, _TITLE, Look.LABEL)
    sheet.text(1, 0, hashlib.sha256(packed.encode()).hexdigest(), Look.GUIDE)
    for row, start in enumerate(range(0, len(packed), _CHUNK), _FIRST_ROW):
        sheet.text(row, 0, packed[start : start + _CHUNK], Look.GUIDE)
    for row, start in enumerate(range(0, len(filled), _CHUNK), _FIRST_ROW):
        sheet.text(row, 1, filled[start : start + _CHUNK], Look.GUIDE)
    sheet.set_up_page(last_row=1, last_column=0)
    sheet.hide()


def read_job_record(book: Book) -> JobRecord:
    """Return the job that an estimate was priced from.

    Parameters
    ----------
    book : Book
        The estimate, loaded.

    Returns
    -------
    JobRecord

    Raises
    ------
    WorkbookProblemsError
        When the workbook is no estimate of ours, or its record was changed.
    """
    sheet = next((sheet for sheet in book.sheets if sheet.name == SHEETS.record), None)
    if sheet is None:
        found = ", ".join(sheet.name for sheet in book.sheets[:8])
        raise WorkbookProblemsError([say.NOT_AN_ESTIMATE.at(Place(book.path.name), found=found)])
    cells = [sheet.value(row, 0) for row in range(1, len(sheet.rows))]
    try:
        return record_from_data(_unpacked(cells))
    except (ValueError, KeyError, TypeError, zlib.error, binascii.Error) as error:
        place = Place(book.path.name, SHEETS.record)
        raise WorkbookProblemsError([say.RECORD_CHANGED.at(place, reason=str(error)[:200])]) from error


def read_shape(book: Book) -> Shape | None:
    """Return which cells an estimate was written with; None when it does not say, as that of an older engine."""
    sheet = next((sheet for sheet in book.sheets if sheet.name == SHEETS.record), None)
    cells = [] if sheet is None else [sheet.value(row, 1) for row in range(_FIRST_ROW, len(sheet.rows))]
    return unpacked_shape("".join(str(cell or "").strip() for cell in cells))


def _unpacked(cells: list[CellValue]) -> dict[str, object]:
    """Return the data of a record, which must be whole to the last character."""
    seal, *parts = (str(cell or "").strip() for cell in cells)
    packed = "".join(parts)
    if hashlib.sha256(packed.encode()).hexdigest() != seal:
        raise ValueError("its seal does not fit")
    unpack = zlib.decompressobj()
    text = unpack.decompress(base64.b64decode(packed, validate=True), _MOST_BYTES)
    if unpack.unconsumed_tail:
        raise ValueError("it is larger than any record")
    data = json.loads(text)
    if not isinstance(data, dict):
        raise TypeError("it is no record")
    return data
