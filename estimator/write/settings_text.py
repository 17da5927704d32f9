"""Settings for one thickness on a terminal and as JSON: tip, pressures, speed, flows, then the cautions."""

from __future__ import annotations

import textwrap
from dataclasses import asdict
from typing import Any

import numpy as np

from estimator.cautions import CONDITIONS, Caution, cautions
from estimator.pricing.settings_card import TipSetting
from estimator.units import FACTORS

__all__ = ["settings_json", "settings_text"]

_PSI = 1.0 / FACTORS["pressure_bar"]["psi"]
_FT3 = 1.0 / FACTORS["volume_m3"]["ft3"]


def settings_text(found: list[TipSetting], *, whole: bool = False, book: str = "") -> str:
    """Return settings and cautions as text of at most 80 columns.

    Parameters
    ----------
    found : list of TipSetting
        By hand and on a track.
    whole : bool
        Whether every caution is shown with its source, or those that come first.
    book : str
        Shop book whose fuel and tips they are; empty for the invented example's.

    Returns
    -------
    str
        Metric first, inch behind it.
    """
    hand = found[0]
    out = [
        f"{hand.thickness_mm:.4g} mm ({hand.thickness_mm / 25.4:.3g} in) with oxygen and {hand.fuel}",
        f"  tip               {hand.tip}, bore {hand.bore_mm:g} mm, for {hand.from_mm:g} to {hand.to_mm:g} mm",
        f"  cutting oxygen    {_pressure(hand.oxygen_pressure_bar)}, lever down",
        *_fuel_pressure(hand),
        *(_speed(s) for s in found),
        f"  cutting oxygen    {_flow(hand.cutting_oxygen_m3_h)} with the lever down",
        f"  preheat oxygen    {_flow(hand.preheat_oxygen_m3_h)} with the flame lit",
        f"  {hand.fuel + ' flow':<17} {_flow(hand.fuel_m3_h)} with the flame lit",
        f"  kerf              about {hand.kerf_mm:.2g} mm ({hand.kerf_mm / 25.4:.2g} in)",
        f"  pierce            {_pierce(hand.pierce_s)}",
        f"  figures           {'your own chart' if hand.own_chart else 'built-in chart; speeds and fuel from memory'}",
        f"                    tip: {hand.status}" if hand.status else "",
        f"  fuel and tips     of {book or 'the invented example shop; --shop names your own book'}",
        "",
        *_caution_lines(_cautions(hand.fuel), whole=whole),
    ]
    return "\n".join(line for line in out if line is not None)


def settings_json(found: list[TipSetting]) -> dict[str, Any]:
    """Return settings and cautions as plain data.

    Parameters
    ----------
    found : list of TipSetting
        By hand and on a track.

    Returns
    -------
    dict
        Keys with units; an unknown number is null.
    """
    return {
        "schema": "kerfledger/1",
        "settings": [
            {k: (None if isinstance(v, float) and np.isnan(v) else v) for k, v in asdict(s).items()} for s in found
        ],
        "cautions": [
            {"caution": c.text, "source": str(c.provenance), "stage": c.stage} for c in _cautions(found[0].fuel)
        ],
    }


def _cautions(fuel: str) -> list[Caution]:
    return cautions([fuel] if fuel in CONDITIONS else [])


def _caution_lines(rows: list[Caution], *, whole: bool) -> list[str]:
    said = [f"{row.text} [{row.provenance}]" if whole else row.text for row in rows if whole or row.first]
    lines = []
    for words in said:
        lines += textwrap.wrap(f"- {words}", 80, subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)
    left = len(rows) - len(said)
    more = [f"{left} more cautions, and where each comes from: --all, or the card that --pdf writes."] if left else []
    return [*lines, *more]


def _fuel_pressure(s: TipSetting) -> list[str]:
    """Return the fuel's pressure, with what print says of acetylene's; the manual's alone where it is not stated."""
    if np.isnan(s.fuel_pressure_bar):
        return [f"  {s.fuel:<17} by the torch's own manual: no pressure is known here"]
    low, high = _pressure(s.fuel_pressure_low_bar), _pressure(s.fuel_pressure_high_bar)
    of_acetylene = [
        "                    (seen in print 0.14 to 0.21 bar, 2 to 3 psi; up to 0.35 bar,",
        "                    5 psi is common practice, no source: the torch's kind decides)",
    ]
    return [f"  {s.fuel:<17} {low} to {high}", *(of_acetylene if s.fuel == "acetylene" else [])]


def _pressure(bar: float) -> str:
    return f"{bar:.2f} bar ({bar * _PSI:.0f} psi)" if bar >= 1 else f"{bar:.2f} bar ({bar * _PSI:.1f} psi)"


def _flow(m3_h: float) -> str:
    return f"{m3_h:.2f} m³/h ({m3_h * _FT3:.0f} ft³/h, both at 15 °C)"


def _speed(s: TipSetting) -> str:
    return (
        f"  speed by {s.by:<8} {s.speed_mm_min:.0f} mm/min ({s.speed_low_mm_min:.0f} to {s.speed_high_mm_min:.0f}),"
        f" {s.speed_mm_min / 25.4:.1f} in/min"
    )


def _pierce(seconds: float) -> str:
    return "not pierced at this thickness: start from an edge" if np.isnan(seconds) else f"about {seconds:.0f} s"
