"""Columns of money: the cost of every line in its parts, exact and printed, and the price that follows."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.build_up import COST_PARTS, steel_charged_kg
from estimator.pricing.job import Estimate
from estimator.words import Steel
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.estimate.look_of_numbers import NumberFormats
from estimator.write.estimate.price_rows import PriceRows
from estimator.write.styles import Look

__all__ = ["PART_HEADINGS", "amount_columns", "break_columns", "cost_columns", "line_price_column", "price_columns"]


PART_HEADINGS = {
    "gas": "Gas",
    "labour": "Labour",
    "consumables": "Tips and consumables",
    "rent": "Cylinder rental",
    "steel": "Steel",
    "add_on": "Add-ons",
    "overhead": "Overhead",
}


def cost_columns(estimate: Estimate, rows: PriceRows, formats: NumberFormats) -> list[LiveColumn]:
    """Return what every line costs: each part before rounding, each part as printed, and their sum.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    rows : PriceRows
        Rows of labour rates and steel prices on the rates sheet.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
    """
    costs, minor = estimate.costs, 10.0**estimate.shop.shop.decimals
    currency = estimate.shop.shop.currency

    def exact(part: str, *terms: str) -> LiveColumn:
        heading = f"{PART_HEADINGS[part]}, exact"
        return LiveColumn(f"{part}_exact", heading, getattr(costs, part), currency, formats.exact_money, terms)

    def printed(part: str) -> LiveColumn:
        values = estimate.lines.parts[part] / minor
        terms = (f"ROUND([{part}_exact],decimals)",)
        return LiveColumn(f"{part}_cost", PART_HEADINGS[part], values, currency, formats.money, terms)

    our_steel = (estimate.cuts.steel == Steel.OURS).astype(np.float64)
    by_weight = np.isnan(estimate.plates.bought_kg_each).astype(np.float64)
    plate_kg, left_kg = (np.nan_to_num(kg) for kg in (estimate.plates.bought_kg_each, estimate.plates.left_kg_each))
    charged_kg = steel_charged_kg(estimate.cuts, estimate.job.lines, estimate.rates, estimate.work, estimate.plates)
    direct = ("gas", "labour", "consumables", "rent", "steel")
    wear = "INDEX(tip_price,[setting])/tip_life_h"
    steel_price = "INDEX(steel_price_per_kg,[steel_row])"
    left = "IF([from_bar?]=1,bar_left_over,INDEX(steel_left_over_share,[steel_row]))"
    scrap = "INDEX(steel_scrap_per_kg,[steel_row])"
    corners = "round_waste_charged*[round_waste_l_each]*steel_density_kg_m3/litres_per_m3"
    return [
        LiveColumn("labour_row", "Labour rate", rows.of_labour(estimate), "row", formats.whole),
        LiveColumn("our_steel", "Our steel", our_steel, "1 = yes", formats.whole, neutral=0.0),
        LiveColumn("steel_row", "Steel price", rows.of_steel(estimate), "row", formats.whole, neutral=1.0),
        LiveColumn("by_weight", "Steel by weight", by_weight, "1 = yes", formats.whole, neutral=1.0),
        LiveColumn("plate_kg_each", "Plate each", plate_kg, "kg", formats.metres, neutral=0.0),
        LiveColumn("plate_left_kg_each", "Left of it each", left_kg, "kg", formats.metres, neutral=0.0),
        LiveColumn(
            "steel_charged_kg",
            "Steel charged",
            charged_kg,
            "kg",
            formats.metres,
            (
                f"[our_steel]*[by_weight]*[quantity]*[mass_each_kg]/(1-{left})",
                f"[our_steel]*[by_weight]*[quantity]*{corners}/(1-{left})",
                "[quantity]*[plate_kg_each]",
            ),
            neutral=0.0,
        ),
        LiveColumn(
            "per_hour",
            "Per hour",
            costs.labour_per_hour,
            currency,
            formats.money,
            ("INDEX(labour_per_hour,[labour_row])",),
        ),
        LiveColumn(
            "other_consumables",
            "Other consumables",
            estimate.other_consumables,
            currency,
            formats.exact_money,
            neutral=0.0,
        ),
        exact(
            "gas",
            "oxygen_cost_per_m3*[cutting_oxygen_m3]",
            "oxygen_cost_per_m3*[preheat_oxygen_m3]",
            "oxygen_cost_per_m3*[lost_oxygen_m3]",
            "fuel_cost_per_m3*[fuel_m3]",
            "fuel_cost_per_m3*[lost_fuel_m3]",
        ),
        exact("labour", "[paid_time_min]/60*[per_hour]"),
        exact(
            "consumables",
            f"[flame_time_min]/60*{wear}",
            f"[passes]*[pierces_each]*IF([thickness_mm]>thick_pierce_mm,1,0)*thick_pierce_wear_h*{wear}",
            "[other_consumables]",
        ),
        exact("rent", "rent_per_flame_hour*[flame_time_min]/60"),
        # Bought steel is the piece's mass over 1 - left over; what is left over is credited as scrap.
        exact(
            "steel",
            f"[our_steel]*[by_weight]*[quantity]*[mass_each_kg]*({steel_price}-{left}*{scrap})/(1-{left})",
            f"[our_steel]*[by_weight]*[quantity]*{corners}*({steel_price}-{scrap})/(1-{left})",
            f"[quantity]*[plate_kg_each]*{steel_price}",
            f"-[quantity]*[plate_left_kg_each]*{scrap}",
        ),
        exact("add_on", *(f"add_on_{part}*[{part}_exact]" for part in direct)),
        exact(
            "overhead", "overhead_per_hour*[paid_time_min]/60", *(f"overhead_share*[{part}_exact]" for part in direct)
        ),
        *(printed(part) for part in COST_PARTS),
        LiveColumn(
            "cost",
            "Cost",
            estimate.lines.cost / minor,
            currency,
            formats.money,
            tuple(f"[{part}_cost]" for part in COST_PARTS),
        ),
        _cost_with_job_rows(estimate, formats, currency),
    ]


def _cost_with_job_rows(estimate: Estimate, formats: NumberFormats, currency: str) -> LiveColumn:
    """Return the cost that is priced: exact, with the line's share of the job's rows where the shop spreads them."""
    terms = tuple(f"[{part}_exact]" for part in COST_PARTS)
    if estimate.shop.shop.spread_job_rows:
        terms += ("SUM(row_cost_exact)*[paid_time_min]/SUM(line_paid_time_min)",)
    values = estimate.lines.exact_cost
    return LiveColumn("priced_cost_exact", "Cost priced", values, currency, formats.exact_money, terms)


def price_columns(estimate: Estimate, formats: NumberFormats) -> list[LiveColumn]:
    """Return the last price and the owner's own, which wins where it is typed, and the price each that holds.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
    """
    worked = "ROUND([priced_cost_exact]*price_over_cost/[quantity],decimals)"
    up = f"ROUND(ROUNDUP(ROUND({worked}/price_step,exact_digits),0)*price_step,decimals)"
    each = f"IF(ISNUMBER([my_price_each]),ROUND([my_price_each],decimals),IF(price_step=0,{worked},{up}))"
    mine, currency = estimate.my_price_each, estimate.shop.shop.currency
    typed = LiveColumn("my_price_each", "My price each", mine, currency, formats.money, look=Look.TYPED, width=10.5)
    last = estimate.last_price_each
    before = [
        LiveColumn("last_price", "Last price each", last, currency, formats.money, look=Look.TEXT, width=10.5),
        LiveColumn("last_time", "Last time", estimate.last_time, look=Look.TEXT, width=14.0, wrap=True),
    ]
    return [
        *(before if estimate.last_time else []),
        replace(typed, prompt="Your own price for one piece; it wins, and the minimum per line is then left out."),
        _money(estimate, formats, "price_each", "Price each", estimate.lines.price_each, each),
    ]


def amount_columns(estimate: Estimate, formats: NumberFormats) -> list[LiveColumn]:
    """Return the amount of every line and what the minimum per line adds to it.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
        The top-up stands even where there is no minimum yet, so that one can be typed.
    """
    priced = estimate.lines
    top_up = "IF(OR(ISNUMBER([my_price_each]),[amount]<=0),0,MAX(minimum_line-[amount],0))"
    return [
        _money(estimate, formats, "amount", "Amount", priced.amount, "[price_each]*[quantity]"),
        _money(estimate, formats, "top_up", "Minimum adds", priced.top_up, top_up),
    ]


def line_price_column(estimate: Estimate, formats: NumberFormats) -> LiveColumn:
    """Return the price of every line: its amount, and what the minimum adds.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    LiveColumn
    """
    return _money(estimate, formats, "price", "Price", estimate.lines.price, "[amount]", "[top_up]")


def _money(
    estimate: Estimate, formats: NumberFormats, name: str, heading: str, values: NDArray[np.int64], *terms: str
) -> LiveColumn:
    shop = estimate.shop.shop
    return LiveColumn(name, heading, values / 10.0**shop.decimals, shop.currency, formats.money, terms, width=10.5)


def break_columns(estimate: Estimate, rows: PriceRows, formats: NumberFormats) -> list[LiveColumn]:
    """Return what a quantity break takes off every line; none where the shop has no breaks.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    rows : PriceRows
        Marks.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
    """
    if not estimate.shop.breaks:
        return []
    off = "ROUND([price]*[break_share],decimals)"
    return [
        LiveColumn("mark_number", "Mark no.", rows.mark_numbers(estimate), "", formats.whole),
        LiveColumn(
            "break_share",
            "Quantity break",
            estimate.lines.break_share,
            "",
            formats.share,
            ("LOOKUP(SUMIF(line_mark_number,[mark_number],line_quantity),break_from_quantity,break_off_share)",),
        ),
        _money(estimate, formats, "break_off", "Break takes off", estimate.lines.break_off, off),
    ]
