"""The workbook of a comparison of suppliers: the answer first, then what it rests on."""

from __future__ import annotations

from collections.abc import Callable
from typing import BinaryIO

from estimator.pricing.comparison import Comparison
from estimator.write.book import OutputBook, Paper, write_book
from estimator.write.comparison_answer import place_answer, write_answer
from estimator.write.comparison_fuels import write_fuels
from estimator.write.comparison_notes import write_method, write_problems, write_questions, write_states
from estimator.write.comparison_prices import write_prices
from estimator.write.comparison_turns import write_curve, write_what_if
from estimator.write.comparison_ways import write_ways

__all__ = ["comparison_workbook"]


def comparison_workbook(comparison: Comparison, paper: Paper | None = None) -> Callable[[BinaryIO], None]:
    """Return the function that writes a comparison's workbook, for ``save``.

    Parameters
    ----------
    comparison : Comparison
        The finished comparison.
    paper : Paper
        The shop's paper; A4 when left out.

    Returns
    -------
    function of a binary file

    Notes
    -----
    Prices, fees, rents and use are typed cells and the ranking follows them by formula. Sizes, cylinders held, vans,
    the curve and the what-ifs are frozen and show STALE when a typed cell differs. Source: definition.
    """

    def build(book: OutputBook) -> None:
        answer = place_answer(book)
        prices = write_prices(book, comparison)
        ways = write_ways(book, comparison, prices)
        write_answer(book, answer, comparison, prices, ways)
        write_curve(book, comparison, prices)
        write_what_if(book, comparison, prices)
        write_fuels(book, comparison)
        write_states(book, comparison)
        write_questions(book, comparison)
        write_method(book, comparison)
        write_problems(book, comparison)

    return write_book(build, title="Whose gas is cheapest", paper=paper or Paper())
