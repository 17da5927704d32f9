"""The flow of the project holds: no step imports a later one, physics sees neither money nor files."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2] / "estimator"

# Each part may import itself, what stands before it, and the base that all share.
ORDER = ("read", "check", "quantities", "learning", "pricing", "write", "tasks", "commands", "cli", "__main__")
BASE = {
    *("problems", "sheets", "words", "units", "shop_units", "shown_units", "rate_units"),
    *("reference", "plain_words", "cautions"),
}
HANDED_ON = {"estimator.check.cut_list"}
"""The form of a checked list: what reading fills in, so reading may know it."""
FORBIDDEN_IN_PHYSICS = {"estimator.pricing", "estimator.write", "estimator.read", "estimator.learning"}
FILE_LIBRARIES = {"openpyxl", "xlsxwriter", "python_calamine", "pandas", "pathlib", "csv", "zipfile", "io", "reportlab"}


def modules() -> list[Path]:
    return sorted(p for p in ROOT.rglob("*.py") if "_sample_jobs" not in p.parts)


def part_of(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return "tasks" if parts[0].startswith("tasks_") else parts[0]


def imported(path: Path) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
            if node.module == "estimator":
                names |= {f"estimator.{alias.name}" for alias in node.names}
    return names


def parts_imported(path: Path) -> set[str]:
    return {name.split(".")[1] for name in imported(path) if name.startswith("estimator.")}


@pytest.mark.parametrize("path", modules(), ids=lambda p: str(p.relative_to(ROOT)))
def test_no_step_imports_a_later_one(path: Path) -> None:
    part = part_of(path)
    if part == "__init__":
        return
    if part in BASE:
        assert not parts_imported(path) & set(ORDER), f"{path.name} is shared by all and may import no step"
        return
    later = set(ORDER[ORDER.index(part) + 1 :])
    names = imported(path) - (HANDED_ON if part == "read" else set())
    assert not {name.split(".")[1] for name in names if name.startswith("estimator.")} & later


@pytest.mark.parametrize(
    "path", [p for p in modules() if part_of(p) == "quantities"], ids=lambda p: str(p.relative_to(ROOT))
)
def test_physics_sees_neither_money_nor_files(path: Path) -> None:
    names = imported(path)
    assert not {n for n in names if any(n.startswith(f) for f in FORBIDDEN_IN_PHYSICS)}
    assert not {n.split(".")[0] for n in names} & FILE_LIBRARIES


@pytest.mark.parametrize(
    "path", [p for p in modules() if part_of(p) == "pricing"], ids=lambda p: str(p.relative_to(ROOT))
)
def test_money_knows_no_files(path: Path) -> None:
    assert not {n.split(".")[0] for n in imported(path)} & (FILE_LIBRARIES - {"pandas"})


def test_every_part_of_the_package_has_its_place() -> None:
    assert {part_of(p) for p in modules()} - {"__init__"} <= BASE | set(ORDER)
