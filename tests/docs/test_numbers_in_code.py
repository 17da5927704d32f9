"""No judged number hides in code: every literal of the physics and the pricing is arithmetic, or stands here with why.

What is judged is a row of ``data/work_rates.csv``, a cell of the shop book with its low, high and status. The list
below is the one that ``docs/decisions.md`` speaks of, "Numbers that stay in code".
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from estimator.check.example_shop import example_shop
from estimator.check.torch_kit import built_in_work_rates, work_rates
from estimator.pricing.cylinder_content import ReadingDoubts
from estimator.quantities.orifice import DISCHARGE_COEFFICIENT
from estimator.quantities.oxidation import STEEL_KG_M3

PACKAGE = Path(__file__).parents[2] / "estimator"
ARITHMETIC = {0, 1, 2, 0.5, 4, 10, 60, 100, 1000, 1e6, 1e9, 1e5, 3600, 1e-6, 1e-9, 1e-12}
"""Counts, halves, quarters of a circle, unit factors, and dust of binary arithmetic."""
CALENDAR = {12, 28, 29, 365}
"""Months and days, in ``pricing`` alone."""

PHYSICS, UNIT, GEOMETRY = "physical constant", "unit factor", "geometry"
SAFETY, STATISTICS = "adopted safety rule, not for a shop to tune", "level or rule of a statistical test"
SAME, SEARCH, LAYOUT = (
    "when two figures count as the same",
    "how far or finely a search goes",
    "how an answer is laid out",
)
DEFAULT = "the built-in row's own figure, for callers without a shop; held equal below"
CELL = "what is taken, and said, where a price list leaves its cell blank"

STAYS: dict[str, dict[float, str]] = {
    "quantities/chart.py": {90: GEOMETRY},
    "quantities/cylinders.py": {1.01325: PHYSICS},
    "quantities/draw.py": {5: SAFETY, 9: SAME, 3.6: UNIT},
    "quantities/job.py": {6: SAME},
    "quantities/job_rows.py": {9: SAME},
    "quantities/lines.py": {9: SAME},
    "quantities/orifice.py": {
        1.01325: PHYSICS, 0.9: DEFAULT, 1.4: PHYSICS, 8.31446261815324: PHYSICS, 0.0319988: PHYSICS, 70: PHYSICS,
        32: UNIT, 1.8: UNIT, 273.15: UNIT,
    },
    "quantities/oxidation.py": {7850: DEFAULT, 55.845: PHYSICS, 31.998: PHYSICS, 3: "atoms of an oxide"},
    "quantities/pieces.py": {9: SAME},
    "quantities/plates.py": {0.05: SAME, 9: SAME},
    "quantities/rack_order.py": {9: SAME},
    "quantities/sections.py": {3: "straight sides of a section, each a start", 6: "fields of a record"},
    "quantities/typed_settings.py": {6: SAME},
    "pricing/bill_checks/arithmetic.py": {9: SAME},
    "pricing/bill_checks/credits.py": {0.005: SAME},
    "pricing/bill_checks/cylinder_ledger.py": {62: "two months before a first bill, within which its rent may begin"},
    "pricing/bill_checks/deliveries.py": {3: SAME, 0.01: SAME},
    "pricing/bill_checks/gas_lines.py": {0.001: SAME, 5e-05: SAME, 3: SAME, 5: SEARCH, 0.01: SAME, 0.005: SAME},
    "pricing/bill_checks/rental.py": {0.05: SAME},
    "pricing/bridge.py": {9: SAME},
    "pricing/comparison.py": {5: "a price far from all others is asked, not changed", 0.2: SEARCH, 0.1: SEARCH},
    "pricing/cylinder_content.py": {
        15: PHYSICS, 2.5: DEFAULT, 0.1: DEFAULT, 0.15: DEFAULT, 0.02: DEFAULT, 0.01: DEFAULT,
        3: "a heel between nothing and all: its standard uncertainty",
    },
    "pricing/demand.py": {3: STATISTICS},
    "pricing/fixed_variable.py": {6: STATISTICS, 1.482602218505602: STATISTICS, 0.95: STATISTICS},
    "pricing/fuel_work.py": {24: CELL, 6: SAME},
    "pricing/gas_balance.py": {3: STATISTICS, 0.95: STATISTICS},
    "pricing/gas_used.py": {0.29: "standard uncertainty of what lies anywhere between empty and full, 1/√12"},
    "pricing/job_card.py": {6: SAME},
    "pricing/learn.py": {4: LAYOUT},
    "pricing/log_observations.py": {0.01: STATISTICS},
    "pricing/logged_gas.py": {1.2815515655446004: STATISTICS},
    "pricing/market.py": {200: CELL, 2000: "a year without a leap day's trouble"},
    "pricing/money.py": {9: "digits that a spreadsheet keeps"},
    "pricing/own_factors.py": {
        3: LAYOUT, **dict.fromkeys((0.18, 0.14, 0.09, 0.27, 0.33, 0.54, 0.72, 0.36, 0.21), STATISTICS),
    },
    "pricing/quote_changes.py": {0.05: SAME},
    "write/quote/gaps.py": {0.1: "from what share of the lines set-up is told of; it moves nothing"},
    "pricing/quote_history.py": {0.05: SAME},
    "pricing/quote_issue.py": {8: LAYOUT, 3: LAYOUT},
    "pricing/rack/card.py": {6: SAME},
    "pricing/rack/contents.py": {
        1.005: SAME, 20: PHYSICS, 15.556: PHYSICS, 21.111: PHYSICS, 15: PHYSICS, 200: CELL,
    },
    "pricing/rack/draws.py": {0.3048: UNIT, 3: UNIT},
    "pricing/rack/gas_plan.py": {30: SEARCH},
    "pricing/rack/order.py": {3: SEARCH},
    "pricing/rack/propane.py": {15: PHYSICS},
    "pricing/rack/sets.py": {0.1: SAFETY},
    "pricing/rates.py": {0.05: SAME},
    "pricing/rent.py": {},
    "pricing/sense.py": {5: STATISTICS, 0.1: STATISTICS, 0.9: STATISTICS},
    "pricing/sharing.py": {2000: "longer lists are not priced twice"},
    "pricing/span_balance.py": {0.2886751345948129: STATISTICS},
    "pricing/turning.py": {1.05: SEARCH, 1.001: SEARCH, 0.1: SEARCH, 25: SEARCH, 3: SEARCH},
}  # fmt: skip


def files() -> list[str]:
    found = [path for part in ("quantities", "pricing") for path in sorted((PACKAGE / part).rglob("*.py"))]
    return [path.relative_to(PACKAGE).as_posix() for path in found]


def literals(file: str) -> Iterator[tuple[float, int]]:
    """Return the numbers of a file with their lines; places in a table and texts are no numbers of the model."""
    tree = ast.parse((PACKAGE / file).read_text("utf-8"))
    places = {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, (ast.Subscript, ast.JoinedStr))
        for inner in ast.walk(node.slice if isinstance(node, ast.Subscript) else node)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and type(node.value) in (int, float) and id(node) not in places:
            yield float(node.value), node.lineno


@pytest.mark.parametrize("file", files())
def test_every_number_of_physics_and_pricing_is_arithmetic_or_stands_here_with_its_reason(file: str) -> None:
    allowed = ARITHMETIC | STAYS.get(file, {}).keys() | (CALENDAR if file.startswith("pricing/") else set())
    unknown = [f"{file}:{line}: {value:g}" for value, line in literals(file) if value not in allowed]
    assert not unknown, "a judged number belongs into data/work_rates.csv: " + ", ".join(unknown)


def test_no_reason_stands_here_for_a_number_that_has_gone() -> None:
    gone = {
        (file, value)
        for file, reasons in STAYS.items()
        for value in reasons
        if value not in {found for found, _ in literals(file)}
    }
    assert not gone


def test_figures_for_callers_without_a_shop_are_those_of_the_built_in_rows() -> None:
    rates = built_in_work_rates()
    assert float(rates["orifice_coefficient"]["likely"]) == DISCHARGE_COEFFICIENT
    assert float(rates["steel_density_kg_m3"]["likely"]) == STEEL_KG_M3
    assert ReadingDoubts.of(work_rates(example_shop())) == ReadingDoubts()


def test_every_work_rate_has_a_low_a_high_and_a_status() -> None:
    for name, row in built_in_work_rates().items():
        assert float(row["low"]) <= float(row["likely"]) <= float(row["high"]), name
        assert str(row["status"]), name
