"""Whether a fuel can be cut with at all: propylene and MPS have no built-in chart, so the shop's own must stand in."""

from __future__ import annotations

from estimator.check.torch_kit import TorchKit, built_in_chart
from estimator.problems import Place, Problem
from estimator.problems.rack import OWN_CHART_NEEDED
from estimator.sheets.torch import OWN_CHART

__all__ = ["fuel_chart_problems"]


def fuel_chart_problems(kit: TorchKit, file: str) -> list[Problem]:
    """Return the problem of a fuel that neither the built-in chart nor the shop's own has rows for.

    Parameters
    ----------
    kit : TorchKit
        Tips on hand for the fuel, with their charts.
    file : str
        The shop book's file name; empty for the built-in example.

    Returns
    -------
    list of Problem
        One, or none.
    """
    charts = [built_in_chart(kit.fuel), *kit.charts]
    if any(len(chart.fuel_m3_h.thickness_mm) for chart in charts):
        return []
    return [OWN_CHART_NEEDED.at(Place(file or "the example shop book", OWN_CHART.name), found=kit.fuel, gas=kit.fuel)]
