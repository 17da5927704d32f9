"""The thing to drop a cut list on: a few lines for the system's own shell that price it with the shop's book."""

from __future__ import annotations

import re
import shlex
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

__all__ = ["LINE_VARIABLE", "Launcher", "dropped_on_windows", "launcher_for"]

LINE_VARIABLE = "KERFLEDGER_LINE"
"""In this variable the Windows launcher hands on the line that it was called with."""
_NAME = "price_a_list"
_WORD = re.compile(r'"([^"]*)"|(\S+)')
_GONE = "Nothing was priced: the program is no longer where it was when this launcher was made."
_MEND = (
    "Was its folder moved, renamed or deleted? Open a terminal in the folder of kerfledger, type the first command of "
    "its README again, and then: {program} start --launcher {folder}"
)
_SCRIPT = """\
#!/bin/sh
# Prices the lists that are dropped on it with the shop book that lies beside it.
here=$(CDPATH= cd -- "$(dirname -- "$0")" && pwd -P)
python={python}

say_why() {{
    page="$here/could_not_start.txt"
    [ $# -eq 0 ] || page="${{1%.*}}_not_priced.txt"
    printf '%s\\n' "$why" > "$page" || {{ page="$here/could_not_start.txt"; printf '%s\\n' "$why" > "$page"; }}
    printf '%s\\n' "$why" >&2
    {opener} "$page" >/dev/null 2>&1
}}

if [ ! -x "$python" ]; then
    why="{gone}
{mend}
It was: $python"
    say_why "$@"
    exit 1
fi
"$python" -m estimator dropped --folder "$here" "$@"
code=$?
# 0 is priced and 3 has its own page with the cells to correct; anything else never came so far as to write one.
if [ "$code" -ne 0 ] && [ "$code" -ne 3 ]; then
    why="Nothing was priced: the program stopped with the number $code.
{mend}
It is: $python"
    say_why "$@"
fi
exit "$code"
"""
_ENTRY_SCRIPT = (
    'case "$1" in *.desktop) place=${{1#file://}}; shift;; *) place={recorded};; esac; '
    '[ -e "$place" ] || place=$(printf %s "$place" | sed "s/%/\\\\\\\\x/g" | xargs -0 printf %b); '
    'script="${{place%/*}}/{name}.sh"; [ -e "$script" ] && exec /bin/sh "$script" "$@"; '
    'page="${{1%.*}}_not_priced.txt"; echo {lost} > "$page"; xdg-open "$page"'
)
"""What the desktop entry runs: the script beside the entry, whose own place, a path or an address, comes first.

A file manager that does not tell the entry's place gets the one where it was made."""
_LOST = "Nothing was priced: the shop folder was moved. In its new place type: kerfledger start --launcher FOLDER"


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
    A launcher prices with the shop book of the folder that it lies in, so that a folder may be moved or copied; where
    the program itself was moved, it says so beside the list. Windows and Linux hand dropped files to a script or a
    desktop entry; macOS hands none to a script, so there a double
    click prices what lies in ``to_price``. The Windows and macOS forms follow their shells' published rules and were
    not run there: ``docs/launchers.md`` reasons them line by line. Source: Desktop Entry Specification 1.5, "The Exec
    key"; definition.
    """
    if platform == "win32":
        return _windows(python)
    if platform == "darwin":
        return _mac(python)
    return _linux(folder, python)


def dropped_on_windows(line: str) -> list[str]:
    r"""Return the files that are named in the line with which Windows called the launcher.

    Parameters
    ----------
    line : str
        What ``cmd`` was called with; that of an open terminal names no launcher.

    Returns
    -------
    list of str
        Empty when the launcher is not in the line, or nothing was dropped on it.

    Notes
    -----
    Explorer quotes a name that holds a blank and no other, so in what a batch file gets as ``%*`` a name such as
    ``a&b.csv`` is cut at its ``&``; the line itself holds it whole. Source: definition.

    Examples
    --------
    >>> dropped_on_windows(r'cmd.exe /c ""C:\my shop\price_a_list.bat" C:\a&b.csv "C:\c d.csv""')
    ['C:\\a&b.csv', 'C:\\c d.csv']
    """
    _, launcher, rest = line.partition(f"{_NAME}.bat")
    if not launcher:
        return []
    inner = rest.removeprefix('"').strip()
    odd = inner.count('"') % 2
    return [quoted or bare for quoted, bare in _WORD.findall(inner[:-1] if odd else inner)]


def _windows(python: str) -> Launcher:
    # "%~dp0" is the folder of the file itself, with a "\\" at its end that a "." keeps off the quote. The whole line is
    # taken while "!" stands for variables, and nothing else is done then, for a name may hold a "!". "exit" ends what
    # "cmd" would make of the rest of a name behind "&".
    program = python.replace("%", "%%")
    lines = (
        "@echo off",
        "chcp 65001 >nul",
        "setlocal EnableDelayedExpansion",
        f'set "{LINE_VARIABLE}=!cmdcmdline!"',
        "setlocal DisableDelayedExpansion",
        f'"{program}" -m estimator dropped --folder "%~dp0." %*',
        "if errorlevel 1 pause",
        "exit",
        "",
    )
    return Launcher(
        {f"{_NAME}.bat": "\r\n".join(lines).encode("utf-8")},
        f"drop a cut list on {_NAME}.bat, or double-click it to price every list in to_price",
    )


def _mac(python: str) -> Launcher:
    return Launcher(
        {f"{_NAME}.command": _shell_script(python, "open")},
        f"put cut lists into to_price and double-click {_NAME}.command",
    )


def _linux(folder: Path, python: str) -> Launcher:
    recorded = shlex.quote(str(folder / f"{_NAME}.desktop"))
    script = _ENTRY_SCRIPT.format(recorded=recorded, name=_NAME, lost=shlex.quote(_LOST))
    entry = (
        "[Desktop Entry]",
        "Type=Application",
        "Version=1.0",
        "Name=Price a cut list",
        "Comment=Drop a cut list here: it is priced with this folder's shop book",
        f"Exec=/bin/sh -c {_exec_quoted(script)} {_NAME} %k %F",
        "Terminal=false",
        "",
    )
    return Launcher(
        {
            f"{_NAME}.sh": _shell_script(python, "xdg-open"),
            f"{_NAME}.desktop": "\n".join(entry).encode("utf-8"),
        },
        f"drop a cut list on {_NAME}.desktop (allow it to start when asked, once; the .sh is its helper), or "
        "double-click it to price every list in to_price",
    )


def _shell_script(python: str, opener: str) -> bytes:
    mend = _MEND.format(program=".venv/bin/kerfledger", folder="'$here'")
    return _SCRIPT.format(python=shlex.quote(python), gone=_GONE, mend=mend, opener=opener).encode()


def _exec_quoted(text: str) -> str:
    """Quote an argument of an Exec key: in double quotes, with its own escapes, then those of a string value."""
    quoted = "".join("\\" + c if c in '"`$\\' else c for c in text)
    return '"' + quoted.replace("\\", "\\\\").replace("%", "%%") + '"'
