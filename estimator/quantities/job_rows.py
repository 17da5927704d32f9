"""What belongs to the job and to no line: set-up, settings, lighting, tip and cylinder changes, site work."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.work_rates import WorkRates
from estimator.quantities.sorted_values import distinct
from estimator.quantities.times import LineQuantities
from estimator.quantities.torch_settings import Settings
from estimator.words import BLANK, MadeFrom, Method, Site, Surface, Work

__all__ = ["JobRow", "cylinder_change_row", "job_rows", "light_at"]


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
    cut = np.isin(cuts.work, (Work.CUT, BLANK)) & (lines.metres.passes > 0)
    hand = cuts.method != Method.TRACK
    # On site the steel is there already.
    from_plate = cut & np.isin(cuts.made_from, (MadeFrom.PLATE, BLANK)) & (cuts.site != Site.SITE)
    named = [mark for mark in cuts.mark if mark]
    marks = len(set(named)) + (len(cuts) - len(named))
    templates = len({cuts.mark[i] or str(i) for i in np.flatnonzero(cuts.method == Method.TEMPLATE)})
    painted = cut & (cuts.surface == Surface.PAINTED)
    on_site = bool(np.any(cuts.site == Site.SITE))
    tips = _tips_in_order(lines, settings)
    # The man's minutes hold their rest already; without a helper there is no row.
    helped_min = np.sum(lines.paid_time_min[cuts.site == Site.SITE]) if rates.site_helper_share else 0.0

    def row(key: str, what: str, count: float, rate: str, *, rested: bool = True) -> JobRow:
        return JobRow(key, what, float(count), getattr(rates, rate), rate, rested)

    def lit(key: str, what: str, counts: NDArray[np.float64], at: NDArray[np.int64]) -> JobRow:
        """Return a row whose flame burns as at the setting at which most of its guides are set."""
        one = row(key, what, np.sum(counts), f"{key}_min")
        one.lit_rate = f"{key}_lit_share"
        one.lit_share = getattr(rates, one.lit_rate)
        burning = at >= 0
        if np.any(counts[burning] > 0):
            one.setting = int(np.argmax(np.bincount(at[burning], weights=counts[burning])))
        return one

    bevelled = np.where(cut & (np.nan_to_num(cuts.bevel_deg) > 0), 1.0, 0.0)
    with_bevel = lines.bevel_setting >= 0
    rows = [
        row("site_load", "Site: load and unload the cart", on_site, "site_load_min"),
        row("site_travel", "Site: travel", on_site, "site_travel_min"),
        row("site_permit", "Site: permit and fire blankets", on_site, "site_permit_min"),
        row("setup_job", "Set-up and clearing away", 1.0, "setup_job_min"),
        row("setup_mark", "Read the drawing of each new mark", marks, "setup_mark_min"),
        row(
            "setup_thickness",
            "Set up each new thickness",
            len(distinct(cuts.thickness_mm[cut])),
            "setup_thickness_min",
        ),
        row("plates", "Fetch plates", len(distinct(cuts.thickness_mm[from_plate])), "plate_fetch_min"),
        row("templates", "Make or fetch templates", templates, "template_min"),
        lit("circle_guide", "Set the circle guide", lines.metres.circle_sizes * hand, lines.setting),
        lit("bevel_setting", "Set the bevel guide", bevelled, np.where(with_bevel, lines.bevel_setting, lines.setting)),
        row("strip_coating", "Strip paint along the cut", np.sum(lines.cut_m[painted]), "strip_coating_min_per_m"),
        row("tip_changes", "Change tips", max(len(tips) - 1, 0), "tip_change_min"),
        *_lightings(lines, settings, rates, tips),
        row("site_helper", "Site: helper beside the man", helped_min, "site_helper_share", rested=False),
        row("fire_watch", "Site: fire watch after the last cut", on_site, "fire_watch_min", rested=False),
    ]
    kept = [r for r in rows if r.count > 0]
    for r in kept:
        _fill(r, settings, rates)
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
        row.fuel_m3 = float(settings.fuel_flow_m3_h[row.setting]) * row.flame_time_min / 60.0
        row.preheat_oxygen_m3 = float(settings.preheat_flow_m3_h[row.setting]) * row.flame_time_min / 60.0
        row.lost_oxygen_m3 = row.preheat_oxygen_m3 * rates.gas_lost_oxygen
        row.lost_fuel_m3 = row.fuel_m3 * rates.gas_lost_fuel
