"""The look at a file before any reader opens it: every limit holds, and nothing below it is refused."""

from __future__ import annotations

import struct
import zipfile
from pathlib import Path

import pytest

from estimator.problems import files as said
from estimator.read.preflight import (
    FileRefusedError,
    Limits,
    hold_to_cell_budget,
    hold_to_far_cell,
    hold_to_merge,
    hold_to_size,
    look_at_parts,
)
from tests.raw_xlsx import write_parts

SMALL = Limits(
    file_bytes=100, parts=3, expanded_bytes=5_000, ratio=10, ratio_from_bytes=1_000, columns=8, row_gap=10, cells=50,
    merged_cells=6,
)  # fmt: skip


def look(path: Path, limits: Limits = SMALL) -> None:
    with zipfile.ZipFile(path) as archive:
        look_at_parts(archive, limits)


def refused(path: Path, limits: Limits = SMALL) -> FileRefusedError:
    with pytest.raises(FileRefusedError) as caught:
        look(path, limits)
    return caught.value


@pytest.mark.parametrize(("size", "code"), [(0, said.FILE_EMPTY), (101, said.FILE_TOO_LARGE)])
def test_an_empty_and_a_large_file_are_refused(size, code):
    with pytest.raises(FileRefusedError) as caught:
        hold_to_size(size, SMALL)
    assert caught.value.code is code


@pytest.mark.parametrize("size", [1, 100])
def test_sizes_up_to_the_limit_pass(size):
    assert hold_to_size(size, SMALL) is None


def test_a_plain_archive_passes(tmp_path):
    parts = {"a.xml": "<a>" + "x" * 500 + "</a>", "b.bin": b"\0" * 900, "c.rels": "<!-- <!DOCTYPE a> --><a/>"}
    assert look(write_parts(tmp_path / "a.zip", parts)) is None


def test_more_parts_than_the_limit_are_refused(tmp_path):
    path = write_parts(tmp_path / "a.zip", {f"{n}": "x" for n in range(4)})
    assert refused(path).code is said.PARTS_TOO_MANY


def test_a_declared_expansion_beyond_the_limit_is_refused_unopened(tmp_path):
    path = write_parts(tmp_path / "a.zip", {"a": b"ab" * 1500, "b": b"cd" * 1001}, compressed=False)
    assert refused(path).problem("a.zip").fact == "the file expands to more than the limit of 5,000 bytes"


def test_an_expansion_to_just_the_limit_passes(tmp_path):
    path = write_parts(tmp_path / "a.zip", {"a": b"ab" * 1500, "b": b"cd" * 1000}, compressed=False)
    assert look(path) is None


def test_an_expansion_that_the_archive_lies_about_is_counted(tmp_path):
    # Both parts declare one byte; together they come to 6,000. A reader that believes the size would stop early.
    path = write_parts(tmp_path / "a.zip", {"a": bytes(range(256)) * 12, "b": bytes(range(256)) * 12}, compressed=False)
    with zipfile.ZipFile(path) as archive:
        for part in archive.infolist():
            declared, part.file_size = part.file_size, 1
            assert declared == 3072
        for part in archive.infolist():
            part.compress_size = 3072
        with pytest.raises(FileRefusedError) as caught:
            _look_with_true_sizes(archive)
    assert caught.value.problem("a.zip").fact == "the file expands to more than the limit of 5,000 bytes"


def _look_with_true_sizes(archive: zipfile.ZipFile) -> None:
    """Look, while the stream gives what is really there, as a decompressor that ignores the declared size does."""
    opened = archive.open

    def open_whole(part: zipfile.ZipInfo):
        stream = opened(part)
        stream._left = part.compress_size
        stream._expected_crc = None
        return stream

    archive.open = open_whole
    look_at_parts(archive, SMALL)


def test_a_part_that_packs_too_well_is_refused_from_the_stated_size_on(tmp_path):
    path = write_parts(tmp_path / "a.zip", {"a.xml": b" " * 1_001})
    error = refused(path)
    assert error.code is said.PART_EXPANDS
    assert error.problem("a.zip").fact == "part 'a.xml' expands to more than the limit of 10 times its packed size"
    assert look(write_parts(tmp_path / "b.zip", {"a.bin": b" " * 1_000})) is None


def test_a_locked_part_is_a_password(tmp_path):
    path = write_parts(tmp_path / "a.zip", {"a": "x"})
    data = bytearray(path.read_bytes())
    directory = data.index(b"PK\x01\x02")
    struct.pack_into("<H", data, directory + 8, 1)
    path.write_bytes(data)
    assert refused(path).code is said.FILE_LOCKED_BY_PASSWORD


def test_a_wrong_checksum_is_damage(tmp_path):
    path = write_parts(tmp_path / "a.zip", {"a.xml": "<a>12.5</a>"}, compressed=False)
    path.write_bytes(path.read_bytes().replace(b"12.5", b"72.5", 1))
    error = refused(path)
    assert error.code is said.PART_DAMAGED
    assert error.fields == {"part": "a.xml", "reason": "its checksum is wrong"}


def test_a_broken_stream_is_damage(tmp_path):
    path = write_parts(tmp_path / "a.zip", {"a.bin": bytes(range(256)) * 3})
    data = bytearray(path.read_bytes())
    data[40:60] = b"\xff" * 20
    path.write_bytes(data)
    assert refused(path).fields["reason"] == "it cannot be unpacked"


def test_an_unknown_packing_is_damage(tmp_path):
    path = write_parts(tmp_path / "a.zip", {"a": "x"})
    data = bytearray(path.read_bytes())
    struct.pack_into("<H", data, 8, 99)
    struct.pack_into("<H", data, data.index(b"PK\x01\x02") + 10, 99)
    path.write_bytes(data)
    assert refused(path).fields["reason"] == "it is packed in a way that is not known"


LAUGHS = '<!DOCTYPE a [<!ENTITY b "ha"><!ENTITY c "&b;&b;">]><a>&c;</a>'
OUTSIDE = '<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/hostname">]><a>&b;</a>'


@pytest.mark.parametrize("text", [LAUGHS, OUTSIDE, '<?xml version="1.0"?><!-- x -->\n<!DOCTYPE a><a/>'])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "utf-8-sig"])
@pytest.mark.parametrize("name", ["a.xml", "_rels/.RELS", "b.vml"])
def test_a_document_type_is_refused_in_any_encoding(tmp_path, text, encoding, name):
    assert refused(write_parts(tmp_path / "a.zip", {name: text.encode(encoding)})).code is said.DOCTYPE_FOUND


def test_a_document_type_behind_a_long_comment_is_found(tmp_path):
    text = f"<!--{'x' * 300_000}--><!DOCTYPE a><a/>"
    limits = Limits()
    assert refused(write_parts(tmp_path / "a.zip", {"a.xml": text}), limits).code is said.DOCTYPE_FOUND


def test_what_is_not_xml_is_left_to_its_reader(tmp_path):
    parts = {"a.xml": b"\xff\xfenot xml", "b.xml": b"<a/>" + b" " * 10, "c.txt": LAUGHS}
    assert look(write_parts(tmp_path / "a.zip", parts)) is None


@pytest.mark.parametrize(("row", "column", "last_row"), [(0, 7, -1), (10, 0, -1), (21, 7, 10), (500, 3, 499)])
def test_cells_within_the_limits_are_not_far(row, column, last_row):
    assert hold_to_far_cell("A", row, column, last_row, SMALL) is None


@pytest.mark.parametrize(
    ("row", "column", "last_row", "cell"), [(0, 8, -1, "I1"), (11, 0, -1, "A12"), (22, 2, 10, "C23")]
)
def test_a_far_cell_is_refused_with_its_address(row, column, last_row, cell):
    with pytest.raises(FileRefusedError) as caught:
        hold_to_far_cell("A", row, column, last_row, SMALL)
    problem = caught.value.problem("list.xlsx")
    assert (problem.code, problem.place.sheet, problem.place.cell) == ("E016", "A", cell)
    assert problem.needs == "values within 8 columns, without a gap of more than 10 rows"


def test_the_cell_budget_holds():
    assert hold_to_cell_budget(50, SMALL) is None
    with pytest.raises(FileRefusedError) as caught:
        hold_to_cell_budget(51, SMALL)
    assert caught.value.problem("a").fact == "the sheets span more than 50 cells"


def test_a_merged_range_up_to_the_limit_passes_and_a_larger_one_is_named():
    assert hold_to_merge("A", (0, 0, 1, 2), SMALL) is None
    with pytest.raises(FileRefusedError) as caught:
        hold_to_merge("A", (2, 1, 3, 4), SMALL)
    problem = caught.value.problem("a.xlsx")
    assert (problem.code, problem.place.cell) == ("E017", "B3")
    assert problem.fact == "8 cells are merged into one, more than the limit of 6"
