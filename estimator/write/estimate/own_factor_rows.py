"""The shop's own factors as rows of the rates sheet: each with its interval, its jobs and its date."""

from __future__ import annotations

from estimator.check.shop_book import ShopBook
from estimator.pricing.own_factors import FactorKey
from estimator.words import OwnFactor
from estimator.write.estimate.rate_row import RateRow
from estimator.write.styles import Look

__all__ = ["own_factor_rows", "times_own"]

_RATES = {
    "layout_min_per_m": OwnFactor.LAYOUT,
    "layout_min_per_piece": OwnFactor.LAYOUT,
    "handling_min_per_piece": OwnFactor.HANDLING,
    "handling_min_per_kg": OwnFactor.HANDLING,
    "clean_above_30_per_mm": OwnFactor.CLEANING,
    "rest_allowance": OwnFactor.MAN_HOURS,
}
"""Work rates that already hold a factor of the shop's own."""


def own_factor_rows(shop: ShopBook) -> tuple[RateRow, ...]:
    """Return one row for each factor that the estimate used.

    Parameters
    ----------
    shop : ShopBook
        The shop book as it stands on the job's date, old factors faded.

    Returns
    -------
    tuple of RateRow
        None for a shop that has learned nothing yet.
    """
    return tuple(
        RateRow(
            "own_factor",
            FactorKey.of(row).name.capitalize(),
            row.value,
            "x the handbook",
            "0.00##",
            Look.WORKED,
            low=row.low,
            high=row.high,
            date=row.measured,
            status=f"{row.jobs} jobs logged",
            source="your work log, through calibrate",
            does="how far one job strays from another"
            if row.what == OwnFactor.ONE_JOB
            else "is in the figures below already",
        )
        for row in shop.factors
    )


def times_own(name: str, shop: ShopBook) -> str:
    """Return what to add to the status of a work rate that holds a factor of the shop's own; empty for the others."""
    what = _RATES.get(name)
    row = next((f for f in shop.factors if f.what == what and not f.tip and not f.by and f.value != 1.0), None)
    if row is None:
        return ""
    part = "1 + it" if what == OwnFactor.MAN_HOURS else "it"
    return f"; {part} times your own {what} {row.value:.2f} ({row.jobs} jobs)"
