"""One command, measured: processor time of the whole process and of those it waits for, so that a busy machine disturbs little."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

__all__ = ["Run", "as_installed", "measure", "python"]


@dataclass(frozen=True)
class Run:
    """One process, measured."""

    cpu_s: float
    wall_s: float
    peak_mb: float
    said: str


def as_installed(folder: Path) -> dict[str, str]:
    """Return an environment in which Python keeps its compiled modules, as an installed package has them."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPYCACHEPREFIX": str(folder), "OPENBLAS_NUM_THREADS": "1"}


def measure(command: list[str], environment: dict[str, str], *, runs: int) -> Run:
    """Return the least of a few runs of a command, after one that is not counted."""
    return min((_run(command, environment) for _ in range(runs + 1)), key=lambda run: run.cpu_s)


def python(code: str) -> list[str]:
    """Return the command that runs a piece of Python."""
    return [sys.executable, "-c", code]


def _run(command: list[str], environment: dict[str, str]) -> Run:
    with tempfile.TemporaryFile() as out:
        start = time.perf_counter()
        process = subprocess.Popen(command, env=environment, stdout=out, stderr=subprocess.DEVNULL)
        _, status, used = os.wait4(process.pid, 0)
        wall_s = time.perf_counter() - start
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            raise subprocess.CalledProcessError(process.returncode, command)
        out.seek(0)
        return Run(used.ru_utime + used.ru_stime, wall_s, used.ru_maxrss / 1024, out.read().decode().strip())
