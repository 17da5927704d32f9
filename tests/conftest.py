"""Options and fixtures that every test may use."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--long", action="store_true", help="run the long profile: many more kills and examples")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.getoption("--long"):
        return
    skip = pytest.mark.skip(reason="long profile: run with --long")
    for item in items:
        if "long" in item.keywords:
            item.add_marker(skip)
