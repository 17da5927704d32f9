"""The same month's work on one fuel or another: in words, as a sheet, as JSON."""

from __future__ import annotations

from typing import Any

from estimator.pricing.comparison import Comparison
from estimator.pricing.fuel_work import FuelComparison
from estimator.pricing.fuels import FuelCost
from estimator.pricing.money import format_minor
from estimator.units import HOUSE_STATE, gas_mass_kg
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.comparison_prices import write_headings
from estimator.write.styles import Look, money_format

__all__ = ["FUELS", "fuel_lines", "fuels_json", "write_fuels"]

FUELS = "Fuels"
_HEADINGS = (
    "Fuel",
    "Oxygen {oxygen}",
    "a {oxygen} costs",
    "Fuel m³",
    "Fuel weighs kg",
    "a m³ costs",
    "Man-hours",
    "Oxygen",
    "Fuel",
    "Labour",
    "Changing over",
    "A month",
    "As cheap as the first at, a m³",
    "that is, times the first fuel's",
    "Fuel that goes into heating",
)
_NOTES = (
    "Flows, preheat oxygen and start times are those of the chart and the work rates; what is recalled or judged says "
    "so there. Travel speed is the same on every fuel.",
    "Check: state norms for 3 mm pipe give propane 1.25 to 1.29 times the oxygen of acetylene and 1.3 times the fuel "
    "by weight; whole short cuts take 1.05 to 1.20 times as long (ENiR E22-1-41, E22-1-43; VPNRM 476-89).",
    "Another fuel needs its own tips, hoses and regulator, made for that gas: the torch's manual and the supplier "
    "decide. Propane is heavier than air and gathers in pits (common practice, no source).",
)


def fuel_lines(comparison: Comparison) -> list[str]:
    """Return the comparison of fuels in sentences; none where no cut list says what the work is."""
    fuels = comparison.fuels
    if fuels is None or not fuels.costs:
        return []
    first, units = fuels.costs[0], comparison.units
    lines = [f"The same work is cheapest on {first.fuel}: {_money(comparison, first.total_minor)} a month with labour."]
    for turn in fuels.turns:
        other = next(cost for cost in fuels.costs if cost.fuel == turn.other)
        more = _money(comparison, other.total_minor - first.total_minor)
        said = f"On {turn.other} it costs {more} more ({_differences(first, other)})"
        if turn.other_turns_at_per_m3 > 0:
            unit = units.gas_unit(turn.other)
            same = unit == units.gas_unit(first.fuel)
            each = units.gas(1.0, first.fuel) / units.gas(1.0, turn.other) if same else 1.0
            said += f"; it would be as cheap at {turn.ratio_at_turn * each:.2f} times {first.fuel}'s price a "
            said += f"{unit if same else units.unit('m³')}, and is at {turn.ratio_now * each:.2f}"
        else:
            said += "; no price of the fuel would make it as cheap"
        lines.append(said + ".")
    lines += [f"{left.fuel} was left out: {left.why}." for left in fuels.left_out]
    stand_in = [one.work.fuel for one in fuels.works if one.stand_in_tips]
    if stand_in:
        lines.append(f"The shop has no tips for {', '.join(stand_in)}: its own tips' bores and ranges stand in.")
    if not fuels.change_counted and len(fuels.costs) > 1:
        lines.append("Tips, hoses and regulators made for another fuel are not in it: type what they cost.")
    return lines


def write_fuels(book: OutputBook, comparison: Comparison) -> None:
    """Write the sheet of fuels; nothing where there is no comparison of them."""
    fuels = comparison.fuels
    if fuels is None or not fuels.costs:
        return
    sheet = book.sheet(FUELS)
    sheet.set_column(0, 0, 16)
    sheet.set_column(1, len(_HEADINGS) - 1, 11)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "The same month's work on another fuel", Look.TITLE)
    sheet.text(2, 0, "A man-hour costs", Look.LABEL)
    sheet.number(2, 1, fuels.labour_per_hour, Look.TYPED, "#,##0.00##")
    book.name_cell("labour_per_hour", FUELS, 2, 1)
    units = comparison.units
    headings = [heading.replace("kg", units.unit("kg")) for heading in _HEADINGS]
    fuel, oxygen = units.gas_units(cost.fuel for cost in fuels.costs), units.gas_unit("oxygen")
    write_headings(sheet, 4, [heading.replace("m³", fuel).format(oxygen=oxygen) for heading in headings], lines=4)
    first = 5
    for row, cost in enumerate(fuels.costs, first):
        _fuel_row(sheet, comparison, fuels, cost, row, first)
    row = _metres(sheet, comparison, fuels, first + len(fuels.costs) + 1)
    for note in (*_NOTES, *fuel_lines(comparison)):
        row += 1
        sheet.text(row, 0, note, Look.GUIDE)
    sheet.freeze_panes(5, 1)
    sheet.set_up_page(last_row=row, last_column=len(_HEADINGS) - 1, landscape=True)


def fuels_json(comparison: Comparison) -> dict[str, Any] | None:
    """Return the comparison of fuels in its JSON form; None where there is none."""
    fuels = comparison.fuels
    if fuels is None:
        return None
    decimals = comparison.money.decimals
    return {
        "labour_per_hour": fuels.labour_per_hour,
        "change_counted": fuels.change_counted,
        "fuels": [_cost_json(fuels, cost, decimals) for cost in fuels.costs],
        "turns": [
            {
                "cheaper": turn.cheaper,
                "other": turn.other,
                "ratio_now": turn.ratio_now,
                "ratio_at_turn": turn.ratio_at_turn,
                "other_turns_at_per_m3": turn.other_turns_at_per_m3,
            }
            for turn in fuels.turns
        ],
        "left_out": [{"fuel": left.fuel, "why": left.why} for left in fuels.left_out],
    }


def _cost_json(fuels: FuelComparison, cost: FuelCost, decimals: int) -> dict[str, Any]:
    one = fuels.work_on(cost.fuel)
    return {
        "fuel": cost.fuel,
        "oxygen_m3": cost.work.use_of("oxygen").month_m3,
        "fuel_m3": cost.work.use_of(cost.fuel).month_m3,
        "paid_time_min": cost.work.paid_time_min,
        "heating_share": one.heating_share,
        "stand_in_tips": one.stand_in_tips,
        "oxygen_cost": format_minor(cost.oxygen_minor, decimals),
        "fuel_cost": format_minor(cost.fuel_minor, decimals),
        "labour_cost": format_minor(cost.labour_minor, decimals),
        "change_cost": format_minor(cost.change_minor, decimals),
        "month_cost": format_minor(cost.total_minor, decimals),
        "per_metre": [
            {"thickness_mm": thickness, "cost": format_minor(minor, decimals)}
            for thickness, minor in cost.per_metre_minor
        ],
    }


def _fuel_row(
    sheet: BookSheet, comparison: Comparison, fuels: FuelComparison, cost: FuelCost, row: int, first: int
) -> None:
    number, major = money_format(comparison.money.decimals), 10**comparison.money.decimals
    work = cost.work
    units = comparison.units
    oxygen_m3, fuel_m3 = work.use_of("oxygen").month_m3, work.use_of(cost.fuel).month_m3
    oxygen, fuel = units.gas(oxygen_m3, "oxygen"), units.gas(fuel_m3, cost.fuel)
    kg = gas_mass_kg(fuel_m3, unit="m3", gas=cost.fuel, state=HOUSE_STATE)
    sheet.text(row, 0, units.gas_named(cost.fuel), Look.LABEL)
    sheet.number(row, 1, oxygen, Look.WORKED, "0.00")
    sheet.number(row, 2, cost.oxygen_minor / major / oxygen, Look.TYPED, "#,##0.00##")
    sheet.number(row, 3, fuel, Look.WORKED, "0.00")
    sheet.number(row, 4, units.number(kg, "kg"), Look.WORKED, "0.00")
    sheet.number(row, 5, cost.fuel_minor / major / fuel, Look.TYPED, "#,##0.00##")
    sheet.number(row, 6, work.paid_time_min / 60, Look.WORKED, "0.00")
    formulas = (
        (7, f"{a1(row, 1)}*{a1(row, 2)}", cost.oxygen_minor),
        (8, f"{a1(row, 3)}*{a1(row, 5)}", cost.fuel_minor),
        (9, f"{a1(row, 6)}*labour_per_hour", cost.labour_minor),
    )
    for column, formula, minor in formulas:
        sheet.worked(row, column, f"=ROUND({formula},money_decimals)", minor / major, number=number)
    sheet.number(row, 10, cost.change_minor / major, Look.TYPED, number)
    total = f"=SUM({a1(row, 7)}:{a1(row, 10)})"
    sheet.worked(row, 11, total, cost.total_minor / major, Look.LABEL, number)
    turn = next((t for t in fuels.turns if t.other == cost.fuel), None)
    if turn is not None:
        at = f"=({a1(first, 11)}-({a1(row, 11)}-{a1(row, 8)}))/{a1(row, 3)}"
        each, of_first = units.gas(1.0, cost.fuel), units.gas(1.0, fuels.costs[0].fuel)
        sheet.worked(row, 12, at, turn.other_turns_at_per_m3 / each, number="#,##0.00##")
        ratio = turn.ratio_at_turn / each * of_first
        sheet.worked(row, 13, f"={a1(row, 12)}/{a1(first, 5)}", ratio, number="0.00")
    sheet.number(row, 14, fuels.work_on(cost.fuel).heating_share, Look.WORKED, "0%")


def _metres(sheet: BookSheet, comparison: Comparison, fuels: FuelComparison, row: int) -> int:
    number, major = money_format(comparison.money.decimals), 10**comparison.money.decimals
    units = comparison.units
    length = "foot" if units.inch else "metre"
    sheet.text(row, 0, f"A {length} of cut, gas and labour", Look.SUBTITLE)
    thick = f"Thickness {units.unit('mm')}"
    write_headings(sheet, row + 1, (thick, *(cost.fuel for cost in fuels.costs)), lines=1)
    by_fuel = [dict(cost.per_metre_minor) for cost in fuels.costs]
    thicknesses = sorted({thickness for metres in by_fuel for thickness in metres})
    for at, thickness in enumerate(thicknesses, row + 2):
        sheet.number(at, 0, units.number(thickness, "mm"), Look.LABEL, "0.###" if units.inch else "0.##")
        for column, metres in enumerate(by_fuel, 1):
            if thickness in metres:
                sheet.number(at, column, metres[thickness] / major / units.number(1.0, "m"), Look.WORKED, number)
    return row + 2 + len(thicknesses)


def _differences(first: FuelCost, other: FuelCost) -> str:
    oxygen = other.work.use_of("oxygen").month_m3 / first.work.use_of("oxygen").month_m3 - 1
    hours = other.work.paid_time_min / first.work.paid_time_min - 1
    return f"oxygen {oxygen:+.0%}, hours {hours:+.1%}"


def _money(comparison: Comparison, minor: int) -> str:
    return f"{format_minor(minor, comparison.money.decimals)} {comparison.currency}".strip()
