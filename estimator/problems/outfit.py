"""Problems of the outfit (45x): what does not fit together by the shop book's own words. Notes, never permissions."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "CONNECTION_DIFFERS",
    "CYLINDER_PRESSURE_OVER",
    "FLOW_OVER",
    "MADE_FOR_OTHER_GAS",
    "NOT_STATED",
    "PART_MISSING",
    "PRESSURE_OVER",
    "PROTECTION_MISSING",
    "THREAD_DIFFERS",
    "TIP_WITHOUT_FUEL",
]

_ASK = "ask the supplier and read the manuals; they decide, and this list permits nothing"

CONNECTION_DIFFERS = ProblemCode(
    "W450",
    Level.WARNING,
    fact="the outlet of {before} and the inlet of {after} have different names: {outlet} meets {inlet}",
    needs="the same connection on both",
    why="what does not join directly needs a part that its maker approves for the gas, or another regulator or hose",
    do=_ASK,
    concern=Concern.SAFETY,
)
THREAD_DIFFERS = ProblemCode(
    "W451",
    Level.WARNING,
    fact="the threads of {before} and {after} turn opposite ways: {outlet} meets {inlet}",
    needs="the same hand on both",
    why="threads of fuel and oxygen turn opposite ways so that they cannot be joined by mistake",
    do=_ASK,
    concern=Concern.SAFETY,
)
PRESSURE_OVER = ProblemCode(
    "W452",
    Level.WARNING,
    fact="tip {tip} needs {needed} bar of {gas}, and {part} holds up to {most} bar",
    needs="a regulator and hose whose stated range covers the tip",
    why="the pressure cannot be set, or the part is over its rating",
    do=_ASK,
    concern=Concern.SAFETY,
)
CYLINDER_PRESSURE_OVER = ProblemCode(
    "W453",
    Level.WARNING,
    fact="a full cylinder of {gas} holds {full} bar, and the inlet of {part} takes {most} bar",
    needs="a regulator whose inlet is rated for the full cylinder",
    why="a regulator over its inlet pressure can burst",
    do="do not put it on; " + _ASK,
    concern=Concern.SAFETY,
)
PROTECTION_MISSING = ProblemCode(
    "W454",
    Level.WARNING,
    fact="cart {outfit}: no {part} is stated in the {gas} line",
    needs="one in each line of each torch, where the rules and the manuals ask for it",
    why="gas or flame can run back into a hose and a cylinder",
    do="fit one that is made for the gas, or state it on the outfit sheet; " + _ASK,
    concern=Concern.SAFETY,
)
MADE_FOR_OTHER_GAS = ProblemCode(
    "W455",
    Level.WARNING,
    fact="{part} stands in the {gas} line and is marked for {made_for}",
    needs="a part that is marked for {gas}",
    why="hoses, seals and arrestors for one gas may fail with another",
    do="do not use it there; " + _ASK,
    concern=Concern.SAFETY,
)
TIP_WITHOUT_FUEL = ProblemCode(
    "W456",
    Level.WARNING,
    fact="tip {tip} is for {fuel}, and no torch of the outfit is stated for {fuel}",
    needs="a torch, regulator and hose for that fuel, or a tip for the fuel there is",
    why="tips are made for one kind of fuel",
    do=_ASK,
    concern=Concern.SAFETY,
)
FLOW_OVER = ProblemCode(
    "W457",
    Level.WARNING,
    fact="tip {tip} draws {needed} m³/h of {gas}, and {part} passes up to {most} m³/h",
    needs="a part whose stated flow covers the tip, at 15 °C and 101.325 kPa",
    why="a starved tip overheats and backfires",
    do="take a smaller tip; " + _ASK,
    concern=Concern.SAFETY,
)
PART_MISSING = ProblemCode(
    "N458",
    Level.NOTE,
    fact="cart {outfit}: no {part} is stated for {gas}",
    needs="a row for each thing in the line",
    why="what is not stated was not checked",
    do="add it to the outfit sheet",
    concern=Concern.FORM,
)
NOT_STATED = ProblemCode(
    "N459",
    Level.NOTE,
    fact="{before} and {after}: a connection or a thread is blank",
    needs="both ends as stamped",
    why="what is not stated was not checked",
    do="fill the blank cells of the outfit sheets",
    concern=Concern.FORM,
)
