"""Gas that the logged work needs, by job, with its doubt. Filled from the model of a cut; knows nothing of how."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

__all__ = ["ExpectedGas"]


@dataclass(frozen=True, slots=True)
class ExpectedGas:
    """Modelled gas of some days, by job; m³ at 15 °C and 101.325 kPa."""

    jobs: tuple[str, ...]
    flame_time_min: NDArray[np.float64]
    """Torch-lit time of each job."""
    by_gas: Mapping[str, NDArray[np.float64]]
    """Gas of each job, stated losses left out."""
    shared_doubt: Mapping[str, float] = field(default_factory=dict)
    """Relative standard uncertainty that all work shares: the chart, or the shop's own factor."""
    own_doubt_m3: Mapping[str, float] = field(default_factory=dict)
    """Standard uncertainty of the rest: line by line, thin rows, independent."""
    loss_share: Mapping[str, float] = field(default_factory=dict)
    """Pilot, purge and leak as the shop states them, as a share of the gas of the work."""
    loss_doubt: Mapping[str, float] = field(default_factory=dict)
    """Standard uncertainty of that share."""

    def work_m3(self, gas: str) -> float:
        """Return the gas of all work, losses left out."""
        return float(np.sum(self.by_gas.get(gas, np.zeros(0))))

    def loss_m3(self, gas: str) -> float:
        """Return the stated losses."""
        return self.work_m3(gas) * self.loss_share.get(gas, 0.0)

    def common_doubt(self, gas: str) -> float:
        """Return the relative standard uncertainty that every month shares: of the model and of the stated losses."""
        total = self.total_m3(gas)
        of_losses = self.work_m3(gas) * self.loss_doubt.get(gas, 0.0) / total if total else 0.0
        return float(np.hypot(self.shared_doubt.get(gas, 0.0), of_losses))

    def total_m3(self, gas: str) -> float:
        """Return work and stated losses."""
        return self.work_m3(gas) + self.loss_m3(gas)

    def doubt_m3(self, gas: str) -> float:
        """Return the standard uncertainty of ``total_m3``: shared, own and of the losses, added in squares."""
        parts = (
            self.total_m3(gas) * self.shared_doubt.get(gas, 0.0),
            self.own_doubt_m3.get(gas, 0.0),
            self.work_m3(gas) * self.loss_doubt.get(gas, 0.0),
        )
        return float(np.sqrt(sum(part * part for part in parts)))
