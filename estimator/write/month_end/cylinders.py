"""The shop's own ledger of cylinders, size by size: each note with its balance, each count with its difference."""

from __future__ import annotations

from estimator.pricing.bill_checks.cylinder_ledger import LedgerOfKind, ledgers
from estimator.pricing.month_report import MonthReport
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.month_end.sheets import CYLINDERS, across, headings, open_sheet
from estimator.write.styles import Look

__all__ = ["write_cylinders"]

_NAMES = ("Date", "Note", "In", "Out", "Balance", "Counted", "Counted less balance")
_WIDTHS = (20, 16, 8, 8, 10, 10, 14)


def write_cylinders(book: OutputBook, report: MonthReport) -> None:
    """Write the ledgers."""
    sheet = book.sheet(CYLINDERS)
    guide = "All cylinders, full, part used and empty. Rental is counted on the balance."
    open_sheet(sheet, "Cylinder ledger", guide, _WIDTHS)
    row = 3
    for ledger in ledgers(report.checked.checking.book):
        row = _ledger(sheet, ledger, row) + 2
    if row == 3:
        sheet.text(row, 0, "The rack was never counted: there is no ledger.", Look.CAUTION)
    sheet.set_up_page(last_row=row, last_column=len(_NAMES) - 1)


def _ledger(sheet: BookSheet, ledger: LedgerOfKind, row: int) -> int:
    kind = ledger.kind
    said = " ".join(filter(None, (kind.gas, kind.size, f"({kind.owner})", kind.supplier)))
    across(sheet, row, said, Look.SUBTITLE, len(_NAMES))
    headings(sheet, row + 1, _NAMES)
    row += 2
    first_day, first_count = ledger.counts[0]
    before = [d for d in ledger.notes if d.date <= first_day]
    balance = first_count - sum(d.full_in - d.empty_out for d in before)
    sheet.text(row, 0, "before the first note" if before else f"counted on {first_day}", Look.GUIDE)
    sheet.number(row, 4, balance, Look.WORKED)
    counts = ledger.counts if before else ledger.counts[1:]
    events = [(note.date, 0, note.note_number, note.full_in, note.empty_out) for note in ledger.notes]
    events += [(day, 1, "", counted, 0) for day, counted in counts]
    for day, is_count, note, came, went in sorted(events):
        row += 1
        sheet.text(row, 0, day.isoformat())
        above, here = a1(row - 1, 4), a1(row, 4)
        if is_count:
            sheet.text(row, 1, "count", Look.GUIDE)
            sheet.worked(row, 4, f"={above}", balance)
            sheet.number(row, 5, came, Look.LABEL)
            off = came - balance
            sheet.worked(row, 6, f"={a1(row, 5)}-{here}", off, Look.STOP if off else Look.WORKED)
        else:
            balance += came - went
            sheet.text(row, 1, note)
            sheet.number(row, 2, came)
            sheet.number(row, 3, went)
            sheet.worked(row, 4, f"={above}+{a1(row, 2)}-{a1(row, 3)}", balance)
    return row
