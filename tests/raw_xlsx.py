"""Workbooks written part by part, for tests that need what no library would write."""

from __future__ import annotations

import zipfile
from pathlib import Path

__all__ = ["CONTENT_TYPES", "NS", "PACKAGE", "RELS", "STRICT_NS", "STYLES", "sheet_xml", "write_parts", "write_xlsx"]

NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STRICT_NS = "http://purl.oclc.org/ooxml/spreadsheetml/main"
RELS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_MAIN = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"
CONTENT_TYPES = f'<Types xmlns="{PACKAGE}/content-types"><Default Extension="xml" ContentType="{_MAIN}"/></Types>'
STYLES = (
    f'<styleSheet xmlns="{NS}"><numFmts><numFmt numFmtId="164" formatCode="d/mm"/></numFmts>'
    '<cellXfs><xf numFmtId="0"/><xf numFmtId="164"/><xf numFmtId="13"/></cellXfs></styleSheet>'
)


def sheet_xml(rows: str, *, before: str = "", after: str = "", root: str = f'worksheet xmlns="{NS}"') -> str:
    """Return a sheet part around rows."""
    end = root.split()[0]
    return f"<{root}>{before}<sheetData>{rows}</sheetData>{after}</{end}>"


def write_parts(path: Path, parts: dict[str, str | bytes], *, compressed: bool = True) -> Path:
    """Write an archive of parts."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED if compressed else zipfile.ZIP_STORED) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return path


def write_xlsx(path: Path, *sheets: str | bytes, strings: str | bytes = "", **replaced: str | bytes) -> Path:
    """Write a workbook of raw sheet parts; keywords replace other parts (``workbook``, ``styles``, ``types``)."""
    numbers = range(1, len(sheets) + 1)
    names = "".join(f'<sheet name="S{n}" sheetId="{n}" r:id="r{n}"/>' for n in numbers)
    links = "".join(
        f'<Relationship Id="r{n}" Type="{RELS}/worksheet" Target="worksheets/sheet{n}.xml"/>' for n in numbers
    )
    links += f'<Relationship Id="st" Type="{RELS}/styles" Target="styles.xml"/>'
    if strings:
        links += f'<Relationship Id="ss" Type="{RELS}/sharedStrings" Target="/xl/sharedStrings.xml"/>'
    book = f'<Relationship Id="b" Type="{RELS}/officeDocument" Target="xl/workbook.xml"/>'
    parts: dict[str, str | bytes] = {
        "[Content_Types].xml": replaced.get("types", CONTENT_TYPES),
        "_rels/.rels": replaced.get("rels", f'<Relationships xmlns="{PACKAGE}/relationships">{book}</Relationships>'),
        "xl/workbook.xml": replaced.get(
            "workbook", f'<workbook xmlns="{NS}" xmlns:r="{RELS}"><sheets>{names}</sheets></workbook>'
        ),
        "xl/_rels/workbook.xml.rels": replaced.get(
            "links", f'<Relationships xmlns="{PACKAGE}/relationships">{links}</Relationships>'
        ),
        "xl/styles.xml": replaced.get("styles", STYLES),
    }
    if strings:
        parts["xl/sharedStrings.xml"] = strings
    parts.update({f"xl/worksheets/sheet{n}.xml": sheet for n, sheet in zip(numbers, sheets, strict=True)})
    return write_parts(path, parts)


def _link(number: str, kind: str, target: str) -> str:
    return f'<Relationship Id="{number}" Type="{RELS}/{kind}" Target="{target}"/>'
