"""Is a workbook of ours as it was written? Then it holds nothing but what a new run writes again."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable
from pathlib import Path

from estimator.write.book import DOCUMENT_DATE

__all__ = ["REPLACED", "left_alone", "saved_since"]

REPLACED = "; the one before was replaced"
"""What is said of such a file."""
_MODIFIED = re.compile(rb"<dcterms:modified[^>]*>([^<]*)<")
_PROPERTIES = "docProps/core.xml"


def left_alone(paths: Iterable[Path]) -> list[Path]:
    """Return those that are there, are workbooks of ours, and were not saved by another program since."""
    return [path for path in paths if path.is_file() and not saved_since(path)]


def saved_since(path: Path) -> bool:
    """Say whether a workbook was saved by another program since it was written, or is none of ours.

    Parameters
    ----------
    path : Path
        A file that is there.

    Returns
    -------
    bool

    Notes
    -----
    Our workbooks all bear one date of change; a program in which one is typed puts its own when it saves (ISO/IEC
    29500-2, core properties, ``modified``).
    """
    try:
        with zipfile.ZipFile(io.BytesIO(path.read_bytes())) as parts:
            found = _MODIFIED.search(parts.read(_PROPERTIES))
    except (OSError, KeyError, ValueError, RuntimeError, zipfile.BadZipFile):
        return True
    return found is None or found.group(1).decode("ascii", "replace") != f"{DOCUMENT_DATE.isoformat()}Z"
