"""One line worked step by step: the formula, the figures put in, the answer and where they come from.

The same steps serve the terminal, the workbook's sheet and the docs.
"""

from __future__ import annotations

import numpy as np

from estimator import reference
from estimator.check.cut_list import CutList
from estimator.check.torch_kit import built_in_work_rates
from estimator.plain_words import line_words
from estimator.pricing.explain_money import gas_steps, money_steps
from estimator.pricing.explain_step import Step, plain, rate_status
from estimator.pricing.job import Estimate
from estimator.quantities.flame_minutes import heating_time_min
from estimator.rate_units import inch_rate_unit
from estimator.shown_units import INCH, ShownUnits, shown_units
from estimator.words import Shape, Work

__all__ = ["Step", "explain_line", "line_sentence"]

_CHOKED = "0.605 x bore area x (pressure + 1.013), brought to 15 °C, x own factor"
_CHOKED_INCH = "choked flow of the bore at pressure + 14.7 psi, brought to 59 °F, x own factor"


def explain_line(estimate: Estimate, line: int) -> list[Step]:
    """Return the working of one line.

    Parameters
    ----------
    estimate : Estimate
        A priced job.
    line : int
        Index of the line, from 0.

    Returns
    -------
    list of Step
        From thickness to price; steps that count nothing are left out.
    """
    steps = [*_torch_steps(estimate, line), *_time_steps(estimate, line), *gas_steps(estimate, line)]
    return [*steps, *money_steps(estimate, line)]


def line_sentence(estimate: Estimate, line: int) -> str:
    """Return a sentence that can be read to a customer: paid minutes for each piece, by what they go on."""
    q = float(estimate.cuts.quantity[line])
    name = (
        estimate.cuts.description[line] or estimate.cuts.mark[line] or f"pieces of row {int(estimate.cuts.row[line])}"
    )
    mine = float(estimate.my_minutes[line])
    if not np.isnan(mine):
        return line_words(q, name, [("by our own count", mine / q)])
    return line_words(q, name, [(what, minutes / q) for what, minutes in _told(estimate, line) if minutes > 0])


def _told(estimate: Estimate, line: int) -> list[tuple[str, float]]:
    """Return what the paid minutes of a line go on, in the order of the work, in words of the shop floor."""
    x, cuts = estimate.job.lines, estimate.cuts
    work = Work(max(int(cuts.work[line]), 0))
    drilled = float(x.metres.drilled_holes_each[line])
    parts = [
        ("mark", x.layout_min),
        ("mark, place and move on", x.norm_min),
        ("clamp", x.clamp_min),
        ("cut" if work is Work.CUT else work.word, x.flame_time_min + x.setting_time_min),
        ("clean", x.cleaning_min),
        ("grind", x.grinding_min),
        (f"drill {drilled:g} hole{'s' if drilled != 1 else ''}" if drilled else "drill", x.drilling_min),
        ("lift with a helper" if x.helper_min[line] > 0 else "handle", x.handling_min + x.helper_min),
        (cuts.other_work[line] or "other work", x.other_work_min),
        ("wait for it to cool", x.wait_min),
    ]
    said = [(what, float(minutes[line])) for what, minutes in parts]
    breaks = float(x.paid_time_min[line]) - sum(minutes for _, minutes in said)
    return [*said, ("breaks", breaks)]


def _torch_steps(e: Estimate, i: int) -> list[Step]:
    k = int(e.job.lines.setting[i])
    if k < 0 or e.job.settings.is_flame[k]:
        return []
    return [*_tip_steps(e, i, k), *_chart_steps(e, i, k), _metres_step(e, i)]


def _tip_steps(e: Estimate, i: int, k: int) -> list[Step]:
    """Thickness, tip and oxygen pressure."""
    cuts, settings, along = e.cuts, e.job.settings, float(e.job.chosen.thickness_along_cut_mm[i])
    units = shown_units(e.shop.shop.units)
    parts = [units.words(cuts.thickness_mm[i], "mm")]
    if np.nan_to_num(cuts.stack[i], nan=1.0) > 1:
        parts.append(f"x {plain(cuts.stack[i])} plates")
    if np.nan_to_num(cuts.bevel_deg[i]) > 0 and np.isnan(cuts.bevel_length_mm[i]):
        parts.append(f"/ cos {plain(cuts.bevel_deg[i])}°")
    row = next(t for t in e.kit.tip_rows if t.name == settings.tip[k])
    pressure_bar = float(settings.oxygen_pressure_bar[k])
    return [
        Step(
            "thickness along the cut",
            "thickness x stack / cos bevel",
            " ".join(parts),
            _thickness(along, units),
            "geometry",
        ),
        Step(
            "tip",
            "smallest bore that covers it; the tip that is in stays in while it covers the work",
            f"{row.name} covers {plain(units.number(row.from_mm, 'mm'))} to {units.words(row.to_mm, 'mm')}",
            settings.tip[k],
            row.status or "shop book, Tips",
        ),
        Step(
            "oxygen pressure",
            "between the ends of the tip's range, in log thickness",
            f"{plain(units.number(row.pressure_from_bar, 'bar'))} to {units.words(row.pressure_to_bar, 'bar')} gauge",
            INCH.words(pressure_bar, "bar", ".0f")
            if units.inch
            else f"{pressure_bar:.2f} bar = {INCH.words(pressure_bar, 'bar', '.0f')}",
            row.status or "shop book, Tips",
        ),
    ]


def _chart_steps(e: Estimate, i: int, k: int) -> list[Step]:
    """What the chart says for the tip and the thickness: oxygen, speed and fuel."""
    settings, along, own = e.job.settings, float(e.job.chosen.thickness_along_cut_mm[i]), _own_chart(e, k)
    units = shown_units(e.shop.shop.units)
    flow, speed = (".1f", ".1f") if units.inch else (".3f", ".0f")
    row = next(t for t in e.kit.tip_rows if t.name == settings.tip[k])
    by = "machine" if settings.machine[k] else "hand"
    return [
        Step(
            "cutting-oxygen flow",
            _CHOKED_INCH if units.inch else _CHOKED,
            f"bore {units.words(row.bore_mm, 'mm')}, factor {plain(settings.oxygen_factor[k])}",
            units.words(settings.cutting_flow_m3_h[k], "m³/h", flow),
            own or "calculated: choked flow, discharge 0.9",
        ),
        Step(
            "chart speed",
            "between neighbouring rows, in log thickness",
            f"{by}, {units.words(along, 'mm')}; {settings.speed_low[k]:.2f} to {settings.speed_high[k]:.2f} of it",
            units.words(settings.chart_speed_mm_min[k], "mm/min", speed),
            own or _table_source("chart_speed", along),
        ),
        Step(
            "fuel flow",
            f"between neighbouring rows, brought to {'59 °F' if units.inch else '15 °C'} by mass, x own factor",
            f"{e.kit.fuel}, factor {plain(settings.fuel_factor[k])}",
            units.words(settings.fuel_flow_m3_h[k], "m³/h", flow),
            own or _table_source("chart_fuel", along, fuel=e.kit.fuel),
        ),
    ]


def _metres_step(e: Estimate, i: int) -> Step:
    units, lines, m = shown_units(e.shop.shop.units), e.job.lines, e.job.lines.metres
    each = (m.long_m_each[i], m.short_m_each[i], m.circle_m_each[i])
    long, short, circles, once = (plain(units.number(length, "m")) for length in (*each, m.once_m[i]))
    return Step(
        "feet cut" if units.inch else "metres cut",
        "passes x (long + short + circles) + once",
        f"{plain(m.passes[i])} x ({long} + {short} + {circles}) + {once}",
        units.words(lines.cut_m[i], "m", ".3f"),
        "shape and sizes, or the list's own length",
    )


def _time_steps(e: Estimate, i: int) -> list[Step]:
    return [*_burning_steps(e, i), *_minutes_steps(e, i), *_other_work_step(e, i), _paid_step(e, i)]


def _burning_steps(e: Estimate, i: int) -> list[Step]:
    """Cut, bevel and starts: what the torch itself takes."""
    lines, m, work, settings = e.job.lines, e.job.lines.metres, e.work, e.job.settings
    k = int(lines.setting[i])
    if k < 0:
        return []
    units = shown_units(e.shop.shop.units)
    speed = units.words(settings.speed_mm_min[k] * lines.surface_speed[i], "mm/min")
    mean = units.words(lines.travel_speed_mm_min[i], "mm/min", ".1f" if units.inch else ".0f")
    shares = f"short x {plain(work.short_straight_speed)}, circles x {plain(work.circle_speed)}"
    edge = m.edge_starts_each[i] + m.restarts_each[i]
    steps = [
        (
            lines.cut_time_min[i],
            Step(
                "cut time",
                "(long + short / short factor + circles / circle factor) / (speed x surface)",
                f"{speed} by machine" if settings.machine[k] else f"{speed}; {shares}",
                f"{lines.cut_time_min[i]:.2f} min, mean {mean}",
                "chart; factors " + rate_status("short_straight_speed"),
            ),
        ),
        (
            lines.bevel_time_min[i],
            Step(
                "bevel pass",
                "passes x length / bevel speed",
                f"{plain(m.passes[i])} x {units.words(m.bevel_m_each[i], 'm')}",
                f"{lines.bevel_time_min[i]:.2f} min",
                rate_status("bevel_speed"),
            ),
        ),
        (
            lines.start_time_min[i],
            Step(
                "starts",
                "passes x (pierces x pierce time + edge starts x edge time) + once",
                f"{plain(m.passes[i])} x ({plain(m.pierces_each[i])} pierces, {plain(edge)} edge starts of "
                f"{plain(settings.edge_start_s[k])} s)",
                f"{lines.start_time_min[i]:.2f} min",
                "chart (judgement); " + rate_status("pierce_time_hand"),
            ),
        ),
    ]
    return [step for minutes, step in steps if minutes > 0]


def _minutes_steps(e: Estimate, i: int) -> list[Step]:
    """Work beside the cut, each by the work rate that it mostly rests on."""
    lines, inch = e.job.lines, e.shop.shop.units == "in"
    length, mass = ("feet", "pounds") if inch else ("metres", "kilograms")
    handling, norm = lines.handling_min + lines.helper_min, _norm_rate(e.cuts, i)
    minutes = [
        ("moves", lines.move_time_min, "starts x minutes, flame lit", "move_min"),
        ("flame on the piece", lines.flame_work_min, "quantity x minutes typed, or by the mass", "heat_mj_per_kg"),
        ("settings", lines.setting_time_min, "straightedge and track, flame out", "straightedge_min"),
        ("layout", lines.layout_min, f"{length} and pieces marked", "layout_min_per_m"),
        ("handling", handling, f"pieces and {mass}; lifts with a helper", "lift_min"),
        ("cleaning", lines.cleaning_min, f"edge {length} x norm", "clean_above_30_per_mm"),
        ("grinding", lines.grinding_min, f"edge {length} x finish, stop marks", "touch_up_min_per_m"),
        ("drilling", lines.drilling_min, "holes x (place + metal)", "drill_min_per_hole"),
        ("rest of the norm", lines.norm_min, "state norm of the short cut without its rest, less the flame", norm),
        ("clamping", lines.clamp_min, "stacks x minutes", "stack_clamp_min"),
    ]
    steps = [
        Step(
            name,
            formula,
            _rate_words(getattr(e.work, rate), rate, inch=inch),
            f"{values[i]:.2f} min",
            rate_status(rate),
        )
        for name, values, formula, rate in minutes
        if values[i] > 0
    ]
    return [*steps, *_heated(e, i)]


def _other_work_step(e: Estimate, i: int) -> list[Step]:
    minutes = e.job.lines.other_work_min[i]
    if not minutes > 0:
        return []
    what = e.cuts.other_work[i] or "work by hand"
    typed = float(e.cuts.minutes_each[i])
    given = what if np.isnan(typed) else f"{what}: {plain(e.cuts.quantity[i])} x {plain(typed)} min, as typed"
    source = "shop book, Other work" if np.isnan(typed) else "typed in the list under Minutes each"
    if e.job.lines.other_work_rested[i]:
        source += "; rest is added below"
    return [Step("other work", "quantity x minutes", given, f"{minutes:.2f} min", source)]


def _paid_step(e: Estimate, i: int) -> Step:
    lit = f"flame {e.job.lines.flame_time_min[i]:.2f} min, rest {e.work.rest_allowance:.0%}"
    return Step(
        "man-minutes",
        "(flame + settings + layout + handling + norm + cleaning + grinding) x (1 + rest) + drilling + waits + other",
        lit if np.isnan(e.my_minutes[i]) else "typed by the owner",
        f"{e.paid_time_min[i]:.2f} min",
        rate_status("rest_allowance"),
    )


def _heated(e: Estimate, i: int) -> list[Step]:
    """Set the minutes that the mass heated would take beside those that are typed."""
    typed, mass = float(e.cuts.flame_min_each[i]), float(np.nan_to_num(e.cuts.heated_kg_each[i]))
    k = int(e.job.lines.setting[i])
    if np.isnan(typed) or mass <= 0 or k < 0:
        return []
    by_mass = heating_time_min(
        mass,
        fuel_flow_m3_h=e.job.settings.fuel_flow_m3_h[k],
        net_mj_m3=reference.net_heating_value_mj_m3(e.kit.fuel),
        heat_mj_kg=e.work.heat_mj_per_kg,
        efficiency=e.work.heating_efficiency,
    )
    return [
        Step(
            "flame by the mass heated",
            "mass x heat / (flow x net heat x share that stays) x 60; beside the typed minutes, which hold",
            f"{_heat_words(e, mass)}, {e.work.heating_efficiency:.0%} stays",
            f"{float(by_mass):.1f} min a heat; typed {typed:.1f}",
            rate_status("heating_efficiency"),
        )
    ]


def _norm_rate(cuts: CutList, i: int) -> str:
    """Return the work rate that states the norm of a line's section."""
    shape = int(cuts.shape[i])
    if shape == Shape.BOLT_HEAD:
        return "bolt_head_min_per_mm"
    return "sheet_pile_cm2_min" if shape == Shape.SHEET_PILE else "rail_cm2_min"


def _own_chart(e: Estimate, setting: int) -> str:
    tip = e.job.settings.tip[setting]
    own = dict(zip(e.kit.tips.name, e.kit.own_chart, strict=True)).get(tip, False)
    return "shop book, Own chart" if own else ""


def _table_source(name: str, thickness_mm: float, **where: str) -> str:
    rows = reference.table(name).where(**where) if where else reference.table(name)
    at = int(np.argmin(np.abs(rows.column("thickness_mm") - thickness_mm)))
    return str(rows.source(at))


def _rate_words(value: float, name: str, *, inch: bool) -> str:
    """Return a work rate with its name; in an inch shop, whose unit the name does not say, with its unit too."""
    unit = inch_rate_unit(str(built_in_work_rates()[name]["unit"]))
    return f"{unit.shown(value):.4g} {unit.unit} ({name})" if inch and unit.powers else f"{value:g} ({name})"


def _heat_words(e: Estimate, mass_kg: float) -> str:
    units, heat = shown_units(e.shop.shop.units), e.work.heat_mj_per_kg
    of_mass = f"{plain(heat)} MJ/kg"
    if units.inch:
        unit = inch_rate_unit("MJ per kg")
        of_mass = f"{plain(unit.shown(heat))} {unit.unit.replace(' per ', '/')}"
    return f"{units.words(mass_kg, 'kg')} x {of_mass}"


def _thickness(value_mm: float, units: ShownUnits) -> str:
    inches = INCH.words(value_mm, "mm")
    return inches if units.inch else f"{value_mm:.4g} mm = {inches}"
