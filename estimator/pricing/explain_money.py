"""The last steps of a line's working: the gas that it burns, and what all of it comes to in money."""

from __future__ import annotations

import numpy as np

from estimator.pricing.build_up import steel_charged_kg
from estimator.pricing.explain_step import Step, plain, rate_status
from estimator.pricing.job import Estimate
from estimator.pricing.money import format_minor
from estimator.shown_units import shown_units

__all__ = ["gas_steps", "money_steps"]


def gas_steps(e: Estimate, i: int) -> list[Step]:
    """Return what a line burns and loses, from its flows and its minutes."""
    lines, k = e.job.lines, int(e.job.lines.setting[i])
    if k < 0:
        return []
    settings, units = e.job.settings, shown_units(e.shop.shop.units)  # by volume, as flows and preheat are
    flow = ".1f" if units.inch else ".3f"
    stated = "ft³ at 70 °F, 1 atm; the flow at 59 °F" if units.inch else "m³ at 15 °C, 101.325 kPa"

    def volume(volume_m3: float, gas: str) -> str:
        return f"{units.gas(volume_m3, gas):{'.2f' if units.inch else '.4f'}}"

    unit, fuel = units.unit("m³"), e.kit.fuel
    fuel_kg = lines.fuel_m3[i] * e.rates.fuel.density_kg_m3
    return [
        Step(
            "cutting oxygen",
            "flow x oxygen-on time / 60",
            f"{units.words(settings.cutting_flow_m3_h[k], 'm³/h', flow)} x {lines.jet_time_min[i]:.2f} min",
            f"{volume(lines.cutting_oxygen_m3[i], 'oxygen')} {unit}",
            stated,
        ),
        Step(
            "fuel",
            "flow x torch-lit time / 60",
            f"{units.words(settings.fuel_flow_m3_h[k], 'm³/h', flow)} x {lines.flame_time_min[i]:.2f} min",
            f"{volume(lines.fuel_m3[i], fuel)} {unit} = {units.words(fuel_kg, 'kg', '.3f')}",
            stated,
        ),
        Step(
            "preheat oxygen",
            "fuel x ratio",
            f"{volume(lines.fuel_m3[i], fuel)} x {settings.preheat_per_fuel[k] * settings.preheat_factor[k]:.3g}",
            f"{volume(lines.preheat_oxygen_m3[i], 'oxygen')} {unit}",
            rate_status("preheat_" + e.kit.fuel.replace(" ", "_")),
        ),
        Step(
            "gas lost",
            "share of gas used: pilot, purge, leaks",
            f"oxygen {e.work.gas_lost_oxygen:.0%}, fuel {e.work.gas_lost_fuel:.0%}",
            f"{volume(lines.lost_oxygen_m3[i], 'oxygen')} and {volume(lines.lost_fuel_m3[i], fuel)} {unit}",
            rate_status("gas_lost_oxygen"),
        ),
    ]


def money_steps(e: Estimate, i: int) -> list[Step]:
    """Return what a line costs, part by part, and its price."""
    form, costs, printed = e.shop.shop, e.costs, e.lines

    def money(minor: int) -> str:
        return f"{format_minor(int(minor), form.decimals)} {form.currency}"

    book = "example prices" if e.shop.is_example else f"shop book {e.shop.file}"
    rates, units = e.rates, e.shop.shown
    figures = {
        "gas": " and ".join(units.gas_price(gas.cost_per_m3, gas.gas) for gas in (rates.oxygen, rates.fuel)),
        "labour": f"{e.paid_time_min[i]:.2f} min at {costs.labour_per_hour[i]:.2f} an hour ({e.labour_rate[i]})",
        "consumables": "tips by hours of flame, consumables of other work",
        "rent": f"{rates.rent_per_flame_hour:.3f} for an hour of flame",
        "steel": f"{_steel_charged(e, i)} charged with what is left over x price, less scrap",
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
            f"{printed.exact_cost[i]:.4f}, {share:.1%}, {plain(e.cuts.quantity[i])} off, step {plain(form.price_step)}",
            money(printed.price_each[i]),
            book,
        ),
        Step(
            "price",
            "price each x quantity, at least the minimum for a line",
            f"{format_minor(int(printed.price_each[i]), form.decimals)} x {plain(e.cuts.quantity[i])}",
            money(printed.price[i]),
            book,
        ),
    ]


def _steel_charged(e: Estimate, i: int) -> str:
    charged_kg = steel_charged_kg(e.cuts, e.job.lines, e.rates, e.work, e.plates)
    return e.shop.shown.words(float(charged_kg[i]), "kg", ",.2f")
