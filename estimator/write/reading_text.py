"""How a list was read, for the terminal and as JSON: every row accounted for, every interpreted cell named."""

from __future__ import annotations

from typing import Any

import numpy as np

from estimator.check.cut_list import CutList
from estimator.problems import Problem
from estimator.words import Shape

__all__ = ["reading_json", "reading_text"]


def reading_text(cuts: CutList) -> str:
    """Return the reading of a list as text.

    Parameters
    ----------
    cuts : CutList
        n lines.

    Returns
    -------
    str
        Title block, rows by kind, interpreted cells, lines.
    """
    title = cuts.title
    named = [("customer", title.customer), ("job", title.job), ("date", title.job_date), ("quote", title.quote_number)]
    out = [f"{cuts.file}: {len(cuts)} line{'' if len(cuts) == 1 else 's'} read"]
    out += [f"  {name:<10} {value}" for name, value in [*named, *title.other] if value]
    for count in cuts.counts:
        kinds = ", ".join(f"{number} {kind}" for kind, number in count.by_kind.items() if number)
        out.append(f"  '{count.sheet}': {count.rows} rows = {kinds}")
    form = "{:>5} {:<14} {:>6} {:>8} {:<14} {:>9} {:>9} {:>8}"
    out += ["", form.format("row", "mark", "qty", "mm", "shape", "size a", "size b", "cut mm")]
    for i in range(len(cuts)):
        out.append(
            form.format(
                int(cuts.row[i]),
                cuts.mark[i][:14],
                _n(cuts.quantity[i]),
                _n(cuts.thickness_mm[i]),
                _shape(cuts, i),
                _n(cuts.size_a_mm[i]),
                _n(cuts.size_b_mm[i]),
                _n(cuts.cut_length_mm[i]),
            )
        )
    if cuts.read_as:
        out += ["", "Read as:"]
        out += [f"  {r.cell:>7}  {r.original!r} as {r.read_as}" for r in cuts.read_as]
    if cuts.unknown:
        out += ["", "Carried along untouched: " + ", ".join(cuts.unknown)]
    return "\n".join(out)


def reading_json(cuts: CutList, problems: list[Problem]) -> dict[str, Any]:
    """Return the reading of a list as plain data.

    Parameters
    ----------
    cuts : CutList
        n lines.
    problems : list of Problem
        What reading found.

    Returns
    -------
    dict
        Lines with what the list gives; a blank is null.
    """
    numbers = ("quantity", "thickness_mm", "size_a_mm", "size_b_mm", "cut_length_mm", "pierces", "edge_starts", "holes")
    return {
        "schema": "kerfledger/1",
        "inputs": [{"file": cuts.file, "sha256": cuts.sha256}],
        "lines": [
            {"sheet": cuts.sheet[i], "row": int(cuts.row[i]), "mark": cuts.mark[i], "shape": _shape(cuts, i) or None}
            | {name: _or_null(getattr(cuts, name)[i]) for name in numbers}
            for i in range(len(cuts))
        ],
        "reading": {
            "rows": [{"sheet": c.sheet, "rows": c.rows, "by_kind": c.by_kind} for c in cuts.counts],
            "read_as": [
                {"line": r.line, "column": r.column, "cell": r.cell, "original": r.original, "read_as": r.read_as}
                for r in cuts.read_as
            ],
        },
        "problems": [p.as_json() for p in problems],
    }


def _shape(cuts: CutList, line: int) -> str:
    return Shape(int(cuts.shape[line])).word if cuts.shape[line] >= 0 else ""


def _n(value: float) -> str:
    return "-" if np.isnan(value) else f"{value:.6g}"


def _or_null(value: float) -> float | None:
    return None if np.isnan(value) else round(float(value), 9)
