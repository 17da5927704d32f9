"""No file grows past reading in one go, unless the decisions say why."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MOST_LINES = 400


def test_a_file_that_is_longer_than_four_hundred_lines_has_its_reason_in_the_decisions() -> None:
    decisions = (ROOT / "docs" / "decisions.md").read_text("utf-8")
    kept = [ROOT / name for name in ("estimator", "scripts", "tests")]
    longer = {
        str(path.relative_to(ROOT).as_posix())
        for folder in kept
        for path in folder.rglob("*.py")
        if len(path.read_text("utf-8").splitlines()) > MOST_LINES
    }
    assert {name for name in longer if f"`{name}`" not in decisions} == set()
