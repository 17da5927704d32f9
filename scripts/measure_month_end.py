"""Measure how well the month end finds planted faults, and write the table of docs/accuracy.md.

Usage: python scripts/measure_month_end.py [MONTHS]
"""

from __future__ import annotations

import sys
from pathlib import Path

from estimator.pricing.gas_balance import smallest_seen
from tests.planted_faults import NAMED, Fault
from tests.simulate_months import name_faults, simulate

PAGE = Path(__file__).parents[1] / "docs" / "accuracy.md"
HEADING = "## Month end\n"
CLEAN_SEEDS = 100_000
STATISTICAL = (Fault.LEAK, Fault.UNLOGGED)
"""Faults that no line of the bill shows: more months are needed to know how often they are found."""
CHART = 0.10
"""How well the model is known before any month was closed (standard uncertainty)."""
EARLIER = (0, 1, 2, 3, 5, 11)


def found(fault: Fault, of: int, **shop: float) -> tuple[int, int]:
    """Months in which the fault is named, and those in which something else is called wrong as well."""
    named = [name_faults(simulate(seed, fault, **shop))[1] for seed in range(of)]
    return sum(NAMED[fault] in each for each in named), sum(bool(each - {NAMED[fault]}) for each in named)


def clean(of: int, **shop: float) -> int:
    """Months without a fault in which something is called wrong."""
    return sum(bool(name_faults(simulate(CLEAN_SEEDS + seed, **shop))[1]) for seed in range(of))


def per_cent(count: int, of: int) -> str:
    return f"{100 * count / of:.1f} %"


def fault_table(months: int) -> list[str]:
    """Each kind of fault; missing gas after five earlier months."""
    lines = ["| planted | months | found and named | something else called wrong as well |", "|---|---|---|---|"]
    shares = []
    for fault in Fault:
        of = months * (2 if fault in STATISTICAL else 1)
        shop = {"months": 6, "model_doubt": CHART} if fault in STATISTICAL else {}
        named, others = found(fault, of, **shop)
        shares.append(named / of)
        lines.append(f"| {fault} | {of} | {per_cent(named, of)} | {per_cent(others, of)} |")
    lines.append(f"| mean of all kinds | | {100 * sum(shares) / len(shares):.1f} % | |")
    of = 4 * months
    lines.append(f"| nothing | {of} | {per_cent(clean(of, months=6, model_doubt=CHART), of)} called wrong | |")
    return lines


def earlier_table(months: int) -> list[str]:
    """Leak and unlogged job by the number of months that were closed before."""
    lines = [
        "| months closed before | leak of 10 % | unlogged job of 10 % | smallest loss of oxygen nearly always seen |",
        "|---|---|---|---|",
    ]
    for earlier in EARLIER:
        shop = {"months": earlier + 1, "model_doubt": CHART}
        row = [per_cent(found(fault, months, **shop)[0], months) for fault in STATISTICAL]
        done, _ = name_faults(simulate(CLEAN_SEEDS, **shop))
        oxygen = next(v for v in done.months[-1].verdicts if v.gas == "oxygen")
        lines.append(f"| {earlier} | {' | '.join(row)} | {100 * smallest_seen(oxygen):.0f} % |")
    return lines


def worse_line(months: int) -> str:
    """What happens where the shop scatters more than it believes."""
    worse = {"worse_than_stated": 1.5, "months": 6, "model_doubt": CHART}
    hits = [found(fault, months, **worse)[0] for fault in STATISTICAL]
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
            "as found only when the month's gases are called by that name. The handbook's model is known to "
            f"{100 * CHART:.0f} %; for missing gas the workbooks hold five earlier months, from which the shop's own "
            "use is learned; where only the bill has a fault, one month stands alone and the model is known to 1 %.",
            "",
            *fault_table(months),
            "",
            "Faults of the bill are arithmetic and are found for certain where notes, counts and agreed prices are "
            "typed. Missing gas is statistics; how small a loss can be seen depends on how well the shop's own use is "
            "known. The first month says little, the third nearly everything:",
            "",
            *earlier_table(months),
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
    made = section(months)  # takes long: the page is read after it, so that nothing written meanwhile is lost
    page = PAGE.read_text(encoding="utf-8") if PAGE.exists() else "# How accurate it is\n"
    before, mark, rest = page.partition(HEADING)
    after = rest[rest.index("\n## ") + 1 :] if mark and "\n## " in rest else ""
    text = before.rstrip() + "\n\n" + made + ("\n" + after if after else "")
    PAGE.write_text(text, encoding="utf-8")
    print(PAGE)


if __name__ == "__main__":
    main()
