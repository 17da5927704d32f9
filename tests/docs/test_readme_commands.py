"""The README's first command does all the set-up on a fresh machine and prices the sample."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LEFT_OUT = {
    ".git",
    ".venv",
    ".venv-ci",
    ".mypy_cache",
    ".ruff_cache",
    ".pytest_cache",
    ".hypothesis",
    "demo",
    "__pycache__",
}


def command(holds: str) -> str:
    """Return the README's first command that holds a word."""
    blocks: list[str] = re.findall(r"```sh\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), flags=re.S)
    return next(block for block in blocks if holds in block)


SAMPLE, TESTS, ACTIVE, OWN = "kerfledger demo", ".venv/bin/pytest", "source .venv", "kerfledger start"


@pytest.mark.skipif(shutil.which("bash") is None, reason="the README's commands are for a POSIX shell")
def test_the_first_command_prices_the_sample_in_a_clean_copy(tmp_path: Path) -> None:
    copy = tmp_path / "copy"
    shutil.copytree(ROOT, copy, ignore=lambda _folder, names: LEFT_OUT & set(names))
    clean = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "VIRTUAL_ENV", "PYTEST", "COV"))}
    done = subprocess.run(
        ["bash", "-c", f"{command(SAMPLE)}{command(ACTIVE)}{command(OWN)}"],
        cwd=copy,
        env=clean,
        capture_output=True,
        text=True,
        timeout=900,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-3000:]
    assert "Total:" in done.stdout
    assert (copy / "demo" / "cut_list_estimate.xlsx").stat().st_size > 10_000
    assert (copy / "my_shop" / "shop_book.xlsx").stat().st_size > 10_000


def test_each_command_is_one_line_to_paste() -> None:
    for one in (command(SAMPLE), command(TESTS)):
        assert one.strip().count("\n") == 0
        assert one.startswith("python3 -m venv .venv && ")


def test_the_first_ten_minutes_are_read_in_two() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    section = readme.split("## The first ten minutes")[1].split("## A worked job")[0]
    assert len(re.sub(r"```sh.*?```|!\[.*?\)", "", section, flags=re.S).split()) <= 460
    steps = [section.index(word) for word in ("Open one in the folder", "Set it up, once", "Your own list")]
    assert steps == sorted(steps)
    for system in ("Windows", "macOS", "Linux"):
        assert f"| {system} |" in section
