"""A mutated workbook gives the original reading or one coded problem: never other data, a traceback or a wait.

Memory is what the peak of the test process grows by while one file is read, as the system counts it, set back each.
The formats with checksums (.xlsx, .xlsb, .ods) must never give other data. An .xls or a .csv has no checksum, so that a
changed digit is another digit for every reader; there only the coded problem, the time and the memory are held.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import random
import struct
import subprocess
import sys
import time
import zipfile
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import openpyxl
import pytest
import xlsxwriter

from estimator.problems import WorkbookProblemsError, all_codes
from estimator.read.cells import Book
from estimator.read.compound import CompoundFile
from estimator.read.load import load_book
from estimator.read.preflight import Limits
from tests.raw_xlsb import cell, row, wide, write_xlsb
from tests.raw_xlsx import write_parts

LIMITS = Limits(file_bytes=1 << 20, expanded_bytes=16 << 20, cells=200_000)
CODES = set(all_codes())
OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
Maker = Callable[[Path], Path]


def rich_xlsx(folder: Path) -> Path:
    """A workbook of the usual things: texts, formulas, dates, errors, a filtered table, merged and hidden cells."""
    path = folder / "list.xlsx"
    with xlsxwriter.Workbook(path) as book:
        day, share = book.add_format({"num_format": "d-mmm"}), book.add_format({"num_format": "0 %"})
        sheet = book.add_worksheet("Parts")
        sheet.merge_range("A1:D1", "Job 12 <rush> & more")
        rows = [[f"P{n}", n, n * 1.5, f"note {n % 3}"] for n in range(1, 25)]
        columns = [{"header": name} for name in ("Mark", "Qty", "Thickness", "Note")]
        sheet.add_table(2, 0, 26, 3, {"data": rows, "columns": columns})
        sheet.set_row(5, options={"hidden": True})
        sheet.set_column(6, 7, options={"hidden": True})
        sheet.write_datetime(0, 5, dt.datetime(2026, 3, 4), day)
        sheet.write_number(1, 5, 0.12, share)
        sheet.write_formula(1, 6, "=1/0", None, "#DIV/0!")
        book.add_worksheet("Other").write_formula(0, 0, "=Parts!B4", None, 1)
    return path


def plain_xlsx(folder: Path) -> Path:
    """A workbook as another library writes it."""
    path = folder / "list.xlsx"
    book = openpyxl.Workbook()
    for number in range(12):
        book.active.append([f"P{number}", number, number / 3, True, "=A1"])
    book.save(path)
    return path


def stored_xlsx(folder: Path) -> Path:
    """The same, its parts not compressed, so that a changed byte is a changed letter."""
    path = rich_xlsx(folder)
    with zipfile.ZipFile(path) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    return write_parts(path, parts, compressed=False)


def small_xlsb(folder: Path) -> Path:
    cells = b"".join(
        row(n) + cell(7, 0, struct.pack("<I", n % 2)) + cell(5, 1, struct.pack("<d", n / 3)) + cell(6, 2, wide(f"n{n}"))
        for n in range(12)
    )
    return write_xlsb(folder / "list.xlsb", cells, strings=("Mark", "Qty"))


def small_ods(folder: Path) -> Path:
    names = " ".join(f'xmlns:{n}="urn:oasis:names:tc:opendocument:xmlns:{n}:1.0"' for n in ("office", "table", "text"))
    rows = "".join(
        f'<table:table-row><table:table-cell office:value-type="float" office:value="{n / 3}"/>'
        f'<table:table-cell office:value-type="string"><text:p>P{n}</text:p></table:table-cell></table:table-row>'
        for n in range(12)
    )
    content = (
        f"<office:document-content {names}><office:body><office:spreadsheet>"
        f'<table:table table:name="Parts">{rows}</table:table>'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    return write_parts(folder / "list.ods", {"mimetype": kind, "content.xml": content})


def small_csv(folder: Path) -> Path:
    path = folder / "list.csv"
    path.write_text("Mark;Thickness;Qty\n" + "".join(f'P{n};"{n},5";{n}\n' for n in range(20)), encoding="utf-8")
    return path


PARTS = [(rich_xlsx, (".xml", ".rels")), (small_xlsb, (".bin",)), (small_ods, (".xml",))]
WITH_CHECKSUMS = [rich_xlsx, plain_xlsx, stored_xlsx, small_xlsb, small_ods]


def mutated(data: bytes, chance: random.Random) -> bytes:
    """Return data with one to four small wounds: a bit, a byte, a stretch lost, doubled or zeroed, an end cut off."""
    wounded = bytearray(data)
    for _ in range(chance.choice((1, 1, 1, 2, 4))):
        at = chance.randrange(len(wounded))
        long = chance.choice((1, 2, 8, 64))
        match chance.randrange(7):
            case 0 | 1:
                wounded[at] ^= 1 << chance.randrange(8)
            case 2:
                wounded[at] = chance.randrange(256)
            case 3:
                del wounded[at : at + long]
            case 4:
                wounded[at:at] = wounded[at : at + long]
            case 5:
                wounded[at : at + long] = bytes(len(wounded[at : at + long]))
            case _:
                wounded = wounded[: max(1, at)] if chance.random() < 0.3 else wounded
        wounded = wounded or bytearray(b"\0")
    return bytes(wounded)


def reading(book: Book) -> list[object]:
    """Return what a book says, apart from its name and fingerprint."""
    return [
        (s.name, s.state, repr(s.rows), dict(s.number_formats), dict(s.formulas), s.merged, s.hidden_rows,
         s.hidden_columns, s.filtered)
        for s in book.sheets
    ]  # fmt: skip


@dataclass
class Worst:
    """The slowest and the largest reading of this run."""

    seconds: float = 0.0
    added_mb: float = 0.0


WORST = Worst()


def set_peak_back() -> None:
    """Begin to measure the peak memory anew, where the system can (Linux: proc(5), clear_refs)."""
    with contextlib.suppress(OSError):
        Path("/proc/self/clear_refs").write_text("5")


def peak_mb() -> float:
    """Return the peak memory of this process since it was set back [MB]."""
    status = Path("/proc/self/status")
    if status.exists():
        return int(status.read_text().split("VmHWM:")[1].split()[0]) * 1024 / 1e6
    resource = pytest.importorskip("resource")
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * (1 if sys.platform == "darwin" else 1024) / 1e6


def read_or_refuse(path: Path) -> list[object] | None:
    """Return a file's reading, or None when it is refused with one stated problem, within 5 s and 500 MB either way."""
    set_peak_back()
    begin, begin_mb, codes = time.monotonic(), peak_mb(), []
    try:
        read = reading(load_book(path, limits=LIMITS))
    except WorkbookProblemsError as error:
        read, codes = None, [problem.code for problem in error.problems]
    assert read is not None or (len(codes) == 1 and codes[0] in CODES)
    seconds, added = time.monotonic() - begin, peak_mb() - begin_mb
    WORST.seconds, WORST.added_mb = max(WORST.seconds, seconds), max(WORST.added_mb, added)
    assert seconds < 5
    assert added < 400  # the program itself takes under 100
    return read


def wound_and_read(make: Maker, folder: Path, *, seed: int, times: int, checked: bool) -> Counter[bool]:
    """Wound a file many times, read each, and count how many were read (True) and refused (False)."""
    path = make(folder)
    data, original = path.read_bytes(), reading(load_book(path, limits=LIMITS))
    chance, counts = random.Random(seed), Counter[bool]()
    for _ in range(times):
        path.write_bytes(mutated(data, chance))
        read = read_or_refuse(path)
        counts[read is not None] += 1
        if checked and read is not None:
            assert read == original
    return counts


def wound_parts(path: Path, ending: tuple[str, ...], *, seed: int, times: int) -> Counter[bool]:
    """Wound single parts and pack them with right checksums, as a hostile sender would; count as above."""
    with zipfile.ZipFile(path) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    names = [name for name in parts if name.endswith(ending) and "docProps" not in name]
    chance, counts = random.Random(seed), Counter[bool]()
    for _ in range(times):
        name = chance.choice(names)
        hostile = write_parts(path.with_stem("hostile"), parts | {name: mutated(parts[name], chance)})
        counts[read_or_refuse(hostile) is not None] += 1
    return counts


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("make", WITH_CHECKSUMS)
def test_a_wounded_workbook_gives_the_original_reading_or_a_problem(tmp_path, make, seed):
    counts = wound_and_read(make, tmp_path, seed=seed, times=130, checked=True)
    assert counts[False] > 50, "the wounds must be real"


@pytest.mark.parametrize("seed", range(4))
def test_a_wounded_csv_is_read_or_refused(tmp_path, seed):
    assert wound_and_read(small_csv, tmp_path, seed=seed, times=100, checked=False).total() == 100


@pytest.mark.long
@pytest.mark.parametrize("seed", range(100, 120))
@pytest.mark.parametrize("make", WITH_CHECKSUMS)
def test_many_more_wounded_workbooks_give_the_original_reading_or_a_problem(tmp_path, make, seed):
    counts = wound_and_read(make, tmp_path, seed=seed, times=1500, checked=True)
    assert counts[False] > 500
    assert counts[True] > 0


@pytest.mark.parametrize(
    ("make", "ending"), [(rich_xlsx, (".xml", ".rels")), (small_xlsb, (".bin",)), (small_ods, (".xml",))]
)
def test_wounded_parts_with_right_checksums_are_read_or_refused(tmp_path, make, ending):
    counts = wound_parts(make(tmp_path), ending, seed=7, times=400)
    assert counts[True] > 20
    assert counts[False] > 50


@pytest.mark.recalculate
@pytest.mark.parametrize("bare", [False, True])
def test_a_wounded_xls_is_read_or_refused(tmp_path, bare):
    """The whole file, and its records without their container, so that the wounds meet the records themselves."""
    command = ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/profile", "--convert-to", "xls"]
    subprocess.run([*command, "--outdir", tmp_path, plain_xlsx(tmp_path)], check=True, capture_output=True)
    path = tmp_path / "list.xls"
    if bare:
        path.write_bytes(CompoundFile(path.read_bytes()).stream("Workbook"))
    counts = wound_and_read(lambda _: path, tmp_path, seed=5, times=300, checked=False)
    assert counts[True] > 20


def test_the_peak_of_one_reading_is_seen():
    """The measure itself: 60 MB that are gone again count for the file that needed them and not for the next."""
    set_peak_back()
    before = peak_mb()
    block = bytearray(60_000_000)
    block[::4096] = b"x" * len(block[::4096])
    del block
    assert peak_mb() > before + 50
    if Path("/proc/self/clear_refs").exists():
        set_peak_back()
        assert peak_mb() < before + 50


@pytest.mark.parametrize("ending", ["xlsx", "xls", "xlsb", "ods", "csv"])
@pytest.mark.parametrize("start", [b"", b"PK\x03\x04", OLE, b"\x09\x08\x10\x00", b"<html>"])
def test_noise_is_refused(tmp_path, ending, start):
    chance = random.Random(9)
    path = tmp_path / f"noise.{ending}"
    for _ in range(10):
        path.write_bytes(start + chance.randbytes(chance.randrange(1, 4000)))
        assert read_or_refuse(path) is None
