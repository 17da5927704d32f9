"""The thing to drop a cut list on: a few lines for the system's own shell that price it with the shop's book."""

from __future__ import annotations

import shlex
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

__all__ = ["Launcher", "launcher_for"]

_NAME = "price_a_list"


@dataclass(frozen=True, slots=True)
class Launcher:
    """What one system needs: files, and how a person uses them there."""

    files: Mapping[str, bytes]
    use: str


def launcher_for(folder: Path, platform: str, python: str) -> Launcher:
    """Return the launcher of a shop folder for one system.

    Parameters
    ----------
    folder : Path
        The shop folder, absolute.
    platform : str
        As ``sys.platform``: ``win32``, ``darwin``, or anything else for Linux and its kin.
    python : str
        The interpreter that holds this package, absolute.

    Returns
    -------
    Launcher

    Notes
    -----
    Windows and Linux hand dropped files to a script or a desktop entry; macOS hands none to a script, so there a double
    click prices what lies in ``to_price``. The Windows and macOS forms follow their shells' published rules and were
    not run there. Source: Desktop Entry Specification 1.5, "The Exec key"; definition.
    """
    if platform == "win32":
        return _windows(folder, python)
    if platform == "darwin":
        return _mac(folder, python)
    return _linux(folder, python)


def _windows(folder: Path, python: str) -> Launcher:
    # A percent sign in a batch file is doubled; %* holds the dropped files, already in quotes where they need them.
    shop, program = (str(path).replace("%", "%%") for path in (folder, python))
    lines = (
        "@echo off",
        "chcp 65001 >nul",
        f'"{program}" -m estimator dropped --folder "{shop}" %*',
        "if errorlevel 1 pause",
        "",
    )
    return Launcher(
        {f"{_NAME}.bat": "\r\n".join(lines).encode("utf-8")},
        f"drop a cut list on {_NAME}.bat, or double-click it to price every list in to_price",
    )


def _mac(folder: Path, python: str) -> Launcher:
    return Launcher(
        {f"{_NAME}.command": _shell_script(folder, python)},
        f"put cut lists into to_price and double-click {_NAME}.command",
    )


def _linux(folder: Path, python: str) -> Launcher:
    script = folder / f"{_NAME}.sh"
    entry = (
        "[Desktop Entry]",
        "Type=Application",
        "Version=1.5",
        "Name=Price a cut list",
        "Comment=Drop a cut list here: it is priced with this folder's shop book",
        f"Exec=/bin/sh {_exec_quoted(str(script))} %F",
        "Terminal=false",
        "",
    )
    return Launcher(
        {f"{_NAME}.sh": _shell_script(folder, python), f"{_NAME}.desktop": "\n".join(entry).encode("utf-8")},
        f"drop a cut list on {_NAME} (allow it to start when asked, once), or double-click it to price every list "
        "in to_price",
    )


def _shell_script(folder: Path, python: str) -> bytes:
    call = f'exec {shlex.quote(python)} -m estimator dropped --folder {shlex.quote(str(folder))} "$@"'
    return f"#!/bin/sh\n{call}\n".encode()


def _exec_quoted(path: str) -> str:
    """Quote a path for an Exec key: in double quotes, with its own escapes, then those of a string value."""
    quoted = "".join("\\" + c if c in '"`$\\' else c for c in path)
    return '"' + quoted.replace("\\", "\\\\").replace("%", "%%") + '"'
