"""Read a shop book: each sheet by its statement, then what only the whole book can tell."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel

from estimator import reference
from estimator.check import shop_book as records
from estimator.check.acetylene_limit import is_over_acetylene_limit
from estimator.check.first_figures import FORM_NAMES, FirstFigures, first_figures
from estimator.check.fuel_tips import is_built_in_of_acetylene
from estimator.check.other_work import OtherWork
from estimator.check.outfit import CylinderOutlet, OutfitItem
from estimator.check.shop_book import ShopBook
from estimator.check.work_rate_units import rates_in_house
from estimator.problems import Place, Problem, ProblemCode
from estimator.problems import shop_book as say
from estimator.read.cells import Book
from estimator.read.own_sheets import OwnSheet, read_sheet, records_of
from estimator.sheets import rack, torch
from estimator.sheets.first_cells import START, USUAL_FLAME_HOURS
from estimator.sheets.other_work import OTHER_WORK
from estimator.sheets.outfit import CYLINDER_OUTLETS, OUTFIT
from estimator.sheets.shop_form import SHOP
from estimator.sheets.shop_prices import GAS_PRICES, LABOUR, STEEL
from estimator.sheets.shop_rules import ADD_ONS, BREAKS, CUSTOMERS, FACTORS, WORK_RATES
from estimator.sheets.statement import Sheet
from estimator.shop_units import assumed_state

__all__ = ["SHOP_TABLES", "read_shop_book", "whole_book_problems"]

SHOP_TABLES: dict[str, tuple[Sheet, type[BaseModel]]] = {
    "labour": (LABOUR, records.LabourRate),
    "gas_prices": (GAS_PRICES, records.GasPrice),
    "steel": (STEEL, records.SteelPrice),
    "breaks": (BREAKS, records.QuantityBreak),
    "add_ons": (ADD_ONS, records.AddOn),
    "factors": (FACTORS, records.FactorRow),
    "customers": (CUSTOMERS, records.Customer),
    "work_rates": (WORK_RATES, records.WorkRate),
    "tips": (torch.TIPS, records.TipRow),
    "own_chart": (torch.OWN_CHART, records.ChartRow),
    "flame_tips": (torch.FLAME_TIPS, records.FlameTipRow),
    "rack": (rack.RACK, records.RackCylinder),
    "other_work": (OTHER_WORK, OtherWork),
    "outfit": (OUTFIT, OutfitItem),
    "cylinder_outlets": (CYLINDER_OUTLETS, CylinderOutlet),
}
"""Tables of the shop book by field of ``ShopBook``; the form is ``SHOP``."""
_WITH_CONTENT = frozenset({"gas_prices", "rack"})
"""Tables whose rows hold gas by volume, which has a reference state."""


def read_shop_book(book: Book) -> tuple[ShopBook | None, list[Problem]]:
    """Return the shop book, or None, with every problem found in it.

    Parameters
    ----------
    book : Book
        The loaded file.

    Returns
    -------
    tuple of (ShopBook or None, list of Problem)
        None when the form cannot be used.
    """
    file = book.path.name
    form, first = _form_and_first_sheet(book)
    unit = str(form.rows[0].values.get("units") or "mm") if form.rows else "mm"
    tables: dict[str, Any] = {}
    problems: list[Problem] = list(first.problems)
    for field, (sheet, model) in SHOP_TABLES.items():
        read = read_sheet(book, sheet, length_unit=unit)
        rows, found = records_of(read, sheet, model)
        problems += found
        if field in _WITH_CONTENT:
            rows, assumed = _with_states(rows, read)
            problems += assumed
        tables[field] = (*getattr(first, field, ()), *rows)
    tables["work_rates"] = tuple(rates_in_house(tables["work_rates"]))
    problems += (
        _usual_hours(first, form, tables["gas_prices"])
        + _still_blank(first, tables)
        + _two_bottles(first, tables["gas_prices"], file)
    )
    shops, found = ([], form.problems) if _lacks_hours(form) else records_of(form, SHOP, records.ShopForm)
    problems += found
    if not shops:
        return None, problems + _table_problems(ShopBook.model_construct(file=file, **tables))
    shop = ShopBook(shop=shops[0], file=file, sha256=book.sha256, **tables)
    return shop, problems + whole_book_problems(shop)


def _form_and_first_sheet(book: Book) -> tuple[OwnSheet, FirstFigures]:
    """Return the form, its blanks filled from the first sheet where the book has one, and that sheet."""
    start = read_sheet(book, START)
    if not start.found:
        return read_sheet(book, SHOP), FirstFigures()
    lenient = tuple(replace(column, required=False) if column.name in FORM_NAMES else column for column in SHOP.columns)
    form = read_sheet(book, replace(SHOP, columns=lenient))
    first = first_figures(start, fuel=str(form.rows[0].values["fuel"]) if form.rows else "acetylene")
    for row in form.rows:
        for name, value in first.form.items():
            if name in row.defaulted:
                row.values[name] = value
            elif row.values[name] != value and first.row is not None:
                fields = {"heading": SHOP.column(name).heading, "other": row.place(name)}
                first.problems.append(say.TYPED_TWICE.at(first.row.place(name), found=value, **fields))
    return form, first


def _two_bottles(first: FirstFigures, rows: Sequence[records.GasPrice], file: str) -> list[Problem]:
    """Refuse a bottle of the first sheet beside another size that is in use from the same day."""
    at = _placer(file)
    return [
        say.TWO_BOTTLES.at(at(GAS_PRICES, row), found=row.cylinder, gas=row.gas, date=row.from_date)
        for row in rows
        for other in first.gas_prices
        if row.in_use and row is not other and (row.gas, row.from_date) == (other.gas, other.from_date)
    ]


def _lacks_hours(form: OwnSheet) -> bool:
    return bool(form.rows) and not form.rows[0].refused and form.rows[0].values["planned_flame_hours"] is None


def _usual_hours(first: FirstFigures, form: OwnSheet, gas_prices: Sequence[records.GasPrice]) -> list[Problem]:
    """Fill in the usual hours of burning where neither the form nor the first sheet has any; said where rent counts."""
    name = "planned_flame_hours"
    if first.row is None or name not in first.row.defaulted or not form.rows or name not in form.rows[0].defaulted:
        return []
    form.rows[0].values[name] = USUAL_FLAME_HOURS
    taken = say.HOURS_TAKEN.at(first.row.place(name), hours=f"{USUAL_FLAME_HOURS:g}")
    return [taken] if any(row.rent_per_month for row in gas_prices) else []


def _still_blank(first: FirstFigures, tables: Mapping[str, Sequence[Any]]) -> list[Problem]:
    gases = [row.gas for row in tables["gas_prices"]]
    oxygen, fuel = "oxygen" in gases, any(gas != "oxygen" for gas in gases)
    filled = {"labour_per_hour": bool(tables["labour"])}
    filled |= {f"oxygen_{part}": oxygen for part in ("content", "price")}
    filled |= {f"fuel_{part}": fuel for part in ("content", "price")}
    return first.blanks(filled)


def whole_book_problems(shop: ShopBook) -> list[Problem]:
    """Return what only the whole book can tell: rules that contradict, names that stand twice or nowhere."""
    return _table_problems(shop) + _form_problems(shop)


def _with_states(rows: list[Any], read: OwnSheet) -> tuple[list[Any], list[Problem]]:
    """Return rows whose gas volumes all have a reference state, and a warning for each that had to be taken."""
    cells = {row.at.row: row for row in read.rows}
    filled, problems = [], []
    for row in rows:
        state = assumed_state(row.content_unit) if row.content is not None and not row.content_state else None
        filled.append(row.model_copy(update={"content_state": state.label}) if state else row)
        if state:
            found = f"{row.content:g} {row.content_unit}"
            place = cells[row.row].place("content_state")
            problems.append(say.STATE_MISSING.at(place, found=found, state=state.label, how="choose it at"))
    return filled, problems


def _form_problems(shop: ShopBook) -> list[Problem]:
    form, place = shop.shop, Place(shop.file, SHOP.name)
    if form.markup is not None and form.margin is not None:
        return [say.MARKUP_AND_MARGIN.at(place)]
    return [say.NO_PRICE_RULE.at(place)] if form.markup is None and form.margin is None else []


def _table_problems(shop: ShopBook) -> list[Problem]:
    """Return what the tables tell without the form, so that a blank in the form hides none of it."""
    found: list[Problem] = []
    at = _placer(shop.file)
    known_rates = [str(name) for name in reference.table("work_rates").column("name")]
    for rate in shop.work_rates:
        if rate.name not in known_rates:
            nearest = next(iter(get_close_matches(rate.name, known_rates, n=1)), "not clear")
            found.append(say.UNKNOWN_WORK_RATE.at(at(WORK_RATES, rate), found=rate.name, nearest=nearest))
    for tip in shop.tips:
        if tip.to_mm <= tip.from_mm:
            found.append(say.RANGE_TURNED.at(at(torch.TIPS, tip), found=f"{tip.from_mm:g} to {tip.to_mm:g} mm"))
    for tip in shop.tips:
        if is_built_in_of_acetylene(tip):
            found.append(say.BUILT_IN_OF_OTHER_FUEL.at(at(torch.TIPS, tip), found="built-in", fuel=tip.fuel))
    found += _twice(shop.tips, torch.TIPS, at, key=lambda t: t.name)
    found += _twice(shop.flame_tips, torch.FLAME_TIPS, at, key=lambda t: t.name)
    found += _twice(shop.labour, LABOUR, at, key=lambda r: (r.name.lower(), r.from_date))
    names = [t.name for t in shop.tips] + [t.name for t in shop.flame_tips]
    for row in shop.own_chart:
        if row.tip not in names:
            found.append(say.OWN_CHART_TIP.at(at(torch.OWN_CHART, row), found=row.tip, known=", ".join(names)))
    for factor in shop.factors:
        if factor.tip and factor.tip not in names:
            found.append(say.FACTOR_TIP.at(at(FACTORS, factor), found=factor.tip, known=", ".join(names)))
    for tip_sheet, rows in ((torch.TIPS, shop.tips), (torch.FLAME_TIPS, shop.flame_tips)):
        found += _acetylene_pressures(tip_sheet, rows, at)
    return found


def _acetylene_pressures(sheet: Sheet, rows: Iterable[Any], at: Callable[[Sheet, Any], Place]) -> list[Problem]:
    """Refuse a working pressure of acetylene above 15 psi gauge."""
    found = []
    for row in rows:
        highest = max(row.fuel_pressure_bar, getattr(row, "fuel_pressure_high_bar", None) or 0.0)
        if row.fuel == "acetylene" and is_over_acetylene_limit(highest):
            found.append(say.ACETYLENE_PRESSURE.at(at(sheet, row), found=f"{highest:.4g} bar gauge"))
    return found


def _placer(file: str) -> Callable[[Sheet, Any], Place]:
    return lambda sheet, record: Place(file, sheet.name, record.row)


def _twice(
    rows: Sequence[Any], sheet: Sheet, at: Callable[[Sheet, Any], Place], *, key: Callable[[Any], object]
) -> list[Problem]:
    seen: set[object] = set()
    found = []
    code: ProblemCode = say.NAMED_TWICE
    for row in rows:
        if key(row) in seen:
            found.append(code.at(at(sheet, row), found=str(getattr(row, "name", ""))))
        seen.add(key(row))
    return found
