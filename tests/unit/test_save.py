"""An output file reaches the disk whole or not at all, and never over something that matters."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import BinaryIO, ParamSpec, TypeVar

import pytest

from estimator.problems import WorkbookProblemsError
from estimator.write import save as save_module
from estimator.write.save import clean_stale, save
from estimator.write.target import check_targets

P = ParamSpec("P")
R = TypeVar("R")

OLD, NEW = b"old " * 4000, b"new!" * 5000


def refused_code(action: Callable[[], object]) -> str:
    with pytest.raises(WorkbookProblemsError) as caught:
        action()
    return caught.value.problems[0].code


def test_bytes_and_writing_functions_give_the_same_file(tmp_path: Path) -> None:
    def write(file: BinaryIO) -> None:
        file.write(NEW)

    assert save(tmp_path / "a.bin", NEW) == []
    assert save(tmp_path / "b.bin", write) == []
    assert (tmp_path / "a.bin").read_bytes() == (tmp_path / "b.bin").read_bytes() == NEW
    assert sorted(p.name for p in tmp_path.iterdir()) == ["a.bin", "b.bin"]


def test_an_existing_file_is_replaced_only_when_forced(tmp_path: Path) -> None:
    target = tmp_path / "quote.xlsx"
    target.write_bytes(OLD)
    target.chmod(0o640)
    assert refused_code(lambda: save(target, NEW)) == "E801"
    assert target.read_bytes() == OLD
    save(target, NEW, force=True)
    assert target.read_bytes() == NEW
    assert target.stat().st_mode & 0o777 == 0o640


def same_file_by_other_names(folder: Path) -> Iterator[Path]:
    yield folder / "list.xlsx"
    yield folder / "sub" / ".." / "list.xlsx"
    yield Path(os.path.relpath(folder / "list.xlsx"))
    (folder / "soft.xlsx").symlink_to(folder / "list.xlsx")
    yield folder / "soft.xlsx"
    os.link(folder / "list.xlsx", folder / "hard.xlsx")
    yield folder / "hard.xlsx"
    yield folder / "LIST.xlsx"


def test_an_input_is_never_overwritten_under_any_of_its_names(tmp_path: Path) -> None:
    source = tmp_path / "list.xlsx"
    source.write_bytes(OLD)
    (tmp_path / "sub").mkdir()
    for name in same_file_by_other_names(tmp_path):
        assert refused_code(lambda name=name: save(name, NEW, inputs=[source], force=True)) == "E802", name
        assert source.read_bytes() == OLD
    through_link = [tmp_path / "soft.xlsx"]
    assert refused_code(lambda: save(source, NEW, inputs=through_link, force=True)) == "E802"


def test_a_link_is_followed_and_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real.xlsx").write_bytes(OLD)
    link = tmp_path / "link.xlsx"
    link.symlink_to(tmp_path / "real.xlsx")
    save(link, NEW, force=True)
    assert link.is_symlink()
    assert (tmp_path / "real.xlsx").read_bytes() == NEW


@pytest.mark.parametrize("lock", ["~$quote.xlsx", ".~lock.quote.xlsx#"])
def test_a_file_open_in_a_spreadsheet_program_is_left_alone(tmp_path: Path, lock: str) -> None:
    target = tmp_path / "quote.xlsx"
    target.write_bytes(OLD)
    (tmp_path / lock).touch()
    with pytest.raises(WorkbookProblemsError) as caught:
        save(target, NEW, force=True)
    problem = caught.value.problems[0]
    assert problem.code == "E806"
    assert lock in problem.do
    assert target.read_bytes() == OLD


def test_names_that_cannot_be_written_have_a_problem_each(tmp_path: Path) -> None:
    (tmp_path / "marked.xlsx").write_bytes(OLD)
    (tmp_path / "marked.xlsx").chmod(0o444)
    (tmp_path / "file").write_bytes(OLD)
    assert refused_code(lambda: save(tmp_path, NEW, force=True)) == "E805"
    assert refused_code(lambda: save(Path("/dev/null"), NEW, force=True)) == "E805"
    assert refused_code(lambda: save(tmp_path / "none" / "q.xlsx", NEW)) == "E804"
    assert refused_code(lambda: save(tmp_path / "file" / "q.xlsx", NEW)) == "E804"
    assert refused_code(lambda: save(tmp_path / ("n" * 300), NEW)) == "E811"
    assert refused_code(lambda: save(tmp_path / "a\0b.xlsx", NEW)) == "E811"
    assert refused_code(lambda: save(tmp_path / "marked.xlsx", NEW, force=True)) == "E808"
    assert (tmp_path / "marked.xlsx").read_bytes() == OLD


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write everywhere")
def test_a_folder_that_takes_no_files_is_said(tmp_path: Path) -> None:
    closed = tmp_path / "closed"
    closed.mkdir(mode=0o555)
    assert refused_code(lambda: save(closed / "q.xlsx", NEW)) == "E807"


def test_a_long_name_that_the_disk_takes_is_written(tmp_path: Path) -> None:
    target = tmp_path / ("n" * 255)
    save(target, NEW)
    assert target.read_bytes() == NEW


def test_every_refused_output_of_a_run_is_said_at_once(tmp_path: Path) -> None:
    taken = tmp_path / "taken.xlsx"
    taken.write_bytes(OLD)
    outputs = [taken, tmp_path / "none" / "q.xlsx", tmp_path / "one.pdf", tmp_path / "ONE.pdf"]
    with pytest.raises(WorkbookProblemsError) as caught:
        check_targets(outputs)
    assert sorted(p.code for p in caught.value.problems) == ["E801", "E803", "E804"]


@pytest.mark.parametrize(
    ("number", "code"),
    [
        (errno.ENOSPC, "E810"),
        (errno.EDQUOT, "E810"),
        (errno.EFBIG, "E810"),
        (errno.EROFS, "E809"),
        (errno.EACCES, "E807"),
        (errno.EPERM, "E807"),
        (errno.ENAMETOOLONG, "E811"),
        (errno.EIO, "E812"),
    ],
)
def test_each_answer_of_the_disk_has_its_problem_and_the_old_file_stays(tmp_path: Path, number: int, code: str) -> None:
    target = tmp_path / "quote.xlsx"
    target.write_bytes(OLD)

    def write(file: BinaryIO) -> None:
        file.write(NEW[:1000])
        raise OSError(number, os.strerror(number))

    assert refused_code(lambda: save(target, write, force=True)) == code
    assert target.read_bytes() == OLD
    assert [p.name for p in tmp_path.iterdir()] == ["quote.xlsx"]


def test_a_fault_of_our_own_while_writing_leaves_the_old_file_and_no_rubbish(tmp_path: Path) -> None:
    target = tmp_path / "quote.xlsx"
    target.write_bytes(OLD)

    def write(file: BinaryIO) -> None:
        file.write(NEW)
        raise KeyError("a fault")

    with pytest.raises(KeyError):
        save(target, write, force=True)
    assert target.read_bytes() == OLD
    assert [p.name for p in tmp_path.iterdir()] == ["quote.xlsx"]


def write_in_two_parts(file: BinaryIO) -> None:
    file.write(NEW[:9000])
    file.write(NEW[9000:])


class FailingDisk:
    """Makes the k-th call to the disk fail, once or for ever from then on."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, k: int, *, for_ever: bool) -> None:
        self.calls, self.k, self.for_ever = 0, k, for_ever
        self.names: list[str] = []
        for name in ("open", "fsync", "replace", "link", "close"):
            monkeypatch.setattr(save_module.os, name, self.counted(getattr(os, name)))
        make = os.fdopen
        monkeypatch.setattr(save_module.os, "fdopen", lambda *args: self.file(make(*args)))

    def counted(self, call: Callable[P, R]) -> Callable[P, R]:
        def counting(*args: P.args, **kwargs: P.kwargs) -> R:
            self.calls += 1
            self.names.append(call.__name__)
            if self.calls == self.k or (self.for_ever and self.calls > self.k):
                raise OSError(errno.EIO, "the disk failed")
            return call(*args, **kwargs)

        return counting

    def file(self, file: BinaryIO) -> BinaryIO:
        for name in ("write", "flush", "close"):
            setattr(file, name, self.counted(getattr(file, name)))
        return file


@pytest.mark.parametrize("for_ever", [False, True])
@pytest.mark.parametrize("force", [False, True])
def test_whichever_disk_call_fails_the_target_is_the_old_or_the_new_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, for_ever: bool, force: bool
) -> None:
    done, said = False, set()
    for k in range(1, 60):
        target = tmp_path / f"{k}.xlsx"
        if force:
            target.write_bytes(OLD)
        with monkeypatch.context() as patch:
            disk = FailingDisk(patch, k, for_ever=for_ever)
            try:
                warnings = save(target, write_in_two_parts, force=force)
                written = True
            except WorkbookProblemsError as error:
                written, warnings = False, error.problems
        said |= {p.code for p in warnings}
        whole = {NEW} if written else ({OLD, NEW} if force else {None, NEW})
        assert (target.read_bytes() if target.exists() else None) in whole, k
        if disk.calls < k:
            assert warnings == []
            done = True
            break
    assert done, "the run never completed"
    assert k > 6, "too few disk calls were tried to prove anything"
    assert said == {"E812", "W813"}, "the disk's failures were not all said"
    clean_stale(tmp_path)
    assert not list(tmp_path.glob(".kerfledger-*")), "a temporary file was left"


def test_the_bytes_are_forced_to_the_disk_before_the_name_and_the_folder_after(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        disk = FailingDisk(patch, 0, for_ever=False)
        save(tmp_path / "quote.xlsx", NEW, force=True)
    order = [name for name in disk.names if name in ("write", "fsync", "replace")]
    assert order == ["write", "fsync", "replace", "fsync"]


def test_of_two_runs_for_one_free_name_the_second_is_refused(tmp_path: Path) -> None:
    target = tmp_path / "quote.xlsx"

    def write_while_another_finishes(file: BinaryIO) -> None:
        file.write(NEW)
        save(target, OLD)

    assert refused_code(lambda: save(target, write_while_another_finishes)) == "E801"
    assert target.read_bytes() == OLD


def test_a_temporary_file_of_a_living_run_is_not_taken_for_stale(tmp_path: Path) -> None:
    def write_while_another_cleans(file: BinaryIO) -> None:
        file.write(NEW)
        clean_stale(tmp_path)

    save(tmp_path / "quote.xlsx", write_while_another_cleans)
    assert (tmp_path / "quote.xlsx").read_bytes() == NEW


WRITER = """
import sys
from pathlib import Path
from estimator.write.save import save
target = Path(sys.argv[1])
print("ready", flush=True)
while True:
    for letter in (b"a", b"b"):
        save(target, lambda file: [file.write(letter * 50_000) for _ in range(8)] and None, force=True)
"""


def kill_while_writing(target: Path, after_s: float) -> None:
    """Start a run that saves without pause, and kill it without warning."""
    with subprocess.Popen([sys.executable, "-c", WRITER, str(target)], stdout=subprocess.PIPE) as run:
        assert run.stdout is not None
        run.stdout.readline()
        time.sleep(after_s)
        run.send_signal(signal.SIGKILL)


def test_a_killed_run_leaves_a_whole_file_and_the_next_run_cleans_up(tmp_path: Path, kills: int) -> None:
    target = tmp_path / "quote.xlsx"
    target.write_bytes(b"a" * 400_000)
    left = 0
    for number in range(kills):
        kill_while_writing(target, after_s=0.0007 * (number % 30))
        content = target.read_bytes()
        assert content in (b"a" * 400_000, b"b" * 400_000), f"kill {number} broke the file"
        left += len(list(tmp_path.glob(".kerfledger-*")))
    assert left > 0, "no kill fell inside a write: nothing was tried"
    save(target, NEW, force=True)
    assert [p.name for p in tmp_path.iterdir()] == ["quote.xlsx"]


@pytest.fixture
def kills(request: pytest.FixtureRequest) -> int:
    return 2000 if request.config.getoption("--long", default=False) else 60


LIMITED = """
import resource, sys
from pathlib import Path
from estimator.problems import WorkbookProblemsError
from estimator.write.save import save
resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
import signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
try:
    save(Path(sys.argv[1]), b"x" * 100_000, force=True)
except WorkbookProblemsError as error:
    print(error.problems[0].code)
"""


def test_a_real_limit_of_the_system_on_file_size_is_a_full_disk(tmp_path: Path) -> None:
    target = tmp_path / "quote.xlsx"
    target.write_bytes(OLD)
    ran = subprocess.run([sys.executable, "-c", LIMITED, str(target)], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "E810"
    assert target.read_bytes() == OLD
    assert [p.name for p in tmp_path.iterdir()] == ["quote.xlsx"]


def test_many_runs_into_one_folder_do_not_disturb_each_other(tmp_path: Path) -> None:
    code = "import sys\nfrom pathlib import Path\nfrom estimator.write.save import save\n"
    code += "for n in range(30):\n    save(Path(sys.argv[1]) / f'{sys.argv[2]}-{n}.bin', b'x' * 20_000)\n"
    runs = [subprocess.Popen([sys.executable, "-c", code, str(tmp_path), str(name)]) for name in range(3)]
    assert [run.wait() for run in runs] == [0, 0, 0]
    files = list(tmp_path.iterdir())
    assert len(files) == 90
    assert {p.read_bytes() for p in files} == {b"x" * 20_000}
