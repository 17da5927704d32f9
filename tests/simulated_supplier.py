"""The one supplier of the simulated months: what it sells, in which sizes and units, and how its paper looks."""

from __future__ import annotations

from estimator.check.bills import AgreedPrice, BillLine
from estimator.pricing.cylinder_content import CylinderSize
from estimator.pricing.money import to_minor
from estimator.pricing.rent import RentCount
from estimator.read.billed_unit import read_billed_unit
from estimator.read.gas_text import read_gas_text

__all__ = [
    "ACETYLENE", "BASE_PRICE", "CONTENT", "CONTENT_M3", "OXYGEN", "RENT_RULES", "SIZE", "SIZES", "SUPPLIER", "TARE_KG",
    "UNITS", "agreed_price", "bill_line", "size_of_gas", "unit_m3",
]  # fmt: skip

SUPPLIER = "Supplier A"
OXYGEN, ACETYLENE = "oxygen", "acetylene"
SIZE = {OXYGEN: "50 L", ACETYLENE: "40 L"}
CONTENT = {OXYGEN: "10.6 m³ (15 °C, 1 bar)", ACETYLENE: "8.0 kg"}
CONTENT_M3 = {gas: read_gas_text(CONTENT[gas]).volume_m3(gas) for gas in CONTENT}
TARE_KG = 62.0
SIZES = (
    CylinderSize(OXYGEN, "50 L", CONTENT_M3[OXYGEN], full_pressure_bar=200.0, heel_m3=0.012 * CONTENT_M3[OXYGEN]),
    CylinderSize(ACETYLENE, "40 L", CONTENT_M3[ACETYLENE], tare_kg=TARE_KG, heel_m3=0.08 * CONTENT_M3[ACETYLENE]),
)
UNITS = {
    OXYGEN: ("cylinder", "m³ (15 °C, 1 bar)", "Nm³", "100 ft³ (70 °F, 1 atm)"),
    ACETYLENE: ("cylinder", "kg"),
}
BASE_PRICE = {OXYGEN: 31.5, ACETYLENE: 118.0}
RENT_RULES = (RentCount.DAILY, RentCount.MONTH_END)


def size_of_gas(gas: str) -> CylinderSize:
    return next(size for size in SIZES if size.gas == gas)


def unit_m3(unit: str, gas: str) -> float:
    return read_billed_unit(unit).gas.volume_m3(gas)


def bill_line(number: str, kind: str, words: str, quantity: float, unit: str, price: float) -> BillLine:
    amount = int(to_minor(quantity * price)) / 100
    return BillLine(
        supplier=SUPPLIER, bill_number=number, kind=kind, description=words, quantity=quantity, unit=unit,
        unit_price=price, amount=amount,
    )  # fmt: skip


def agreed_price(kind: str, price: float, unit: str, **rest: object) -> AgreedPrice:
    return AgreedPrice(supplier=SUPPLIER, kind=kind, price=price, unit=unit, **rest)
