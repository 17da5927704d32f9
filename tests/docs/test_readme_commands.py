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


def shell_blocks() -> list[str]:
    return re.findall(r"```sh\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), flags=re.S)


@pytest.mark.skipif(shutil.which("bash") is None, reason="the README's commands are for a POSIX shell")
def test_the_first_command_prices_the_sample_in_a_clean_copy(tmp_path: Path) -> None:
    copy = tmp_path / "copy"
    shutil.copytree(ROOT, copy, ignore=lambda _folder, names: LEFT_OUT & set(names))
    clean = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "VIRTUAL_ENV", "PYTEST", "COV"))}
    done = subprocess.run(
        ["bash", "-c", shell_blocks()[0]], cwd=copy, env=clean, capture_output=True, text=True, timeout=900, check=False
    )
    assert done.returncode == 0, done.stderr[-3000:]
    assert "Total:" in done.stdout
    assert (copy / "demo" / "cut_list_estimate.xlsx").stat().st_size > 10_000


def test_each_command_is_one_line_to_paste() -> None:
    first, second = shell_blocks()[:2]
    assert first.strip().count("\n") == 0
    assert second.strip().count("\n") == 0
    assert "kerfledger demo" in first
    assert "pytest" in second
