"""Problems of the rack (40x to 44x): readings that say nothing, draws that are too hard, what a plan has to assume."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "BY_PRESSURE",
    "CONTENT_UNKNOWN",
    "DRAW_CAUTION",
    "DRAW_OVER",
    "DRAW_STOP",
    "FULL_PRESSURE_MISSING",
    "MANIFOLD_UNEQUAL",
    "MORE_THAN_FULL",
    "NOT_READ",
    "NO_CYLINDERS",
    "OFF_THE_TABLE",
    "OWN_CHART_NEEDED",
    "PIPED",
    "PRESSURE_NOT_USED",
    "PROPANE_COLD",
    "ROUGH",
    "TARE_MISSING",
]

BY_PRESSURE = ProblemCode(
    "E402",
    Level.ERROR,
    "cylinder {cylinder}: the pressure of {gas} does not say what is in it",
    needs="weight now and tare, or about how full it is",
    why="acetylene is dissolved and fuel gases are liquid: their pressure follows the temperature, not the content",
    do="weigh it, or type a share as 75 % under About how full at {place}",
)
CONTENT_UNKNOWN = ProblemCode(
    "E403",
    Level.ERROR,
    "cylinder {cylinder}: nothing says what it holds when full",
    needs="a size of the Gas prices sheet in force for {gas} ({known}), or a rated content with unit and state",
    why="what is left, what stays in and the draw limit are shares of it",
    do="type the size or the rated content at {place}",
)
FULL_PRESSURE_MISSING = ProblemCode(
    "E404",
    Level.ERROR,
    "cylinder {cylinder}: the gauge is read, but nothing says its pressure when full",
    needs="the gauge pressure of a full cylinder, in bar",
    why="rated content and full pressure give its volume, and volume and gauge give what is left",
    do="type the full pressure at {place}",
)
TARE_MISSING = ProblemCode(
    "E405",
    Level.ERROR,
    "cylinder {cylinder}: it was weighed, but nothing says what it weighs without gas",
    needs="the tare as stamped, in kilograms",
    why="gas is weight over tare",
    do="type the tare at {place}",
)
NOT_READ = ProblemCode(
    "W406",
    Level.WARNING,
    "cylinder {cylinder}: no reading, so it is taken as full",
    needs="a gauge reading for oxygen, weight and tare for fuel gas, or about how full it is",
    why="a plan on a cylinder that is not full runs short",
    do="read it and type the reading at {place}",
    concern=Concern.TAKEN,
)
ROUGH = ProblemCode(
    "N407",
    Level.NOTE,
    "cylinder {cylinder}: about how full is a rough figure",
    needs="a gauge reading for oxygen, weight and tare for fuel gas",
    why="it is counted with ± {spread}",
    do="weigh or gauge it where the job is close",
)
MORE_THAN_FULL = ProblemCode(
    "W408",
    Level.WARNING,
    "cylinder {cylinder}: the reading gives more than a full cylinder",
    needs="at most {rated}, its rated content; {taken} is taken",
    why="a wrong tare, size, state or temperature gives too much",
    do="check the row at {place}",
    concern=Concern.TAKEN,
)
MANIFOLD_UNEQUAL = ProblemCode(
    "W409",
    Level.WARNING,
    "manifold {manifold}: its cylinders differ in size or fill",
    needs="cylinders of one size and about one fill on an acetylene manifold",
    why="the fuller one empties into the other, and the draw does not share evenly",
    do="put like with like, as the supplier says",
    concern=Concern.SAFETY,
)
PRESSURE_NOT_USED = ProblemCode(
    "N410",
    Level.NOTE,
    "cylinder {cylinder}: its pressure is not used",
    why="{gas} is weighed; a cylinder's own pressure is no working pressure and has no 15 psi limit",
    concern=Concern.FORM,
)
OFF_THE_TABLE = ProblemCode(
    "E411",
    Level.ERROR,
    "cylinder {cylinder}: the reading lies outside the table of oxygen density",
    needs="gauge and full pressure from {pressures} bar, temperature from {temperatures} °C",
    why="a table is never extended beyond its rows",
    do="check gauge, full pressure and temperature at {place}",
)
NO_CYLINDERS = ProblemCode(
    "W412",
    Level.WARNING,
    "the rack holds no cylinder of {gas}",
    needs="a row on the Rack sheet for each cylinder that you have now",
    why="the plan starts from nothing and orders all of it",
    do="fill in the Rack sheet of the shop book",
    concern=Concern.MISSING,
)
PIPED = ProblemCode(
    "N413",
    Level.NOTE,
    "{gas} comes by pipe: there is no cylinder to run dry",
    needs="a meter, pipe and regulator that pass {draw} m³/h with all torches lit",
    why="what the meter passes is not known here",
    do="ask the gas company, and read the torch's manual for the pressure",
    concern=Concern.FORM,
)
OWN_CHART_NEEDED = ProblemCode(
    "E415",
    Level.ERROR,
    "there is no built-in chart for {gas}",
    needs="tips for {gas} on the Tips sheet, and their rows on the Own chart sheet: speed, fuel flow, kerf",
    why="no published chart for it was found, and another fuel's would be a guess",
    do="type your torch manual's rows, or take another fuel",
)
DRAW_STOP = ProblemCode(
    "E420",
    Level.ERROR,
    "STOP: tip {tip} pulls harder than this rack may give acetylene",
    needs="at most {limit}; or full cylinders of {size}: {counts}",
    why="pulled too hard, liquid acetone follows the gas: the flame fails, hoses rot, fire can run back",
    do="do not light it on this rack. First a smaller tip, propane or another fuel, or a larger cylinder. "
    "Otherwise an acetylene manifold approved by the supplier: same size and fill, a non-return valve on each leg, "
    "never tees, never plain copper",
)
DRAW_OVER = ProblemCode(
    "W421",
    Level.WARNING,
    "tip {tip} pulls harder than the stricter rule allows",
    needs="at most {limit}; or full cylinders of {size}: {counts}",
    why="pulled too hard, liquid acetone follows the gas",
    do="a smaller tip, shorter heats with breaks of five minutes, propane or a larger cylinder; or an acetylene "
    "manifold approved by the supplier, never tees, never plain copper",
    concern=Concern.SAFETY,
)
DRAW_CAUTION = ProblemCode(
    "N422",
    Level.NOTE,
    "tip {tip}: within the limit of a full cylinder, above that of what is left in {cylinder}",
    needs="at most {limit}",
    why="the limit of cutting and welding tips is counted on the rated content; a low cylinder asks for care",
    do="use the fullest cylinder for the largest tip",
    concern=Concern.SAFETY,
)
PROPANE_COLD = ProblemCode(
    "W423",
    Level.WARNING,
    "tip {tip} may draw {gas} faster than cylinder {cylinder} evaporates it",
    needs="{draw} kg/h asked; about {low} to {high} kg/h in steady use at {air} °C and its present fill; advisory",
    why="the liquid cools, the pressure falls and the flame starves; frost on the cylinder shows it",
    do="ask the supplier: a larger or a fuller cylinder, or two on a manifold made for propane",
    concern=Concern.SAFETY,
)
