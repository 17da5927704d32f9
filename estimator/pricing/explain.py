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
    """Return a sentence that can be read to a customer: minutes for each piece, by what they go on."""
    lines, q = estimate.job.lines, float(estimate.cuts.quantity[line])
    parts = [
        ("mark", lines.layout_min),
        ("mark, place and move on", lines.norm_min),
        ("cut", lines.flame_time_min + lines.setting_time_min),
        ("clean", lines.cleaning_min),
        ("grind", lines.grinding_min),
        ("drill", lines.drilling_min),
        ("handle", lines.handling_min + lines.helper_min),
        ("other work", lines.other_work_min + lines.wait_min + lines.clamp_min),
    ]
    said = [(name, float(minutes[line]) / q) for name, minutes in parts if minutes[line] > 0]
    name = (
        estimate.cuts.description[line] or estimate.cuts.mark[line] or f"pieces of row {int(estimate.cuts.row[line])}"
    )
    return line_words(q, name, said)


def _torch_steps(e: Estimate, i: int) -> list[Step]:
    settings, chosen, lines, m = e.job.settings, e.job.chosen, e.job.lines, e.job.lines.metres
    k = int(lines.setting[i])
    if k < 0 or settings.is_flame[k]:
        return []
    cuts, own = e.cuts, _own_chart(e, k)
    along = float(chosen.thickness_along_cut_mm[i])
    parts = [f"{_n(cuts.thickness_mm[i])} mm"]
    if np.nan_to_num(cuts.stack[i], nan=1.0) > 1:
        parts.append(f"x {_n(cuts.stack[i])} plates")
    if np.nan_to_num(cuts.bevel_deg[i]) > 0 and np.isnan(cuts.bevel_length_mm[i]):
        parts.append(f"/ cos {_n(cuts.bevel_deg[i])}°")
    row = next(t for t in e.kit.tip_rows if t.name == settings.tip[k])
    by = "machine" if settings.machine[k] else "hand"
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
        Step(
            "metres cut",
            "passes x (long + short + circles) + once",
            f"{_n(m.passes[i])} x ({_n(m.long_m_each[i])} + {_n(m.short_m_each[i])} + {_n(m.circle_m_each[i])})"
            f" + {_n(m.once_m[i])}",
            f"{lines.cut_m[i]:.3f} m",
            "shape and sizes, or the list's own length",
        ),
    ]


def _time_steps(e: Estimate, i: int) -> list[Step]:
    lines, m, work, settings = e.job.lines, e.job.lines.metres, e.work, e.job.settings
    k = int(lines.setting[i])
    steps = []
    if lines.cut_time_min[i] > 0:
        speed = settings.speed_mm_min[k] * lines.surface_speed[i]
        steps.append(
            Step(
                "cut time",
                "(long + short / short factor + circles / circle factor) / (speed x surface)",
                f"{_n(speed)} mm/min; short x {_n(work.short_straight_speed)}, circles x {_n(work.circle_speed)}"
                if not settings.machine[k]
                else f"{_n(speed)} mm/min by machine",
                f"{lines.cut_time_min[i]:.2f} min, mean {lines.travel_speed_mm_min[i]:.0f} mm/min",
                "chart; factors " + _rate_status("short_straight_speed"),
            )
        )
    if lines.bevel_time_min[i] > 0:
        steps.append(
            Step(
                "bevel pass",
                "passes x length / bevel speed",
                f"{_n(m.passes[i])} x {_n(m.bevel_m_each[i])} m",
                f"{lines.bevel_time_min[i]:.2f} min",
                _rate_status("bevel_speed"),
            )
        )
    if lines.start_time_min[i] > 0:
        edge = m.edge_starts_each[i] + m.restarts_each[i]
        steps.append(
            Step(
                "starts",
                "passes x (pierces x pierce time + edge starts x edge time) + once",
                f"{_n(m.passes[i])} x ({_n(m.pierces_each[i])} pierces, {_n(edge)} edge starts of "
                f"{_n(settings.edge_start_s[k])} s)",
                f"{lines.start_time_min[i]:.2f} min",
                "chart (judgement); " + _rate_status("pierce_time_hand"),
            )
        )
    minutes = [
        ("moves", lines.move_time_min, "starts x minutes, flame lit", "move_min"),
        (
            "flame on the piece",
            lines.flame_work_min,
            "quantity x minutes typed or worked from the mass",
            "heat_mj_per_kg",
        ),
        ("settings", lines.setting_time_min, "straightedge and track, flame out", "straightedge_min"),
        ("layout", lines.layout_min, "metres and pieces marked", "layout_min_per_m"),
        ("handling", lines.handling_min + lines.helper_min, "pieces and kilograms; lifts with a helper", "lift_min"),
        ("cleaning", lines.cleaning_min, "edge metres x norm", "clean_above_30_per_mm"),
        ("grinding", lines.grinding_min, "edge metres x finish, stop marks", "touch_up_min_per_m"),
        ("drilling", lines.drilling_min, "holes x (place + metal)", "drill_min_per_hole"),
        (
            "rest of the norm",
            lines.norm_min,
            "state norm of the whole short cut, without its rest, less the flame",
            _norm_rate(e.cuts, i),
        ),
        ("clamping", lines.clamp_min, "stacks x minutes", "stack_clamp_min"),
    ]
    steps += [
        Step(name, formula, f"{getattr(work, rate):g} ({rate})", f"{values[i]:.2f} min", _rate_status(rate))
        for name, values, formula, rate in minutes
        if values[i] > 0
    ]
    if lines.other_work_min[i] > 0:
        steps.append(
            Step(
                "other work",
                "quantity x minutes",
                e.cuts.other_work[i] or Work(max(int(e.cuts.work[i]), 0)).word,
                f"{lines.other_work_min[i]:.2f} min",
                "shop book, Other work",
            )
        )
    mine = e.my_minutes[i]
    steps.append(
        Step(
            "paid time",
            "(flame + settings + layout + handling + norm + cleaning + grinding) x (1 + rest) + drilling + waits",
            f"flame {lines.flame_time_min[i]:.2f} min, rest {work.rest_allowance:.0%}"
            if np.isnan(mine)
            else "typed by the owner",
            f"{e.paid_time_min[i]:.2f} min",
            _rate_status("rest_allowance"),
        )
    )
    return steps


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
        "overhead": f"{form.overhead_per_hour:.2f} a paid hour, {form.overhead_share:.0%} of direct cost",
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
