"""Metres, minutes and gas of lines whose settings are chosen, by a shop book: the one way from shop to physics."""

from __future__ import annotations

from estimator import reference
from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopBook
from estimator.check.torch_kit import TorchKit
from estimator.check.work_rates import WorkRates
from estimator.pricing.other_lines import OtherLines, other_lines
from estimator.quantities.job import ChosenSettings, JobQuantities, job_quantities
from estimator.quantities.lines import burnt_metres

__all__ = ["line_physics"]


def line_physics(
    cuts: CutList, shop: ShopBook, kit: TorchKit, work: WorkRates, chosen: ChosenSettings
) -> tuple[JobQuantities, OtherLines]:
    """Return the physics of a job, and its other work, whose drilled holes are counted.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    shop : ShopBook
        How outlines start, and the shop's other work.
    kit : TorchKit
        Tips, charts and factors of the job's fuel.
    work : WorkRates
        The work rates in force.
    chosen : ChosenSettings
        The setting of every line.

    Returns
    -------
    tuple of JobQuantities, OtherLines
    """
    metres = burnt_metres(cuts, work, outlines_pierced=shop.shop.outlines_pierced)
    other = other_lines(
        cuts,
        shop.other_work,
        work,
        drilled_each=metres.drilled_holes_each,
        fuel_density_kg_m3=kit.fuel_density_kg_m3,
    )
    job = job_quantities(
        cuts,
        kit,
        work,
        chosen=chosen,
        metres=metres,
        other=other.minutes,
        net_heating_value_mj_m3=reference.net_heating_value_mj_m3(kit.fuel),
    )
    return job, other
