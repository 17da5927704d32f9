"""The workbook of a rack plan: the answer first, then the lines, the settings card and what it rests on."""

from __future__ import annotations

from collections.abc import Callable
from typing import BinaryIO

from estimator.pricing.rack.card import card_of_report
from estimator.pricing.rack.report import RackReport
from estimator.write.book import OutputBook, Paper, write_book
from estimator.write.rack.card_sheet import write_card
from estimator.write.rack.line_sheet import write_lines
from estimator.write.rack.note_sheets import write_cart, write_cautions, write_method, write_problems
from estimator.write.rack.plan_sheet import place_plan, write_plan

__all__ = ["rack_workbook"]


def rack_workbook(report: RackReport) -> Callable[[BinaryIO], None]:
    """Return the function that writes a plan's workbook, for ``save``.

    Parameters
    ----------
    report : RackReport
        The finished plan.

    Returns
    -------
    function of a binary file
    """

    def build(book: OutputBook) -> None:
        plan = place_plan(book)
        lines = write_lines(book, report)
        write_plan(book, plan, report, lines)
        write_card(book, card_of_report(report))
        write_cautions(book, report)
        write_cart(book, report)
        write_method(book, report)
        write_problems(book, report)

    return write_book(build, title="Rack plan", paper=Paper(report.estimates[0].shop.shop.paper))
