"""The second look at a priced job as JSON: sense checks, plates to buy, lines that are cheaper not burnt."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from estimator.pricing.job import Estimate
from estimator.pricing.money import format_minor, to_minor
from estimator.pricing.plates_bought import PlatesBought, plates_bought
from estimator.pricing.second_look import second_look

__all__ = ["second_look_json"]


def second_look_json(estimate: Estimate) -> dict[str, Any]:
    """Return the second look as plain data.

    Parameters
    ----------
    estimate : Estimate
        A priced job.

    Returns
    -------
    dict
        ``sense``, ``plates``, ``no_plate_for`` and ``cheaper_not_burnt``; money as decimal strings. It moves no price.
    """
    look, plates = second_look(estimate), plates_bought(estimate)
    return {
        "sense": [
            {
                "name": check.name,
                "found": _rounded(check.found),
                "usual_low": _rounded(check.band.low if check.band else None),
                "usual_high": _rounded(check.band.high if check.band else None),
                "verdict": str(check.verdict),
                "words": check.words,
            }
            for check in look.sense
        ],
        "plates": _plates(estimate, plates),
        "no_plate_for": _lines(estimate, [*plates.larger_than_any_plate, *plates.not_on_offer]),
        "cheaper_not_burnt": [
            {
                **_line(estimate, one.line),
                "way": one.way,
                "units": _rounded(one.units),
                "torch_cost_each": _money(estimate, one.burn_cost_each),
                "way_cost_each": _money(estimate, one.way_cost_each),
                "saving": _money(estimate, one.saving),
            }
            for one in look.cheaper
        ],
    }


def _plates(estimate: Estimate, plates: PlatesBought) -> list[dict[str, Any]]:
    return [
        {
            "thickness_mm": _rounded(buy.thickness_mm),
            "plate_length_mm": _rounded(buy.plate_length_mm),
            "plate_width_mm": _rounded(buy.plate_width_mm),
            "plates": buy.option.plates,
            "used_share": _rounded(buy.option.used_share),
            "left_over_kg": _rounded(buy.option.drop_mass_kg),
            "price": _money(estimate, buy.price),
            "scrap_credit": _money(estimate, buy.scrap_credit),
            "lines": _lines(estimate, buy.lines),
        }
        for buy in plates.buys
    ]


def _lines(estimate: Estimate, lines: Iterable[int]) -> list[dict[str, Any]]:
    return [_line(estimate, int(line)) for line in lines]


def _line(estimate: Estimate, line: int) -> dict[str, Any]:
    cuts = estimate.cuts
    return {"sheet": cuts.sheet[line], "row": int(cuts.row[line]), "mark": cuts.mark[line]}


def _money(estimate: Estimate, amount: float) -> str:
    decimals = estimate.shop.shop.decimals
    return format_minor(int(to_minor(amount, decimals)), decimals)


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(float(value), 9)
