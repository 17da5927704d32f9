"""The register as the terminal shows it and as JSON: what is open, what is won, and how often."""

from __future__ import annotations

from typing import Any

from estimator.check.register import QuoteRow, Register
from estimator.pricing.quote_history import HitRate, hit_rates
from estimator.sheets.register import DONE, OPEN, REPLACED, WON

__all__ = ["next_step", "quote_line", "quote_row_json", "register_json", "register_text"]

_CUSTOMERS_SHOWN = 10


def register_text(register: Register) -> str:
    """Return open and won quotes and the hit rate, for the terminal."""
    if not register.quotes:
        return "The register holds no quote yet: kerfledger quote ESTIMATE.xlsx writes the first."
    out = []
    for state, title in ((OPEN, "Open"), (WON, "Won, to do"), (DONE, "Done")):
        rows = [row for row in register.quotes if row.state == state]
        out += [f"{title}: {len(rows)}", *(f"  {quote_line(row)}" for row in rows), ""]
    everyone, *each = hit_rates(register)
    out.append(_rate_line("Hit rate", everyone))
    out += [_rate_line(f"  {rate.customer or 'no customer named'}", rate) for rate in each[:_CUSTOMERS_SHOWN]]
    return "\n".join(out)


def next_step(row: QuoteRow) -> str:
    """Return what follows a decision, in the words of the terminal; an empty text where nothing does."""
    if row.state == WON:
        return (
            f"the page for the bench, and the gas for it\n$ kerfledger job-card {row.number}\n$ kerfledger rack --won"
        )
    return "kerfledger reconcile sets what was quoted beside what it came to." if row.state == DONE else ""


def quote_line(row: QuoteRow) -> str:
    """Return one row of the register in a line."""
    parts = [
        str(row.key),
        row.date.isoformat(),
        row.customer,
        row.title,
        f"{row.price:,.2f} before tax",
        f"job {row.job_number}" if row.job_number else "",
        f"work from {row.work_from.isoformat()}" if row.work_from else "",
        row.why,
    ]
    return ", ".join(part for part in parts if part)


def register_json(register: Register) -> dict[str, Any]:
    """Return the register as ``--json`` gives it."""
    return {
        "schema": "kerfledger/1",
        "register": register.file,
        "sha256": register.sha256,
        "quotes": [quote_row_json(row) for row in register.quotes],
        "hit_rates": [
            {
                "customer": rate.customer,
                "won": rate.won,
                "lost": rate.lost,
                "open": rate.open,
                "won_of_decided": rate.of_decided,
                "won_price": f"{rate.won_price:.2f}",
                "lost_price": f"{rate.lost_price:.2f}",
                "open_price": f"{rate.open_price:.2f}",
            }
            for rate in hit_rates(register)
        ],
        "replaced": sum(row.state == REPLACED for row in register.quotes),
    }


def quote_row_json(row: QuoteRow) -> dict[str, Any]:
    """Return one quote of the register as ``--json`` gives it: money as text."""
    data = row.model_dump(mode="json", exclude={"row", "print"})
    money = {name: None if data[name] is None else f"{data[name]:.2f}" for name in ("price", "total", "gas_cost")}
    return data | money


def _rate_line(name: str, rate: HitRate) -> str:
    share = "none decided yet" if rate.of_decided is None else f"{rate.of_decided:.0%} of those decided"
    money = f"won {rate.won_price:,.2f}, lost {rate.lost_price:,.2f}, open {rate.open_price:,.2f}"
    return f"{name}: won {rate.won}, lost {rate.lost}, open {rate.open}: {share} ({money})"
