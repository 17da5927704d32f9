"""An .xlsx or .xlsm workbook: parts, sheets, shared texts and styles. Macros, links and queries are never followed."""

from __future__ import annotations

import posixpath
import zipfile

from estimator.problems import files as said
from estimator.read.cells import SheetCells
from estimator.read.number_formats import BUILT_IN_FORMATS, GENERAL, is_date_format
from estimator.read.preflight import FileRefusedError
from estimator.read.sheet_grid import CellBudget, SheetGrid
from estimator.read.xlsx_cell import BookFacts, text_of
from estimator.read.xlsx_sheet import read_sheet_xml
from estimator.read.xml_parts import Element, GrowingPart, attribute, children, local_name, parse_part

__all__ = ["book_part_of", "part_links", "read_xlsx", "target_of"]

_STATES = {"": "visible", "visible": "visible", "hidden": "hidden", "veryHidden": "very hidden"}


def read_xlsx(archive: zipfile.ZipFile, budget: CellBudget) -> list[SheetCells]:
    """Return the sheets of a workbook, in the order of its tabs.

    Parameters
    ----------
    archive : zipfile.ZipFile
        The open file, already looked at.
    budget : CellBudget
        Counts cells against the limit.

    Returns
    -------
    list of SheetCells
        Worksheets; chart sheets and macro sheets have no cells and are left out.

    Raises
    ------
    FileRefusedError
        When a part is missing or contradicts another.

    Notes
    -----
    Names of elements are compared without namespace, so that strict files read like transitional ones.
    Source: ECMA-376 part 1, 18.2 (workbook), part 2, 9.3 (relationships).
    """
    book_part = book_part_of(archive)
    book = parse_part(archive, book_part)
    links = part_links(archive, book_part)
    formats = _formats(archive, links)
    facts = BookFacts(
        _strings(archive, links),
        frozenset(style for style, number_format in formats.items() if is_date_format(number_format)),
        any(attribute(p, "date1904") in {"1", "true"} for p in children(book, "workbookPr")),
    )
    shown = {style: number_format for style, number_format in formats.items() if number_format != GENERAL}
    sheets = []
    for sheet in children(book, "sheets", "sheet"):
        kind, target = links.get(attribute(sheet, "id"), ("", ""))
        if kind == "worksheet":
            grid = SheetGrid(attribute(sheet, "name"), budget, _STATES.get(attribute(sheet, "state"), "hidden"))
            grid = read_sheet_xml(archive, target, grid, facts)
            grid.filtered = grid.filtered or _table_filtered(archive, target)
            sheets.append(grid.done(shown))
    return sheets


def book_part_of(archive: zipfile.ZipFile) -> str:
    """Return the name of the workbook's main part."""
    part = target_of(part_links(archive, ""), "officeDocument")
    if not part:
        raise FileRefusedError(said.FILE_DAMAGED, reason="it does not say where its workbook is")
    return part


def part_links(archive: zipfile.ZipFile, part: str) -> dict[str, tuple[str, str]]:
    """Return the parts that one part names, by their id: kind and part name. What lies outside the file is left out."""
    folder, name = posixpath.split(part)
    rels = posixpath.join(folder, "_rels", f"{name}.rels")
    if rels not in archive.namelist():
        return {}
    found = {}
    for link in children(parse_part(archive, rels), "Relationship"):
        if attribute(link, "TargetMode") != "External":
            target = posixpath.normpath(posixpath.join("/", folder, attribute(link, "Target"))).lstrip("/")
            found[attribute(link, "Id")] = attribute(link, "Type").rpartition("/")[2], target
    return found


def target_of(links: dict[str, tuple[str, str]], kind: str) -> str:
    """Return the first part of a kind among a part's links; empty when there is none."""
    return next((target for found, target in links.values() if found == kind), "")


def _strings(archive: zipfile.ZipFile, links: dict[str, tuple[str, str]]) -> list[str]:
    part = target_of(links, "sharedStrings")
    return [text_of(item) for item in GrowingPart(archive, part) if local_name(item.tag) == "si"] if part else []


def _formats(archive: zipfile.ZipFile, links: dict[str, tuple[str, str]]) -> dict[str, str]:
    """Return the number format of each style, by its number as text."""
    part = target_of(links, "styles")
    if not part:
        return {}
    root = parse_part(archive, part)
    codes = {str(number): code for number, code in BUILT_IN_FORMATS.items()}
    codes.update((attribute(f, "numFmtId"), attribute(f, "formatCode")) for f in children(root, "numFmts", "numFmt"))
    styles: list[Element] = children(root, "cellXfs", "xf")
    return {str(number): codes.get(attribute(xf, "numFmtId"), GENERAL) for number, xf in enumerate(styles)}


def _table_filtered(archive: zipfile.ZipFile, sheet_part: str) -> bool:
    """Return whether a table on the sheet has a filter set."""
    tables = [target for kind, target in part_links(archive, sheet_part).values() if kind == "table"]
    return any(children(parse_part(archive, table), "autoFilter", "filterColumn") for table in tables)
