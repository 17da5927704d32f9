"""The package of an output workbook: each part is compressed while it is written, with no temporary file between.

XlsxWriter writes every part whole and packs them at the end, so that a long sheet is held or stored twice.
"""

from __future__ import annotations

import io
import zipfile
from typing import IO, BinaryIO

from estimator.write.styles import NamedStylesPackager

__all__ = ["StreamedPackager"]

_LEVEL = 2
"""Of zlib: a third of the time of the usual 6 and files a fifth larger; packing would take half of a long estimate."""
_LETTERS_AT_ONCE = 1 << 16


class _Part(io.StringIO):
    """A part that is being written; XlsxWriter writes only into files it opened itself and into ``StringIO``."""

    def __init__(self, entry: IO[bytes]) -> None:
        super().__init__()
        self._entry = entry

    def write(self, text: str, /) -> int:
        """Take a piece of the part's markup."""
        if len(text) < _LETTERS_AT_ONCE:
            super().write(text)
        if self.tell() + len(text) >= _LETTERS_AT_ONCE:
            self._pass_on()
        if len(text) >= _LETTERS_AT_ONCE:
            self._entry.write(text.encode())
        return len(text)

    def finish(self) -> None:
        """End the part."""
        self._pass_on()
        self._entry.close()

    def _pass_on(self) -> None:
        self._entry.write(self.getvalue().encode())
        self.seek(0)
        self.truncate()


class StreamedPackager(NamedStylesPackager):
    """XlsxWriter's packager, writing into the package itself; every part bears the same date."""

    def __init__(self, file: BinaryIO) -> None:
        super().__init__()
        self._file = file
        self._part: _Part | None = None

    def _create_package(self) -> list[tuple[object, str, bool]]:
        """Write the whole package; nothing is left for XlsxWriter to pack."""
        with zipfile.ZipFile(self._file, "w", zipfile.ZIP_DEFLATED, compresslevel=_LEVEL) as self._package:
            try:
                super()._create_package()
            finally:  # an interrupted run leaves no part open, which the package could not be closed with
                self._finish_part()
        if self.filenames:
            raise NotImplementedError("pictures are not packed")
        return []

    def _filename(self, xml_filename: str) -> _Part:
        """Begin a part, which ends the one before."""
        self._finish_part()
        self._part = _Part(self._package.open(xml_filename, "w"))
        return self._part

    def _finish_part(self) -> None:
        if self._part is not None:
            self._part.finish()
