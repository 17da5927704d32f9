"""The rack plan on a terminal: plain words within 80 columns, the answer first, then what to do."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from estimator.check.outfit_fit import NEVER_A_PERMISSION
from estimator.pricing.rack.contents import HowRead
from estimator.pricing.rack.gas_plan import GasPlan
from estimator.pricing.rack.report import RackReport
from estimator.quantities.draw_verdict import DrawLevel
from estimator.write.rack.words import (
    FIRST_WAYS_OUT,
    MANIFOLD_WORDS,
    call_list,
    draw_line,
    gas_line,
    headline,
    list_names,
    propane_figures,
    shown_by,
    step_list,
)
from estimator.write.screen import ROWS

__all__ = ["next_step", "rack_text"]

_WIDTH = 80
_SAID = ("count before lighting", "several torches", "manual first")
"""Cautions that the terminal repeats; all stand in the workbook and on the card."""


def rack_text(report: RackReport, *, whole: bool = False) -> str:
    """Return the plan as text.

    Parameters
    ----------
    report : RackReport
        The finished plan.
    whole : bool
        Whether every step is shown, or those at which a cylinder is changed or runs short.

    Returns
    -------
    str
        Lines of at most 80 columns, without colour.
    """
    out = [*_face(report), *_wrapped([headline(report)]), ""]
    for gas in report.gases:
        out += [*_wrapped([gas_line(gas, shown_by(report))]), *_cylinder_table(report, gas), ""]
    if report.draws:
        out += ["How hard each tip pulls acetylene:", *_wrapped(_draw_lines(report, whole=whole), bullet="- ")]
        if any(one.verdict.level in (DrawLevel.STOP, DrawLevel.WARNING) for one in report.draws):
            out += _wrapped([f"{FIRST_WAYS_OUT} {MANIFOLD_WORDS}"])
        out.append("")
    for one in report.propane:
        draw, evaporates, air = propane_figures(one, shown_by(report))
        out += _wrapped(
            [
                f"tip {one.tip}: {draw} of propane; {one.cylinder_id} evaporates about {evaporates} at {air} "
                "(advisory; ask the supplier)."
            ],
            bullet="- ",
        )
    out += ["To order:", *_wrapped(call_list(report) or ["nothing: all gas is piped."], bullet="- "), ""]
    out += [*_step_table(report, whole=whole), ""]
    if report.outfit:
        count = len(report.outfit)
        out += [
            f"The cart: {count} thing{'s' * (count != 1)} to look at, listed below and in the workbook.",
            *_wrapped([NEVER_A_PERMISSION]),
            "",
        ]
    said = {caution.key: caution for caution in report.cautions}
    out += _wrapped([f"{said[key].text} [{said[key].source}]" for key in _SAID if key in said])
    return "\n".join(out).rstrip() + "\n"


def next_step(report: RackReport) -> str:
    """Return what to do with the plan, in the words of the terminal."""
    if report.stop:
        return "do not light that tip on this rack; change tip, fuel or cylinders as said above, and run it again."
    if report.estimates[0].shop.is_example:
        return "this rack is invented; kerfledger start FOLDER makes a shop book of your own, with a sheet for yours."
    if any(gas.first_short_step is not None for gas in report.gases):
        return "order what is listed; when it has come, type it into the shop book's sheet Rack and run this again."
    return "hang up the settings card: --card FILE writes it as a PDF, and it is a sheet of the workbook."


def _face(report: RackReport) -> list[str]:
    names = list_names(report)
    torches = "one torch" if report.steps.torches == 1 else f"{report.steps.torches} torches at once"
    order = "tip by tip" if report.steps.by_tip else "in list order"
    lines = _wrapped([f"Rack plan for {names}: oxygen and {report.fuel}, {torches}, {order}."])
    if report.estimates[0].shop.is_example:
        lines.append("EXAMPLE SHOP: rack, sizes and prices are invented. Use --shop with your own book.")
    if report.incomplete:
        lines.append("INCOMPLETE: rows or cylinders with problems are left out of this plan.")
    return [part for line in lines for part in textwrap.wrap(line, _WIDTH)]


def _cylinder_table(report: RackReport, gas: GasPlan) -> list[str]:
    if gas.piped or not gas.cylinders:
        return []
    units = shown_by(report)
    form = "  {:<9.9} {:<7.7} {:<8} {:>6} {:>5} {:>6} {:>6} {:>5}  {}"
    now = f"now {units.gas_unit(gas.gas)}"
    lines = [form.format("cylinder", "size", "read by", now, "±", "used", "left", "stays", "runs down at")]
    for one in gas.cylinders:
        c = one.content
        at = step_list(report, one.dry_step) or "-"
        how = {HowRead.ROUGH: "rough", HowRead.NOT_READ: "NOT READ"}.get(c.how, str(c.how))
        places = units.gas_places(gas.gas)
        amounts = (c.now_m3, c.plus_minus_m3, one.used_m3, one.left_m3, c.heel_m3)
        row = form.format(
            c.cylinder_id, c.size, how, *(f"{units.gas(amount, gas.gas):{places}}" for amount in amounts), at
        )
        lines.append(row if len(row) <= _WIDTH else row[: _WIDTH - 1] + "…")
    return lines


def _draw_lines(report: RackReport, *, whole: bool) -> list[str]:
    """Say each draw; where all are within their limits, one screen has room for the hardest."""
    draws, units = report.draws, shown_by(report)
    if whole or len(draws) == 1 or any(one.verdict.level is not DrawLevel.WITHIN for one in draws):
        return [draw_line(one, units) for one in draws]
    hardest = max(draws, key=lambda one: one.draw_m3_h / one.verdict.limit_m3_h)
    rest = ", ".join(one.tip for one in draws if one is not hardest)
    return [draw_line(hardest, units), f"the others, {rest}, are further within their limits"]


def _step_table(report: RackReport, *, whole: bool) -> list[str]:
    gases = [gas for gas in report.gases if not gas.piped]
    form = "{:>5} {:<14.14} {:<8.8} {:>7} {:>7} {:>9} {:>9}  {}"
    heads = ["oxy left" if gas.gas == "oxygen" else "fuel left" for gas in gases] + [""] * (2 - len(gases))
    units = shown_by(report)
    used = (f"oxy {units.gas_unit('oxygen')}", f"fuel {units.gas_unit(report.fuel)}")
    lines = [form.format("row", "mark", "tip", *used, *heads, "change to")]
    left_after = [gas.plan.left_after_line_m3 for gas in gases]
    small = ".1f" if units.inch else ".3f"
    told = ""
    shown = 0
    for i, (step, changes) in enumerate(zip(report.steps.each, _changes(report, gases), strict=True)):
        if not whole and len(report.steps) > ROWS and changes in ("", told):
            continue
        told, shown = changes, shown + 1
        left = [
            f"{units.gas(one[i], gas.gas):{units.gas_places(gas.gas)}}"
            for gas, one in zip(gases, left_after, strict=True)
        ] + [""] * (2 - len(gases))
        mark = step.mark if step.row else f"light {step.tip}"
        amounts = (
            f"{units.gas(step.oxygen_m3, 'oxygen'):{small}}",
            f"{units.gas(step.fuel_m3, report.fuel):{small}}",
        )
        row = form.format(step.row or "", mark, step.tip, *amounts, *left, changes).rstrip()
        lines.append(row if len(row) <= _WIDTH else row[: _WIDTH - 1] + "…")
    hidden = len(report.steps) - shown
    return lines + ([f"      {hidden} more steps: see the workbook, or --all"] if hidden else [])


def _changes(report: RackReport, gases: list[GasPlan]) -> list[str]:
    """Return for each step what is done at the rack: the cylinders it changes to, and the gas that is short."""
    before: dict[str, str] = {}
    done = []
    for i in range(len(report.steps)):
        said = []
        for gas in gases:
            names = gas.step_sets[i]
            if names and names[-1] != before.get(gas.gas):
                said.append(names[-1])
            if names:
                before[gas.gas] = names[-1]
            if gas.plan.short_m3[i] > 0:
                said.append(f"{gas.gas} SHORT")
        done.append(", ".join(said))
    return done


def _wrapped(texts: Iterable[str], *, bullet: str = "") -> list[str]:
    indent = " " * len(bullet)
    return [
        line
        for text in texts
        for line in textwrap.wrap(
            _clean(text), _WIDTH, initial_indent=bullet, subsequent_indent=indent, break_long_words=True
        )
    ]


def _clean(text: str) -> str:
    return "".join(c if c.isprintable() else " " for c in text)
