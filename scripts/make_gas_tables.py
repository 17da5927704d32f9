"""Make the gas tables in ``estimator/data`` with reference libraries; run it by hand when a table is to change.

Writes ``gas_densities.csv``, ``oxygen_density.csv`` and ``propane_saturation.csv``. Needs the test extra (CoolProp and
chemicals); the engine itself reads only the tables.

    python scripts/make_gas_tables.py [FOLDER]
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Iterable, Iterator
from importlib.metadata import version
from pathlib import Path

from chemicals import MW, Pc, Tc, omega
from chemicals.virial import BVirial_Tsonopoulos
from CoolProp.CoolProp import PropsSI

DATA = Path(__file__).resolve().parent.parent / "estimator" / "data"
ATMOSPHERE_PA = 101325.0
PSI_PA = 6894.757293168
GAS_CONSTANT_J_MOL_K = 8.31446261815324  # CODATA 2018, exact

STATES = {
    "0C_1atm": (0.0, ATMOSPHERE_PA),
    "15C_1bar": (15.0, 1.0e5),
    "15C_1atm": (15.0, ATMOSPHERE_PA),
    "20C_1atm": (20.0, ATMOSPHERE_PA),
    "60F_1atm": ((60.0 - 32.0) / 1.8, ATMOSPHERE_PA),
    "60F_14.73psi": ((60.0 - 32.0) / 1.8, 14.73 * PSI_PA),
    "70F_1atm": ((70.0 - 32.0) / 1.8, ATMOSPHERE_PA),
}
FLUIDS = {
    "oxygen": "Oxygen",
    "propane": "n-Propane",
    "propylene": "Propylene",
    "natural gas": "Methane",
    "hydrogen": "Hydrogen",
}
ACETYLENE_CAS = "74-86-2"
MPS_FT3_LB_70F = 8.85  # from memory; depends on the blend
FT3_PER_LB_IN_M3_PER_KG = 0.3048**3 / 0.45359237


def acetylene_density_kg_m3(kelvin: float, pascal: float) -> float:
    """Real-gas density of acetylene from the second virial coefficient, pressure form Z = 1 + B p / (R T)."""
    constants = {"Tc": Tc(ACETYLENE_CAS), "Pc": Pc(ACETYLENE_CAS), "omega": omega(ACETYLENE_CAS)}
    second_virial_m3_mol = BVirial_Tsonopoulos(kelvin, **constants)
    compressibility = 1.0 + second_virial_m3_mol * pascal / (GAS_CONSTANT_J_MOL_K * kelvin)
    return MW(ACETYLENE_CAS) / 1000.0 * pascal / (compressibility * GAS_CONSTANT_J_MOL_K * kelvin)


def density_rows() -> Iterator[list[str]]:
    """One row for each gas and reference state."""
    library = f"CoolProp {version('CoolProp')}"
    for gas, fluid in FLUIDS.items():
        method = "equation of state of methane" if gas == "natural gas" else "equation of state"
        for state, (celsius, pascal) in STATES.items():
            density = PropsSI("D", "T", celsius + 273.15, "P", pascal, fluid)
            yield state_row(gas, state, density, method, ["CALC", library, "calculated"])
    locator = f"chemicals {version('chemicals')}, Tsonopoulos 1974"
    for state, (celsius, pascal) in STATES.items():
        density = acetylene_density_kg_m3(celsius + 273.15, pascal)
        yield state_row("acetylene", state, density, "second virial coefficient", ["CALC", locator, "calculated"])
    yield from mps_rows()


def mps_rows() -> Iterator[list[str]]:
    """Methylacetylene-propadiene mixture: one recalled figure, carried to the other states as propylene goes."""
    at_70f = 1.0 / (MPS_FT3_LB_70F * FT3_PER_LB_IN_M3_PER_KG)
    kelvin, pascal = STATES["70F_1atm"][0] + 273.15, STATES["70F_1atm"][1]
    base = PropsSI("D", "T", kelvin, "P", pascal, "Propylene")
    for state, (celsius, pressure) in STATES.items():
        density = at_70f * PropsSI("D", "T", celsius + 273.15, "P", pressure, "Propylene") / base
        method = "one recalled figure at 70 F scaled as propylene"
        yield state_row("mps", state, density, method, ["MEM", "8.85 ft3/lb", "memory"])


def state_row(gas: str, state: str, density: float, method: str, provenance: list[str]) -> list[str]:
    """One row of the density table."""
    celsius, pascal = STATES[state]
    return [gas, state, f"{celsius:.3f}", f"{pascal / 1000:.3f}", f"{density:.5f}", method, *provenance]


def oxygen_rows() -> Iterator[list[str]]:
    """Oxygen density on a grid of gauge pressure and temperature; gauge is above one standard atmosphere."""
    library = f"CoolProp {version('CoolProp')}, gauge + 1.01325 bar"
    for bar in range(0, 330, 10):
        for celsius in range(-20, 55, 5):
            density = PropsSI("D", "T", celsius + 273.15, "P", bar * 1e5 + ATMOSPHERE_PA, "Oxygen")
            yield [str(bar), str(celsius), f"{density:.6g}", "CALC", library, "calculated"]


def propane_rows() -> Iterator[list[str]]:
    """Saturated propane: vapour pressure above one atmosphere, heat to evaporate, liquid density and heat capacity."""
    library = f"CoolProp {version('CoolProp')}, saturation line"
    for celsius in range(-40, 55, 5):
        kelvin = celsius + 273.15
        gauge_bar = (PropsSI("P", "T", kelvin, "Q", 0, "n-Propane") - ATMOSPHERE_PA) / 1e5
        vapour, liquid = (PropsSI("H", "T", kelvin, "Q", quality, "n-Propane") for quality in (1, 0))
        density = PropsSI("D", "T", kelvin, "Q", 0, "n-Propane")
        row = [str(celsius), f"{gauge_bar:.3f}", f"{(vapour - liquid) / 1000:.1f}", f"{density:.1f}"]
        yield [*row, "CALC", library, "calculated"]


def write(folder: Path, name: str, heading: list[str], rows: Iterable[list[str]]) -> None:
    """Write one table with Unix line ends."""
    with (folder / name).open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(heading)
        writer.writerows(rows)


def main(folder: Path) -> None:
    """Write the three tables."""
    provenance = ["source_id", "locator", "status"]
    heading = ["gas", "state", "temperature_c", "pressure_kpa", "density_kg_m3", "method", *provenance]
    write(folder, "gas_densities.csv", heading, density_rows())
    heading = ["pressure_bar_gauge", "temperature_c", "density_kg_m3", *provenance]
    write(folder, "oxygen_density.csv", heading, oxygen_rows())
    heading = ["temperature_c", "vapour_pressure_bar_gauge", "latent_heat_kj_kg", "liquid_density_kg_m3", *provenance]
    write(folder, "propane_saturation.csv", heading, propane_rows())


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else DATA)
