"""Torch settings with figures that somebody typed over, worked out as the settings sheet works them out."""

from __future__ import annotations

from collections.abc import Mapping
from copy import copy
from typing import NamedTuple

import numpy as np

from estimator.check.torch_kit import TorchKit
from estimator.check.work_rates import WorkRates
from estimator.quantities.orifice import orifice_oxygen_flow_m3_h
from estimator.quantities.torch_settings import Settings

__all__ = ["SettingKey", "setting_indices", "setting_key", "typed_over"]

_AS_TYPED = {
    "oxygen_pressure_bar": "oxygen_pressure_bar",
    "fuel_pressure_bar": "fuel_pressure_bar",
    "chart_speed_mm_min": "chart_speed",
    "bore_mm": "bore_mm",
    "fuel_m3_h": "chart_fuel",
    "fuel_factor": "own_fuel",
    "preheat_factor": "own_preheat",
    "pierce_s": "pierce_s",
    "kerf_mm": "kerf_mm",
    "cleaning_min_per_m": "cleaning_min_per_m",
}
"""Figures that are taken as they are typed: field of ``Settings`` and name on the sheet."""
_AS_TYPED_OF_FLAME = {"preheat_per_fuel": "per_fuel", "edge_start_s": "edge_start_s"}


class SettingKey(NamedTuple):
    """What tells one setting of a job from another."""

    tip: str
    guide: str
    """hand, track or flame."""
    thickness_mm: float
    """Along the cut; 0 for flame tips."""


def setting_key(settings: Settings, index: int) -> SettingKey:
    """Return the key of one setting."""
    thickness = settings.thickness_mm[index]
    guide = "flame" if settings.is_flame[index] else "track" if settings.machine[index] else "hand"
    return SettingKey(settings.tip[index], guide, 0.0 if np.isnan(thickness) else round(float(thickness), 6))


def setting_indices(settings: Settings, keys: Mapping[str, SettingKey]) -> dict[str, int]:
    """Return the place of each named setting; names whose setting is not there are left out."""
    places = {setting_key(settings, index): index for index in range(len(settings))}
    return {name: places[key] for name, key in keys.items() if key in places}


def typed_over(
    settings: Settings, typed: Mapping[SettingKey, Mapping[str, float]], kit: TorchKit, rates: WorkRates
) -> Settings:
    """Return the settings with some of them as they stand on the owner's sheet.

    Parameters
    ----------
    settings : Settings
        m settings as the engine worked them out.
    typed : mapping of SettingKey to mapping of str to float
        The typed cells of a row of the sheet of settings, all of them, by the names that the sheet gives its columns;
        NaN for a blank cell.
    kit : TorchKit
        For the density of oxygen and the fuel.
    rates : WorkRates
        The shop's work rates, as typed.

    Returns
    -------
    Settings
        New arrays; settings without typed figures as they were.
    """
    new = copy(settings)
    for name in Settings.__slots__:
        if isinstance(values := getattr(settings, name), np.ndarray):
            setattr(new, name, values.copy())
    for index in range(len(settings)):
        row = typed.get(setting_key(settings, index))
        if row is not None:
            _put_row(new, index, row, kit, rates)
    return new


def _put_row(settings: Settings, index: int, row: Mapping[str, float], kit: TorchKit, rates: WorkRates) -> None:
    flame = bool(settings.is_flame[index])
    for name, column in (_AS_TYPED | (_AS_TYPED_OF_FLAME if flame else {})).items():
        if column in row:
            getattr(settings, name)[index] = row[column]
    if flame:
        return
    points = rates.base_purity_percent - rates.oxygen_purity_percent
    speed_of_purity = 1.0 - rates.purity_speed_per_point * points
    oxygen_of_purity = (1.0 + rates.purity_oxygen_per_point * points) * speed_of_purity
    settings.speed_factor[index] = row["own_speed"] * speed_of_purity
    settings.oxygen_factor[index] = row["own_oxygen"] * oxygen_of_purity
    settings.start_factor[index] = row["own_start"] * rates.start_factor(kit.fuel)
    density = kit.oxygen_density_kg_m3
    by_bore = float(
        orifice_oxygen_flow_m3_h(
            row["bore_mm"],
            row["oxygen_pressure_bar"],
            density_kg_m3=density,
            discharge_coefficient=rates.orifice_coefficient,
        )
    )
    settings.cutting_oxygen_m3_h[index] = by_bore if np.isnan(row["given_flow"]) else row["given_flow"]
    pierce = row["pierce_s"]
    thick = rates.edge_start_thick_s * settings.thickness_mm[index] / 100.0
    settings.edge_start_s[index] = thick if np.isnan(pierce) else rates.edge_start_share * pierce
