"""What the docs promise: commands run, links and pictures are there, every picture is made by the script."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
import typer.main
from typer.testing import CliRunner

from estimator.cli import app
from estimator.commands.boundary import Exit
from estimator.commands.demo import SAMPLE_FILES

ROOT = Path(__file__).resolve().parents[2]
PAGES = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md"), *(ROOT / "sample_jobs").glob("*.md")])
NAMES = [str(page.relative_to(ROOT)) for page in PAGES]
LARGEST_PICTURE = 150_000


def commands_of(page: Path) -> list[str]:
    blocks = re.findall(r"```sh\n(.*?)```", page.read_text("utf-8"), flags=re.S)
    return [line for block in blocks for line in block.splitlines() if line.startswith("kerfledger ")]


WITH_COMMANDS = [page for page in PAGES if commands_of(page)]


def inline_commands_of(page: Path) -> list[str]:
    text = re.sub(r"```.*?```", "", page.read_text("utf-8"), flags=re.S)
    indented = re.findall(r"^    (kerfledger .*)$", text, flags=re.M)
    return [*re.findall(r"`(kerfledger [a-z][^`]*)`", text), *indented]


WITH_INLINE = [page for page in PAGES if inline_commands_of(page) and "reference" not in page.parts]


def links_of(page: Path) -> list[str]:
    text = re.sub(r"```.*?```", "", page.read_text("utf-8"), flags=re.S)
    return [link for link in re.findall(r"\]\(([^)\s]+)\)", text) if not link.startswith(("http://", "https://"))]


def anchors_of(page: Path) -> set[str]:
    headings = re.findall(r"^#+ (.+)$", page.read_text("utf-8"), flags=re.M)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}


@pytest.mark.parametrize("page", WITH_COMMANDS, ids=lambda page: page.name)
def test_every_command_of_a_page_runs_in_a_folder_with_the_sample(
    page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in SAMPLE_FILES:
        shutil.copy(ROOT / "sample_jobs" / name, tmp_path)
    monkeypatch.chdir(tmp_path)
    for command in commands_of(page):
        result = CliRunner().invoke(app, shlex.split(command)[1:])
        expected = Exit.DOES_NOT_RECONCILE if " reconcile " in command else Exit.DONE
        assert result.exit_code == expected, f"{command}\n{result.output[-1500:]}"


@pytest.mark.parametrize("page", WITH_INLINE, ids=lambda page: page.name)
def test_a_command_inside_a_sentence_is_one_that_the_program_knows(page: Path) -> None:
    known = typer.main.get_command(app)
    assert isinstance(known, typer.main.TyperGroup)
    for command in inline_commands_of(page):
        _, name, *words = shlex.split(command)
        assert name in known.commands, command
        options = {option for parameter in known.commands[name].params for option in parameter.opts}
        assert {word for word in words if word.startswith("-")} <= options | {"--help"}, command


@pytest.mark.parametrize("page", PAGES, ids=NAMES)
def test_every_file_of_the_project_that_a_page_names_is_there(page: Path) -> None:
    text = re.sub(r"```.*?```", "", page.read_text("utf-8"), flags=re.S)
    named = re.findall(r"`((?:estimator|tests|scripts|docs|templates|sample_jobs)/[\w./]+)`", text)
    assert [path for path in named if not (ROOT / path).exists()] == []


def test_the_guide_shows_every_task() -> None:
    shown = {shlex.split(command)[1] for page in WITH_COMMANDS for command in commands_of(page)}
    assert {
        "start",
        "estimate",
        "quote",
        "register",
        "explain",
        "settings",
        "rack",
        "compare",
        "reconcile",
        "calibrate",
    } <= shown


@pytest.mark.parametrize("page", PAGES, ids=NAMES)
def test_every_link_and_picture_of_a_page_is_there(page: Path) -> None:
    for link in links_of(page):
        file, _, anchor = link.partition("#")
        target = (page.parent / file).resolve() if file else page
        assert target.exists(), link
        assert not anchor or anchor in anchors_of(target), link


def test_every_picture_is_made_by_the_script_shown_by_a_page_and_small() -> None:
    script = (ROOT / "scripts" / "make_pictures.py").read_text("utf-8")
    made = {f"{name}.png" for name in re.findall(r'^    Picture\("(\w+)"', script, flags=re.M)}
    kept = {path.name for path in (ROOT / "docs" / "pictures").iterdir()}
    shown = {Path(link).name for page in PAGES for link in links_of(page) if link.endswith(".png")}
    assert made == kept == shown
    sizes = {path.name: path.stat().st_size for path in (ROOT / "docs" / "pictures").iterdir()}
    assert {name: size for name, size in sizes.items() if size > LARGEST_PICTURE} == {}
