"""An estimate of a list that was estimated or quoted before: own figures are kept, and last prices are shown."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.pricing.job import Estimate, JobOrder
from estimator.problems import Place, Problem, raise_on_errors, sort_problems
from estimator.problems import quotes as say
from estimator.quantities.line_checks import line_place
from estimator.read.load import load_book
from estimator.tasks import ReadOptions, estimate_list, find_register, find_shop_book, read_list, read_shop

if TYPE_CHECKING:
    from estimator.check.register import Register
    from estimator.pricing.quote_history import LastPrice
    from estimator.write.estimate.kept_figures import ChangedRate, KeptLine

__all__ = ["OldEstimate", "OwnFigures", "estimate_again", "own_figures_for", "read_old_estimate", "with_last_prices"]

Floats = NDArray[np.float64]
_SAME_THICKNESS_MM = 0.05
_MOST_NAMED = 6


@dataclass(slots=True)
class OwnFigures:
    """What an owner typed on the lines of an old estimate, put to the lines of a list: shape (n,) each."""

    my_minutes: Floats
    my_price_each: Floats
    why: list[str]
    problems: list[Problem] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class OldEstimate:
    """What was typed in an old estimate."""

    lines: list[KeptLine]
    rates: list[ChangedRate]


def read_old_estimate(path: Path) -> OldEstimate:
    """Read what was typed in an old estimate; a cell that cannot be read is a problem."""
    from estimator.write.estimate.kept_figures import changed_rates, kept_lines

    book = load_book(path)
    lines, problems = kept_lines(book)
    raise_on_errors(problems)
    return OldEstimate(lines, changed_rates(book))


def own_figures_for(cuts: CutList, old: OldEstimate) -> OwnFigures:
    """Return the figures of an old estimate for the lines of a list.

    Parameters
    ----------
    cuts : CutList
        n checked lines, as the list is now.
    old : OldEstimate
        What was typed.

    Returns
    -------
    OwnFigures
        With a warning for each figure that found no line, or a line of another quantity, and a note for each rate.

    Notes
    -----
    A line is known by its mark, else by its row, and by its thickness; of several the first that is free. Source:
    definition.
    """
    own = OwnFigures(np.full(len(cuts), np.nan), np.full(len(cuts), np.nan), [""] * len(cuts))
    taken: set[int] = set()
    for kept in old.lines:
        line = next((i for i in range(len(cuts)) if i not in taken and _same_line(cuts, i, kept)), None)
        if line is None:
            said = ", ".join(kept.own_words())
            own.problems.append(say.OWN_FIGURE_LOST.at(kept.place, line=kept.name, own=said))
            continue
        taken.add(line)
        own.my_minutes[line] = np.nan if kept.my_minutes is None else kept.my_minutes
        own.my_price_each[line] = np.nan if kept.my_price_each is None else kept.my_price_each
        own.why[line] = kept.why
        now = float(cuts.quantity[line])
        if kept.my_minutes is not None and kept.quantity is not None and kept.quantity != now:
            quantities = {"now": f"{now:g}", "before": f"{kept.quantity:g}"}
            place = line_place(cuts, line, "quantity")
            own.problems.append(say.OWN_MINUTES_OF_OTHER_QUANTITY.at(place, line=kept.name, **quantities))
    for rate in old.rates:
        found = f"{rate.now} instead of {rate.was} {rate.unit}".strip()
        own.problems.append(say.RATE_LEFT_BEHIND.at(rate.place, found=found, what=rate.what))
    return own


def estimate_again(cut_list: Path, shop: Path | None, order: JobOrder, reading: ReadOptions, old: Path) -> Estimate:
    """Price a cut list with the figures that its owner typed in an old estimate of it.

    Parameters
    ----------
    cut_list, shop, order, reading
        As for ``tasks.estimate``.
    old : Path
        The old estimate.

    Returns
    -------
    Estimate
    """
    typed = read_old_estimate(old)
    shop_book, problems = read_shop(shop or find_shop_book(cut_list))
    listed = read_list(cut_list, reading, shop_book)
    own = own_figures_for(listed.cuts, typed)
    done = estimate_list(
        listed.cuts,
        shop_book,
        order,
        [*problems, *listed.problems, *own.problems],
        my_minutes=own.my_minutes,
        my_price_each=own.my_price_each,
    )
    places = zip(listed.cuts.sheet, listed.cuts.row.tolist(), strict=True)
    why = dict(zip(places, own.why, strict=True))
    done.why = [why[place] for place in zip(done.cuts.sheet, done.cuts.row.tolist(), strict=True)]
    return done


def with_last_prices(done: Estimate, beside: Path) -> Estimate:
    """Put beside each line what its mark was last quoted at to this customer, where a register tells.

    Parameters
    ----------
    done : Estimate
        The priced job.
    beside : Path
        The cut list; the register in its folder or above is read.

    Returns
    -------
    Estimate
        The same, with last prices and a note on each line that has one.
    """
    path = find_register(beside)
    customer = done.cuts.title.customer
    if not path.is_file() or not customer:
        return done
    from estimator.tasks_register import open_register

    register, _ = open_register(path)
    before = _last_prices(done, register)
    known = [price for price in before if price is not None]
    if not known:
        return done
    decimals, cuts = done.shop.shop.decimals, done.cuts
    done.last_price_each = np.array([np.nan if price is None else price.price_each for price in before])
    done.last_time = ["" if price is None else last_time(price) for price in before]
    first = ", ".join(f"{price.mark} {price.price_each:,.{decimals}f}" for price in known[:_MOST_NAMED])
    more = f" and {len(known) - _MOST_NAMED} more" if len(known) > _MOST_NAMED else ""
    place = Place(cuts.file, cuts.sheet[0] if cuts.sheet else "")
    note = say.LAST_PRICE.at(place, found=first + more, count=len(known))
    done.problems = sort_problems([*done.problems, note])
    return done


def last_time(price: LastPrice) -> str:
    """Return when a price was offered, for how many pieces, and what became of it."""
    return f"{price.quantity:g} on {price.date.isoformat()}, {price.quote.number} {price.quote.revision}, {price.state}"


def _last_prices(done: Estimate, register: Register) -> list[LastPrice | None]:
    from estimator.pricing.quote_history import last_price, last_prices

    cuts = done.cuts
    number = done.order.quote_number or cuts.title.quote_number
    offered = last_prices(register, cuts.title.customer, apart_from=number)
    lines = zip(cuts.mark, cuts.thickness_mm.tolist(), strict=True)
    return [last_price(offered, mark=mark, thickness_mm=thickness) if mark else None for mark, thickness in lines]


def _same_line(cuts: CutList, line: int, kept: KeptLine) -> bool:
    named = (
        cuts.mark[line].strip() == kept.mark if kept.mark else not cuts.mark[line] and cuts.row[line] == kept.list_row
    )
    thickness = float(cuts.thickness_mm[line])
    if kept.thickness_mm is None or thickness != thickness:
        return bool(named)
    return bool(named) and abs(thickness - kept.thickness_mm) < _SAME_THICKNESS_MM
