"""Figures that an owner typed over in an estimate, put where the engine takes them from: shop book, order, list."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator.check.shop_book import AddOn, GasPrice, LabourRate, QuantityBreak, ShopBook, SteelPrice
from estimator.check.torch_kit import built_in_work_rates
from estimator.pricing.job import Estimate, Reopened
from estimator.pricing.job_record import JobRecord
from estimator.pricing.rates import in_force
from estimator.quantities.typed_settings import SettingKey, setting_key
from estimator.sheets.choices import COST_CLASSES
from estimator.units import ReferenceState, gas_amount

__all__ = ["TypedFigures", "TypedName", "priced_as_typed"]

Floats = NDArray[np.float64]
TypedName = tuple[str, int]
"""Name of a cell of the rates sheet, and its place among the cells of that name, from 0."""

_FORM_FIELDS = (
    "markup",
    "margin",
    "overhead_per_hour",
    "overhead_share",
    "minimum_line",
    "minimum_job",
    "price_step",
    "delivery",
    "tax",
    "planned_flame_hours",
)
_MAY_BE_BLANK = ("markup", "margin")
_GAS_FIELDS = {
    "price": "price",
    "fees": "cylinder_fees",
    "heel_share": "heel_share",
    "credited_share": "credited_share",
    "rent": "rent_per_month",
    "held": "held",
    "content_m3": "content",
}
_STEEL_FIELDS = {
    "steel_price_per_kg": "price_per_kg",
    "steel_scrap_per_kg": "scrap_per_kg",
    "steel_left_over_share": "left_over_share",
}


@dataclass(slots=True)
class TypedFigures:
    """What an owner typed: rates that differ from the record's, and the typed cells of every line."""

    rates: dict[TypedName, float | None] = field(default_factory=dict)
    """None for a cell that was cleared."""
    settings: dict[SettingKey, dict[str, float]] = field(default_factory=dict)
    """All typed cells of each setting in which one differs, by the names of the sheet; NaN for a blank."""
    tip_prices: dict[str, float] = field(default_factory=dict)
    """Prices of tips that differ, by tip."""
    quantity: Floats = field(default_factory=lambda: np.empty(0))
    my_minutes: Floats = field(default_factory=lambda: np.empty(0))
    my_price_each: Floats = field(default_factory=lambda: np.empty(0))
    why: list[str] = field(default_factory=list)


def priced_as_typed(record: JobRecord, before: Estimate, typed: TypedFigures) -> Estimate:
    """Return the job priced with what was typed.

    Parameters
    ----------
    record : JobRecord
        The job as it was.
    before : Estimate
        The record priced as it was: which rates it took.
    typed : TypedFigures
        What the owner typed.

    Returns
    -------
    Estimate

    Raises
    ------
    WorkbookProblemsError
        When what was typed cannot be priced.
    """
    shop = _typed_shop(before, typed)
    order, title = record.order, record.cuts.title
    rates = {name: value for (name, _), value in typed.rates.items()}
    if (rush := rates.get("rush")) is not None:
        order, title = replace(order, rush=rush), replace(title, rush=rush)
    if (discount := rates.get("discount")) is not None:
        order = replace(order, discount=discount)
    if (number := rates.get("job_labour_row")) is not None:
        order = replace(order, labour_rate=list(before.rates.labour)[int(number) - 1])
    cuts = replace(record.cuts, quantity=typed.quantity, title=title)
    again = replace(record, cuts=cuts, shop=shop, order=order)
    work = {name: value for name, value in rates.items() if name in built_in_work_rates() and value is not None}
    reopened = Reopened(
        work_rates={**record.reopened.work_rates, **work},
        settings={**record.reopened.settings, **typed.settings},
        lit_at=_lit_at(before),
        plates=before.plates,
        fetched=next((row.count for row in before.job.rows if row.key == "plates"), None),
    )
    done = again.priced(my_minutes=typed.my_minutes, my_price_each=typed.my_price_each, reopened=reopened)
    done.why = list(typed.why)
    return done


def _lit_at(before: Estimate) -> dict[str, SettingKey]:
    """Return the setting at which each row of the job burns; it stays when quantities change, as on the sheet."""
    settings = before.job.settings
    return {row.key: setting_key(settings, row.setting) for row in before.job.rows if row.setting >= 0}


def _typed_shop(before: Estimate, typed: TypedFigures) -> ShopBook:
    """Return the shop book with the typed figures in the rows that the job takes."""
    shop = before.shop
    form: dict[str, Any] = {}
    tables: dict[str, Any] = {}
    for (name, _), value in typed.rates.items():
        if name in _FORM_FIELDS:
            form[name] = value if name in _MAY_BE_BLANK else _number(value)
        elif name == "decimals":
            form[name] = int(_number(value))
    tables["labour"] = _labour(before, typed.rates)
    tables["gas_prices"] = _gas(before, typed.rates)
    tables["steel"] = _steel(before, typed.rates)
    tables["breaks"] = _breaks(shop, typed.rates)
    tables["add_ons"] = _add_ons(shop, typed.rates)
    for table in ("tips", "flame_tips"):
        rows = getattr(shop, table)
        tables[table] = tuple(
            row.model_copy(update={"price": typed.tip_prices[row.name]}) if row.name in typed.tip_prices else row
            for row in rows
        )
    return shop.model_copy(update={"shop": shop.shop.model_copy(update=form), **tables})


def _labour(before: Estimate, rates: Mapping[TypedName, float | None]) -> tuple[LabourRate, ...]:
    names = list(before.rates.labour)
    new: dict[str, dict[str, float]] = {}
    for place, name in enumerate(names):
        if ("labour_per_hour", place) in rates:
            new.setdefault(name, {})["per_hour"] = _number(rates["labour_per_hour", place])
    if ("call_out_minimum_h", 0) in rates or ("job_labour_row", 0) in rates:
        # The cell of the minimum belongs to whatever rate the job's own rows take.
        number = rates.get(("job_labour_row", 0))
        name = before.job_labour if number is None else names[int(number) - 1]
        least = rates.get(("call_out_minimum_h", 0), before.rates.labour_minimum_h.get(before.job_labour, 0.0))
        new.setdefault(name, {})["minimum_hours"] = _number(least)

    def changed(row: LabourRate) -> LabourRate:
        name = row.name.lower()
        holds = in_force([r for r in before.shop.labour if r.name.lower() == name], before.date) is row
        return row.model_copy(update=new[name]) if holds and name in new else row

    return tuple(changed(row) for row in before.shop.labour)


def _gas(before: Estimate, rates: Mapping[TypedName, float | None]) -> tuple[GasPrice, ...]:
    def changed(row: GasPrice) -> GasPrice:
        for key, used in (("oxygen", before.rates.oxygen.row), ("fuel", before.rates.fuel.row)):
            new = {own: _number(rates[f"{key}_{name}", 0]) for name, own in _GAS_FIELDS.items()
                   if (f"{key}_{name}", 0) in rates}  # fmt: skip
            if row is used and new:
                if "content" in new:
                    new["content"] = _content(row, new["content"])
                return row.model_copy(update=new)
        return row

    return tuple(changed(row) for row in before.shop.gas_prices)


def _content(row: GasPrice, volume_m3: float) -> float:
    """Return a content as the row of the shop book states it."""
    state = next((state for state in ReferenceState if state.label == row.content_state), None)
    return gas_amount(volume_m3, unit=row.content_unit, gas=row.gas, state=state)


def _steel(before: Estimate, rates: Mapping[TypedName, float | None]) -> tuple[SteelPrice, ...]:
    def changed(row: SteelPrice) -> SteelPrice:
        place = next((i for i, used in enumerate(before.rates.steel, 1) if used is row), None)
        new = {own: _number(rates[name, place]) for name, own in _STEEL_FIELDS.items()
               if place is not None and (name, place) in rates}  # fmt: skip
        return row.model_copy(update=new) if new else row

    return tuple(changed(row) for row in before.shop.steel)


def _breaks(shop: ShopBook, rates: Mapping[TypedName, float | None]) -> tuple[QuantityBreak, ...]:
    rows = []
    for place, row in enumerate(sorted(shop.breaks, key=lambda b: b.from_quantity), 1):
        start = rates.get(("break_from_quantity", place), row.from_quantity)
        off = rates.get(("break_off_share", place), row.off_share)
        rows.append(row.model_copy(update={"from_quantity": int(_number(start)), "off_share": _number(off)}))
    return tuple(rows)


def _add_ons(shop: ShopBook, rates: Mapping[TypedName, float | None]) -> tuple[AddOn, ...]:
    """A typed share takes the place of all add-ons of its class."""
    new = {cost: rates[f"add_on_{cost}", 0] for cost in COST_CLASSES if (f"add_on_{cost}", 0) in rates}
    kept = [row for row in shop.add_ons if row.cost_class not in new]
    typed = [AddOn(name="as typed", cost_class=cost, share=_number(share)) for cost, share in new.items()]
    return (*kept, *typed)


def _number(value: float | None) -> float:
    return 0.0 if value is None else float(value)
