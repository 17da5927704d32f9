"""The shop's work rates: every number of the model that is neither measured on the job nor read from the chart."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields

__all__ = ["WorkRates"]


@dataclass(frozen=True, slots=True)
class WorkRates:
    """Likely values, the unit in each name. ``data/work_rates.csv`` states meaning, spread and source."""

    short_straight_mm: float
    short_straight_speed: float
    circle_speed: float
    rusty_speed: float
    painted_speed: float
    rusty_start: float
    painted_start: float
    strip_coating_min_per_m: float
    bevel_speed: float
    bevel_setting_min: float
    bevel_setting_lit_share: float
    oxygen_purity_percent: float
    purity_speed_per_point: float
    purity_oxygen_per_point: float
    pierce_time_hand: float
    hand_pierce_limit_mm: float
    start_hole_min: float
    edge_start_share: float
    edge_start_thick_s: float
    blow_through_share: float
    start_propane: float
    start_natural_gas: float
    start_propylene: float
    preheat_acetylene: float
    preheat_propane: float
    preheat_natural_gas: float
    preheat_propylene: float
    preheat_mps: float
    gas_lost_oxygen: float
    gas_lost_fuel: float
    reach_mm: float
    move_min: float
    straightedge_min: float
    straightedge_lit_share: float
    circle_guide_min: float
    circle_guide_lit_share: float
    track_run_min: float
    track_lit_share: float
    template_min: float
    lighting_min: float
    lighting_every_h: float
    tip_change_min: float
    cylinder_change_min: float
    small_hole_mm: float
    small_hole_ratio: float
    drill_min_per_hole: float
    drill_min_per_cm3: float
    layout_min_per_m: float
    layout_min_per_piece: float
    handling_min_per_piece: float
    handling_min_per_kg: float
    handling_limit_kg: float
    lift_min: float
    helper_min_per_lift: float
    plate_fetch_min: float
    clean_above_30_per_mm: float
    touch_up_min_per_m: float
    bright_min_per_m: float
    stop_mark_min: float
    setup_job_min: float
    setup_thickness_min: float
    setup_mark_min: float
    stack_clamp_min: float
    rest_allowance: float
    site_load_min: float
    site_travel_min: float
    site_permit_min: float
    site_helper_share: float
    fire_watch_min: float
    tip_life_h: float
    thick_pierce_wear_h: float
    thick_pierce_mm: float
    heat_mj_per_kg: float
    heating_efficiency: float
    kerf_per_bore: float
    iron_oxidised_share: float
    steel_density_kg_m3: float
    bar_left_over: float
    round_waste_charged: float
    rail_cm2_min: float
    sheet_pile_cm2_min: float
    bolt_head_start_min: float
    bolt_head_min_per_mm: float
    short_cut_time_other_fuels: float
    section_end_factor: float
    bolt_shank_share: float
    piece_spacing_mm: float
    hours_range_low: float
    hours_range_high: float
    plate_fill: float
    orifice_coefficient: float
    base_purity_percent: float
    oxygen_purity_least_percent: float
    propane_needed_bar: float
    still_air_w_m2_k: float
    own_chart_spread: float
    length_differs_share: float
    oxygen_supplied_low: float
    oxygen_supplied_high: float
    flow_differs_share: float
    work_day_h: float
    read_gauge_bar: float
    read_temperature_c: float
    read_heat_share: float
    read_scale_kg: float
    read_tare_kg: float
    read_eye_share: float
    read_fill_share: float
    read_acetylene_gauge_share: float
    logged_minutes_share: float
    gauge_class_share: float
    scale_class_share: float
    fill_class_share: float
    logged_row_share: float
    logged_thickness_mm: float

    def start_factor(self, fuel: str) -> float:
        """Return how much longer a start takes than with acetylene; ValueError for an unknown fuel."""
        factors = {
            "acetylene": 1.0,
            "propane": self.start_propane,
            "natural gas": self.start_natural_gas,
            "propylene": self.start_propylene,
            "mps": self.start_propylene,
        }
        if fuel not in factors:
            raise ValueError(f"no start factor for {fuel!r}; fuels: {', '.join(factors)}")
        return factors[fuel]

    @classmethod
    def of(cls, values: Mapping[str, float]) -> WorkRates:
        """Return rates from a mapping by name; a name that is missing or unknown is refused with a KeyError."""
        names = {item.name for item in fields(cls)}
        if missing := sorted(names - values.keys()):
            raise KeyError(f"work rates lack {', '.join(missing)}")
        if unknown := sorted(values.keys() - names):
            raise KeyError(f"work rates do not know {', '.join(unknown)}")
        return cls(**{name: float(values[name]) for name in names})
