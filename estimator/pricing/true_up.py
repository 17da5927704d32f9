"""What each job really cost: the month's money shared over the jobs by their modelled use, to the last coin."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from estimator.pricing.money import share_out, to_minor

__all__ = ["JobCost", "true_up"]


@dataclass(frozen=True, slots=True)
class JobCost:
    """One job of a month, in minor units."""

    job: str
    modelled_minor: int
    """Its gas by the model at the agreed prices."""
    gas_minor: int
    """Its part of the month's gas money."""
    other_minor: int
    """Its part of rental, delivery and fees."""

    @property
    def cost_minor(self) -> int:
        """Gas and the rest."""
        return self.gas_minor + self.other_minor


def true_up(
    jobs: Sequence[str],
    expected_m3: Mapping[str, Sequence[float]],
    standard_price: Mapping[str, float],
    gas_money_minor: Mapping[str, int],
    other_money_minor: int,
    flame_time_min: Sequence[float],
    decimals: int = 2,
) -> list[JobCost]:
    """Share the month's money over its jobs.

    Parameters
    ----------
    jobs : sequence of str, length n
        The jobs, SHOP among them where it has work.
    expected_m3 : mapping of gas to sequence of float, length n
        Modelled gas of each job [m³].
    standard_price : mapping of gas to float
        Agreed price of a cubic metre [money].
    gas_money_minor : mapping of gas to int
        What the month's use of each gas really cost, in minor units.
    other_money_minor : int
        Rental, delivery and fees of the month, in minor units.
    flame_time_min : sequence of float, length n
        Torch-lit time of each job [min]; rental and fees follow it.
    decimals : int
        Decimals of the minor unit.

    Returns
    -------
    list of JobCost
        The parts add back exactly; a gas that no job used is shared by torch-lit time.

    Raises
    ------
    ValueError
        When there is no job, or nothing to share by.

    Notes
    -----
    Largest remainder (``share_out``). Source: definition.

    Examples
    --------
    >>> costs = true_up(["A", "SHOP"], {"oxygen": [3, 1]}, {"oxygen": 3.0}, {"oxygen": 1001}, 101, [30, 10])
    >>> [(c.job, c.gas_minor, c.other_minor) for c in costs]
    [('A', 751, 76), ('SHOP', 250, 25)]
    """
    if not jobs:
        raise ValueError("there is no job to share over")
    flame = np.asarray(flame_time_min, dtype=np.float64)
    if not flame.sum():
        flame = np.ones(len(jobs))
    gas_parts = np.zeros(len(jobs), dtype=np.int64)
    modelled = np.zeros(len(jobs))
    for gas, money in gas_money_minor.items():
        use = np.asarray(expected_m3.get(gas, np.zeros(len(jobs))), dtype=np.float64)
        gas_parts += np.asarray(share_out(money, use if use.sum() else flame), dtype=np.int64)
        modelled += use * standard_price.get(gas, 0.0)
    other_parts = share_out(other_money_minor, flame)
    whole = int(to_minor(float(modelled.sum()), decimals))
    modelled_minor = share_out(whole, modelled) if modelled.sum() else [0] * len(jobs)
    rows = zip(jobs, modelled_minor, gas_parts, other_parts, strict=True)
    return [JobCost(job, model, int(gas), other) for job, model, gas, other in rows]
