"""One line worked step by step: the formula, the figures put in, the answer and where they come from.

The same steps serve the terminal, the workbook's sheet and the docs.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from estimator import reference
from estimator.check.cut_list import CutList
from estimator.check.torch_kit import built_in_work_rates
from estimator.plain_words import line_words
from estimator.pricing.job import Estimate
from estimator.pricing.money import format_minor
from estimator.quantities.flame_minutes import heating_time_min
from estimator.units import from_house
from estimator.words import Shape, Work

__all__ = ["Step", "explain_line", "line_sentence"]


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the working."""

    name: str
    formula: str
    figures: str
    answer: str
    source: str


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
    steps = [*_torch_steps(estimate, line), *_time_steps(estimate, line), *_gas_steps(estimate, line)]
    return [*steps, *_money_steps(estimate, line)]


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
    parts = [f"{_n(cuts.thickness_mm[i])} mm"]
    if np.nan_to_num(cuts.stack[i], nan=1.0) > 1:
        parts.append(f"x {_n(cuts.stack[i])} plates")
    if np.nan_to_num(cuts.bevel_deg[i]) > 0 and np.isnan(cuts.bevel_length_mm[i]):
        parts.append(f"/ cos {_n(cuts.bevel_deg[i])}°")
    row = next(t for t in e.kit.tip_rows if t.name == settings.tip[k])
    pressure_bar = float(settings.oxygen_pressure_bar[k])
    return [
        Step("thickness along the cut", "thickness x stack / cos bevel", " ".join(parts), _mm(along), "geometry"),
        Step(
            "tip",
            "smallest bore that covers it; the tip that is in stays in while it covers the work",
            f"{row.name} covers {_n(row.from_mm)} to {_n(row.to_mm)} mm",
            settings.tip[k],
            row.status or "shop book, Tips",
        ),
        Step(
            "oxygen pressure",
            "between the ends of the tip's range, in log thickness",
            f"{_n(row.pressure_from_bar)} to {_n(row.pressure_to_bar)} bar gauge",
            f"{pressure_bar:.2f} bar = {from_house('pressure_bar', pressure_bar, 'psi'):.0f} psi",
            row.status or "shop book, Tips",
        ),
    ]


def _chart_steps(e: Estimate, i: int, k: int) -> list[Step]:
    """What the chart says for the tip and the thickness: oxygen, speed and fuel."""
    settings, along, own = e.job.settings, float(e.job.chosen.thickness_along_cut_mm[i]), _own_chart(e, k)
    row = next(t for t in e.kit.tip_rows if t.name == settings.tip[k])
    by = "machine" if settings.machine[k] else "hand"
    return [
        Step(
            "cutting-oxygen flow",
            "0.605 x bore area x (pressure + 1.013), brought to 15 °C, x own factor",
            f"bore {_n(row.bore_mm)} mm, factor {_n(settings.oxygen_factor[k])}",
            f"{settings.cutting_flow_m3_h[k]:.3f} m³/h",
            own or "calculated: choked flow, discharge 0.9",
        ),
        Step(
            "chart speed",
            "between neighbouring rows, in log thickness",
            f"{by}, {_n(along)} mm; {settings.speed_low[k]:.2f} to {settings.speed_high[k]:.2f} of it",
            f"{settings.chart_speed_mm_min[k]:.0f} mm/min",
            own or _table_source("chart_speed", along),
        ),
        Step(
            "fuel flow",
            "between neighbouring rows, brought to 15 °C by mass, x own factor",
            f"{e.kit.fuel}, factor {_n(settings.fuel_factor[k])}",
            f"{settings.fuel_flow_m3_h[k]:.3f} m³/h",
            own or _table_source("chart_fuel", along, fuel=e.kit.fuel),
        ),
    ]


def _metres_step(e: Estimate, i: int) -> Step:
    lines, m = e.job.lines, e.job.lines.metres
    return Step(
        "metres cut",
        "passes x (long + short + circles) + once",
        f"{_n(m.passes[i])} x ({_n(m.long_m_each[i])} + {_n(m.short_m_each[i])} + {_n(m.circle_m_each[i])})"
        f" + {_n(m.once_m[i])}",
        f"{lines.cut_m[i]:.3f} m",
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
    speed = settings.speed_mm_min[k] * lines.surface_speed[i]
    shares = f"short x {_n(work.short_straight_speed)}, circles x {_n(work.circle_speed)}"
    edge = m.edge_starts_each[i] + m.restarts_each[i]
    steps = [
        (
            lines.cut_time_min[i],
            Step(
                "cut time",
                "(long + short / short factor + circles / circle factor) / (speed x surface)",
                f"{_n(speed)} mm/min by machine" if settings.machine[k] else f"{_n(speed)} mm/min; {shares}",
                f"{lines.cut_time_min[i]:.2f} min, mean {lines.travel_speed_mm_min[i]:.0f} mm/min",
                "chart; factors " + _rate_status("short_straight_speed"),
            ),
        ),
        (
            lines.bevel_time_min[i],
            Step(
                "bevel pass",
                "passes x length / bevel speed",
                f"{_n(m.passes[i])} x {_n(m.bevel_m_each[i])} m",
                f"{lines.bevel_time_min[i]:.2f} min",
                _rate_status("bevel_speed"),
            ),
        ),
        (
            lines.start_time_min[i],
            Step(
                "starts",
                "passes x (pierces x pierce time + edge starts x edge time) + once",
                f"{_n(m.passes[i])} x ({_n(m.pierces_each[i])} pierces, {_n(edge)} edge starts of "
                f"{_n(settings.edge_start_s[k])} s)",
                f"{lines.start_time_min[i]:.2f} min",
                "chart (judgement); " + _rate_status("pierce_time_hand"),
            ),
        ),
    ]
    return [step for minutes, step in steps if minutes > 0]


def _minutes_steps(e: Estimate, i: int) -> list[Step]:
    """Work beside the cut, each by the work rate that it mostly rests on."""
    lines = e.job.lines
    handling, norm = lines.handling_min + lines.helper_min, _norm_rate(e.cuts, i)
    minutes = [
        ("moves", lines.move_time_min, "starts x minutes, flame lit", "move_min"),
        ("flame on the piece", lines.flame_work_min, "quantity x minutes typed, or by the mass", "heat_mj_per_kg"),
        ("settings", lines.setting_time_min, "straightedge and track, flame out", "straightedge_min"),
        ("layout", lines.layout_min, "metres and pieces marked", "layout_min_per_m"),
        ("handling", handling, "pieces and kilograms; lifts with a helper", "lift_min"),
        ("cleaning", lines.cleaning_min, "edge metres x norm", "clean_above_30_per_mm"),
        ("grinding", lines.grinding_min, "edge metres x finish, stop marks", "touch_up_min_per_m"),
        ("drilling", lines.drilling_min, "holes x (place + metal)", "drill_min_per_hole"),
        ("rest of the norm", lines.norm_min, "state norm of the short cut without its rest, less the flame", norm),
        ("clamping", lines.clamp_min, "stacks x minutes", "stack_clamp_min"),
    ]
    steps = [
        Step(name, formula, f"{getattr(e.work, rate):g} ({rate})", f"{values[i]:.2f} min", _rate_status(rate))
        for name, values, formula, rate in minutes
        if values[i] > 0
    ]
    return [*steps, *_heated(e, i)]


def _other_work_step(e: Estimate, i: int) -> list[Step]:
    minutes = e.job.lines.other_work_min[i]
    if not minutes > 0:
        return []
    what = e.cuts.other_work[i] or Work(max(int(e.cuts.work[i]), 0)).word
    return [Step("other work", "quantity x minutes", what, f"{minutes:.2f} min", "shop book, Other work")]


def _paid_step(e: Estimate, i: int) -> Step:
    lit = f"flame {e.job.lines.flame_time_min[i]:.2f} min, rest {e.work.rest_allowance:.0%}"
    return Step(
        "man-minutes",
        "(flame + settings + layout + handling + norm + cleaning + grinding) x (1 + rest) + drilling + waits",
        lit if np.isnan(e.my_minutes[i]) else "typed by the owner",
        f"{e.paid_time_min[i]:.2f} min",
        _rate_status("rest_allowance"),
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
            f"{_n(mass)} kg x {_n(e.work.heat_mj_per_kg)} MJ/kg, {e.work.heating_efficiency:.0%} stays",
            f"{float(by_mass):.1f} min a heat; typed {typed:.1f}",
            _rate_status("heating_efficiency"),
        )
    ]


def _norm_rate(cuts: CutList, i: int) -> str:
    """Return the work rate that states the norm of a line's section."""
    shape = int(cuts.shape[i])
    if shape == Shape.BOLT_HEAD:
        return "bolt_head_min_per_mm"
    return "sheet_pile_cm2_min" if shape == Shape.SHEET_PILE else "rail_cm2_min"


def _gas_steps(e: Estimate, i: int) -> list[Step]:
    lines, k = e.job.lines, int(e.job.lines.setting[i])
    if k < 0:
        return []
    settings = e.job.settings
    return [
        Step(
            "cutting oxygen",
            "flow x oxygen-on time / 60",
            f"{settings.cutting_flow_m3_h[k]:.3f} m³/h x {lines.jet_time_min[i]:.2f} min",
            f"{lines.cutting_oxygen_m3[i]:.4f} m³",
            "m³ at 15 °C, 101.325 kPa",
        ),
        Step(
            "fuel",
            "flow x torch-lit time / 60",
            f"{settings.fuel_flow_m3_h[k]:.3f} m³/h x {lines.flame_time_min[i]:.2f} min",
            f"{lines.fuel_m3[i]:.4f} m³ = {lines.fuel_m3[i] * e.rates.fuel.density_kg_m3:.3f} kg",
            "m³ at 15 °C, 101.325 kPa",
        ),
        Step(
            "preheat oxygen",
            "fuel x ratio",
            f"{lines.fuel_m3[i]:.4f} x {settings.preheat_per_fuel[k] * settings.preheat_factor[k]:.3g}",
            f"{lines.preheat_oxygen_m3[i]:.4f} m³",
            _rate_status("preheat_" + e.kit.fuel.replace(" ", "_")),
        ),
        Step(
            "gas lost",
            "share of gas used: pilot, purge, leaks",
            f"oxygen {e.work.gas_lost_oxygen:.0%}, fuel {e.work.gas_lost_fuel:.0%}",
            f"{lines.lost_oxygen_m3[i]:.4f} and {lines.lost_fuel_m3[i]:.4f} m³",
            _rate_status("gas_lost_oxygen"),
        ),
    ]


def _money_steps(e: Estimate, i: int) -> list[Step]:
    form, costs, printed = e.shop.shop, e.costs, e.lines

    def money(minor: int) -> str:
        return f"{format_minor(int(minor), form.decimals)} {form.currency}"

    book = "example prices" if e.shop.is_example else f"shop book {e.shop.file}"
    rates = e.rates
    figures = {
        "gas": f"oxygen {rates.oxygen.cost_per_m3:.3f} and {rates.fuel.gas} {rates.fuel.cost_per_m3:.3f} per m³",
        "labour": f"{e.paid_time_min[i]:.2f} min at {costs.labour_per_hour[i]:.2f} an hour ({e.labour_rate[i]})",
        "consumables": "tips by hours of flame, consumables of other work",
        "rent": f"{rates.rent_per_flame_hour:.3f} for an hour of flame",
        "steel": "mass bought x price, less scrap",
        "add_on": "percent on classes of direct cost",
        "overhead": f"{form.overhead_per_hour:.2f} a man-hour, {form.overhead_share:.0%} of direct cost",
    }
    steps = [
        Step(part.replace("_", "-"), "quantity x rate", figures[part], money(printed.parts[part][i]), book)
        for part in figures
        if printed.parts[part][i]
    ]
    rule = "cost / (1 - margin)" if form.margin is not None else "cost x (1 + markup)"
    share = form.margin if form.margin is not None else form.markup or 0.0
    mine = not np.isnan(e.my_price_each[i])
    return [
        *steps,
        Step("cost", "sum of the parts", "", money(printed.cost[i]), book),
        Step(
            "price each",
            "typed by the owner" if mine else f"{rule} / quantity, rounded, then up to the step",
            f"{printed.exact_cost[i]:.4f}, {share:.1%}, {_n(e.cuts.quantity[i])} off, step {_n(form.price_step)}",
            money(printed.price_each[i]),
            book,
        ),
        Step(
            "price",
            "price each x quantity, at least the minimum for a line",
            f"{format_minor(int(printed.price_each[i]), form.decimals)} x {_n(e.cuts.quantity[i])}",
            money(printed.price[i]),
            book,
        ),
    ]


def _own_chart(e: Estimate, setting: int) -> str:
    tip = e.job.settings.tip[setting]
    own = dict(zip(e.kit.tips.name, e.kit.own_chart, strict=True)).get(tip, False)
    return "shop book, Own chart" if own else ""


def _table_source(name: str, thickness_mm: float, **where: str) -> str:
    rows = reference.table(name).where(**where) if where else reference.table(name)
    at = int(np.argmin(np.abs(rows.column("thickness_mm") - thickness_mm)))
    return str(rows.source(at))


def _rate_status(name: str) -> str:
    row = built_in_work_rates().get(name)
    return str(row["status"]) if row else ""


def _mm(value: float) -> str:
    return f"{value:.4g} mm = {value / 25.4:.4g} in"


def _n(value: float) -> str:
    return f"{float(value):.4g}"
