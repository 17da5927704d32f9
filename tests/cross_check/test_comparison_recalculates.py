"""Another spreadsheet program works out the comparison anew and gets the engine's money, before and after a change."""

from __future__ import annotations

import datetime as dt
import random
from dataclasses import replace
from pathlib import Path

import pytest

from estimator.pricing.landed import Component, Money, plan_as_held
from estimator.pricing.rent import RentCount
from estimator.pricing.suppliers import Mix, cheapest_mixes
from estimator.shown_units import INCH
from estimator.tasks_compare import CompareOrder, compare
from estimator.write.comparison_answer import ANSWER
from estimator.write.comparison_book import comparison_workbook
from estimator.write.comparison_prices import PRICES
from estimator.write.comparison_ways import WAYS
from tests.cross_check.recalculate import recalculated, stored, with_cells

SAMPLE = Path(__file__).parents[2] / "sample_jobs" / "suppliers" / "price_lists.xlsx"
pytestmark = pytest.mark.recalculate


@pytest.fixture(scope="module")
def sample():
    return compare([SAMPLE])


@pytest.fixture(scope="module")
def book(sample, tmp_path_factory):
    path = tmp_path_factory.mktemp("comparison") / "comparison.xlsx"
    with path.open("wb") as file:
        comparison_workbook(sample)(file)
    return path


def totals(values, mixes: int) -> dict[str, int]:
    """Mix to cents, from the ranking on the first sheet."""
    heading = next(cell for (sheet, cell), value in values.items() if sheet == ANSWER and value == "Supplier")
    row = int(heading[1:])
    column = next(
        cell.rstrip("0123456789")
        for (sheet, cell), value in values.items()
        if sheet == ANSWER and str(value).startswith("A month") and cell.endswith(str(row))
    )
    return {
        values[(ANSWER, f"B{r}")]: round(values[(ANSWER, f"{column}{r}")] * 100)
        for r in range(row + 1, row + 1 + mixes)
    }


def test_every_stored_number_equals_what_another_program_works_out(book):
    anew, was = recalculated(book), stored(book)
    numbers = {at: value for at, value in was.items() if isinstance(value, int | float)}
    assert len(numbers) > 400
    for at, value in numbers.items():
        assert anew[at] == pytest.approx(value, rel=1e-9, abs=1e-9), at
    assert not [at for at, value in anew.items() if isinstance(value, str) and value.startswith("#")]


def test_the_ranking_that_another_program_works_out_is_the_engines_to_the_cent(sample, book):
    assert totals(recalculated(book), len(sample.mixes)) == {m.name: m.total_minor for m in sample.mixes}


def _named(value):
    return value.partition(", ")[0] if isinstance(value, str) else value


def row_of(values, sheet: str, *texts: str) -> int:
    """The row of a sheet that starts with these texts; a gas may have its unit behind it."""
    rows = {int("".join(c for c in cell if c.isdigit())) for (name, cell) in values if name == sheet}
    wanted = list(texts)
    return next(
        r
        for r in sorted(rows)
        if [_named(values.get((sheet, f"{'ABCD'[i]}{r}"))) for i in range(len(wanted))] == wanted
    )


@pytest.mark.parametrize(
    ("texts", "column", "value", "change"),
    [
        (("oxygen",), "B", 55.0, "use"),
        (("Cedar (invented)", "oxygen", "50 L 200 bar"), "H", 44.44, "price"),
        (("Cedar (invented)", "acetylene", "50 L"), "M", 61.0, "rent"),
        (("Ash (invented)", "oxygen", "250"), "K", 0.09, "surcharge"),
    ],
)
def test_a_typed_change_reprices_every_mix_as_the_engine_would_with_the_same_choices(
    sample, book, tmp_path, texts, column, value, change
):
    cell = f"{column}{row_of(stored(book), PRICES, *texts)}"
    anew = recalculated(with_cells(book, tmp_path / "changed.xlsx", {(PRICES, cell): value}))
    expected = {mix.name: repriced(sample, mix, texts, change, value) for mix in sample.mixes}
    assert totals(anew, len(sample.mixes)) == expected
    assert expected != {m.name: m.total_minor for m in sample.mixes}
    if change != "surcharge":  # the surcharge has no 'when compared' beside it
        assert str(anew[(PRICES, "A3")]).startswith("STALE")


def repriced(sample, mix: Mix, texts, change: str, value: float) -> int:
    """The mix with the same sizes and the same cylinders swapped, priced by the engine after the change."""
    total = 0
    for plan in mix.plans:
        terms = next(s.terms for s in sample.market.suppliers if s.name == plan.supplier)
        sized = []
        for choice in plan.choices:
            offer, use = choice.offer, choice.use
            if change == "use" and use.gas == texts[0]:
                use = replace(use, month_m3=value)  # below the busy month, which decides what is kept back
            if (plan.supplier, offer.gas, offer.cylinder) == texts:
                offer = {
                    "price": lambda o: replace(o, price=value),
                    "rent": lambda o: replace(o, rent=replace(o.rent, rate=value)),
                    "surcharge": lambda o: replace(o, surcharge_share=value),
                }[change](offer)
            sized.append((offer, use))
        again = plan_as_held(terms, sized, [c.swapped for c in plan.choices], sample.money)
        total += again.total_minor
    return total


def test_rents_deposits_bought_cylinders_and_minimum_orders_recalculate_too(sample, tmp_path):
    """Offers of every rent rule, so that no formula goes untried."""
    rng = random.Random(7)
    rules = list(RentCount)
    suppliers = []
    for index, supplier in enumerate(sample.market.suppliers):
        offers = []
        for number, offer in enumerate(supplier.offers):
            count = rules[(index * 4 + number * 3) % len(rules)]
            rent = replace(
                offer.rent,
                count=count,
                free_days=12 if count is RentCount.DAILY else 0,
                term_years=3 if count is RentCount.LEASE else 1,
            )
            offers.append(
                replace(
                    offer,
                    rent=rent,
                    deposit=round(rng.uniform(50, 150), 2),
                    deposit_kept_share=0.2,
                    bought_for=round(rng.uniform(0, 300), 2),
                    spread_years=3.0,
                )
            )
        terms = replace(supplier.terms, minimum_order=140.0, invoice_fee=2.35, month_fee=1.15)
        suppliers.append(replace(supplier, terms=terms, offers=tuple(offers)))
    money = Money(2, 0.07)
    changed = replace(
        sample,
        market=replace(sample.market, suppliers=tuple(suppliers)),
        mixes=tuple(cheapest_mixes(suppliers, sample.uses, money)),
        money=money,
    )
    assert {c for mix in changed.mixes for c in Component if any(p.component_minor(c) for p in mix.plans)} == set(
        Component
    )
    path = tmp_path / "changed.xlsx"
    with path.open("wb") as file:
        comparison_workbook(changed)(file)
    anew, was = recalculated(path), stored(path)
    for (sheet, cell), value in was.items():
        if sheet in (ANSWER, PRICES, WAYS) and isinstance(value, int | float):
            assert anew[(sheet, cell)] == pytest.approx(value, rel=1e-9, abs=1e-9), (sheet, cell)


def test_an_inch_shop_types_cubic_feet_and_gets_the_ranking_of_the_equal_cubic_metres(sample, book, tmp_path):
    shop = SAMPLE.parents[1] / "shop_book.xlsx"
    order = CompareOrder(shop=shop, cut_list=SAMPLE.parents[1] / "cut_list.xlsx", date=dt.date(2026, 11, 2))
    inch = replace(compare([SAMPLE], order), units=INCH)
    path = tmp_path / "inch.xlsx"
    with path.open("wb") as file:
        comparison_workbook(inch)(file)
    anew, was = recalculated(path), stored(path)
    numbers = {at: value for at, value in was.items() if isinstance(value, int | float)}
    assert [at for at, value in numbers.items() if anew[at] != pytest.approx(value, rel=1e-9, abs=1e-9)] == []
    assert totals(anew, len(inch.mixes)) == {m.name: m.total_minor for m in inch.mixes}
    assert not [v for (sheet, _), v in was.items() if sheet in (PRICES, WAYS, "Fuels") and str(v).endswith("m³")]
    plain = tmp_path / "plain.xlsx"
    with plain.open("wb") as file:
        comparison_workbook(replace(sample, units=INCH))(file)
    cell = f"B{row_of(stored(book), PRICES, 'oxygen')}"
    # An ideal gas at 70 °F (294.261 K) and at 15 °C (288.15 K); the price of a month lies within 0.2 % of it.
    feet = 55.0 * 294.261 / 288.15 / 0.3048**3
    both = [
        totals(recalculated(with_cells(one, tmp_path / f"{name}.xlsx", {(PRICES, cell): value})), len(sample.mixes))
        for name, one, value in (("metres", book, 55.0), ("feet", plain, feet))
    ]
    assert both[1] == {name: pytest.approx(minor, rel=2e-3) for name, minor in both[0].items()}
    assert both[0] != {m.name: m.total_minor for m in sample.mixes}
