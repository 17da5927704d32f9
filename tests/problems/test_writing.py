"""The exact text of every problem of writing, each brought about by a real attempt to write.

The texts stand in ``writing.txt`` beside this file: read them aloud when one changes.
"""

from __future__ import annotations

import errno
import io
import os
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import BinaryIO

import pytest

from estimator.problems import Problem, ProblemCode, WorkbookProblemsError, all_codes, writing
from estimator.tasks_replace import may_replace_estimate
from estimator.write import save as save_module
from estimator.write.fill import FillColumn, Filling, fill_problems, filled_workbook
from estimator.write.quote.page import quote_page
from estimator.write.save import save
from estimator.write.target import check_lines, check_targets, make_folder
from tests.samples.estimates import heading_cell, typed_in, written
from tests.samples.jobs import estimated, plates
from tests.workbook.test_fill import rich_list

TEXTS = Path(__file__).with_name("writing.txt")


def answering(number: int) -> Callable[[BinaryIO], None]:
    """Write a little, then fail as a disk does."""

    def write(file: BinaryIO) -> None:
        file.write(b"some")
        raise OSError(number, os.strerror(number))

    return write


def signed_list() -> bytes:
    file = io.BytesIO(rich_list())
    with zipfile.ZipFile(file, "a") as parts:
        parts.writestr("_xmlsignatures/sig1.xml", b"<s/>")
    return file.getvalue()


def refused() -> Iterator[Callable[[], object]]:
    """Every attempt that is refused, from a folder with some files in it."""
    old = Path("old.xlsx")
    yield lambda: save(old, b"new")
    yield lambda: save(Path("LIST.xlsx"), b"new", inputs=[Path("list.xlsx")], force=True)
    yield lambda: check_targets([Path("one.pdf"), Path("one.pdf")])
    yield lambda: save(Path("none/quote.xlsx"), b"new")
    yield lambda: save(Path("folder"), b"new", force=True)
    yield lambda: save(Path("open.xlsx"), b"new", force=True)
    yield lambda: save(Path("q.xlsx"), answering(errno.EACCES))
    yield lambda: save(Path("marked.xlsx"), b"new", force=True)
    yield lambda: save(Path("q.xlsx"), answering(errno.EROFS))
    yield lambda: save(Path("q.xlsx"), answering(errno.ENOSPC))
    yield lambda: save(Path("a\0b.xlsx"), b"new")
    yield lambda: save(Path("q.xlsx"), answering(errno.EIO))
    yield lambda: filled_workbook(rich_list(), [Filling("Nowhere", (1,), (FillColumn("Price"),), {})], name="list.xlsx")
    yield lambda: quote_page(estimated(plates(1)))
    yield lambda: check_lines(Path("q.xlsx"), 1_048_001)
    yield lambda: make_folder(old)
    priced = written(estimated(plates(1)), Path("list_estimate.xlsx"))
    typed_in(priced, priced, {heading_cell(priced, "My minutes", 0): 50})
    yield lambda: may_replace_estimate(priced, Path(estimated(plates(1)).cuts.file))


def problems(monkeypatch: pytest.MonkeyPatch) -> list[Problem]:
    found = []
    for attempt in refused():
        with pytest.raises(WorkbookProblemsError) as caught:
            attempt()
        found += caught.value.problems
    with monkeypatch.context() as patch:
        forced = os.fsync
        calls = iter([lambda number: forced(number), _fails])
        patch.setattr(save_module.os, "fsync", lambda number: next(calls)(number))
        found += save(Path("confirmed.xlsx"), b"new")
    found += fill_problems("list.ods", b"", force=False)
    return found + fill_problems("signed.xlsx", signed_list(), force=False)


def _fails(_: int) -> None:
    raise OSError(errno.EIO, os.strerror(errno.EIO))


def test_each_problem_of_writing_says_exactly_this(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("old.xlsx", "list.xlsx", "open.xlsx", "marked.xlsx", "~$open.xlsx"):
        Path(name).write_bytes(b"old")
    Path("folder").mkdir()
    Path("marked.xlsx").chmod(0o444)
    found = sorted(problems(monkeypatch), key=lambda p: p.code[1:])
    said = "\n\n".join(p.text().replace(str(tmp_path), "FOLDER") for p in found) + "\n"
    assert said == TEXTS.read_text("utf-8")
    stated = {code.code for code in vars(writing).values() if isinstance(code, ProblemCode)}
    assert {p.code for p in found} == stated
    assert stated <= set(all_codes())
    assert Path("old.xlsx").read_bytes() == b"old"
