"""The container of an .xls: a small file system of sectors in one file, whose chains may be broken, crossed or endless.

Each chain is followed no further than the file is long, which the libraries at hand do not see to.
"""

from __future__ import annotations

import struct

from estimator.problems import files as said
from estimator.read.preflight import FileRefusedError

__all__ = ["SIGNATURE", "CompoundFile"]

SIGNATURE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_LAST_SECTOR = 0xFFFFFFFA
"""Numbers from here on are marks, not sectors."""
_ENTRY_BYTES = 128
_STREAM, _ROOT = 2, 5


class CompoundFile:
    """The streams of a compound file, by name.

    Parameters
    ----------
    data : bytes
        The whole file.

    Raises
    ------
    FileRefusedError
        When a chain of sectors leaves the file or never ends.

    Notes
    -----
    Source: [MS-CFB] 2.2 (header), 2.3 (sector chains), 2.6 (directory).
    """

    def __init__(self, data: bytes) -> None:
        if len(data) < 512:
            raise _broken()
        shift, mini_shift = struct.unpack_from("<HH", data, 30)
        if shift not in {9, 12} or mini_shift != 6:
            raise _broken()
        self._data, self._sector_bytes = data, 1 << shift
        directory, self._small_below, mini_start = struct.unpack_from("<I4xII", data, 48)
        self._table = self._sector_table()
        self._entries = self._read_entries(directory)
        root = next((e for e in self._entries if e[1] == _ROOT), None)
        self._mini_table = _numbers(self._chain(mini_start))
        self._mini_stream = self._chain(root[2])[: root[3]] if root else b""

    @property
    def names(self) -> list[str]:
        """Names of the streams."""
        return [name for name, kind, _, _ in self._entries if kind == _STREAM]

    def stream(self, name: str) -> bytes:
        """Return the bytes of a stream; KeyError when there is none of that name."""
        for found, kind, start, size in self._entries:
            if found == name and kind == _STREAM:
                whole = self._mini_chain(start) if size < self._small_below else self._chain(start)
                if len(whole) < size:
                    raise _broken()
                return whole[:size]
        raise KeyError(name)

    def _sector(self, number: int) -> bytes:
        start = (number + 1) * self._sector_bytes
        if start >= len(self._data):
            raise _broken()
        return self._data[start : start + self._sector_bytes].ljust(self._sector_bytes, b"\0")

    def _sector_table(self) -> tuple[int, ...]:
        """Return the table that holds each sector's successor, from the sectors that hold the table."""
        (next_list,) = struct.unpack_from("<I", self._data, 68)
        holders = list(struct.unpack_from("<109I", self._data, 76))
        seen: set[int] = set()
        while next_list < _LAST_SECTOR:
            if next_list in seen:
                raise _broken()
            seen.add(next_list)
            *more, next_list = _numbers(self._sector(next_list))
            holders += more
        return _numbers(b"".join(self._sector(number) for number in holders if number < _LAST_SECTOR))

    def _chain(self, number: int) -> bytes:
        """Return the bytes of a chain of sectors."""
        parts: list[bytes] = []
        seen: set[int] = set()
        while number < _LAST_SECTOR:
            if number in seen or number >= len(self._table):
                raise _broken()
            seen.add(number)
            parts.append(self._sector(number))
            number = self._table[number]
        return b"".join(parts)

    def _mini_chain(self, number: int) -> bytes:
        """Return the bytes of a chain of the small sectors that short streams use."""
        parts: list[bytes] = []
        seen: set[int] = set()
        while number < _LAST_SECTOR:
            if number in seen or number >= len(self._mini_table):
                raise _broken()
            seen.add(number)
            parts.append(self._mini_stream[number * 64 : number * 64 + 64])
            number = self._mini_table[number]
        return b"".join(parts)

    def _read_entries(self, start: int) -> list[tuple[str, int, int, int]]:
        """Return name, kind, first sector and size of each entry of the directory."""
        directory = self._chain(start)
        entries = []
        for at in range(0, len(directory) - _ENTRY_BYTES + 1, _ENTRY_BYTES):
            length, kind = struct.unpack_from("<HB", directory, at + 64)
            first, size = struct.unpack_from("<II", directory, at + 116)
            name = directory[at : at + max(0, min(length, 64) - 2)].decode("utf-16-le", "replace")
            entries.append((name, kind, first, size))
        return entries


def _numbers(data: bytes) -> tuple[int, ...]:
    return struct.unpack(f"<{len(data) // 4}I", data[: len(data) // 4 * 4])


def _broken() -> FileRefusedError:
    return FileRefusedError(said.FILE_DAMAGED, reason="it is not a whole .xls workbook")
