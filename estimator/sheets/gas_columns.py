"""Columns that say how much gas a cylinder holds: the unit, and the state at which the amount is stated."""

from __future__ import annotations

from estimator.sheets.choices import GAS_STATES, GAS_UNIT_WORDS
from estimator.sheets.statement import Column, Kind

__all__ = ["CONTENT_STATE", "content_unit_column"]

CONTENT_STATE = Column(
    "content_state",
    "At",
    Kind.CHOICE,
    "temperature and pressure of the volume; blank for kg and lb",
    "mixing states costs 0.4 to 7 %",
    "15 °C, 1 bar",
    choices=GAS_STATES,
)


def content_unit_column(*, required: bool) -> Column:
    """Return the column of the unit that a cylinder's content is in."""
    return Column(
        "content_unit",
        "Unit",
        Kind.CHOICE,
        "m3, ft3, kg, lb, Nm3 or L",
        "mixing units costs 0.4 to 7 %",
        "m3",
        choices=GAS_UNIT_WORDS,
        required=required,
    )
