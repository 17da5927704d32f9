"""Every rate, price, factor and rule that the job was priced with: one row each, with its date, status and source."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from estimator.check.torch_kit import built_in_work_rates
from estimator.pricing.job import Estimate
from estimator.pricing.rates import GasInUse
from estimator.sheets.first_cells import USUAL_FLAME_HOURS
from estimator.sheets.shop_prices import STEEL
from estimator.write.estimate.constant_rows import constant_rows
from estimator.write.estimate.look_of_numbers import NumberFormats
from estimator.write.estimate.own_factor_rows import own_factor_rows, times_own
from estimator.write.estimate.price_rows import PriceRows
from estimator.write.estimate.rate_row import RateRow, RateSection
from estimator.write.estimate.shop_cells import CellUnit, ShopCells
from estimator.write.styles import Look

__all__ = ["READING_RATES", "RateRow", "RateSection", "rate_sections"]

READING_RATES = (
    "short_straight_mm",
    "reach_mm",
    "small_hole_mm",
    "small_hole_ratio",
    "hand_pierce_limit_mm",
    "bolt_shank_share",
    "site_helper_share",
    "rail_cm2_min",
    "sheet_pile_cm2_min",
    "bolt_head_start_min",
    "bolt_head_min_per_mm",
    "short_cut_time_other_fuels",
    "section_end_factor",
    "iron_oxidised_share",
    "kerf_per_bore",
    "piece_spacing_mm",
    "hours_range_low",
    "hours_range_high",
    "plate_fill",
    "orifice_coefficient",
    "oxygen_purity_least_percent",
    "own_chart_spread",
    "length_differs_share",
    "oxygen_supplied_low",
    "oxygen_supplied_high",
    "flow_differs_share",
)
"""Work rates that decide how a piece is read or how sure the price is; no formula uses them."""

_OF_OTHER_TASKS = (
    "work_day_h",
    "propane_needed",
    "still_air",
    "read_",
    "logged_",
    "gauge_class",
    "scale_class",
    "fill_class",
)
"""Work rates by which rack, month end and log are read; a price does not rest on them."""
_NONE_GIVEN = "none given: 0 is taken"
"""Status of a figure of the shop book that is 0, typed or blank."""
_USUAL = "usual figure; common practice, no source"
"""Status of a figure that the shop book need not hold, at its built-in value."""
_DIRECT = {"gas": "Gas", "labour": "Labour", "consumables": "Tips and consumables", "rent": "Rental", "steel": "Steel"}


def rate_sections(estimate: Estimate, prices: PriceRows, formats: NumberFormats) -> list[RateSection]:
    """Return all rows, grouped.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    prices : PriceRows
        Labour rates and steel prices in their order.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of RateSection
        In the order of the sheet: what the shop has typed first, then what it has not, then the handbook's.
    """
    cells = ShopCells.of_job(estimate)
    make = _Maker(estimate, formats, cells)
    live, reading = make.work_rates()
    rules = make.rules()
    absent = tuple(row for row in rules if row.status == _NONE_GIVEN)
    sections = [
        RateSection("Labour", make.labour(prices)),
        RateSection("How the job is priced", tuple(row for row in rules if row not in absent)),
        RateSection("Gas and cylinders", (*make.gas("oxygen", estimate.rates.oxygen), *make.fuel_and_rent())),
        RateSection("Steel", make.steel(prices)),
        RateSection("Quantity breaks", make.breaks()),
        RateSection("Not in the shop book, so 0 is taken: type here to try them", absent),
        RateSection("Learned from your own jobs: learn again to change these", own_factor_rows(estimate.shop)),
        RateSection("Work rates", live),
        RateSection("Decide how a piece is read: change these in the shop book and run again", reading),
    ]
    in_units = [RateSection(section.title, make.in_shop_units(section.rows)) for section in sections]
    return [*in_units, RateSection("Unit factors and constants", constant_rows(estimate, cells))]


class _Maker:
    """Makes the rows of one job."""

    def __init__(self, estimate: Estimate, formats: NumberFormats, cells: ShopCells) -> None:
        self.estimate, self.formats, self.cells = estimate, formats, cells
        self.currency = estimate.shop.shop.currency
        example = estimate.shop.is_example
        self.look = Look.ASSUMED if example else Look.TYPED
        self.status = "invented example" if example else "typed in the shop book"

    def in_shop_units(self, rows: tuple[RateRow, ...]) -> tuple[RateRow, ...]:
        """Return rows with the unit in which each is shown."""
        return tuple(replace(row, cell=self._cell(row)) for row in rows)

    def _cell(self, row: RateRow) -> CellUnit:
        key = row.name.partition("_")[0]
        gas = key if key in ("oxygen", "fuel") and "m³" in row.unit else ""
        money = f"{self.currency} "
        if not row.unit.startswith(money):
            return self.cells.of(row.unit, gas)
        cell = self.cells.of(row.unit.removeprefix(money), gas)
        return replace(cell, unit=money + cell.unit)

    def typed(self, name: str, what: str, value: float | None, unit: str, number: str, does: str) -> RateRow:
        given = self.status if value or name == "decimals" else _NONE_GIVEN
        status = given if value is not None else "not typed"
        return RateRow(name, what, value, unit, number, self.look, status=status, does=does)

    def money(self, name: str, what: str, value: float, does: str, per: str = "") -> RateRow:
        return self.typed(name, what, value, f"{self.currency} {per}".strip(), "#,##0.00##", does)

    def share(self, name: str, what: str, value: float | None, does: str) -> RateRow:
        return self.typed(name, what, value, "", self.formats.share, does)

    def rules(self) -> tuple[RateRow, ...]:
        shop, add_on = self.estimate.shop.shop, self.estimate.rates.add_on
        over = "=IF(ISNUMBER(margin),1/(1-margin),1+markup)"
        return (
            self.share("markup", "Markup", shop.markup, "price = cost x (1 + markup)"),
            self.share("margin", "Margin", shop.margin, "price = cost ÷ (1 - margin); wins over the markup"),
            RateRow(
                "price_over_cost",
                "Price over cost",
                shop.price_over_cost,
                "x",
                "0.0000",
                Look.WORKED,
                over,
                does="cost times this is the price",
            ),
            self.money("overhead_per_hour", "Overhead", shop.overhead_per_hour, "on every man-hour", "per man-hour"),
            self.share("overhead_share", "Overhead on direct cost", shop.overhead_share, "on gas, labour and the rest"),
            *(
                self.share(f"add_on_{part}", f"Add-ons on {what.lower()}", add_on.get(part, 0.0), "all on one base")
                for part, what in _DIRECT.items()
            ),
            self.money("minimum_line", "Minimum per line", shop.minimum_line, "a smaller line is raised to it"),
            self.money("minimum_job", "Minimum per job", shop.minimum_job, "after discount, before delivery and tax"),
            self.money("price_step", "Price each rounded up to", shop.price_step, "0 for no step"),
            self.share("rush", "Rush", self.estimate.rush, "on lines and job rows"),
            self.share("discount", "Discount", self.estimate.discount, "on the whole job"),
            self.money("delivery", "Delivery", shop.delivery, "added after the minimum"),
            self.share("tax", shop.tax_name, shop.tax, "on everything, rounded once"),
            self.typed("decimals", "Decimals of money", shop.decimals, "", "0", "amounts round to them"),
        )

    def labour(self, prices: PriceRows) -> tuple[RateRow, ...]:
        dates = {r.name.lower(): r.from_date for r in self.estimate.shop.labour}
        rates, minimum = self.estimate.rates.labour, self.estimate.rates.labour_minimum_h
        rows = [
            RateRow(
                "labour_per_hour",
                f"Labour rate {number}: {name}",
                rates[name],
                f"{self.currency} per h",
                "#,##0.00##",
                self.look,
                date=dates.get(name),
                status=self.status,
                does="man-hours times this",
            )
            for number, name in enumerate(prices.labour, 1)
        ]
        job = self.estimate.job_labour
        number = prices.labour.index(job) + 1
        least = "hours charged at least"
        hours = self.typed(
            "call_out_minimum_h", "Minimum hours of that rate", minimum.get(job, 0.0), "h", "0.0#", least
        )
        if not any(row.key == "call_out" for row in self.estimate.rows.rows):
            # The job has no row for it, so a figure typed here would do nothing.
            hours = replace(hours, look=Look.WORKED, does="none; give the rate one in the shop book")
        return (
            *rows,
            self.typed("job_labour_row", "Labour rate of the job's own rows", number, "no.", "0", "set-up"),
            hours,
        )

    def gas(self, key: str, gas: GasInUse) -> tuple[RateRow, ...]:
        bought = f"{gas.row.content:g} {gas.row.content_unit}" + (
            f" at {gas.row.content_state}" if gas.row.content_state else ""
        )
        name = f"{gas.gas[:1].upper()}{gas.gas[1:]}"
        cost = f"=({key}_price+{key}_fees)/({key}_content_m3*(1-{key}_heel_share*(1-{key}_credited_share)))"
        rows = (
            self.money(f"{key}_price", f"{name}: price of a full {gas.cylinder}", gas.price, "gas cost", "each"),
            self.money(f"{key}_fees", f"{name}: fees per cylinder", gas.fees, "gas cost", "each"),
            self.typed(
                f"{key}_content_m3",
                f"{name}: content of a full {gas.cylinder} ({bought})",
                gas.content_m3,
                "m³ (15 °C, 1 atm)",
                "0.000",
                "gas cost and cylinder count",
            ),
            self.share(f"{key}_heel_share", f"{name}: left in when swapped", gas.heel_share, "goes back unused"),
            self.share(f"{key}_credited_share", f"{name}: of that credited", gas.credited_share, "paid back"),
            self.money(f"{key}_rent", f"{name}: rental of a cylinder", gas.rent_per_month, "rental share", "a month"),
            self.typed(f"{key}_held", f"{name}: cylinders held", gas.held, "", "0.0#", "rental share"),
            RateRow(
                f"{key}_kg_per_m3",
                self.cells.words(f"{name}: mass of a cubic metre"),
                gas.density_kg_m3,
                "kg/m³",
                "0.0000",
                Look.WORKED,
                does=self.cells.words("kilograms of gas"),
            ),
            RateRow(
                f"{key}_cost_per_m3",
                f"{name}: cost at the torch",
                gas.cost_per_m3,
                f"{self.currency} per m³",
                self.formats.exact_money,
                Look.WORKED,
                cost,
                does="(price + fees) ÷ (content - gas that goes back uncredited)",
            ),
        )
        return tuple(_dated(row, gas.from_date) for row in (*rows, *_usable(key, name, gas)))

    def fuel_and_rent(self) -> tuple[RateRow, ...]:
        shop, rates = self.estimate.shop.shop, self.estimate.rates
        rent = "=(oxygen_rent*oxygen_held+fuel_rent*fuel_held)/planned_flame_hours"
        per_hour, rental = f"{self.currency} per h", "rental"
        return (
            *self.gas("fuel", rates.fuel),
            _usual(
                self.typed("planned_flame_hours", "Flame hours a month", shop.planned_flame_hours, "h", "0.0", rental),
                USUAL_FLAME_HOURS,
            ),
            RateRow(
                "rent_per_flame_hour",
                "Rental for an hour of flame",
                rates.rent_per_flame_hour,
                per_hour,
                self.formats.exact_money,
                Look.WORKED,
                rent,
                does="month's rental ÷ flame hours of a month",
            ),
        )

    def steel(self, prices: PriceRows) -> tuple[RateRow, ...]:
        labels = ["any thickness" if s.thickness_mm is None else self._thickness(s.thickness_mm) for s in prices.steel]
        dates = [s.from_date for s in prices.steel]

        def block(name: str, what: str, values: list[float], number: str, unit: str, does: str) -> list[RateRow]:
            none = RateRow(name, f"No steel of ours: {what}", 0.0, unit, number, Look.WORKED, does="row 1")
            rows = [
                replace(self.typed(name, f"Steel, {label}: {what}", value, unit, number, does), date=date)
                for label, value, date in zip(labels, values, dates, strict=True)
            ]
            return [none, *rows]

        per_kg = f"{self.currency} per kg"
        price = [s.price_per_kg for s in prices.steel]
        scrap = [s.scrap_per_kg for s in prices.steel]
        left = [s.left_over_share for s in prices.steel]
        return (
            *block("steel_price_per_kg", "price", price, "#,##0.00##", per_kg, "steel bought"),
            *block("steel_scrap_per_kg", "scrap", scrap, "#,##0.00##", per_kg, "credit for what is left over"),
            *(
                _usual(row, STEEL.column("left_over_share").default)
                for row in block("steel_left_over_share", "left over", left, self.formats.share, "", "of plate bought")
            ),
        )

    def _thickness(self, thickness_mm: float) -> str:
        cell = self.cells.of("mm")
        shown = round(cell.shown(thickness_mm), 4) if cell.is_turned else thickness_mm
        return f"{shown:g} {cell.unit}"

    def breaks(self) -> tuple[RateRow, ...]:
        breaks = sorted(self.estimate.shop.breaks, key=lambda b: b.from_quantity)
        if not breaks:
            return ()
        first = (
            RateRow("break_from_quantity", "No break: from", 0.0, "pieces", "0", Look.WORKED),
            RateRow("break_off_share", "No break: off", 0.0, "", self.formats.share, Look.WORKED),
        )
        does = "on the mark's total quantity"
        froms = [
            self.typed("break_from_quantity", f"Break {i}: from", b.from_quantity, "pieces", "0", does)
            for i, b in enumerate(breaks, 1)
        ]
        offs = [
            self.share("break_off_share", f"Break {i}: off", b.off_share, "off the line")
            for i, b in enumerate(breaks, 1)
        ]
        return (first[0], *froms, first[1], *offs)

    def work_rates(self) -> tuple[tuple[RateRow, ...], tuple[RateRow, ...]]:
        """Return the rates that formulas use and those that decide how a piece is read."""
        own = {rate.name: rate for rate in self.estimate.shop.work_rates}
        live: list[RateRow] = []
        reading: list[RateRow] = []
        for name, built_in in built_in_work_rates().items():
            if name.startswith(_OF_OTHER_TASKS) or _of_another_fuel(name, self.estimate.kit.fuel):
                continue
            typed = own.get(name)
            frozen = name in READING_RATES
            look = Look.WORKED if frozen else Look.TYPED if typed else Look.ASSUMED
            low, high = (typed.low, typed.high) if typed else (_number(built_in["low"]), _number(built_in["high"]))
            row = RateRow(
                name,
                self.cells.words(str(built_in["heading"])),
                float(getattr(self.estimate.work, name)),
                str(built_in["unit"]),
                "General",
                look,
                low=low,
                high=high,
                status=((typed.status or "typed in the shop book") if typed else str(built_in["status"]))
                + times_own(name, self.estimate.shop),
                source="" if typed else str(built_in["source"]).rpartition(" (")[0],
                does=self.cells.words(str(built_in["why"])),
            )
            (reading if frozen else live).append(row)
        return tuple(live), tuple(reading)


def _usable(key: str, name: str, gas: GasInUse) -> tuple[RateRow, ...]:
    if gas.cylinder == "piped":
        return ()
    formula = f"={key}_content_m3*(1-{key}_heel_share)"
    unit = "m³ (15 °C, 1 atm)"
    usable = f"{name}: usable content of a cylinder"
    does = "cylinder changes"
    return (RateRow(f"{key}_usable_m3", usable, gas.usable_m3, unit, "0.000", Look.WORKED, formula, does=does),)


def _usual(row: RateRow, usual: object) -> RateRow:
    """Say of the figure that stands where nobody types one that it is that; typed or not, it is no better known."""
    is_usual = row.look is Look.TYPED and row.value == usual
    return replace(row, status=_USUAL) if is_usual else row


def _dated(row: RateRow, date: dt.date) -> RateRow:
    return row if row.look is Look.WORKED else replace(row, date=date)


def _of_another_fuel(name: str, fuel: str) -> bool:
    """Say whether a rate belongs to a fuel that the job does not burn."""
    key = fuel.replace(" ", "_")
    start_key = "propylene" if key == "mps" else key
    return (name.startswith("preheat_") and name != f"preheat_{key}") or (
        name in ("start_propane", "start_natural_gas", "start_propylene") and name != f"start_{start_key}"
    )


def _number(value: str | float) -> float | None:
    number = float(value)
    return None if number != number else number
