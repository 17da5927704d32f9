"""Options and fixtures that every test may use."""

from __future__ import annotations

import os
import shutil

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--long", action="store_true", help="run the long profile: many more kills and examples")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not config.getoption("--long"):
        _skip(items, "long", "long profile: run with --long")
    if not shutil.which("soffice") and os.environ.get("CI") != "true":
        _skip(items, "recalculate", "LibreOffice Calc is not installed (soffice is not on the path)")


def _skip(items: list[pytest.Item], marker: str, reason: str) -> None:
    for item in items:
        if marker in item.keywords:
            item.add_marker(pytest.mark.skip(reason=reason))
