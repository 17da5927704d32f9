"""The workbook of the month end: the answer first, then what it rests on; and the page for a supplier by itself."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO

from estimator.pricing.month_report import MonthReport
from estimator.write.book import OutputBook, Paper, write_book
from estimator.write.month_end.answer import place_answer, write_answer
from estimator.write.month_end.cylinders import write_cylinders
from estimator.write.month_end.findings import write_findings
from estimator.write.month_end.gas import write_gas, write_months
from estimator.write.month_end.jobs import write_jobs
from estimator.write.month_end.letter import write_letters, write_supplier_page
from estimator.write.month_end.money import write_money
from estimator.write.month_end.notes import write_method, write_unchecked

__all__ = ["month_end_workbook", "supplier_page", "supplier_pages"]

Content = Callable[[BinaryIO], None]


def month_end_workbook(report: MonthReport, paper: Paper | None = None) -> Callable[[BinaryIO], None]:
    """Return the function that writes the month end's workbook, for ``save``.

    Parameters
    ----------
    report : MonthReport
        The finished month end.
    paper : Paper, optional
        Another paper than the shop's.

    Returns
    -------
    function of a binary file

    Notes
    -----
    What the supplier agrees to and the jobs' prices are typed cells that sums follow. Source: definition.
    """

    def build(book: OutputBook) -> None:
        answer = place_answer(book)
        write_findings(book, report)
        write_letters(book, report)
        write_money(book, report)
        write_gas(book, report)
        write_months(book, report)
        write_cylinders(book, report)
        write_jobs(book, report)
        write_method(book, report)
        write_unchecked(book, report)
        write_answer(answer, report)

    return write_book(build, title="Month end", paper=paper or Paper(report.paper))


def supplier_page(report: MonthReport, supplier: str, paper: Paper | None = None) -> Callable[[BinaryIO], None]:
    """Return the function that writes the page for one supplier as a workbook of its own, with nothing else in it.

    Parameters
    ----------
    report : MonthReport
        The finished month end.
    supplier : str
        A supplier with findings.
    paper : Paper, optional
        Another paper than the shop's.

    Returns
    -------
    function of a binary file

    Raises
    ------
    ValueError
        When nothing was found on that supplier's bills.

    Notes
    -----
    Source: definition.
    """
    if not report.of_supplier(supplier):
        raise ValueError(f"nothing was found on the bills of {supplier!r}")

    def build(book: OutputBook) -> None:
        write_supplier_page(book, report, supplier, "To the supplier")

    return write_book(build, title="Bill query", paper=paper or Paper(report.paper))


def supplier_pages(report: MonthReport, path: Path, paper: Paper | None = None) -> dict[Path, Content]:
    """Return what writes the page of each supplier with findings, by file.

    Parameters
    ----------
    report : MonthReport
        The finished month end.
    path : Path
        The file for a single supplier; of several, each one's name is added to it.
    paper : Paper, optional
        Another paper than the shop's.

    Returns
    -------
    dict of Path to function of a binary file
        Empty when nothing was found.

    Notes
    -----
    Source: definition.
    """
    suppliers = [s for s in report.checked.checking.book.suppliers if report.of_supplier(s)]
    if len(suppliers) == 1:
        return {path: supplier_page(report, suppliers[0], paper)}
    files = {s: path.with_name(f"{path.stem}_{n}_{_plain_name(s)}{path.suffix}") for n, s in enumerate(suppliers, 1)}
    return {file: supplier_page(report, supplier, paper) for supplier, file in files.items()}


def _plain_name(text: str) -> str:
    """Return a name that every file system takes."""
    return "".join(letter if letter.isalnum() else "_" for letter in text).strip("_")[:40]
