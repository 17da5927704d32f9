"""Which rates a job is costed with: the gas, labour and steel in force on its date, and what follows from them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from difflib import get_close_matches

import numpy as np
from numpy.typing import NDArray

from estimator import reference
from estimator.check.cut_list import CutList
from estimator.check.shop_book import ALWAYS, GasPrice, ShopBook
from estimator.pricing.rates import GasInUse, Rates, in_force, rates_in_force
from estimator.problems import Place, Problem
from estimator.problems import lines as say
from estimator.problems.asked import UNKNOWN_JOB_RATE
from estimator.quantities.job import JobQuantities
from estimator.quantities.job_rows import JobRow
from estimator.quantities.line_checks import line_place
from estimator.units import HOUSE_STATE, ReferenceState, gas_volume_m3

__all__ = [
    "call_out_minimum",
    "content_m3",
    "cylinders_used",
    "gas_in_use",
    "labour_rate_names",
    "rates_of_job",
]


def gas_in_use(shop: ShopBook, gas: str, date: dt.date | None) -> GasInUse | None:
    """Return a gas as jobs are costed with it; None when no row in use is in force.

    Parameters
    ----------
    shop : ShopBook
        The shop book.
    gas : str
        Oxygen or a fuel.
    date : datetime.date or None
        Date of the job.

    Returns
    -------
    GasInUse or None
    """
    row = in_force([g for g in shop.gas_prices if g.gas == gas and g.in_use], date)
    if row is None:
        return None
    return GasInUse(
        gas=gas,
        cylinder=row.cylinder,
        price=row.price,
        fees=row.cylinder_fees,
        content_m3=content_m3(row, gas),
        heel_share=row.heel_share,
        credited_share=row.credited_share,
        rent_per_month=row.rent_per_month,
        held=row.held,
        from_date=row.from_date,
        row=row,
        density_kg_m3=reference.gas_density_kg_m3(gas, HOUSE_STATE),
    )


def content_m3(row: GasPrice, gas: str) -> float:
    """Return the content of a full cylinder in m³ at 15 °C and 101.325 kPa, by mass."""
    state = next((s for s in ReferenceState if s.label == row.content_state), None)
    return gas_volume_m3(row.content, unit=row.content_unit, gas=gas, state=state)


def rates_of_job(shop: ShopBook, fuel: str, date: dt.date | None) -> tuple[Rates | None, list[Problem]]:
    """Return the rates in force, or why there are none; a missing date is a problem, larger where it decides."""
    problems: list[Problem] = []
    place = Place(shop.file or "the example shop book")
    groups = {
        **{g: [r.from_date for r in shop.gas_prices if r.gas == g and r.in_use] for g in ("oxygen", fuel)},
        "labour": [r.from_date for r in shop.labour],
        "steel": [r.from_date for r in shop.steel],
    }
    if date is None:
        differ = [what for what, dates in groups.items() if len(set(dates)) > 1]
        only = ", ".join(f"{what} {_since(dates[0])}" for what, dates in groups.items() if dates)
        problems += [say.DATE_DECIDES.at(place, what=what) for what in differ] or [say.NO_DATE.at(place, found=only)]
        if differ:
            return None, problems
    oxygen, fuel_row = gas_in_use(shop, "oxygen", date), gas_in_use(shop, fuel, date)
    for what, row in (("oxygen", oxygen), (fuel, fuel_row)):
        if row is None:
            problems.append(_not_in_force(place, what, groups[what], date))
    if oxygen is None or fuel_row is None:
        return None, problems
    rates = rates_in_force(shop, date=date, oxygen=oxygen, fuel=fuel_row)
    if not rates.labour:
        return None, [*problems, _not_in_force(place, "labour", groups["labour"], date)]
    return rates, problems


def _not_in_force(place: Place, what: str, begin: Sequence[dt.date], date: dt.date | None) -> Problem:
    """Say that nothing of a kind has begun by a day, and on which day the first of it does."""
    begins = f"the first begins on {min(begin)}" if begin else "none stands there, marked as in use"
    return say.NOT_IN_FORCE.at(place, what=what, date=date or "any date", begins=begins)


def _since(day: dt.date) -> str:
    return "whatever the day" if day == ALWAYS else f"from {day}"


def labour_rate_names(cuts: CutList, rates: Rates, asked: str) -> tuple[list[str], NDArray[np.bool_], list[Problem]]:
    """Return the name of each line's labour rate, which lines name one that is not in force, and each as a problem."""
    job_rate = asked or cuts.title.labour_rate or rates.normal_rate
    names = [(name or job_rate).lower() for name in cuts.labour_rate]
    known = set(rates.labour)
    bad = np.array([name not in known for name in names], dtype=np.bool_)
    said = {"date": rates.date or "any date", "known": ", ".join(sorted(known)) or "none"}
    own = [int(i) for i in np.flatnonzero(bad) if cuts.labour_rate[i]]
    problems = [
        say.UNKNOWN_LABOUR_RATE.at(
            line_place(cuts, i, "labour_rate"), found=names[i], nearest=_nearest(names[i], known), **said
        )
        for i in own
    ]
    if len(own) < int(bad.sum()):  # said once, not at every line that has no rate of its own
        nearest = _nearest(job_rate, known)
        problems.append(UNKNOWN_JOB_RATE.at(Place(cuts.file), found=job_rate, nearest=nearest, **said))
    return names, bad, problems


def _nearest(name: str, known: Iterable[str]) -> str:
    return next(iter(get_close_matches(name.lower(), list(known), n=1)), "not clear")


def call_out_minimum(job: JobQuantities, rates: Rates, labour_rate: str) -> list[JobRow]:
    """Return the row that fills a short call-out up to its minimum hours; none for a rate without a minimum."""
    minimum = rates.labour_minimum_h.get(labour_rate, 0.0) * 60.0
    if minimum <= 0:
        return []
    paid = job.whole_paid_time_min
    short = max(minimum - paid, 0.0)
    return [JobRow("call_out", "Minimum hours of the call-out", 1.0, short, "", rested=False, paid_time_min=short)]


def cylinders_used(job: JobQuantities, rates: Rates) -> float:
    """Return how many full cylinders a job takes, oxygen and fuel together."""
    return job.drawn_oxygen_m3 / rates.oxygen.usable_m3 + job.drawn_fuel_m3 / rates.fuel.usable_m3
