"""The shop book as records: what the shop charges, buys, owns and has measured. One pydantic model a sheet."""

from __future__ import annotations

import datetime as dt
from typing import Any

from pydantic import BaseModel, ConfigDict

from estimator.check.outfit import CylinderOutlet, OutfitItem
from estimator.shown_units import ShownUnits, shown_units

__all__ = [
    "ALWAYS",
    "AddOn",
    "ChartRow",
    "Customer",
    "FactorRow",
    "FlameTipRow",
    "GasPrice",
    "LabourRate",
    "QuantityBreak",
    "RackCylinder",
    "ShopBook",
    "ShopForm",
    "SteelPrice",
    "TipRow",
    "WorkRate",
]

ALWAYS = dt.date(1970, 1, 1)
"""First day of a price that its owner gave none: it holds whatever the day of the job."""


class _Record(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")

    row: int = 0
    """Row of the sheet it came from; 0 when it came from no sheet."""


class ShopForm(_Record):
    """The shop's own rules. Percentages are shares (0.12), money is in the major unit."""

    shop_name: str = ""
    address: str = ""
    contact: str = ""
    currency: str = "XTS"
    decimals: int = 2
    units: str = "mm"
    paper: str = "A4"
    offcut_word: str = "offcut"
    fuel: str = "acetylene"
    keep_tip_in: bool = True
    outlines_pierced: bool = False
    steel_when_silent: str = "ask"
    steel_charged: str = "by weight"
    markup: float | None = None
    margin: float | None = None
    overhead_per_hour: float = 0.0
    overhead_share: float = 0.0
    planned_flame_hours: float
    minimum_line: float = 0.0
    minimum_job: float = 0.0
    price_step: float = 0.0
    spread_job_rows: bool = False
    discount: float = 0.0
    delivery: float = 0.0
    tax_name: str = "Tax"
    tax: float = 0.0
    lump_sum: bool = False
    validity_days: int = 30
    payment_terms: str = ""
    delivery_time: str = ""
    tolerance_words: str = ""
    not_included: str = ""
    left_over_words: str = ""
    objection_days: int = 14
    lead_time_days: int = 2
    fade_days: int = 730
    prices_are_examples: bool = False

    @property
    def price_over_cost(self) -> float:
        """Price for one unit of cost, from markup or margin; 1 when neither is typed."""
        if self.margin is not None:
            return 1.0 / (1.0 - self.margin)
        return 1.0 + (self.markup or 0.0)


class LabourRate(_Record):
    """An hour's cost, by name and date."""

    name: str
    per_hour: float
    from_date: dt.date
    minimum_hours: float = 0.0


class GasPrice(_Record):
    """A cylinder size as it is bought."""

    gas: str
    cylinder: str
    content: float
    content_unit: str
    content_state: str | None = None
    price: float
    cylinder_fees: float = 0.0
    rent_per_month: float = 0.0
    held: float = 1.0
    heel_share: float = 0.0
    credited_share: float = 0.0
    supplier: str = ""
    from_date: dt.date
    in_use: bool = True


class SteelPrice(_Record):
    """Steel by thickness; without a thickness it holds for all others."""

    thickness_mm: float | None = None
    price_per_kg: float
    scrap_per_kg: float = 0.0
    left_over_share: float = 0.15
    plate_length_mm: float | None = None
    plate_width_mm: float | None = None
    from_date: dt.date


class QuantityBreak(_Record):
    """A share off a line by its mark's total quantity."""

    from_quantity: int
    off_share: float


class AddOn(_Record):
    """A share added to one class of direct cost."""

    name: str
    cost_class: str
    share: float


class FactorRow(_Record):
    """One of the shop's own factors against the handbook."""

    what: str
    tip: str = ""
    by: str = ""
    value: float
    low: float | None = None
    high: float | None = None
    jobs: int = 0
    measured: dt.date | None = None


class Customer(_Record):
    """What was agreed with a customer."""

    customer: str
    columns: str = ""
    units: str = ""
    discount: float | None = None


class WorkRate(_Record):
    """One number of the model, with its spread and status."""

    name: str
    heading: str = ""
    likely: float
    low: float | None = None
    high: float | None = None
    unit: str = ""
    status: str = ""
    why: str = ""


class TipRow(_Record):
    """A cutting tip on hand."""

    name: str
    fuel: str
    bore_mm: float
    from_mm: float
    to_mm: float
    pressure_from_bar: float
    pressure_to_bar: float
    fuel_pressure_bar: float = 0.0
    """Zero where it is not known."""
    fuel_pressure_low_bar: float | None = None
    fuel_pressure_high_bar: float | None = None
    given_flow_m3_h: float | None = None
    flow_low: float = 0.85
    flow_high: float = 1.2
    price: float = 0.0
    on_hand: bool = True
    status: str = ""


class ChartRow(_Record):
    """A row of the shop's own chart."""

    tip: str
    mode: str
    thickness_mm: float
    speed_mm_min: float
    speed_low_mm_min: float | None = None
    speed_high_mm_min: float | None = None
    fuel_m3_h: float | None = None
    cutting_oxygen_m3_h: float | None = None
    kerf_mm: float | None = None
    pierce_s: float | None = None


class FlameTipRow(_Record):
    """A heating, welding or brazing tip."""

    name: str
    fuel: str
    fuel_m3_h: float
    preheat_oxygen_m3_h: float
    fuel_pressure_bar: float = 0.0
    oxygen_pressure_bar: float = 0.0
    speed_mm_min: float | None = None
    is_heating: bool = True
    price: float = 0.0
    status: str = ""


class RackCylinder(_Record):
    """A cylinder on the rack now."""

    cylinder_id: str
    gas: str
    cylinder: str = ""
    content: float | None = None
    content_unit: str = "m3"
    content_state: str | None = None
    full_pressure_bar: float | None = None
    gauge_bar: float | None = None
    temperature_c: float = 15.0
    gross_kg: float | None = None
    tare_kg: float | None = None
    left_share: float | None = None
    heel_share: float | None = None
    supplier_draw_fraction: float | None = None
    manifold: str = ""


class ShopBook(_Record):
    """The whole book."""

    shop: ShopForm
    labour: tuple[LabourRate, ...] = ()
    gas_prices: tuple[GasPrice, ...] = ()
    steel: tuple[SteelPrice, ...] = ()
    breaks: tuple[QuantityBreak, ...] = ()
    add_ons: tuple[AddOn, ...] = ()
    factors: tuple[FactorRow, ...] = ()
    customers: tuple[Customer, ...] = ()
    work_rates: tuple[WorkRate, ...] = ()
    """Rates that the book states; the built-in value holds for the rest."""
    tips: tuple[TipRow, ...] = ()
    own_chart: tuple[ChartRow, ...] = ()
    flame_tips: tuple[FlameTipRow, ...] = ()
    rack: tuple[RackCylinder, ...] = ()
    other_work: tuple[Any, ...] = ()
    outfit: tuple[OutfitItem, ...] = ()
    cylinder_outlets: tuple[CylinderOutlet, ...] = ()
    file: str = ""
    """Empty for the built-in example book."""
    sha256: str = ""

    @property
    def bottle_units(self) -> dict[str, str]:
        """Gas → the unit in which its newest bottle in use states its content."""
        rows = sorted(self.gas_prices, key=lambda row: (row.in_use, row.from_date))
        return {row.gas: row.content_unit for row in rows}

    @property
    def shown(self) -> ShownUnits:
        """The units that the shop is shown, each gas in that of its bottle."""
        return shown_units(self.shop.units, self.bottle_units)

    @property
    def is_example(self) -> bool:
        """Whether the prices are the invented examples."""
        return self.shop.prices_are_examples
