"""Problems of the shop book as a whole; single cells are read and refused as those of every own sheet."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

MARKUP_AND_MARGIN = ProblemCode(
    "E301",
    Level.ERROR,
    "both a markup and a margin are typed",
    needs="one of the two",
    why="they are different ways to the same price",
    do="clear one of them in the Shop sheet",
)
NO_PRICE_RULE = ProblemCode(
    "W302",
    Level.WARNING,
    "neither markup nor margin is typed: the price is the cost",
    needs="a markup on cost or a margin of price",
    why="the shop would earn nothing beyond its overhead",
    do="type Markup on cost on the first sheet, or one of the two on the sheet Shop",
    concern=Concern.MISSING,
)
UNKNOWN_WORK_RATE = ProblemCode(
    "E303",
    Level.ERROR,
    "the work rate is not known",
    needs="one of the engine's names; the nearest is {nearest}",
    why="a misspelt name would leave the built-in value in force unseen",
    do="type that name at {place}",
)
RANGE_TURNED = ProblemCode(
    "E304",
    Level.ERROR,
    "the upper end is not above the lower end",
    needs="a range that rises",
    why="tip choice and interpolation need it",
    do="correct the row at {place}",
)
NAMED_TWICE = ProblemCode(
    "E305",
    Level.ERROR,
    "the name stands twice",
    needs="one row for each name",
    why="one of the two would be used unseen",
    do="rename or remove the row at {place}",
)
STATE_MISSING = ProblemCode(
    "W306",
    Level.WARNING,
    "a gas volume does not say its temperature and pressure: {state} is taken",
    needs="temperature and pressure of the volume (its reference state), as 15 °C, 1 bar or 70 °F, 1 atm",
    why="the same volume at another temperature or pressure is 0.4 to 7 % of other gas",
    do="nothing when that is right; else {how} {place}, from the supplier's price list",
    concern=Concern.FORM,
)
LIQUEFIED_BY_VOLUME = ProblemCode(
    "W311",
    Level.WARNING,
    "a bottle of {gas} is given by volume: {content} of its gas weighs {mass}",
    needs="what a full bottle holds; {gas} is a liquid in its bottle and is mostly sold by weight",
    why="a weight read as a volume makes the gas many times as dear",
    do="nothing when that is right; else correct {place} or the unit beside it, as kg or lb",
    concern=Concern.TAKEN,
)
LIQUID_LITRES = ProblemCode(
    "W312",
    Level.WARNING,
    "litres of {gas} are taken as liquid at 15 °C: {mass}",
    needs="what a full bottle holds, by weight",
    why="a litre of liquid is some 270 litres of gas",
    do="nothing when that is right; else type the weight in {place}, in kg or lb",
    concern=Concern.TAKEN,
)
HOURS_TAKEN = ProblemCode(
    "W316",
    Level.WARNING,
    "the hours of burning a month are not typed: {hours} are taken",
    needs="roughly how many hours of a usual month the torch is lit",
    why="bottle rental is shared over them",
    do="type yours in {place}; a quarter of the hours worked is usual",
    concern=Concern.FORM,
)
TIPS_LENT = ProblemCode(
    "W313",
    Level.WARNING,
    "no tip on hand is for {fuel}: the bores and oxygen pressures of those for {lender} stand in",
    needs="your tips for {fuel} on the sheet Tips, with the figures of the torch's own manual",
    why="speed and flow of {fuel} are the built-in chart's, from memory or judgement; no pressure of {fuel} is known",
    do="price with them for now; then choose {fuel} under Fuel in {rows} of Tips and type your own tips' figures",
    concern=Concern.TAKEN,
)
NO_TIP_FOR_FUEL = ProblemCode(
    "E314",
    Level.ERROR,
    "no tip on hand is for {fuel}",
    needs="a tip for {fuel} on the sheet Tips, with the figures of the torch's own manual",
    why="{why}",
    do="{mend}; or correct Fuel gas on the first sheet",
)
BUILT_IN_OF_OTHER_FUEL = ProblemCode(
    "W315",
    Level.WARNING,
    "the tip is for {fuel}, and its row still says that its figures are built-in, which are an acetylene tip's",
    needs="the figures of the tip's own manual: range, oxygen pressure, fuel pressure",
    why="a pressure for acetylene is not one for {fuel}, and is left out; flows and speed are the built-in chart's",
    do="price with them for now; then type your tip's figures over, and where they are from under Status",
    concern=Concern.TAKEN,
)
TYPED_TWICE = ProblemCode(
    "E309",
    Level.ERROR,
    "{heading} is typed here and, otherwise, at {other}",
    needs="one of the two",
    why="one of them would be used unseen",
    do="clear the cell at {place}, or the other",
)
TWO_BOTTLES = ProblemCode(
    "E310",
    Level.ERROR,
    "a bottle of {gas} is in use from {date}, and so is the one of the first sheet",
    needs="one size in use, or a later day for the newer",
    why="jobs are costed with one size of a gas",
    do="type no under In use at {place}, or a later day; or clear that bottle on the first sheet",
)
OWN_CHART_TIP = ProblemCode(
    "E307",
    Level.ERROR,
    "the chart names a tip that the Tips sheet does not have",
    needs="a tip of the Tips sheet: {known}",
    why="the curve belongs to a tip",
    do="correct the name at {place}, or add the tip",
)
FACTOR_TIP = ProblemCode(
    "E308",
    Level.ERROR,
    "the factor names a tip that the shop book does not have",
    needs="a tip of the shop book, or a blank for all: {known}",
    why="the factor would change nothing, unseen",
    do="correct the name at {place}",
)
ACETYLENE_PRESSURE = ProblemCode(
    "E401",
    Level.ERROR,
    "acetylene is set above 15 psi (103 kPa) gauge",
    needs="a delivery or working pressure of acetylene of at most 103.42 kPa (1.034 bar, 15 psi) gauge",
    why="free acetylene above that pressure can decompose by itself and explode (29 CFR 1910.253; CGA G-1)",
    do="correct the pressure at {place}; if the tip asks for more, use another tip or fuel",
)
