"""What belongs to the job and to no line: set-up, settings, lighting, tip and cylinder changes, site work."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.work_rates import WorkRates
from estimator.quantities.gas_use import gas_m3
from estimator.quantities.sorted_values import distinct
from estimator.quantities.stock import from_bar
from estimator.quantities.times import LineQuantities
from estimator.quantities.torch_settings import Settings
from estimator.words import BLANK, Method, Site, Surface, Work

__all__ = ["JobRow", "cylinder_change_row", "fetch_plates", "job_rows", "light_at"]


@dataclass(slots=True)
class JobRow:
    """One row of the job: a count of something that takes minutes, some of them with the flame lit."""

    key: str
    what: str
    count: float
    """How often; not rounded where it is a share (cylinder changes)."""
    minutes_each: float
    rate: str
    """Name of the work rate that states the minutes."""
    rested: bool = True
    """Whether the rest allowance applies (not on a fire watch)."""
    setting: int = -1
    """Setting whose flame burns, for lighting and setting guides; -1 without flame."""
    lit_share: float = 0.0
    """Share of the minutes with the flame lit."""
    lit_rate: str = ""
    """Name of the work rate that states that share; empty where the flame is lit all the time, or never."""
    flame_time_min: float = 0.0
    paid_time_min: float = 0.0
    preheat_oxygen_m3: float = 0.0
    fuel_m3: float = 0.0
    lost_oxygen_m3: float = 0.0
    lost_fuel_m3: float = 0.0

    @property
    def drawn_oxygen_m3(self) -> float:
        """Oxygen that leaves the bottles, the gas lost with it [m³]."""
        return self.preheat_oxygen_m3 + self.lost_oxygen_m3

    @property
    def drawn_fuel_m3(self) -> float:
        """Fuel that leaves the bottles, the gas lost with it [m³]."""
        return self.fuel_m3 + self.lost_fuel_m3


def job_rows(cuts: CutList, lines: LineQuantities, settings: Settings, rates: WorkRates) -> list[JobRow]:
    """Return the rows of the job in the order in which it is done, those that count nothing left out.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    lines : LineQuantities
        What they take.
    settings : Settings
        Torch settings.
    rates : WorkRates
        The shop's work rates.

    Returns
    -------
    list of JobRow
        Cylinder changes not among them: they need the price book's cylinders (``cylinder_change_row``).

    Notes
    -----
    Source: definitions of the project's method, ``docs/method.md``.
    """
    tips = _tips_in_order(lines, settings)
    rows = [
        *_setting_up(cuts, lines, rates),
        *_guides(cuts, lines, rates),
        *_along_the_way(cuts, lines, rates, tips),
        *_lightings(lines, settings, rates, tips),
        *_after_the_last_cut(cuts, lines, rates),
    ]
    kept = [row for row in rows if row.count > 0]
    for row in kept:
        _fill(row, settings, rates)
    return kept


def cylinder_change_row(used_over_usable: float, settings: Settings, rates: WorkRates) -> JobRow:
    """Return the row of cylinder changes.

    Parameters
    ----------
    used_over_usable : float
        Gas of the job over the usable content of a cylinder, summed over gases; not rounded up.
    settings : Settings
        Torch settings.
    rates : WorkRates
        The shop's work rates.

    Returns
    -------
    JobRow
        Changes and their minutes.
    """
    row = JobRow(
        "cylinder_changes",
        "Change cylinders",
        used_over_usable,
        rates.cylinder_change_min,
        "cylinder_change_min",
    )
    _fill(row, settings, rates)
    return row


def fetch_plates(rows: Iterable[JobRow], count: float, settings: Settings, rates: WorkRates) -> None:
    """Let the row for fetching plates count the plates that are bought instead of one for each thickness.

    Parameters
    ----------
    rows : iterable of JobRow
        Rows of a job; without a row for plates nothing changes.
    count : float
        Plates.
    settings : Settings
        Torch settings.
    rates : WorkRates
        The shop's work rates.
    """
    for row in rows:
        if row.key == "plates":
            row.count = count
            _fill(row, settings, rates)


def light_at(rows: Iterable[JobRow], lit: Mapping[str, int], settings: Settings, rates: WorkRates) -> None:
    """Let rows burn at settings that are named for them, by their key, instead of at the busiest of their tip.

    Parameters
    ----------
    rows : iterable of JobRow
        Rows of a job; those that ``lit`` does not name stay.
    lit : mapping of str to int
        Setting of each row, an index into ``settings``.
    settings : Settings
        Torch settings.
    rates : WorkRates
        The shop's work rates.
    """
    for row in rows:
        if row.key in lit:
            row.setting = lit[row.key]
            _fill(row, settings, rates)


def _row(rates: WorkRates, key: str, what: str, count: float, rate: str, *, rested: bool = True) -> JobRow:
    return JobRow(key, what, float(count), getattr(rates, rate), rate, rested)


def _is_cut(cuts: CutList, lines: LineQuantities) -> NDArray[np.bool_]:
    return np.asarray(np.isin(cuts.work, (Work.CUT, BLANK)) & (lines.metres.passes > 0))


def _setting_up(cuts: CutList, lines: LineQuantities, rates: WorkRates) -> list[JobRow]:
    """Site, drawings, thicknesses, plates, templates: what is done before a torch is lit."""
    cut = _is_cut(cuts, lines)
    # On site the steel is there already; a bar is lifted by its weight, as handling of its line.
    from_plate = cut & ~from_bar(cuts) & (cuts.site != Site.SITE)
    templates = len({cuts.mark[i] or str(i) for i in np.flatnonzero(cuts.method == Method.TEMPLATE)})
    on_site = bool(np.any(cuts.site == Site.SITE))
    thicknesses, of_plate = (len(distinct(cuts.thickness_mm[lines_in])) for lines_in in (cut, from_plate))
    return [
        _row(rates, "site_load", "Site: load and unload the cart", on_site, "site_load_min"),
        _row(rates, "site_travel", "Site: travel", on_site, "site_travel_min"),
        _row(rates, "site_permit", "Site: permit and fire blankets", on_site, "site_permit_min"),
        _row(rates, "setup_job", "Set-up and clearing away", 1.0, "setup_job_min"),
        _row(rates, "setup_mark", "Read the drawing of each new mark", _drawings(cuts), "setup_mark_min"),
        _row(rates, "setup_thickness", "Set up each new thickness", thicknesses, "setup_thickness_min"),
        _row(rates, "plates", "Fetch plates", of_plate, "plate_fetch_min"),
        _row(rates, "templates", "Make or fetch templates", templates, "template_min"),
    ]


def _drawings(cuts: CutList) -> int:
    """Count the marks whose drawing is read; a row without a mark has one of its own, odd work on a piece has none."""
    drawn = np.flatnonzero(~np.isin(cuts.work, (Work.OTHER, Work.STRAIGHTEN)))
    return len({cuts.mark[i] or str(i) for i in drawn})


def _guides(cuts: CutList, lines: LineQuantities, rates: WorkRates) -> list[JobRow]:
    """Guides set once, the flame lit for a part of it as at the setting at which most of them are set."""
    circles = lines.metres.circle_sizes * (cuts.method != Method.TRACK)
    bevels = np.where(_is_cut(cuts, lines) & (np.nan_to_num(cuts.bevel_deg) > 0), 1.0, 0.0)
    bevel_at = np.where(lines.bevel_setting >= 0, lines.bevel_setting, lines.setting)
    rows = []
    for key, what, counts, at in (
        ("circle_guide", "Set the circle guide", circles, lines.setting),
        ("bevel_setting", "Set the bevel guide", bevels, bevel_at),
    ):
        row = _row(rates, key, what, np.sum(counts), f"{key}_min")
        row.lit_rate = f"{key}_lit_share"
        row.lit_share = getattr(rates, row.lit_rate)
        burning = at >= 0
        if np.any(counts[burning] > 0):
            row.setting = int(np.argmax(np.bincount(at[burning], weights=counts[burning])))
        rows.append(row)
    return rows


def _along_the_way(cuts: CutList, lines: LineQuantities, rates: WorkRates, tips: Sequence[str]) -> list[JobRow]:
    stripped_m = np.sum(lines.cut_m[_is_cut(cuts, lines) & (cuts.surface == Surface.PAINTED)])
    return [
        _row(rates, "strip_coating", "Strip paint along the cut", stripped_m, "strip_coating_min_per_m"),
        _row(rates, "tip_changes", "Change tips", max(len(tips) - 1, 0), "tip_change_min"),
    ]


def _after_the_last_cut(cuts: CutList, lines: LineQuantities, rates: WorkRates) -> list[JobRow]:
    """A helper by the man's minutes, which hold their rest already, and the fire watch."""
    site = cuts.site == Site.SITE
    helped_min = np.sum(lines.paid_time_min[site]) if rates.site_helper_share else 0.0
    return [
        _row(rates, "site_helper", "Site: helper beside the man", helped_min, "site_helper_share", rested=False),
        _row(
            rates, "fire_watch", "Site: fire watch after the last cut", bool(site.any()), "fire_watch_min", rested=False
        ),
    ]


def _tips_in_order(lines: LineQuantities, settings: Settings) -> list[str]:
    used = distinct(np.concatenate([lines.setting, lines.bevel_setting]))
    return list(dict.fromkeys(settings.tip[int(i)] for i in used if i >= 0))


def _lightings(lines: LineQuantities, settings: Settings, rates: WorkRates, tips: Sequence[str]) -> list[JobRow]:
    """One lighting for each stretch of paid time on a tip; the flame burns as at the tip's busiest setting."""
    rows = []
    for tip in tips:
        on_tip = np.array([settings.tip[int(i)] == tip if i >= 0 else False for i in range(len(settings))])
        here = _is_on(lines.setting, on_tip)
        paid_h = float(np.sum(lines.paid_time_min[here])) / 60.0
        count = max(1.0, float(np.ceil(round(paid_h / rates.lighting_every_h, 9))))
        burnt = np.bincount(lines.setting[here], weights=lines.flame_time_min[here], minlength=len(settings))
        busiest = int(np.argmax(np.where(on_tip, burnt, -1.0)))
        rows.append(
            JobRow(
                f"lighting {tip}",
                f"Light and set the flame, tip {tip}",
                count,
                rates.lighting_min,
                "lighting_min",
                setting=busiest,
                lit_share=1.0,
            )
        )
    return rows


def _is_on(setting: NDArray[np.int64], on_tip: NDArray[np.bool_]) -> NDArray[np.bool_]:
    return np.asarray((setting >= 0) & on_tip[np.maximum(setting, 0)])


def _fill(row: JobRow, settings: Settings, rates: WorkRates) -> None:
    minutes = row.count * row.minutes_each
    row.paid_time_min = minutes * (1.0 + rates.rest_allowance if row.rested else 1.0)
    if row.setting >= 0:
        row.flame_time_min = minutes * row.lit_share
        row.fuel_m3 = float(gas_m3(row.flame_time_min, settings.fuel_flow_m3_h[row.setting]))
        row.preheat_oxygen_m3 = float(gas_m3(row.flame_time_min, settings.preheat_flow_m3_h[row.setting]))
        row.lost_oxygen_m3 = row.preheat_oxygen_m3 * rates.gas_lost_oxygen
        row.lost_fuel_m3 = row.fuel_m3 * rates.gas_lost_fuel
