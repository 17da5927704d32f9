"""The steps from a line's readings to its price: words, figures that go in, the answer's column, and the source."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["STEPS", "Figure", "Step", "words_in_feet"]


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a step: a column of the line, a named cell, or a column of the line's setting."""

    what: str
    source: str
    """``[name]`` for a column of the lines, ``tip:name`` for a column of the settings sheet, else a named cell."""
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One step."""

    title: str
    formula: str
    """In words."""
    figures: tuple[Figure, ...]
    answer: str
    """Column of the answer; the step is left out where it has none."""
    unit: str
    source: str


_IN_FEET = (
    ("Metres", "Feet"),
    ("metres x 1000", "feet x 12"),
    ("metres", "feet"),
    ("jet is on ÷ 60", "jet is on ÷ 60 x 1.02, from 59 to 70 °F"),
    ("minutes lit ÷ 60", "minutes lit ÷ 60 x 1.02, from 59 to 70 °F"),
)


def words_in_feet(text: str) -> str:
    """Return a title or a formula in words as a shop that works in feet reads it.

    Parameters
    ----------
    text : str
        Title or formula of a step.

    Returns
    -------
    str

    Notes
    -----
    Flows are at 59 °F, volumes at 70 °F, as gas is sold: 294.26 K ÷ 288.15 K = 1.02. Source: definition.

    Examples
    --------
    >>> words_in_feet("metres x 1000 ÷ speed")
    'feet x 12 ÷ speed'
    """
    for metric, feet in _IN_FEET:
        text = text.replace(metric, feet)
    return text


_METHOD = "definition of the method"
_CHART = "shop's chart, else built-in chart: status on Rates and Tip settings"

STEPS = (
    Step(
        "Metres cut",
        "passes x metres of a pass, and what a row of shared cuts adds once",
        (
            Figure("Quantity", "[quantity]", "pieces"),
            Figure("Passes", "[passes]"),
            Figure("Long cuts of a pass", "[long_m_each]", "m"),
            Figure("Short cuts of a pass", "[short_m_each]", "m"),
            Figure("Circles of a pass", "[circle_m_each]", "m"),
            Figure("Once, long", "[once_long_m]", "m"),
            Figure("Once, short", "[once_short_m]", "m"),
        ),
        "cut_m",
        "m",
        "geometry of the piece",
    ),
    Step(
        "Cutting",
        "metres x 1000 ÷ speed; short cuts and circles by hand are slower; two torches halve it",
        (
            Figure("Speed of a long run", "[speed]", "mm/min"),
            Figure("Short cuts by hand", "short_straight_speed", "x speed"),
            Figure("Circles by hand", "circle_speed", "x speed"),
            Figure("Torches", "[torches]"),
        ),
        "cut_time_min",
        "min",
        _CHART,
    ),
    Step(
        "Starts",
        "pierces x pierce time + edge starts x preheat, each x surface and fuel",
        (
            Figure("Pierces of a pass", "[pierces_each]"),
            Figure("Pierce by chart", "tip:pierce_s", "s"),
            Figure("By hand", "pierce_time_hand", "x"),
            Figure("Edge starts of a pass", "[edge_starts_each]"),
            Figure("Fresh starts of a pass", "[restarts_each]"),
            Figure("Edge start", "tip:edge_start_s", "s"),
            Figure("Fuel and own factor", "tip:start_factor", "x"),
        ),
        "start_time_min",
        "min",
        _CHART,
    ),
    Step(
        "Moves with the flame lit",
        "starts x minutes of a move; where a straightedge or a track is set, the lit share of setting it",
        (
            Figure("Move to the next start", "move_min", "min"),
            Figure("Straightedge settings of a pass", "[set_starts_each]"),
            Figure("Setting a straightedge", "straightedge_min", "min"),
            Figure("Of that with the flame lit", "straightedge_lit_share"),
            Figure("Track runs of a pass", "[runs_each]"),
            Figure("Setting a track", "track_run_min", "min"),
            Figure("Of that with the flame lit", "track_lit_share"),
        ),
        "move_time_min",
        "min",
        _METHOD,
    ),
    Step(
        "Flame lit",
        "cutting + bevel pass + starts + moves + heating",
        (
            Figure("Cutting", "[cut_time_min]", "min"),
            Figure("Bevel pass", "[bevel_time_min]", "min"),
            Figure("Starts", "[start_time_min]", "min"),
            Figure("Moves", "[move_time_min]", "min"),
            Figure("Heating and bending", "[flame_work_min]", "min"),
        ),
        "flame_time_min",
        "min",
        _METHOD,
    ),
    Step(
        "Man-minutes",
        "(flame + guides + layout + handling + helper + slag + grinding + clamping) x (1 + rest), and what takes none",
        (
            Figure("Flame lit", "[flame_time_min]", "min"),
            Figure("Setting guides", "[setting_time_min]", "min"),
            Figure("Layout", "[layout_min]", "min"),
            Figure("Handling", "[handling_min]", "min"),
            Figure("Helper", "[helper_min]", "min"),
            Figure("Slag off", "[cleaning_min]", "min"),
            Figure("Grinding", "[grinding_min]", "min"),
            Figure("Clamping", "[clamp_min]", "min"),
            Figure("Rest allowance", "rest_allowance"),
            Figure("Drilling, without rest", "[drilling_min]", "min"),
            Figure("Other work", "[other_work_min]", "min"),
            Figure("Cooling wait, without rest", "[wait_min]", "min"),
        ),
        "worked_min",
        "min",
        "work rates: status on Rates",
    ),
    Step(
        "Man-minutes that hold",
        "your own where you typed them, else those worked out",
        (Figure("My minutes", "[my_minutes]", "min"), Figure("Worked out", "[worked_min]", "min")),
        "paid_time_min",
        "min",
        _METHOD,
    ),
    Step(
        "Cutting oxygen",
        "flow with the lever down x minutes the jet is on ÷ 60",
        (
            Figure("Flow with the lever down", "tip:cutting_m3_h", "m³/h"),
            Figure("Cutting oxygen on", "[jet_time_min]", "min"),
        ),
        "cutting_oxygen_m3",
        "m³",
        "choked flow of the bore, or the chart's own flow",
    ),
    Step(
        "Preheat oxygen",
        "flow of the flame x minutes lit ÷ 60",
        (Figure("Flow", "tip:preheat_m3_h", "m³/h"), Figure("Flame lit", "[flame_time_min]", "min")),
        "preheat_oxygen_m3",
        "m³",
        _CHART,
    ),
    Step(
        "Fuel",
        "flow of the flame x minutes lit ÷ 60",
        (Figure("Flow", "tip:fuel_m3_h", "m³/h"), Figure("Flame lit", "[flame_time_min]", "min")),
        "fuel_m3",
        "m³",
        _CHART,
    ),
    Step(
        "Gas",
        "oxygen x its cost + fuel x its cost, gas lost with it",
        (
            Figure("Oxygen lost", "[lost_oxygen_m3]", "m³"),
            Figure("Fuel lost", "[lost_fuel_m3]", "m³"),
            Figure("Cost of oxygen", "oxygen_cost_per_m3", "per m³"),
            Figure("Cost of fuel", "fuel_cost_per_m3", "per m³"),
        ),
        "gas_exact",
        "money",
        "gas prices of the shop book",
    ),
    Step(
        "Labour",
        "man-minutes ÷ 60 x rate",
        (Figure("Man-minutes", "[paid_time_min]", "min"), Figure("Rate", "[per_hour]", "per h")),
        "labour_exact",
        "money",
        "labour rates of the shop book",
    ),
    Step(
        "Cost that is priced",
        "gas + labour + tips + rental + steel + add-ons + overhead, before rounding",
        (
            Figure("Gas", "[gas_exact]"),
            Figure("Labour", "[labour_exact]"),
            Figure("Tips and consumables", "[consumables_exact]"),
            Figure("Cylinder rental", "[rent_exact]"),
            Figure("Steel", "[steel_exact]"),
            Figure("Add-ons", "[add_on_exact]"),
            Figure("Overhead", "[overhead_exact]"),
        ),
        "priced_cost_exact",
        "money",
        _METHOD,
    ),
    Step(
        "Price each",
        "cost x price over cost ÷ quantity, rounded, then up to the step; your own where you typed it",
        (
            Figure("Price over cost", "price_over_cost", "x"),
            Figure("Quantity", "[quantity]", "pieces"),
            Figure("Step", "price_step"),
            Figure("My price each", "[my_price_each]"),
        ),
        "price_each",
        "money",
        "markup or margin of the shop book",
    ),
    Step(
        "Price of the line",
        "price each x quantity, at least the minimum per line",
        (Figure("Amount", "[amount]"), Figure("Minimum per line", "minimum_line")),
        "price",
        "money",
        _METHOD,
    ),
)
