"""XML parts of a workbook archive: whole when small, element by element when large, names without their namespace.

Every part has been through the pre-flight look, which refuses document types, so that no entity can be declared here.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from xml.etree import ElementTree

from estimator.problems import files as said
from estimator.read.preflight import FileRefusedError

__all__ = ["Element", "GrowingPart", "attribute", "children", "damaged", "local_name", "open_part", "parse_part"]

Element = ElementTree.Element
_CHUNK = 1 << 17
_MOST_PENDING = 16 << 20
"""Bytes of one element that is not whole yet; more would be a trap, not a row."""


def local_name(tag: str) -> str:
    """Return an element's or attribute's name without its namespace: transitional and strict files then read alike."""
    return tag.rpartition("}")[2]


def attribute(element: Element, name: str, default: str = "") -> str:
    """Return an attribute by its local name, whatever its namespace."""
    plain = element.get(name)
    if plain is not None:
        return plain
    return next((value for key, value in element.items() if local_name(key) == name), default)


def children(element: Element, *names: str) -> list[Element]:
    """Return the descendants reached by a path of local names: ``children(root, "sheets", "sheet")``."""
    found = [element]
    for name in names:
        found = [child for parent in found for child in parent if local_name(child.tag) == name]
    return found


def parse_part(archive: zipfile.ZipFile, name: str) -> Element:
    """Return the root of a part; a part that is missing or not XML is a problem."""
    try:
        return ElementTree.fromstring(archive.read(name))
    except KeyError:
        raise FileRefusedError(said.FILE_DAMAGED, reason=f"part '{name}' is missing") from None
    except ElementTree.ParseError as error:
        raise damaged(name, error) from error


def open_part(archive: zipfile.ZipFile, name: str) -> Iterator[bytes]:
    """Yield a part's bytes piece by piece."""
    try:
        stream = archive.open(name)
    except KeyError:
        raise FileRefusedError(said.FILE_DAMAGED, reason=f"part '{name}' is missing") from None
    with stream:
        while chunk := stream.read(_CHUNK):
            yield chunk


class GrowingPart:
    """A large part, read child by child of one of its elements, keeping no more than a piece of it in memory.

    The tree grows in C, without a call for each element; children are taken off it as they are complete.

    Parameters
    ----------
    archive : zipfile.ZipFile
        The open file.
    name : str
        The part.
    path : str
        Local names from below the root to the element whose children are wanted; none for the root itself.
    """

    def __init__(self, archive: zipfile.ZipFile, name: str, *path: str) -> None:
        self._archive, self._name, self._path = archive, name, path
        self._builder = ElementTree.TreeBuilder()
        self._top = self._builder.start("top", {})

    @property
    def root(self) -> Element:
        """The root; once all children have been taken, what stands around them."""
        return self._top[0]

    def __iter__(self) -> Iterator[Element]:
        """Yield each child once, whole, in the part's order."""
        parser = ElementTree.XMLParser(target=self._builder)
        pending = 0
        try:
            for chunk in open_part(self._archive, self._name):
                parser.feed(chunk)
                whole = self._take_whole(keep=1)
                yield from whole
                pending = 0 if whole else pending + len(chunk)
                if pending > _MOST_PENDING:
                    raise FileRefusedError(
                        said.PART_EXPANDS,
                        what=f"one row or text in part '{self._name}'",
                        limit=f"{_MOST_PENDING:,} bytes",
                        needs=f"rows and texts of at most {_MOST_PENDING:,} bytes",
                    )
            parser.close()
        except ElementTree.ParseError as error:
            raise damaged(self._name, error) from error
        yield from self._take_whole(keep=0)

    def _holder(self) -> Element | None:
        """Return the element whose children are wanted, as far as it has come."""
        holder: Element | None = self._top[0] if len(self._top) else None
        for name in self._path:
            holder = next((c for c in holder if local_name(c.tag) == name), None) if holder is not None else None
        return holder

    def _take_whole(self, keep: int) -> list[Element]:
        """Return the children so far, except the last ``keep``, which may still grow."""
        holder = self._holder()
        if holder is None:
            return []
        whole = holder[: len(holder) - keep] if len(holder) > keep else []
        del holder[: len(whole)]
        return whole


def damaged(name: str, error: ElementTree.ParseError) -> FileRefusedError:
    """Return the problem of a part that does not parse."""
    line = error.position[0]
    return FileRefusedError(said.PART_DAMAGED, part=name, reason=f"its XML is wrong or breaks off at line {line}")
