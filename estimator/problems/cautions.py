"""Cautions on single lines (46x): words of a list that ask for more care than a price. Each is common practice."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = ["CAST_IRON", "CLOSED", "COATED", "HARDENS", "LIFTING", "PRESSURE", "THEIRS", "UNKNOWN_STEEL"]

LIFTING = ProblemCode(
    "W460",
    Level.WARNING,
    fact="{mark} reads like a part for lifting ({word})",
    why="a burnt hole or edge is tapered, hard and notched, and a lifting part carries people's lives",
    do="priced as a rough blank only, not as finished by flame: bored and dressed by others, by its drawing",
    concern=Concern.SAFETY,
)
PRESSURE = ProblemCode(
    "W461",
    Level.WARNING,
    fact="{mark} reads like a part under pressure ({word})",
    why="pressure parts are made to a code, by firms that are approved for it",
    do="priced as a rough blank only, not as finished by flame: ask which code and who is approved",
    concern=Concern.SAFETY,
)
CAST_IRON = ProblemCode(
    "W462",
    Level.WARNING,
    fact="{mark} reads like cast iron ({word})",
    why="cast iron does not burn away as steel does, and it cracks; chart speeds do not hold",
    do="ask what it is, or have it cut another way",
    concern=Concern.SAFETY,
)
UNKNOWN_STEEL = ProblemCode(
    "W463",
    Level.WARNING,
    fact="{mark}: the steel is not known ({word})",
    why="unknown plate may be hard, coated or not steel: hard edges, lost tips, fume",
    do="try a spark, a file and a short cut first, and say on the quote that the grade is at the customer's risk",
    concern=Concern.SAFETY,
)
HARDENS = ProblemCode(
    "W464",
    Level.WARNING,
    fact="{mark} reads like steel that hardens at a cut edge ({word})",
    why="over about 0.3 % carbon, or quenched, the edge turns hard and may crack, now or after a day",
    do="ask the steel maker's sheet about preheat and slow cooling, and price it as other work",
    concern=Concern.SAFETY,
)
COATED = ProblemCode(
    "W465",
    Level.WARNING,
    fact="{mark} reads like coated steel ({word})",
    why="zinc, lead, cadmium and chromium give off poisonous fume",
    do="strip back 100 mm along the cut, extract the fume and price the stripping as a line of its own",
    concern=Concern.SAFETY,
)
CLOSED = ProblemCode(
    "W466",
    Level.WARNING,
    fact="{mark} may be closed, hollow or dirty inside ({word})",
    why="closed rams, struts, tyres, tanks and drums burst or explode under a flame, long after they were emptied",
    do="do not cut it until a competent person has opened, cleaned and vented it and says so in writing",
    concern=Concern.SAFETY,
)
THEIRS = ProblemCode(
    "N467",
    Level.NOTE,
    fact="{mark} is cut from the customer's own steel and no grade is given",
    why="inspection, stripping and straightening take time, and hard plate costs tips",
    do="ask for the grade, or say on the quote that the material is at the customer's risk; inspection, stripping and "
    "straightening are not priced: type each as a row with other under Work and its time under Minutes each",
    concern=Concern.TAKEN,
)
