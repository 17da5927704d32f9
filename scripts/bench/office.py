"""The spreadsheet that a user would have instead: LibreOffice opens it, works every formula out anew and saves it."""

from __future__ import annotations

import re
import shutil
import subprocess
import zipfile
from pathlib import Path

from scripts.bench.measure import Run, measure, python

__all__ = ["columns_of_lines", "recalculated", "small_spreadsheet"]

_ALWAYS_RECALCULATE = (
    '<?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry">'
    '<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse">'
    "<value>0</value></prop></item></oor:items>"
)
_SMALL = """
import xlsxwriter
book = xlsxwriter.Workbook({out!r}, {{'constant_memory': True}})
sheet = book.add_worksheet('Lines')
rates = book.add_worksheet('Rates')
for row in range(12):
    rates.write_number(row, 0, 1.0 + row / 7)
columns = 'DEFGHIJKLMNOPQR'
for row in range({lines}):
    for column, value in enumerate((3.0, 12.0, 860.0)):
        sheet.write_number(row, column, value + row % 7)
    for place, column in enumerate(columns):
        before = 'C' if place == 0 else columns[place - 1]
        sheet.write_formula(row, 3 + place, f'=ROUND({{before}}{{row + 1}}*Rates!$A${{place % 12 + 1}}/60+$A{{row + 1}},4)')
book.close()
"""


def recalculated(book: Path, environment: dict[str, str], runs: int) -> Run | None:
    """Return LibreOffice opening, recalculating and saving a workbook, start-up included; None without LibreOffice."""
    office = shutil.which("soffice")
    if office is None:
        return None
    profile = book.parent / "profile"
    (profile / "user").mkdir(parents=True, exist_ok=True)
    (profile / "user" / "registrymodifications.xcu").write_text(_ALWAYS_RECALCULATE, encoding="utf-8")
    command = [office, f"-env:UserInstallation={profile.as_uri()}", "--headless", "--convert-to", "xlsx"]
    return measure([*command, "--outdir", str(book.parent / "saved"), str(book)], environment, runs=runs)


def small_spreadsheet(folder: Path, lines: int) -> Path:
    """Write a plain workbook of three readings and fifteen short formulas a line, for a hard comparison."""
    out = folder / "small.xlsx"
    subprocess.run(python(_SMALL.format(lines=lines, out=str(out))), check=True)
    return out


def columns_of_lines(book: Path, lines: int) -> tuple[int, int]:
    """Return how many columns the sheets of lines of an estimate have, and how many of them hold formulas."""
    cells = formulas = 0
    with zipfile.ZipFile(book) as parts:
        for name in parts.namelist():
            if name.startswith("xl/worksheets/sheet") and parts.getinfo(name).file_size > 200 * lines:
                row = re.search(r'<row r="100".*?</row>', parts.read(name).decode(), re.DOTALL)
                if row is not None:
                    cells, formulas = cells + row[0].count("<c "), formulas + row[0].count("<f>")
    return cells, formulas
