"""Recalculate a workbook in another spreadsheet program and hand back every cell's value.

LibreOffice keeps the values that a file stores unless its profile tells it to calculate on loading, so each
conversion runs with a profile of its own that says so (Calc, Formula, Load: OOXMLRecalcMode 0, always).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import Any

import openpyxl
import pytest

__all__ = ["Values", "recalculated", "stored", "with_cell"]

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
    program = shutil.which("soffice")
    if program is None:
        if os.environ.get("CI") == "true":
            pytest.fail("LibreOffice Calc is required where CI=true")
        pytest.skip("LibreOffice Calc is not installed, so no second program can recalculate")
    with tempfile.TemporaryDirectory() as folder:
        settings = Path(folder) / "profile" / "user" / "registrymodifications.xcu"
        settings.parent.mkdir(parents=True)
        settings.write_text(_PROFILE, encoding="utf-8")
        profile = f"-env:UserInstallation={(Path(folder) / 'profile').as_uri()}"
        out = Path(folder) / "out"
        command = [program, profile, "--headless", "--convert-to", "xlsx", "--outdir", str(out), str(book)]
        subprocess.run(command, check=True, capture_output=True, timeout=180)
        return stored(out / book.name)


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


def with_cell(book: Path, copy: Path, sheet: str, cell: str, value: object) -> Path:
    """Write a copy of a workbook with one typed cell changed, as a person would; stored values of formulas are lost."""
    changed = openpyxl.load_workbook(book)
    changed[sheet][cell].value = value
    changed.save(copy)
    return copy
