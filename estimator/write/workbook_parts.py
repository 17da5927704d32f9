"""The parts of a workbook file that is somebody else's: where a sheet stands, and the file with some parts changed."""

from __future__ import annotations

import io
import posixpath
import re
import zipfile

from defusedxml.ElementTree import fromstring

__all__ = ["counts_from_1904", "part_of", "repacked"]


def part_of(whole: zipfile.ZipFile, sheet: str) -> str | None:
    """Return the part that holds a sheet, by its name; None when there is none."""
    workbook = _target(whole, "_rels/.rels", "", "Type", "/officeDocument")
    if workbook is None:
        return None
    for element in fromstring(whole.read(workbook)).iter():
        if element.tag.rpartition("}")[2] == "sheet" and element.get("name") == sheet:
            wanted = next((v for k, v in element.attrib.items() if k.endswith("}id")), "")
            folder, file = posixpath.split(workbook)
            links = posixpath.join(folder, "_rels", f"{file}.rels")
            return _target(whole, links, folder, "Id", wanted)
    return None


def repacked(whole: zipfile.ZipFile, changed: dict[str, bytes]) -> bytes:
    """Return the package with some parts changed; order, dates and compression of the parts stay."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as copy:
        for part in whole.infolist():
            content = changed.get(part.filename)
            copy.writestr(part, whole.read(part) if content is None else content, compress_type=part.compress_type)
    return out.getvalue()


def counts_from_1904(whole: zipfile.ZipFile) -> bool:
    """Say whether the workbook's dates are counted from 1904, as some old programs do."""
    workbook = _target(whole, "_rels/.rels", "", "Type", "/officeDocument") or ""
    return bool(re.search(rb'\bdate1904="(?:1|true)"', whole.read(workbook)))


def _target(whole: zipfile.ZipFile, links: str, folder: str, attribute: str, ending: str) -> str | None:
    """Return the part that a link points to: the first whose attribute is or, from a slash on, ends so."""
    for link in fromstring(whole.read(links)):
        value: str = link.get(attribute, "")
        if value == ending or (ending.startswith("/") and value.endswith(ending)):
            target: str = link.get("Target", "")
            return target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
    return None
