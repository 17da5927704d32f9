"""Logged work as a shop book models it: the one way for the month end, the suppliers' demand and what is learned."""

from __future__ import annotations

from collections.abc import Iterable

from estimator import reference
from estimator.check.shop_book import ShopBook
from estimator.check.torch_kit import TorchKit, torch_kit, work_rates
from estimator.check.work_log import WorkLog
from estimator.quantities.logged_work import LoggedWork, LogRules, model_log

__all__ = ["modelled_log"]


def modelled_log(log: WorkLog, shop: ShopBook) -> LoggedWork:
    """Return the logged work as this shop book models it.

    Parameters
    ----------
    log : WorkLog
        Checked log.
    shop : ShopBook
        The shop book, its own factors in; ``own_factors.neutral`` takes them out.

    Returns
    -------
    LoggedWork
        Jobs, and the rows that could not be modelled.
    """
    kits = _kits(shop, dict.fromkeys(entry.fuel or shop.shop.fuel for entry in log.entries))
    rules = LogRules(
        fuel=shop.shop.fuel,
        keep_tip_in=shop.shop.keep_tip_in,
        outlines_pierced=shop.shop.outlines_pierced,
        net_heating_value_mj_m3={fuel: reference.net_heating_value_mj_m3(fuel) for fuel in kits},
    )
    return model_log(log, kits, work_rates(shop), rules)


def _kits(shop: ShopBook, fuels: Iterable[str]) -> dict[str, TorchKit]:
    """Return the torch kit of each fuel that a tip on hand burns."""
    kits = {fuel: torch_kit(shop, fuel) for fuel in fuels}
    return {fuel: kit for fuel, kit in kits.items() if kit.tips.name or kit.flame_tips}
