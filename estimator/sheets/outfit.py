"""The outfit sheets of the shop book: what is on the cart, as it is stamped, and the outlets of the cylinders.

Nothing here knows a standard connection: the shop types what is stamped, and only that is compared.
"""

from __future__ import annotations

from estimator.sheets.choices import GASES
from estimator.sheets.statement import Column, Kind, Sheet

__all__ = ["CYLINDER_OUTLETS", "OUTFIT", "OUTFIT_ITEMS"]

OUTFIT_ITEMS = ("torch", "cutting attachment", "regulator", "hose", "check valve", "flashback arrestor")
_HANDS = ("right", "left")
_STAMPED = "the connection as it is stamped, or blank"
_HAND = "right or left, or blank"

OUTFIT = Sheet(
    name="Outfit",
    purpose="What is on the cart, one row each, as stamped on the thing itself or printed in its manual.",
    required=False,
    columns=(
        Column(
            "item",
            "What",
            Kind.CHOICE,
            "torch, cutting attachment, regulator, hose, check valve or flashback arrestor",
            "says what it is joined to",
            "regulator",
            required=True,
            choices=OUTFIT_ITEMS,
        ),
        Column("name", "Name", Kind.TEXT, "your name for it", "problems name it", "oxygen regulator", required=True),
        Column(
            "outfit",
            "On cart",
            Kind.TEXT,
            "the cart or torch it belongs to, where there are several",
            "things are joined within one cart",
            "1",
            default="1",
        ),
        Column(
            "gas",
            "Gas",
            Kind.CHOICE,
            "oxygen or a fuel; for a torch its fuel",
            "says which line it stands in",
            "oxygen",
            required=True,
            choices=GASES,
        ),
        Column(
            "made_for",
            "Made for",
            Kind.TEXT,
            "the gases it is marked for, with commas between, or blank",
            "a hose of the wrong grade or an arrestor for another gas is found",
            "oxygen",
        ),
        Column("inlet", "Inlet", Kind.TEXT, _STAMPED, "compared with the outlet before it", "A-3/4"),
        Column("inlet_thread", "Inlet thread", Kind.CHOICE, _HAND, "compared with it", "right", choices=_HANDS),
        Column("outlet", "Outlet", Kind.TEXT, _STAMPED, "compared with the inlet after it", "B-9/16"),
        Column("outlet_thread", "Outlet thread", Kind.CHOICE, _HAND, "compared with it", "right", choices=_HANDS),
        Column(
            "oxygen_inlet", "Oxygen inlet", Kind.TEXT, "a torch's inlet for oxygen, as stamped", "compared", "B-9/16"
        ),
        Column("oxygen_thread", "Oxygen thread", Kind.CHOICE, _HAND, "compared with it", "right", choices=_HANDS),
        Column(
            "most_bar",
            "Most working pressure",
            Kind.NUMBER,
            "gauge pressure: the regulator's highest setting or the hose's rating, or blank",
            "a tip that needs more cannot be set",
            "10",
            unit="bar",
            low=0.01,
            high=100,
        ),
        Column(
            "most_cylinder_bar",
            "Most cylinder pressure",
            Kind.NUMBER,
            "gauge pressure that the regulator's inlet takes, or blank",
            "a fuller cylinder must not be put on it",
            "230",
            unit="bar",
            low=0.1,
            high=1_000,
        ),
        Column(
            "most_m3_h",
            "Most flow",
            Kind.NUMBER,
            "m³/h at 15 °C and 101.325 kPa, or blank",
            "a tip that draws more is starved",
            "30",
            unit="m³/h",
            low=0.001,
            high=1_000,
        ),
        Column("grade", "Grade", Kind.TEXT, "a hose's grade as printed on it", "shown on the card", ""),
        Column(
            "length_m", "Length", Kind.LENGTH_M, "a hose's length", "pressure falls along it", "15", unit="m", low=0.1
        ),
        Column(
            "fitted_at",
            "Fitted at",
            Kind.CHOICE,
            "torch, regulator or both",
            "where a valve or an arrestor stands",
            "regulator",
            choices=("torch", "regulator", "both"),
        ),
        Column(
            "mixer",
            "Mixing",
            Kind.CHOICE,
            "injector or equal pressure, for a torch",
            "the two are tested and set differently: the torch's manual says how",
            "injector",
            choices=("injector", "equal pressure"),
        ),
        Column("note", "Note", Kind.TEXT, "anything worth keeping", "carried to the card", ""),
    ),
)

CYLINDER_OUTLETS = Sheet(
    name="Cylinder outlets",
    purpose="One row for each kind of cylinder you get: the outlet of its valve, as stamped or as the supplier says.",
    required=False,
    columns=(
        Column("gas", "Gas", Kind.CHOICE, "oxygen or a fuel", "which line", "oxygen", required=True, choices=GASES),
        Column("cylinder", "Size", Kind.TEXT, "a size of the gas prices sheet, or blank for all", "which one", "O-10"),
        Column("outlet", "Outlet", Kind.TEXT, _STAMPED, "compared with the regulator's inlet", "A-3/4", required=True),
        Column("outlet_thread", "Outlet thread", Kind.CHOICE, _HAND, "compared with it", "right", choices=_HANDS),
        Column(
            "full_bar",
            "Full pressure",
            Kind.NUMBER,
            "gauge pressure when full, or blank",
            "compared with the regulator's inlet",
            "200",
            unit="bar",
            low=0.1,
            high=400,
        ),
    ),
)
