"""The form of a corpus case, and how it becomes a loaded book or a workbook file."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import xlsxwriter

from estimator.check.cut_list import CutList
from estimator.read.cells import Book, SheetCells
from estimator.words import Shape

Rows = list[list[Any]]


@dataclass(frozen=True)
class Case:
    """One invented list, with the rows it must read to and the codes of what must be said."""

    name: str
    rows: Rows
    expect: list[tuple[Any, ...]]
    """Row, mark, quantity, thickness_mm, size_a_mm, size_b_mm, cut_length_mm, shape; None for blank."""
    codes: str = ""
    """Codes of all problems, sorted, each as often as it is said."""
    counts: str = ""
    """Kinds of rows, as ``title 2, heading 1, priced 3``; checked when given."""
    title: dict[str, str] = field(default_factory=dict)
    sheet_name: str = "Parts"
    others: dict[str, Rows] = field(default_factory=dict)
    """Further sheets, after the first."""
    before: dict[str, Rows] = field(default_factory=dict)
    """Sheets before it."""
    formats: dict[tuple[int, int], str] = field(default_factory=dict)
    merged: list[tuple[int, int, int, int]] = field(default_factory=list)
    sheet: str | None = None
    columns: str | None = None
    unit: str | None = "mm"
    in_file: bool = True
    """Whether the list can be written to a workbook file as it is."""
    grades: list[str] | None = None


def book_of(case: Case) -> Book:
    """Return the case as a loader would hand it on."""
    sheets = [_sheet(name, rows) for name, rows in case.before.items()]
    sheets.append(_sheet(case.sheet_name, case.rows, formats=case.formats, merged=case.merged))
    sheets += [_sheet(name, rows) for name, rows in case.others.items()]
    return Book(Path("list.xlsx"), "0" * 64, "xlsx", sheets)


def _sheet(name: str, rows: Rows, **more: Any) -> SheetCells:
    held = [[float(v) if isinstance(v, int) and not isinstance(v, bool) else v for v in row] for row in rows]
    return SheetCells(name, held, number_formats=more.get("formats", {}), merged=more.get("merged", []))


def write_case(case: Case, path: Path) -> None:
    """Write the case as a workbook file."""
    with xlsxwriter.Workbook(path, {"strings_to_formulas": False, "strings_to_urls": False}) as workbook:
        for name, rows in case.before.items():
            _write(workbook, name, rows, {}, [])
        _write(workbook, case.sheet_name, case.rows, case.formats, case.merged)
        for name, rows in case.others.items():
            _write(workbook, name, rows, {}, [])


def _write(
    workbook: Any, name: str, rows: Rows, formats: dict[tuple[int, int], str], merged: list[tuple[int, int, int, int]]
) -> None:
    sheet = workbook.add_worksheet(name)
    for area in merged:
        sheet.merge_range(*area, "")
    hour = workbook.add_format({"num_format": "hh:mm:ss"})
    day = workbook.add_format({"num_format": "yyyy-mm-dd"})
    for r, row in enumerate(rows):
        for c, value in enumerate(row):
            form = workbook.add_format({"num_format": formats[r, c]}) if (r, c) in formats else None
            if isinstance(value, dt.time):
                sheet.write_datetime(r, c, value, form or hour)
            elif isinstance(value, dt.date | dt.datetime):
                sheet.write_datetime(r, c, value, form or day)
            elif isinstance(value, str):
                sheet.write_string(r, c, value, form)
            elif value is not None:
                sheet.write_number(r, c, value, form)


def rows_read(cuts: CutList) -> list[tuple[Any, ...]]:
    """Return what was read in the form of ``Case.expect``."""

    def number(value: float) -> float | None:
        return None if np.isnan(value) else round(float(value), 4)

    return [
        (
            int(cuts.row[n]),
            cuts.mark[n],
            number(cuts.quantity[n]),
            number(cuts.thickness_mm[n]),
            number(cuts.size_a_mm[n]),
            number(cuts.size_b_mm[n]),
            number(cuts.cut_length_mm[n]),
            Shape(cuts.shape[n]).word if cuts.shape[n] >= 0 else None,
        )
        for n in range(len(cuts))
    ]
