"""What a run is asked for, and the priced job that every output is written from."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopBook
from estimator.check.torch_kit import TorchKit
from estimator.check.work_rates import WorkRates
from estimator.pricing.build_up import ExactCosts
from estimator.pricing.estimate import PricedLines, PricedRows, Totals
from estimator.pricing.plate_steel import PlateSteel
from estimator.pricing.rates import Rates
from estimator.problems import Place, Problem
from estimator.quantities.job import JobQuantities
from estimator.quantities.typed_settings import SettingKey

__all__ = ["Estimate", "JobOrder", "Reopened"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class JobOrder:
    """What is decided for one run, beside list and shop book."""

    date: dt.date | None = None
    fuel: str = ""
    """Empty for the shop's fuel."""
    partial: bool = False
    strict: bool = False
    labour_rate: str = ""
    discount: float | None = None
    rush: float = 0.0
    quote_number: str = ""
    revision: str = ""


@dataclass(frozen=True, slots=True)
class Reopened:
    """A job that is priced again from its own record: factors and sections are as they were worked out then."""

    new_lines: bool = False
    """Whether the lines are new ones, at the record's rates."""
    work_rates: Mapping[str, float] = field(default_factory=dict)
    """Work rates that were typed over, by name."""
    settings: Mapping[SettingKey, Mapping[str, float]] = field(default_factory=dict)
    """Figures of torch settings that were typed over, by setting and house name."""
    plates: PlateSteel | None = None
    """What each piece paid of the plates as they were counted then; none to count them."""
    fetched: float | None = None
    """Plates that were fetched, as counted then; none to count them."""
    lit_at: Mapping[str, SettingKey] = field(default_factory=dict)
    """Setting of each row of the job that burns, as it was worked out then, by the row's key."""


@dataclass(slots=True)
class Estimate:
    """A priced job: what every output is written from."""

    cuts: CutList
    """The priced lines."""
    shop: ShopBook
    order: JobOrder
    date: dt.date | None
    kit: TorchKit
    work: WorkRates
    job: JobQuantities
    rates: Rates
    labour_rate: list[str]
    costs: ExactCosts
    row_costs: ExactCosts
    lines: PricedLines
    rows: PricedRows
    totals: Totals
    problems: list[Problem] = field(default_factory=list)
    unpriced: list[Place] = field(default_factory=list)
    """Rows that a problem keeps out of the price; not empty only with ``--partial``."""
    plates: PlateSteel = field(default_factory=lambda: PlateSteel(np.empty(0), np.empty(0)))
    """What each piece pays of the plates bought; NaN where its steel goes by weight."""
    job_labour: str = ""
    """Labour rate of the job's own rows."""
    other_consumables: Floats = field(default_factory=lambda: np.empty(0))
    """Consumables of other work and of drilled holes, of each whole line [money]."""
    rush: float = 0.0
    discount: float = 0.0
    my_minutes: Floats = field(default_factory=lambda: np.empty(0))
    my_price_each: Floats = field(default_factory=lambda: np.empty(0))
    reopened: Reopened | None = None
    """What was typed over, where the job comes from an estimate's own record."""
    last_price_each: Floats = field(default_factory=lambda: np.empty(0))
    """What each line's mark was last quoted at to this customer; NaN where it was not, empty where none was [money]."""
    last_time: list[str] = field(default_factory=list)
    """Quantity, day, quote and outcome of that price, in words; empty where there was none."""
    why: list[str] = field(default_factory=list)
    """The owner's reason for minutes or a price of his own, line by line; empty for none at all."""

    @property
    def incomplete(self) -> bool:
        """Whether some rows of the list have no price."""
        return bool(self.unpriced)

    @property
    def paid_time_min(self) -> Floats:
        """Paid minutes of each line: the owner's where typed, else worked out [min]."""
        mine = self.my_minutes
        return np.where(np.isnan(mine), self.job.lines.paid_time_min, mine)

    @property
    def whole_paid_time_min(self) -> float:
        """Paid minutes of the whole job, its own rows with it [min]."""
        return float(self.paid_time_min.sum()) + sum(row.paid_time_min for row in self.job.rows)
