"""The container of an .xls: streams by name, whole or refused, and no chain without an end."""

from __future__ import annotations

import struct
import subprocess

import openpyxl
import pytest
import xlrd.compdoc

from estimator.read.compound import CompoundFile
from estimator.read.preflight import FileRefusedError
from tests.raw_compound import compound_file

STREAMS = {"Workbook": bytes(range(256)) * 20, "Book": b"b" * 4096, "Notes": b"n" * 9000}


def test_streams_come_back_by_name():
    container = CompoundFile(compound_file(STREAMS))
    assert container.names == list(STREAMS)
    for name, content in STREAMS.items():
        assert container.stream(name)[: len(content)] == content
    with pytest.raises(KeyError):
        container.stream("Other")


@pytest.mark.recalculate
def test_a_second_library_finds_the_same_stream_in_a_real_file(tmp_path):
    # xlrd's own reader of the container, on a file that LibreOffice wrote; small enough to use the short sectors too.
    book = openpyxl.Workbook()
    book.active.append(["Mark", 1])
    book.save(tmp_path / "a.xlsx")
    command = ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/profile", "--convert-to", "xls"]
    subprocess.run([*command, "--outdir", tmp_path, tmp_path / "a.xlsx"], check=True, capture_output=True)
    data = (tmp_path / "a.xls").read_bytes()
    ours, theirs = CompoundFile(data), xlrd.compdoc.CompDoc(data)
    for name in ours.names:
        if not name.startswith("\x01"):
            memory, base, size = theirs.locate_named_stream(name)
            assert ours.stream(name) == bytes(memory[base : base + size])
    assert "Workbook" in ours.names


def broken(at: int, form: str, *values: int) -> bytes:
    data = bytearray(compound_file(STREAMS))
    struct.pack_into(form, data, at, *values)
    return bytes(data)


@pytest.mark.parametrize(
    ("data", "what"),
    {
        "short": (compound_file({})[:511], "open"),
        "sector size": (broken(30, "<H", 8), "open"),
        "small sector size": (broken(32, "<H", 9), "open"),
        "table outside the file": (broken(76, "<I", 5000), "open"),
        "endless list of tables": (broken(68, "<I", 1), "open"),
        "directory outside the file": (broken(48, "<I", 5000), "open"),
        "endless directory": (broken(512 + 4, "<I", 1), "open"),
        "endless stream": (broken(512 + 4 * 5, "<I", 3), "stream"),
        "stream cut short": (broken(512 + 4 * 5, "<I", 0xFFFFFFFE), "stream"),
        "stream outside the table": (broken(512 + 4 * 5, "<I", 500), "stream"),
        "short stream without its table": (broken(1024 + 128 + 120, "<I", 100), "stream"),
    }.values(),
)
def test_a_broken_container_is_refused(data, what):
    with pytest.raises(FileRefusedError):
        _open(data, what)


def _open(data: bytes, what: str) -> None:
    container = CompoundFile(data)
    if what == "stream":
        container.stream("Workbook")


def test_short_streams_are_read_from_the_small_sectors():
    # By hand: the root's stream holds the small sectors, their table is sector 10; "Workbook" lies in 1 and 0.
    data = bytearray(
        compound_file(
            {"Workbook": b"", "Table": struct.pack("<3I", 0xFFFFFFFE, 0, 0xFFFFFFFF), "Small": b"A" * 64 + b"B" * 64}
        )
    )
    root, book = 1024, 1024 + 128
    struct.pack_into("<I", data, 60, 10)
    struct.pack_into("<II", data, root + 116, 18, 192)
    struct.pack_into("<II", data, book + 116, 1, 100)
    assert CompoundFile(bytes(data)).stream("Workbook") == b"B" * 64 + b"A" * 36
