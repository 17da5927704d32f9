"""The same list gives the same answer whatever the machine's language, alphabet and UTF-8 setting are."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parents[2]
RUN = [sys.executable, "-c", "from estimator.cli import main; main()"]
FOLDER, ANY_NAME, ASCII_NAME = "Größe İı ½ – tamam", "Stückliste سطح 部品.csv", "parts.csv"
"""A folder and a list that no single eight-bit alphabet can hold; there, names are bytes of that alphabet."""
LIST = """Mark,Description,Qty,Thickness mm,Length mm,Width mm,Steel
Blech–½,Größe Ä çİı,4,12,300,200,theirs
سطح,部品,2,20,250,100,theirs
"""
LOCALES = [
    ("C", "0"),
    ("C", "1"),
    ("POSIX", "0"),
    ("de_DE.ISO-8859-1", "0"),
    ("tr_TR.ISO-8859-9", "0"),
    ("tr_TR.UTF-8", "1"),
    ("ar_SA.ISO-8859-6", "0"),
]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("locales") / FOLDER
    folder.mkdir()
    for name in (ANY_NAME, ASCII_NAME):
        (folder / name).write_text(LIST, encoding="utf-8")
    return folder


def environment(locale: str, utf8: str, made: Path) -> dict[str, str]:
    """Return the environment of a run; a locale that the system lacks is made from the system's own sources."""
    if locale not in ("C", "POSIX"):
        language, _, charmap = locale.partition(".")
        localedef = shutil.which("localedef")
        if not localedef or subprocess.run(
            [localedef, "-i", language, "-f", charmap, str(made / locale)], capture_output=True
        ).returncode not in (0, 1):
            pytest.skip(f"no sources to make {locale} from")
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("LC_", "LANG"))}
    return kept | {"LC_ALL": locale, "LOCPATH": str(made), "PYTHONUTF8": utf8, "PYTHONPATH": str(PROJECT)}


def estimate(cut_list: Path, out: Path, env: dict[str, str]) -> tuple[bytes, str]:
    arguments = ["estimate", str(cut_list), "--date", "2026-11-02", "--json", "--out", str(out)]
    done = subprocess.run([*RUN, *arguments], capture_output=True, env=env, timeout=120)
    assert done.returncode == 0, done.stderr
    return done.stdout, hashlib.sha256(out.read_bytes()).hexdigest()


@pytest.fixture(scope="module")
def plain(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[object, str]]:
    """What each list gives where everything is UTF-8."""
    out, env = tmp_path_factory.mktemp("plain"), {**os.environ, "PYTHONUTF8": "1", "PYTHONPATH": str(PROJECT)}
    found = {}
    for name in (ANY_NAME, ASCII_NAME):
        shown, digest = estimate(folder / name, out / f"{name}.xlsx", env)
        found[name] = json.loads(shown.decode("utf-8")), digest
    return found


@pytest.mark.parametrize(("locale", "utf8"), LOCALES)
def test_every_locale_gives_the_same_answer_and_the_same_bytes(
    locale: str, utf8: str, folder: Path, plain: dict[str, tuple[object, str]], tmp_path: Path
) -> None:
    name = ASCII_NAME if "ISO" in locale else ANY_NAME
    shown, digest = estimate(folder / name, tmp_path / "out.xlsx", environment(locale, utf8, tmp_path))
    charset = "utf-8" if utf8 == "1" else (locale.partition(".")[2] or "ascii")
    assert (json.loads(shown.decode(charset)), digest) == plain[name]


def test_text_for_people_never_stops_a_run_in_a_poor_alphabet(folder: Path, tmp_path: Path) -> None:
    env = environment("C", "0", tmp_path)
    for words in (["explain", str(folder / ANY_NAME), "2"], ["estimate", str(folder / ANY_NAME), "--read-only"]):
        done = subprocess.run([*RUN, *words, *(["--date", "2026-11-02"])], capture_output=True, env=env, timeout=120)
        assert done.returncode == 0, done.stderr
        done.stdout.decode("ascii")
        done.stderr.decode("ascii")
