"""Cylinder tags: the day a cylinder went on the torch, the day it came off, and the jobs between.

One full cylinder of a known size over known jobs is the best measurement a small shop can make.
"""

from __future__ import annotations

from estimator.sheets.choices import GASES
from estimator.sheets.statement import Column, Kind, Sheet
from estimator.sheets.work_log import READING, WORK_LOG

__all__ = ["CYLINDER_TAGS", "LOG_SHEETS"]

CYLINDER_TAGS = Sheet(
    name="Cylinder tags",
    purpose="One row for each cylinder that stood on a torch: the day it went on, the day it came off.",
    columns=(
        Column(
            "cylinder",
            "Cylinder",
            Kind.TEXT,
            "the number stamped on the cylinder or chalked on its tag, or blank",
            "the same cylinder is found again on the next row or the delivery note",
            "O-17",
            wordings=("cylinder no", "bottle", "serial", "tag"),
        ),
        Column(
            "gas",
            "Gas",
            Kind.CHOICE,
            "one of: " + ", ".join(GASES),
            "each gas is balanced by itself",
            "oxygen",
            required=True,
            choices=GASES,
        ),
        Column(
            "size",
            "Size",
            Kind.TEXT,
            "the cylinder's size as the shop book or the agreed prices name it",
            "a full cylinder of a known size is a known amount of gas",
            "50 L",
            required=True,
            wordings=("cylinder size",),
        ),
        Column(
            "date_on",
            "Date on",
            Kind.DATE,
            "the day it was put on the torch",
            "jobs logged from this day on were worked from it",
            "2025-03-03",
            required=True,
            wordings=("on",),
        ),
        Column(
            "date_off",
            "Date off",
            Kind.DATE,
            "the day it was taken off; blank while it is still on",
            "the span ends here",
            "2025-03-14",
            wordings=("off",),
        ),
        Column(
            "reading_on",
            "Reading on",
            Kind.TEXT,
            READING + "; blank for full",
            "what was in it at the start",
            "200 bar",
            default="full",
            wordings=("gauge on", "weight on"),
        ),
        Column(
            "reading_off",
            "Reading off",
            Kind.TEXT,
            READING + "; blank for run down to what is left in the bottle",
            "what was in it at the end",
            "8 bar",
            wordings=("gauge off", "weight off"),
        ),
        Column(
            "jobs",
            "Jobs between",
            Kind.TEXT,
            "the jobs worked from it, with commas between; blank for every job logged in its days",
            "its gas belongs to these jobs",
            "J-104, J-107",
        ),
        Column("note", "Note", Kind.TEXT, "anything worth keeping", "a leaking valve explains a short span", ""),
    ),
    required=False,
)

LOG_SHEETS = (WORK_LOG, CYLINDER_TAGS)
"""The sheets of the work log's workbook."""
