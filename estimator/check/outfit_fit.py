"""What does not fit together on a cart, from what the shop book itself states and from nothing else.

There is no table of connections here. Two names that differ are reported as names that differ; the supplier and the
manuals decide, and a list without problems is not a permission.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from estimator.check.outfit import CylinderOutlet, OutfitItem, TipNeed
from estimator.problems import outfit as said
from estimator.problems.code import Place, Problem, sort_problems

__all__ = ["NEVER_A_PERMISSION", "check_outfit"]

NEVER_A_PERMISSION = (
    "Checked against the words of the shop book only. A list without problems is not a permission: "
    "the supplier, the manuals of the torch and regulators, and the local rules decide."
)


@dataclass(frozen=True, slots=True)
class _End:
    """One end of a joint."""

    name: str
    connection: str
    thread: str
    place: Place


def check_outfit(
    items: Sequence[OutfitItem], outlets: Sequence[CylinderOutlet], tips: Sequence[TipNeed]
) -> list[Problem]:
    """Say what does not fit together: joints, pressures, flows, gases and missing protection.

    Parameters
    ----------
    items : sequence of OutfitItem
        What is on the carts.
    outlets : sequence of CylinderOutlet
        Outlets of the cylinders.
    tips : sequence of TipNeed
        The tips of the job or of the shop, with what they need.

    Returns
    -------
    list of Problem
        Warnings and notes, sorted by place; empty without items, since nothing was stated.

    Notes
    -----
    A line runs cylinder, regulator, hose, torch, for oxygen and for the torch's fuel, within one cart. Names are
    compared with capitals and blanks aside. Source: definition.

    Examples
    --------
    >>> regulator = OutfitItem(item="regulator", name="R1", gas="oxygen", inlet="A-1")
    >>> outlet = CylinderOutlet(gas="oxygen", outlet="A-2")
    >>> [problem.code for problem in check_outfit([regulator], [outlet], [])][:1]
    ['W450']
    """
    problems: list[Problem] = []
    for cart in sorted({item.outfit for item in items}):
        on_cart = [item for item in items if item.outfit == cart]
        for gas in _gases(on_cart):
            problems.extend(_check_line(cart, gas, on_cart, [one for one in outlets if one.gas == gas]))
        problems.extend(_check_tips(on_cart, [tip for tip in tips if tip.fuel in _fuels(on_cart)]))
    fuels = _fuels(items)
    if items:
        problems.extend(
            said.TIP_WITHOUT_FUEL.at(tip.place, found=tip.fuel, tip=tip.name, fuel=tip.fuel)
            for tip in tips
            if tip.fuel not in fuels
        )
    return sort_problems(_once(problems))


def _check_line(
    cart: str, gas: str, items: Sequence[OutfitItem], outlets: Sequence[CylinderOutlet]
) -> Iterator[Problem]:
    regulators, hoses = _of(items, "regulator", gas), _of(items, "hose", gas)
    torches = [item for item in items if item.item == "torch" and gas in ("oxygen", item.gas)]
    place = items[0].place
    for part, found in (("regulator", regulators), ("hose", hoses), ("torch", torches)):
        if not found:
            yield said.PART_MISSING.at(Place(place.file, place.sheet), outfit=cart, part=part, gas=gas)
    ends = [_outlet_of(outlet) for outlet in outlets]
    yield from _joints(ends, [_inlet(item) for item in regulators])
    yield from _joints([_outlet(item) for item in regulators], [_inlet(item) for item in hoses])
    yield from _joints([_outlet(item) for item in hoses], [_torch_inlet(item, gas) for item in torches])
    for item in items:
        if item.gas == gas and item.item != "torch" and item.gases_made_for and gas not in item.gases_made_for:
            yield said.MADE_FOR_OTHER_GAS.at(
                item.place, found=item.made_for, part=item.name, gas=gas, made_for=item.made_for
            )
    if torches:
        for part in ("check valve", "flashback arrestor"):
            if not _of(items, part, gas):
                yield said.PROTECTION_MISSING.at(torches[0].place, outfit=cart, part=part, gas=gas)
    yield from _full_cylinders(regulators, outlets)


def _full_cylinders(regulators: Sequence[OutfitItem], outlets: Sequence[CylinderOutlet]) -> Iterator[Problem]:
    for regulator in regulators:
        for outlet in outlets:
            full, most = outlet.full_bar, regulator.most_cylinder_bar
            if full is not None and most is not None and full > most:
                yield said.CYLINDER_PRESSURE_OVER.at(
                    regulator.place, found=most, gas=outlet.gas, full=f"{full:g}", part=regulator.name, most=f"{most:g}"
                )


def _joints(before: Sequence[_End], after: Sequence[_End]) -> Iterator[Problem]:
    for one in before:
        for other in after:
            yield from _joint(one, other)


def _joint(before: _End, after: _End) -> Iterator[Problem]:
    names = {"before": before.name, "after": after.name}
    if not (before.connection and after.connection and before.thread and after.thread):
        yield said.NOT_STATED.at(after.place, **names)
    if before.connection and after.connection and _key(before.connection) != _key(after.connection):
        meets = {"outlet": before.connection, "inlet": after.connection}
        yield said.CONNECTION_DIFFERS.at(after.place, found=after.connection, **names, **meets)
    if before.thread and after.thread and before.thread != after.thread:
        meets = {"outlet": f"{before.thread}-hand", "inlet": f"{after.thread}-hand"}
        yield said.THREAD_DIFFERS.at(after.place, found=after.thread, **names, **meets)


def _check_tips(items: Sequence[OutfitItem], tips: Sequence[TipNeed]) -> Iterator[Problem]:
    for tip in tips:
        for gas, bar, m3_h in (
            ("oxygen", tip.oxygen_bar, tip.oxygen_m3_h),
            (tip.fuel, tip.fuel_bar, tip.fuel_m3_h),
        ):
            for item in (one for one in items if one.gas == gas and one.item != "torch"):
                named = {"tip": tip.name, "gas": gas, "part": item.name}
                if bar is not None and item.most_bar is not None and bar > item.most_bar:
                    limits = {"needed": f"{bar:g}", "most": f"{item.most_bar:g}"}
                    yield said.PRESSURE_OVER.at(item.place, found=item.most_bar, **named, **limits)
                if m3_h is not None and item.most_m3_h is not None and m3_h > item.most_m3_h:
                    limits = {"needed": f"{m3_h:.3g}", "most": f"{item.most_m3_h:g}"}
                    yield said.FLOW_OVER.at(item.place, found=item.most_m3_h, **named, **limits)


def _of(items: Sequence[OutfitItem], kind: str, gas: str) -> list[OutfitItem]:
    return [item for item in items if item.item == kind and item.gas == gas]


def _fuels(items: Sequence[OutfitItem]) -> set[str]:
    return {item.gas for item in items if item.item == "torch" and item.gas != "oxygen"}


def _gases(items: Sequence[OutfitItem]) -> list[str]:
    return sorted({item.gas for item in items} | ({"oxygen"} if _fuels(items) else set()))


def _outlet_of(outlet: CylinderOutlet) -> _End:
    name = f"the {outlet.gas} cylinder {outlet.cylinder}".rstrip()
    return _End(name, outlet.outlet, outlet.outlet_thread, outlet.place)


def _inlet(item: OutfitItem) -> _End:
    return _End(item.name, item.inlet, item.inlet_thread, item.place)


def _outlet(item: OutfitItem) -> _End:
    return _End(item.name, item.outlet, item.outlet_thread, item.place)


def _torch_inlet(item: OutfitItem, gas: str) -> _End:
    if gas == "oxygen":
        return _End(item.name, item.oxygen_inlet, item.oxygen_thread, item.place)
    return _inlet(item)


def _key(name: str) -> str:
    return "".join(name.casefold().split())


def _once(problems: Sequence[Problem]) -> list[Problem]:
    return list(dict.fromkeys(problems))
