"""Loads the tables in ``data/``; every value can be traced to its source.

Units, parsing and physics are left to others.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = [
    "Provenance",
    "Source",
    "Table",
    "gas_density_kg_m3",
    "net_heating_value_mj_m3",
    "oxygen_density_grid",
    "sources",
    "table",
    "table_names",
]

_MJ_PER_BTU = 1055.05585262e-6  # International Table Btu, ISO 31-4
_M3_PER_FT3 = 0.3048**3


@dataclass(frozen=True, slots=True)
class Source:
    """One line of ``SOURCES.csv``."""

    id: str
    title: str
    body: str
    edition: str
    address: str
    status: str
    caution: str


@dataclass(frozen=True, slots=True)
class Provenance:
    """Where one row of a table comes from; more than one source where a row was placed between them."""

    sources: tuple[Source, ...]
    locator: str
    status: str
    """seen, calculated, memory, judgement or common practice."""

    def __str__(self) -> str:
        names = " and ".join(source.title for source in self.sources)
        return f"{names}: {self.locator} ({self.status})" if self.locator else f"{names} ({self.status})"


@dataclass(frozen=True, eq=False)
class Table:
    """A table as columns; a column is of numbers (blank is nan) where every filled cell is one, else of text."""

    name: str
    columns: Mapping[str, NDArray[Any]]

    def __len__(self) -> int:
        return len(next(iter(self.columns.values())))

    def column(self, name: str) -> NDArray[Any]:
        """Return one column; KeyError names the columns there are."""
        if name not in self.columns:
            raise KeyError(f"table {self.name!r} has no column {name!r}; it has {', '.join(self.columns)}")
        return self.columns[name]

    def where(self, **wanted: str | float) -> Table:
        """Return the rows whose columns equal the wanted values; ValueError when there are none."""
        keep = np.ones(len(self), dtype=bool)
        for name, value in wanted.items():
            keep &= self.column(name) == value
        if not keep.any():
            raise ValueError(f"table {self.name!r} has no row with {wanted}")
        return Table(self.name, {name: values[keep] for name, values in self.columns.items()})

    def source(self, row: int) -> Provenance:
        """Return the provenance of one row, counted from 0."""
        known = sources()
        ids = str(self.column("source_id")[row]).split("+")
        return Provenance(
            tuple(known[source_id] for source_id in ids),
            str(self.column("locator")[row]),
            str(self.column("status")[row]),
        )


def table(name: str) -> Table:
    """Return a table of ``data/`` by its file name without ``.csv``; read once.

    Parameters
    ----------
    name : str
        Such as ``chart_speed``; ``table_names`` lists them.

    Returns
    -------
    Table

    Raises
    ------
    ValueError
        When there is no such table.

    Notes
    -----
    The arrays are shared and cannot be written to. Source: definition.

    Examples
    --------
    >>> table("tips").column("tip_bore_mm")[0]
    np.float64(0.8)
    """
    return _read(name)


def table_names() -> list[str]:
    """Return the names of all tables, sorted, without the list of sources."""
    names = (entry.name for entry in files("estimator").joinpath("data").iterdir())
    return sorted(name[:-4] for name in names if name.endswith(".csv") and name != "SOURCES.csv")


@cache
def sources() -> dict[str, Source]:
    """Return every source by its id."""
    return {row["id"]: Source(**row) for row in _rows("SOURCES")}


def gas_density_kg_m3(gas: str, state: str) -> float:
    """Return the density of a gas at a reference state.

    Parameters
    ----------
    gas : str
        oxygen, acetylene, propane, propylene, natural gas (as methane), hydrogen or mps.
    state : str
        A reference state such as ``15C_1atm``; ``units.ReferenceState`` lists them.

    Returns
    -------
    float
        Density [kg/m³].

    Raises
    ------
    ValueError
        When the gas or the state is not in the table.

    Notes
    -----
    Real gas: equation of state (CoolProp); acetylene by the second virial coefficient (chemicals); mps from one
    recalled figure.
    Source: ``gas_densities.csv``, made by ``scripts/make_gas_tables.py``.

    Examples
    --------
    >>> round(gas_density_kg_m3("oxygen", "15C_1bar"), 4)
    1.3366
    """
    densities = _densities()
    if (gas, str(state)) not in densities:
        gases = ", ".join(dict.fromkeys(known for known, _ in densities))
        states = ", ".join(dict.fromkeys(known for _, known in densities))
        raise ValueError(f"no density of {gas!r} at {str(state)!r}; gases: {gases}; states: {states}")
    return densities[gas, str(state)]


def oxygen_density_grid() -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Return gauge pressures [bar], temperatures [°C] and oxygen densities [kg/m³], shape (pressures, temperatures)."""
    rows = table("oxygen_density")
    pressure = np.unique(rows.column("pressure_bar_gauge"))
    temperature = np.unique(rows.column("temperature_c"))
    density = rows.column("density_kg_m3").reshape(pressure.size, temperature.size)
    return pressure, temperature, density


def net_heating_value_mj_m3(gas: str) -> float:
    """Return the net heating value of a fuel gas at 15 °C and 101.325 kPa.

    Parameters
    ----------
    gas : str
        Fuel as in ``heating_values.csv``.

    Returns
    -------
    float
        Net (lower) heating value; NaN for a fuel without one in the table: only worked-out heating needs it [MJ/m³].

    Notes
    -----
    The printed Btu/ft³ at 60 °F is carried to 15 °C by mass. Source: ``heating_values.csv`` (E. S. Menon).

    Examples
    --------
    >>> round(net_heating_value_mj_m3("acetylene"), 1)
    54.0
    """
    rows = table("heating_values")
    printed = dict(zip(rows.column("gas"), rows.column("net_btu_ft3_60f_1atm"), strict=True))
    net_btu_ft3 = float(printed.get(gas, math.nan))
    if math.isnan(net_btu_ft3):
        return math.nan
    by_mass = gas_density_kg_m3(gas, "15C_1atm") / gas_density_kg_m3(gas, "60F_1atm")
    return net_btu_ft3 * _MJ_PER_BTU / _M3_PER_FT3 * by_mass


@cache
def _densities() -> dict[tuple[str, str], float]:
    return {(row["gas"], row["state"]): float(row["density_kg_m3"]) for row in _rows("gas_densities")}


@cache
def _read(name: str) -> Table:
    if name not in table_names():
        raise ValueError(f"no table {name!r}; there are {', '.join(table_names())}")
    rows = _rows(name)
    return Table(name, {heading: _as_array([row[heading] for row in rows]) for heading in rows[0]})


def _rows(name: str) -> list[dict[str, str]]:
    text = files("estimator").joinpath("data", f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def _as_array(cells: list[str]) -> NDArray[Any]:
    try:
        values: NDArray[Any] = np.array([float(cell) if cell else np.nan for cell in cells])
    except ValueError:
        values = np.array(cells)
    values.setflags(write=False)
    return values
