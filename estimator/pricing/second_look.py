"""A second look at a priced job: does it make sense, and what should not be burnt. Nothing here moves a price."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from estimator.pricing.burn_or_not import Cheaper
from estimator.pricing.dont_burn import dont_burn
from estimator.pricing.job import Estimate
from estimator.pricing.sense import Band, SenseCheck, gas_share_check, own_past_check, torch_on_check
from estimator.quantities.lines import is_machine
from estimator.reference import table

__all__ = ["OwnFigures", "SecondLook", "own_figures", "price_without_steel", "second_look"]


@dataclass(frozen=True, slots=True)
class OwnFigures:
    """What a job comes to by the metre, the kilogram and the piece, before tax, steel left out; NaN without any."""

    price_per_m: float
    price_per_kg: float
    price_per_piece: float

    def named(self) -> dict[str, float]:
        """Return the figures by the words they are called."""
        return {
            "price per metre of cut": self.price_per_m,
            "price per kg": self.price_per_kg,
            "price per piece": self.price_per_piece,
        }


@dataclass(frozen=True, slots=True)
class SecondLook:
    """The sense checks of a job, and the lines that are cheaper another way."""

    sense: list[SenseCheck]
    cheaper: list[Cheaper]


def second_look(estimate: Estimate, past: Mapping[str, Sequence[float]] | None = None) -> SecondLook:
    """Set a priced job beside what the trade and the shop's own past would expect.

    Parameters
    ----------
    estimate : Estimate
        A priced job.
    past : mapping of str to sequence of float, optional
        The shop's finished jobs, the latest last, by the names of ``OwnFigures.named``.

    Returns
    -------
    SecondLook
        Torch-on share and gas share always; a figure of the past only where there is a past.

    Notes
    -----
    The share of gas is that of the price before tax without steel, in which half of the price may lie. Source: the
    table ``sense_bands``, common practice, no source.
    """
    lines, bands = estimate.job.lines, _bands()
    cut_min = lines.cut_time_min + lines.bevel_time_min
    paid = estimate.whole_paid_time_min
    sense = [
        torch_on_check(
            cut_time_min=float(cut_min.sum()),
            track_cut_time_min=float(cut_min[is_machine(estimate.cuts.method)].sum()),
            paid_time_min=paid,
            bands={"hand": bands["torch_on_hand"], "track": bands["torch_on_track"]},
        ),
        gas_share_check(
            gas_cost=estimate.totals.parts["gas"] / 10.0**estimate.shop.shop.decimals,
            price=price_without_steel(estimate),
            band=bands["gas_share_hand"],
        ),
    ]
    figures = own_figures(estimate).named()
    sense += [own_past_check(name=name, found=figures[name], past=values) for name, values in (past or {}).items()]
    return SecondLook(sense, dont_burn(estimate))


def own_figures(estimate: Estimate) -> OwnFigures:
    """Return what the job comes to by the metre, the kilogram and the piece, in the major unit.

    Parameters
    ----------
    estimate : Estimate
        A priced job.

    Returns
    -------
    OwnFigures
        Before tax, steel left out; NaN where the list has no metres, no mass or no pieces.
    """
    lines, q = estimate.job.lines, estimate.cuts.quantity
    price = price_without_steel(estimate)
    metres = float((lines.cut_m + lines.metres.passes * lines.metres.bevel_m_each).sum())
    mass = float(np.nansum(lines.mass_each_kg * q))
    return OwnFigures(*(price / amount if amount > 0 else np.nan for amount in (metres, mass, estimate.cuts.pieces)))


def price_without_steel(estimate: Estimate) -> float:
    """Return the price before tax without the steel in it, in the major unit."""
    form, totals = estimate.shop.shop, estimate.totals
    steel = totals.parts["steel"] * (1.0 + estimate.rates.add_on.get("steel", 0.0) + form.overhead_share)
    return (totals.taxable - steel * form.price_over_cost) / 10.0**form.decimals


def _bands() -> dict[str, Band]:
    rows = table("sense_bands")
    return {
        str(rows.column("name")[i]): Band(
            float(rows.column("low")[i]), float(rows.column("high")[i]), str(rows.column("who")[i])
        )
        for i in range(len(rows))
    }
