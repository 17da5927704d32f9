"""Recalculate a workbook in another spreadsheet program and hand back every cell's value.

LibreOffice keeps the values that a file stores unless its profile tells it to calculate on loading, so each
conversion runs with a profile of its own that says so (Calc, Formula, Load: OOXMLRecalcMode 0, always).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import openpyxl
import pytest

__all__ = ["Values", "recalculated", "recalculated_all", "resaved", "resaved_all", "stored", "with_cells"]

Values = dict[tuple[str, str], Any]
"""Value by sheet and cell address; error values are texts such as #REF!."""

_PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema"
 xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse">
<value>0</value></prop></item>
</oor:items>
"""


def recalculated(book: Path) -> Values:
    """Return every value of a workbook after another program has worked all formulas out anew."""
    return recalculated_all([book])[0]


def recalculated_all(books: Sequence[Path]) -> list[Values]:
    """Return the values of several workbooks, in their order; one start of the program serves them all."""
    with tempfile.TemporaryDirectory() as folder:
        return [stored(saved) for saved in _by_another_program(books, Path(folder))]


def resaved(book: Path, copy: Path) -> Path:
    """Write a copy of a workbook as another program saves it, all formulas worked out anew."""
    with tempfile.TemporaryDirectory() as folder:
        shutil.copyfile(_by_another_program([book], Path(folder))[0], copy)
    return copy


def resaved_all(books: Sequence[Path], folder: Path) -> list[Path]:
    """Write workbooks into a new folder as another program saves them; return them in their order."""
    folder.mkdir()
    return _by_another_program(books, folder)


def _by_another_program(books: Sequence[Path], folder: Path) -> list[Path]:
    """Return the files that the program saves into a folder."""
    program = shutil.which("soffice")
    if program is None:
        if os.environ.get("CI") == "true":
            pytest.fail("LibreOffice Calc is required where CI=true")
        pytest.skip("LibreOffice Calc is not installed, so no second program can recalculate")
    settings = folder / "profile" / "user" / "registrymodifications.xcu"
    settings.parent.mkdir(parents=True)
    settings.write_text(_PROFILE, encoding="utf-8")
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    copies = [shutil.copy(book, folder / f"{number}.xlsx") for number, book in enumerate(books)]
    out = folder / "out"
    command = [program, profile, "--headless", "--convert-to", "xlsx", "--outdir", str(out), *map(str, copies)]
    subprocess.run(command, check=True, capture_output=True, timeout=180 + 20 * len(books))
    return [out / f"{number}.xlsx" for number in range(len(books))]


def stored(book: Path) -> Values:
    """Return every value that a workbook stores, without calculating."""
    sheets = openpyxl.load_workbook(book, data_only=True).worksheets
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in sheets
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None
    }


def with_cells(book: Path, copy: Path, changes: Mapping[tuple[str, str], object]) -> Path:
    """Write a copy of a workbook with typed cells changed, as a person would; stored values of formulas are lost."""
    changed = openpyxl.load_workbook(book)
    for (sheet, cell), value in changes.items():
        changed[sheet][cell].value = value
    changed.save(copy)
    return copy
