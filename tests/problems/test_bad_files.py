"""Each class of broken or hostile file is one problem, with exactly the text that stands in ``bad_files.txt``.

The texts stand there as the terminal prints them: read them aloud when one changes.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from estimator.problems import Problem, WorkbookProblemsError, all_codes
from estimator.read.load import load_book
from estimator.read.preflight import Limits
from tests.problems.bad_files import BAD_FILES, ENCODINGS

TEXTS = Path(__file__).with_name("bad_files.txt")


def expected() -> dict[str, str]:
    """Return the text of each class."""
    parts = re.split(r"^== (.+) ==\n", TEXTS.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]
    return {name: text.strip() for name, text in zip(parts[::2], parts[1::2], strict=True)}


def problem_of(name: str, folder: Path) -> Problem:
    with pytest.raises(WorkbookProblemsError) as caught:
        load_book(BAD_FILES[name](folder), encoding=ENCODINGS.get(name))
    (problem,) = caught.value.problems
    return problem


@pytest.mark.parametrize("name", BAD_FILES)
def test_a_bad_file_is_one_problem_with_this_text(tmp_path, name):
    assert problem_of(name, tmp_path).text() == expected()[name]


def test_every_stated_text_is_tried_and_every_class_has_one():
    assert list(expected()) == list(BAD_FILES)


def test_the_bad_file_itself_is_left_as_it_was(tmp_path):
    path = BAD_FILES["wrong checksum"](tmp_path)
    before = (path.read_bytes(), path.stat().st_mtime_ns)
    with pytest.raises(WorkbookProblemsError):
        load_book(path)
    assert (path.read_bytes(), path.stat().st_mtime_ns) == before
    assert list(tmp_path.iterdir()) == [path]


def test_a_file_that_may_not_be_read_is_a_problem(tmp_path, monkeypatch):
    path = tmp_path / "list.csv"
    path.write_text("Mark\n")
    monkeypatch.setattr(Path, "read_bytes", _not_permitted)
    with pytest.raises(WorkbookProblemsError) as caught:
        load_book(path)
    assert caught.value.problems[0].fact == "the file cannot be read: Permission denied"


def _not_permitted(path: Path) -> bytes:
    raise PermissionError(13, "Permission denied")


def test_every_code_of_an_unreadable_file_has_a_bad_file(tmp_path):
    seen = set()
    for number, name in enumerate(BAD_FILES):
        folder = tmp_path / str(number)
        folder.mkdir()
        seen.add(problem_of(name, folder).code)
    stated = {code for code in all_codes() if code.startswith("E0")}
    # These need a limit lowered or a permission taken: the tests of the limits and the one above show them.
    assert stated - seen == {"E003", "E012", "E013", "E018", "E025"}


def test_a_text_file_longer_than_a_sheet_is_said_as_that(tmp_path):
    path = tmp_path / "list.csv"
    path.write_text("Mark,Qty\n" + "P1,4\n" * 5)
    assert len(load_book(path, limits=Limits(rows=6)).sheets[0].rows) == 6
    with pytest.raises(WorkbookProblemsError) as caught:
        load_book(path, limits=Limits(rows=5))
    (problem,) = caught.value.problems
    assert (problem.code, problem.fact) == ("E025", "the file has 6 rows, more than the 5 that a sheet can have")


def test_memory_that_runs_out_and_a_librarys_own_stop_are_problems_too(tmp_path, monkeypatch):
    class PanicError(BaseException):
        """A library's exception that is no Exception."""

    path = tmp_path / "list.csv"
    path.write_text("Mark\n")
    for raised, fact in (
        (MemoryError(), "the file is damaged: it needs more memory than there is"),
        (PanicError(), "the file is damaged: what it holds contradicts itself (PanicError)"),
    ):

        def stop(*_: object, error: BaseException = raised, **__: object) -> str:
            raise error

        monkeypatch.setattr("estimator.read.load.read_text_table", stop)
        with pytest.raises(WorkbookProblemsError) as caught:
            load_book(path)
        assert caught.value.problems[0].fact == fact


def test_an_interrupt_is_not_a_bad_file(tmp_path, monkeypatch):
    def interrupt(*_: object, **__: object) -> str:
        raise KeyboardInterrupt

    path = tmp_path / "list.csv"
    path.write_text("Mark\n")
    monkeypatch.setattr("estimator.read.load.read_text_table", interrupt)
    with pytest.raises(KeyboardInterrupt):
        load_book(path)
