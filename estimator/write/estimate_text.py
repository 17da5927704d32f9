"""The estimate on a terminal: plain words within 80 columns, the answer first, then what to do next."""

from __future__ import annotations

from textwrap import wrap

import numpy as np

from estimator.plain_words import bottles_words, duration_words
from estimator.pricing.doubt import EstimateRanges
from estimator.pricing.job import Estimate
from estimator.pricing.money import format_minor, to_minor
from estimator.pricing.plates_bought import plates_bought
from estimator.pricing.second_look import second_look
from estimator.pricing.setup_words import setup_words
from estimator.pricing.steel_words import steel_charged_words
from estimator.problems import Level
from estimator.words import Steel
from estimator.write.screen import rows_shown

__all__ = ["estimate_text", "gas_shares"]

_SETUP_PARTS = 4
_STEEL_CALLED = {
    Steel.OURS: "ours, in the price",
    Steel.THEIRS: "the customer's own, not in the price",
    Steel.EXCLUDED: "excluded, NOT in the price",
}


def estimate_text(estimate: Estimate, ranges: EstimateRanges, *, whole: bool = False) -> str:
    """Return the estimate as text.

    Parameters
    ----------
    estimate : Estimate
        A priced job.
    ranges : EstimateRanges
        Its ranges.
    whole : bool
        Whether every line and plate is shown, or what fits on one screen.

    Returns
    -------
    str
        Lines of at most 80 columns, without colour.
    """
    form, totals = estimate.shop.shop, estimate.totals

    def money(minor: int) -> str:
        return f"{format_minor(minor, form.decimals)} {form.currency}"

    word = "INCOMPLETE total" if estimate.incomplete else "Total"
    out = [
        *_cautions_on_the_face(estimate),
        f"{word}: {money(totals.total)}  (before tax {money(totals.taxable)}; cost {money(totals.cost)})",
        f"Four times in five between {ranges.price.low:,.0f} and {ranges.price.high:,.0f} {form.currency}.",
        f"Man-hours: {duration_words(estimate.whole_paid_time_min)}.",
        f"Gas: {gas_shares(estimate)}.",
        f"Steel: {_steel_words(estimate)}.",
        f"Read: {_read_words(estimate)}.",
        "",
        *_line_table(estimate, whole=whole),
        *(["", *_steps(estimate)] if whole else [_sum(estimate)]),
        *_setup(estimate, whole=whole),
        *_second_look(estimate, whole=whole),
    ]
    return "\n".join(out)


def gas_shares(estimate: Estimate) -> str:
    """Return the gas of the job in cylinders, as people say it."""
    job, rates = estimate.job, estimate.rates
    said = []
    for gas, used in ((rates.oxygen, job.drawn_oxygen_m3), (rates.fuel, job.drawn_fuel_m3)):
        usable = gas.usable_m3
        share = f", {bottles_words(used, usable)}" if np.isfinite(usable) else ""
        said.append(f"{gas.gas} {estimate.shop.shown.gas_words(used, gas.gas)}{share}")
    return "; ".join(said)


def _second_look(estimate: Estimate, *, whole: bool) -> list[str]:
    """Say whether the job makes sense, which plates it needs and what is better not burnt."""
    form, look, plates = estimate.shop.shop, second_look(estimate), plates_bought(estimate)

    def money(amount: float) -> str:
        return format_minor(int(to_minor(amount, form.decimals)), form.decimals)

    units = estimate.shop.shown
    told = [check.words for check in look.sense if check.found is not None and (whole or check.doubtful)]
    if whole:
        told += [buy.words(money, form.offcut_word, units) for buy in plates.buys]
        told += [plates.how_counted] if plates.buys else []
    elif plates.buys:
        bought = plates if len(plates.buys) > 1 else plates.buys[0]
        told.append(f"{bought.words(money, form.offcut_word, units)}; by area: lay the pieces out before you order")
    shown = len(look.cheaper) if whole else 1
    told += [one.words(_name(estimate, one.line), money) for one in look.cheaper[:shown]]
    if len(look.cheaper) > shown:
        told[-1] += f"; {len(look.cheaper) - shown} more cost less another way: sheet Second look"
    wrapped = [wrap(f"- {words}", 80, subsequent_indent="  ") for words in told]
    return ["", "A second look:", *(line for lines in wrapped for line in lines)] if wrapped else []


def _name(estimate: Estimate, line: int) -> str:
    cuts = estimate.cuts
    return cuts.mark[line] or cuts.description[line] or f"row {int(cuts.row[line])}"


def _cautions_on_the_face(estimate: Estimate) -> list[str]:
    out = []
    if estimate.shop.is_example:
        out.append("EXAMPLE PRICES: the built-in shop is invented. Use --shop with your own book.")
    if estimate.incomplete:
        rows = len(estimate.unpriced)
        out.append(f"INCOMPLETE: {rows} row{'s' if rows != 1 else ''} of the list could not be priced.")
    return out


def _read_words(estimate: Estimate) -> str:
    """Say what the price rests on, and how much of it is in doubt."""
    cuts, book = estimate.cuts, estimate.shop
    warnings = sum(1 for problem in estimate.problems if problem.level is Level.WARNING)
    doubts = [f"{warnings} warning{'s' if warnings != 1 else ''}"] if warnings else []
    lines = f"{len(cuts)} line{'s' if len(cuts) != 1 else ''} of {cuts.file}"
    return "; ".join([lines, f"prices of {'an invented shop' if book.is_example else book.file}", *doubts])


def _steel_words(estimate: Estimate) -> str:
    """Say whose steel it is, each apart: what the pieces weigh, and what is charged of ours."""
    units = estimate.shop.shown
    said = []
    for whose, called in _STEEL_CALLED.items():
        of_these = estimate.cuts.steel == whose
        if not of_these.any():
            continue
        mass = float(np.nansum((estimate.job.lines.mass_each_kg * estimate.cuts.quantity)[of_these]))
        kg = f"{units.words(mass, 'kg', ',.0f')} in the pieces" if mass else "no sizes to weigh it by"
        charged = f", {steel_charged_words(estimate)}" if whose is Steel.OURS and mass else ""
        said.append(f"{called}, {kg}{charged}")
    return "; ".join(said) or "none"


def _line_table(estimate: Estimate, *, whole: bool) -> list[str]:
    cuts, lines, printed = estimate.cuts, estimate.job.lines, estimate.lines
    decimals = estimate.shop.shop.decimals
    form = "{:>5} {:<12} {:>5} {:>6} {:<6} {:>7} {:>7} {:>10} {:>12}"
    units = estimate.shop.shown
    heads = ("row", "mark", "qty", units.unit("mm"), "tip", f"cut {units.unit('m')}", "min", "each", "price")
    out = [form.format(*heads)]
    paid, shown = estimate.paid_time_min, rows_shown(printed.price, whole=whole)
    for i in shown:
        setting = int(lines.setting[i])
        out.append(
            form.format(
                int(cuts.row[i]),
                _fit(cuts.mark[i], 12),
                f"{cuts.quantity[i]:.0f}",
                f"{units.number(cuts.thickness_mm[i], 'mm'):.4g}" if np.isfinite(cuts.thickness_mm[i]) else "-",
                _fit(estimate.job.settings.tip[setting], 6) if setting >= 0 else "-",
                f"{units.number(lines.cut_m[i], 'm'):.2f}",
                f"{paid[i]:.0f}",
                format_minor(int(printed.price_each[i]), decimals),
                format_minor(int(printed.price[i]), decimals),
            )
        )
    left = len(cuts) - len(shown)
    if left:
        rest = int(printed.price.sum() - printed.price[shown].sum())
        said = f"{left} smaller line{'s' if left != 1 else ''}: see the sheet Lines, or --all"
        out.append(f"      {said:<60} {format_minor(rest, decimals):>13}")
    return out


def _sum(estimate: Estimate) -> str:
    """Return the way from the lines to the total in one line."""
    decimals = estimate.shop.shop.decimals
    *steps, (_, total) = _price_steps(estimate)
    parts = [(name, value) for name, value in steps if value or name == "Lines"]
    said = " ".join(
        f"{'-' if value < 0 else '+'} {format_minor(abs(value), decimals)} {name[0].lower()}{name[1:]}"
        for name, value in parts
    )
    return f"{said.removeprefix('+ ')} = {format_minor(total, decimals)}"


def _steps(estimate: Estimate) -> list[str]:
    always = {"Lines", "Total", "INCOMPLETE total"}
    decimals = estimate.shop.shop.decimals
    shown = [(name, value) for name, value in _price_steps(estimate) if value or name in always]
    return [f"{name:>60} {format_minor(value, decimals):>19}" for name, value in shown]


def _setup(estimate: Estimate, *, whole: bool) -> list[str]:
    """Say what set-up and the rest is made of."""
    said = setup_words(estimate.rows.rows, estimate.work.rest_allowance, most=None if whole else _SETUP_PARTS)
    spread = ", spread over the lines" if estimate.shop.shop.spread_job_rows else ""
    return wrap(f"Set-up and the rest{spread}: {said}.", 80) if said else []


def _price_steps(estimate: Estimate) -> list[tuple[str, int]]:
    totals, form = estimate.totals, estimate.shop.shop
    return [
        ("Lines", totals.lines),
        ("Set-up and the rest", totals.job_rows),
        ("Quantity breaks", -totals.quantity_break),
        ("Rush", totals.rush),
        ("Discount", -totals.discount),
        ("Minimum for a job", totals.minimum_top_up),
        ("Delivery", totals.delivery),
        (f"{form.tax_name} {form.tax:.2%}".replace(".00%", " %"), totals.tax),
        ("INCOMPLETE total" if estimate.incomplete else "Total", totals.total),
    ]


def _fit(text: str, width: int) -> str:
    """Return a text that fits, without control characters."""
    clean = "".join(c if c.isprintable() else " " for c in text)
    return clean if len(clean) <= width else clean[: width - 1] + "…"
