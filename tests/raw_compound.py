"""A small writer of compound files, the container of an .xls, for tests of what may stand in one."""

from __future__ import annotations

import struct

__all__ = ["compound_file"]

_END, _FREE, _TABLE = 0xFFFFFFFE, 0xFFFFFFFF, 0xFFFFFFFD


def compound_file(streams: dict[str, bytes]) -> bytes:
    """Return a file of these streams, each padded to the 4096 bytes from which a stream has sectors of its own."""
    table = [_TABLE, _END]
    entries, body = [_entry("Root Entry", 5, _END, 0)], b""
    for name, content in streams.items():
        padded = content.ljust(4096, b"\0")
        padded += b"\0" * (-len(padded) % 512)
        first, count = len(table), len(padded) // 512
        table += [*range(first + 1, first + count), _END]
        entries.append(_entry(name, 2, first, len(padded)))
        body += padded
    assert len(table) <= 128
    assert len(entries) <= 4
    sectors = struct.pack("<128I", *table, *[_FREE] * (128 - len(table)))
    header = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 16 + struct.pack("<HHHHH6x", 0x3E, 3, 0xFFFE, 9, 6)
    header += struct.pack("<IIIIIIIIII", 0, 1, 1, 0, 4096, _END, 0, _END, 0, 0)[:-4]
    header += struct.pack("<109I", 0, *[_FREE] * 108)
    return header + sectors + b"".join(entries).ljust(512, b"\0") + body


def _entry(name: str, kind: int, first: int, size: int) -> bytes:
    wide = name.encode("utf-16-le")
    links = struct.pack("<III", _FREE, _FREE, _FREE)
    start = wide.ljust(64, b"\0") + struct.pack("<HBB", len(wide) + 2, kind, 1) + links
    return start.ljust(116, b"\0") + struct.pack("<III", first, size, 0)
