"""One line worked, on a terminal: a sentence for the customer, then each step with its figures and source."""

from __future__ import annotations

import textwrap

from estimator.pricing.explain import explain_line, line_sentence
from estimator.pricing.job import Estimate

__all__ = ["explain_text"]


def explain_text(estimate: Estimate, line: int) -> str:
    """Return the working of one line as text of at most 80 columns.

    Parameters
    ----------
    estimate : Estimate
        A priced job.
    line : int
        Index of the line, from 0.

    Returns
    -------
    str
        The sentence, what was read, the steps.
    """
    cuts = estimate.cuts
    out = textwrap.wrap(line_sentence(estimate, line) + ".", 80)
    out.append("")
    out.append(f"Row {int(cuts.row[line])} of '{cuts.sheet[line]}', mark {cuts.mark[line] or 'none'}")
    out += [f"  {r.cell}: {r.original!r} read as {r.read_as}" for r in cuts.read_as if r.line == line]
    for step in explain_line(estimate, line):
        out.append("")
        out += _wrapped(f"{step.name}: {step.answer}", "")
        out += _wrapped(f"= {step.formula}", "    ")
        if step.figures:
            out += _wrapped(f"= {step.figures}", "    ")
        if step.source:
            out += _wrapped(f"[{step.source}]", "    ")
    return "\n".join(out)


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(text, 80, initial_indent=indent, subsequent_indent=indent + "  ", break_long_words=False)
