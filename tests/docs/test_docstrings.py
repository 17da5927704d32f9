"""Public docstrings keep to the signature, and give the unit that each name carries."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

import estimator

WHOLE = ("estimator.quantities", "estimator.learning", "estimator.pricing")
"""Parts whose public functions state parameters and what they return."""
UNITS = {
    "mm": "mm", "m": "m", "mm2": "mm²", "cm3": "cm³", "m3": "m³", "m3_h": "m³/h", "kg": "kg", "min": "min", "s": "s",
    "bar": "bar", "deg": "degrees", "mm_min": "mm/min", "kg_m3": "kg/m³", "kg_h": "kg/h", "h": "h",
}  # fmt: skip
SUFFIX = re.compile(
    r"(?<!_mj)(?<!_kj)(?<!_cm2)(?<!_per_mm)(?<!_per)_(mm_min|m3_h|kg_m3|kg_h|mm2|cm3|m3|mm|kg|min|bar|deg)$"
)


def public_functions() -> Iterator[tuple[str, Callable[..., Any]]]:
    for info in pkgutil.walk_packages(estimator.__path__, "estimator."):
        if not info.name.startswith(WHOLE):
            continue
        module = importlib.import_module(info.name)
        for name in getattr(module, "__all__", ()):
            value = getattr(module, name)
            if inspect.isfunction(value) and value.__module__ == module.__name__:
                yield f"{info.name}.{name}", value


FUNCTIONS = dict(public_functions())


def section(doc: str, title: str) -> str:
    found = re.search(rf"^{title}\n-+\n(.*?)(?=^\w[\w ]*\n-+\n|\Z)", doc, flags=re.S | re.M)
    return found[1] if found else ""


def stated_parameters(doc: str) -> dict[str, str]:
    stated: dict[str, str] = {}
    names: list[str] = []
    for line in section(doc, "Parameters").splitlines():
        if line and not line.startswith(" "):
            names = [n.strip() for n in line.partition(" : ")[0].split(",")]
            for name in names:
                stated[name] = line
        else:
            for name in names:
                stated[name] += " " + line.strip()
    return stated


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_public_function_states_every_parameter_and_what_it_returns(name: str) -> None:
    function = FUNCTIONS[name]
    doc = inspect.getdoc(function) or ""
    assert doc, "no docstring"
    parameters = list(inspect.signature(function).parameters)
    if not section(doc, "Parameters"):
        # A function of one plain argument may say all in its one line.
        assert len(parameters) <= 3, "more than three parameters and no Parameters section"
        assert "\n\n" not in doc.replace("Source:", ""), "a longer docstring states its parameters"
        return
    assert sorted(stated_parameters(doc)) == sorted(parameters)
    if inspect.signature(function).return_annotation not in (None, "None"):
        assert section(doc, "Returns"), "no Returns section"


@pytest.mark.parametrize("name", [n for n in FUNCTIONS if n.startswith("estimator.quantities")])
def test_a_unit_in_a_name_stands_in_its_description(name: str) -> None:
    for parameter, said in stated_parameters(inspect.getdoc(FUNCTIONS[name]) or "").items():
        suffix = SUFFIX.search(parameter)
        if suffix and "As for" not in said and not parameter.startswith("per_"):
            unit = UNITS[suffix[1]]
            assert f"[{unit}" in said, f"{parameter} is described without [{unit}]: {said}"
