"""The launcher of a shop folder: it follows its folder, and says so where the program is no longer there."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from estimator.cli import app
from estimator.write.launcher import launcher_for

ROOT = Path(__file__).resolve().parents[2]
RUNNER = CliRunner()
posix = pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="the Linux form of the launcher")


def run(*arguments: object) -> Result:
    return RUNNER.invoke(app, [str(a) for a in arguments])


def stand_in(path: Path, code: int = 0) -> Path:
    """Make a program that notes how it was called, instead of the interpreter."""
    path.write_text(f'#!/bin/sh\nprintf "%s\\n" "$@" > "{path}.called"\nexit {code}\n', encoding="utf-8")
    path.chmod(0o755)
    return path


def quiet_opener(folder: Path) -> dict[str, str]:
    """Return an environment whose opener notes what it is asked to open."""
    folder.mkdir()
    (folder / "xdg-open").write_text(f'#!/bin/sh\necho "$1" >> "{folder}/opened"\n', encoding="utf-8")
    (folder / "xdg-open").chmod(0o755)
    return {**os.environ, "PATH": f"{folder}:{os.environ['PATH']}"}


def write_launcher(folder: Path, python: Path) -> Path:
    folder.mkdir(parents=True)
    for name, text in launcher_for(folder, "linux", str(python)).files.items():
        (folder / name).write_bytes(text)
        (folder / name).chmod(0o755)
    return folder / "price_a_list.sh"


@posix
def test_a_copied_or_moved_folder_prices_with_its_own_book(tmp_path: Path) -> None:
    python = stand_in(tmp_path / "python")
    write_launcher(tmp_path / "old shop", python)
    moved = tmp_path / "o'n 5% $hop"
    shutil.copytree(tmp_path / "old shop", moved)
    subprocess.run([moved / "price_a_list.sh", "a list.csv"], check=True, env=quiet_opener(tmp_path / "programs"))
    called = (tmp_path / "python.called").read_text("utf-8").splitlines()
    assert called == ["-m", "estimator", "dropped", "--folder", str(moved), "a list.csv"]


def run_entry(entry: Path, *given: str, programs: Path) -> None:
    """Run a desktop entry as a file manager does, with its place and the files as the manager gives them."""
    script = next(line for line in entry.read_text("utf-8").splitlines() if line.startswith("Exec="))
    script = script.removeprefix('Exec=/bin/sh -c "').partition('" price_a_list %k %F')[0]
    for reserved in (r"\\(.)", r"\\([\"$`\\])"):  # as a string value, then as a quoted argument
        script = re.sub(reserved, r"\1", script)
    subprocess.run(
        ["/bin/sh", "-c", script.replace("%%", "%"), "price_a_list", *given], check=True, env=quiet_opener(programs)
    )


@posix
@pytest.mark.parametrize("place", ["path", "address"])
def test_the_desktop_entry_follows_its_folder_by_a_path_and_by_an_address(tmp_path: Path, place: str) -> None:
    # Desktop Entry Specification 1.5, "The Exec key": %k is a local file name or a URI, as the file manager likes.
    write_launcher(tmp_path / "old shop", stand_in(tmp_path / "python"))
    moved = tmp_path / "o'n 5% $hop"
    shutil.copytree(tmp_path / "old shop", moved)
    entry = moved / "price_a_list.desktop"
    given = {"path": str(entry), "address": entry.as_uri()}[place]
    run_entry(entry, given, "list.csv", programs=tmp_path / "programs")
    assert (tmp_path / "python.called").read_text("utf-8").splitlines()[-2:] == [str(moved), "list.csv"]


@posix
def test_an_entry_that_is_not_told_its_place_uses_the_one_where_it_was_made_or_says_it_is_lost(tmp_path: Path) -> None:
    script = write_launcher(tmp_path / "o'n shop", stand_in(tmp_path / "python"))
    cut_list = tmp_path / "list.csv"
    run_entry(script.with_suffix(".desktop"), str(cut_list), programs=tmp_path / "programs")
    assert (tmp_path / "python.called").read_text("utf-8").splitlines()[-1] == str(cut_list)
    moved = script.parent.rename(tmp_path / "moved")
    run_entry(moved / "price_a_list.desktop", str(cut_list), programs=tmp_path / "others")
    assert "shop folder was moved" in (tmp_path / "list_not_priced.txt").read_text("utf-8")


@posix
def test_a_program_that_was_moved_is_said_beside_the_list_and_opened(tmp_path: Path) -> None:
    script = write_launcher(tmp_path / "shop", tmp_path / "gone" / "python3")
    programs = quiet_opener(tmp_path / "programs")
    done = subprocess.run([script, tmp_path / "frames.xlsx"], env=programs, capture_output=True, text=True, check=False)
    page = tmp_path / "frames_not_priced.txt"
    assert done.returncode == 1
    assert page.read_text("utf-8") == done.stderr
    assert "no longer where it was" in done.stderr
    assert f"start --launcher '{tmp_path / 'shop'}'" in done.stderr
    assert (tmp_path / "programs" / "opened").read_text("utf-8").split() == [str(page)]
    subprocess.run([script], env=programs, capture_output=True, check=False)
    assert (tmp_path / "shop" / "could_not_start.txt").is_file()


@posix
@pytest.mark.parametrize(("code", "told"), [(0, False), (3, False), (1, True), (127, True)])
def test_a_program_that_fails_before_it_can_say_why_leaves_a_page(tmp_path: Path, code: int, told: bool) -> None:
    script = write_launcher(tmp_path / "shop", stand_in(tmp_path / "python", code))
    done = subprocess.run(
        [script, tmp_path / "list.csv"], env=quiet_opener(tmp_path / "programs"), capture_output=True, check=False
    )
    assert done.returncode == code
    assert (tmp_path / "list_not_priced.txt").exists() is told


def test_each_system_gets_a_launcher_that_names_no_folder_and_keeps_blanks_and_quotes() -> None:
    script = launcher_for(Path("/s"), "linux", "/opt/o'n py 3/bin/python").files["price_a_list.sh"].decode()
    assert "python='/opt/o'\"'\"'n py 3/bin/python'\n" in script
    batch = launcher_for(Path("/s"), "win32", r"C:\my 100 % py\python.exe").files["price_a_list.bat"].decode()
    assert r'"C:\my 100 %% py\python.exe" -m estimator dropped --folder "%~dp0." %*' in batch
    assert batch.isascii()
    assert batch.index("!cmdcmdline!") < batch.index("DisableDelayedExpansion") < batch.index("%*")
    assert batch.count("\r\n") == batch.count("\n") >= 4
    assert list(launcher_for(Path("/s"), "darwin", "/opt/python").files) == ["price_a_list.command"]


@pytest.mark.skipif(shutil.which("desktop-file-validate") is None, reason="needs desktop-file-utils")
def test_the_desktop_entry_is_valid(tmp_path: Path) -> None:
    entry = write_launcher(tmp_path / "shop", Path("/opt/my python/bin/python3")).with_suffix(".desktop")
    assert subprocess.run(["desktop-file-validate", entry], capture_output=True, check=True).stdout == b""


def test_the_launcher_alone_is_written_anew_and_nothing_else(tmp_path: Path) -> None:
    folder = tmp_path / "shop"
    assert run("start", folder, "-q").exit_code == 0
    before = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
    script = next(path for path in folder.iterdir() if path.suffix in (".sh", ".bat", ".command"))
    script.write_bytes(b"")
    (folder / "shop_book.xlsx").write_bytes(b"typed")
    result = run("start", "--launcher", folder)
    assert result.exit_code == 0, result.stderr
    assert script.read_bytes() == before[script.name]
    assert (folder / "shop_book.xlsx").read_bytes() == b"typed"
