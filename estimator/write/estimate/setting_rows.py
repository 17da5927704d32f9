"""Which torch settings a job uses, and the row of the settings sheet that each line points to.

Row 1 stands for no torch and holds zeros, so that one formula serves every line.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate

__all__ = ["NO_TORCH", "SettingRows"]

NO_TORCH = 1


@dataclass(frozen=True, slots=True)
class SettingRows:
    """Settings in use, in the order of the engine's list, and their tips."""

    used: tuple[int, ...]
    """Index of each setting in the engine's list; the first stands in row 2."""
    tips: tuple[str, ...]
    """Distinct tips in use; the first is number 1."""
    tip_number: tuple[int, ...]
    """Tip of each used setting."""

    @classmethod
    def of_job(cls, estimate: Estimate) -> SettingRows:
        """Return the settings that lines, bevel passes and lightings of a job use."""
        job = estimate.job
        indices = {int(i) for i in np.concatenate([job.lines.setting, job.lines.bevel_setting])}
        used = sorted((indices | {row.setting for row in job.rows}) - {-1})
        tips = tuple(dict.fromkeys(job.settings.tip[i] for i in used))
        return cls(tuple(used), tips, tuple(tips.index(job.settings.tip[i]) + 1 for i in used))

    def of(self, setting: NDArray[np.int64]) -> NDArray[np.float64]:
        """Return the row of the settings sheet for each engine setting; ``NO_TORCH`` for -1."""
        rows = {index: float(row) for row, index in enumerate(self.used, NO_TORCH + 1)} | {-1: float(NO_TORCH)}
        return np.array([rows[int(index)] for index in setting], dtype=np.float64)

    def row(self, setting: int) -> int:
        """Return the row of one engine setting."""
        return NO_TORCH if setting < 0 else self.used.index(setting) + NO_TORCH + 1

    def tip_of(self, setting: NDArray[np.int64]) -> NDArray[np.float64]:
        """Return the number of each line's tip; 0 without a torch."""
        numbers = {index: float(tip) for index, tip in zip(self.used, self.tip_number, strict=True)} | {-1: 0.0}
        return np.array([numbers[int(index)] for index in setting], dtype=np.float64)
