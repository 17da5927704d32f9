"""Measure how well the month end finds planted faults, and write the table of docs/accuracy.md.

Usage: python scripts/measure_month_end.py [MONTHS]
"""

from __future__ import annotations

import sys
from pathlib import Path

from estimator.pricing.gas_balance import smallest_seen
from tests.simulate_months import NAMED, Fault, name_faults, simulate

PAGE = Path(__file__).parents[1] / "docs" / "accuracy.md"
HEADING = "## Month end\n"
CLEAN_SEEDS = 100_000
STATISTICAL = (Fault.LEAK, Fault.UNLOGGED)
"""Faults that no line of the bill shows: more months are needed to know how often they are found."""
DOUBTS = (0.01, 0.015, 0.03, 0.05, 0.10)


def found(fault: Fault, months: int, **shop: float) -> tuple[int, int]:
    """Months in which the fault is named, and those in which something else is called wrong as well."""
    named = [name_faults(simulate(seed, fault, **shop))[1] for seed in range(months)]
    return sum(NAMED[fault] in each for each in named), sum(bool(each - {NAMED[fault]}) for each in named)


def clean(months: int, **shop: float) -> int:
    """Months without a fault in which something is called wrong."""
    return sum(bool(name_faults(simulate(CLEAN_SEEDS + seed, **shop))[1]) for seed in range(months))


def per_cent(count: int, of: int) -> str:
    return f"{100 * count / of:.1f} %"


def fault_table(months: int) -> list[str]:
    """Each kind of fault, a calibrated shop."""
    lines = ["| planted | months | found and named | something else called wrong as well |", "|---|---|---|---|"]
    shares = []
    for fault in Fault:
        of = months * (3 if fault in STATISTICAL else 1)
        named, others = found(fault, of)
        shares.append(named / of)
        lines.append(f"| {fault} | {of} | {per_cent(named, of)} | {per_cent(others, of)} |")
    lines.append(f"| mean of all kinds | | {100 * sum(shares) / len(shares):.1f} % | |")
    of = 5 * months
    lines.append(f"| nothing | {of} | {per_cent(clean(of), of)} called wrong | |")
    return lines


def doubt_table(months: int) -> list[str]:
    """Leak and unlogged job by how well the shop's model is known."""
    lines = [
        "| model known to (standard uncertainty) | leak of 10 % | unlogged job of 10 % | months without a fault called "
        "wrong | smallest loss of oxygen nearly always seen |",
        "|---|---|---|---|---|",
    ]
    for doubt in DOUBTS:
        row = [per_cent(found(fault, months, model_doubt=doubt)[0], months) for fault in (Fault.LEAK, Fault.UNLOGGED)]
        done, _ = name_faults(simulate(CLEAN_SEEDS, model_doubt=doubt))
        oxygen = next(v for v in done.months[0].verdicts if v.gas == "oxygen")
        row += [per_cent(clean(months, model_doubt=doubt), months), f"{smallest_seen(oxygen):.0%}"]
        lines.append(f"| {doubt:.1%} | {' | '.join(row)} |")
    return lines


def worse_line(months: int) -> str:
    """What happens where the shop scatters more than it believes."""
    worse = {"worse_than_stated": 1.5}
    hits = [found(fault, months, **worse)[0] for fault in (Fault.LEAK, Fault.UNLOGGED)]
    return (
        f"Where fills, rows and model scatter 1.5 times as much as is stated, a leak of 10 % is still named in "
        f"{per_cent(hits[0], months)} of the months and an unlogged job in {per_cent(hits[1], months)}, but "
        f"{per_cent(clean(months, **worse), months)} of the months without a fault are called wrong: the "
        "5 % holds only as far as the stated uncertainties do."
    )


def section(months: int) -> str:
    """The section as markdown."""
    return "\n".join(
        [
            HEADING,
            f"Made by `scripts/measure_month_end.py {months}`: {months} simulated months of an invented shop for a "
            "row, more where chance decides, fixed seeds. The shop works, empties cylinders, gets deliveries and "
            "bills, counts its rack on another day than the bill's and keeps a log; units, prices, fills, readings, "
            "work and losses are drawn at random. One fault is planted in each month. A leak or an unlogged job counts "
            "as found only when the month's gases are called by that name. The model of the shop's work is known to "
            "1 %, as after a year of month ends.",
            "",
            *fault_table(months),
            "",
            "Faults of the bill are arithmetic and are found for certain where notes, counts and agreed prices are "
            "typed. Missing gas is statistics; how small a loss can be seen depends on how well the shop's own use is "
            "known:",
            "",
            *doubt_table(months),
            "",
            worse_line(months),
            "",
            "What this does not show: bills that are typed wrongly, and shops that work otherwise than this one.",
            "",
        ]
    )


def main() -> None:
    """Replace the section on the page, or add it."""
    months = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    page = PAGE.read_text(encoding="utf-8") if PAGE.exists() else "# How accurate it is\n"
    before, mark, rest = page.partition(HEADING)
    after = rest[rest.index("\n## ") + 1 :] if mark and "\n## " in rest else ""
    text = before.rstrip() + "\n\n" + section(months) + ("\n" + after if after else "")
    PAGE.write_text(text, encoding="utf-8")
    print(PAGE)


if __name__ == "__main__":
    main()
