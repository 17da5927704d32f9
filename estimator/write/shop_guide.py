"""The page that a new shop folder is read with: what to do first, what each file is for, and what to mind."""

from __future__ import annotations

import textwrap

from estimator.write.launcher import Launcher

__all__ = ["GUIDE_NAME", "guide_page"]

GUIDE_NAME = "read_me_first.txt"

_PAGE = """\
YOUR SHOP FOLDER

1. Type your prices (five minutes)
   Open shop_book.xlsx. Its first sheet, Start here, asks for what is enough
   for a first price, from top to bottom. Save, and close the file.

2. Price a list
   Put it into this folder, beside shop_book.xlsx.
   Without a terminal: {use}.
   In a terminal:      kerfledger estimate LIST.xlsx
   The list may be a customer's own, in its own layout (xlsx, xls, ods, csv).
   The answer is a workbook beside the list, for your own eyes. Change a rate
   or a price in it, and it prices itself anew.
   When a cell is missing or cannot be read, nothing is priced: a page beside
   the list says which cells, and what each needs. Correct them, do it again.
   This folder may be moved or copied. If kerfledger's own folder is moved, set
   it up there again, then: kerfledger start --launcher and this folder's name.

3. Before you send a quote: would it have been right?
   past_jobs.xlsx     your last five finished jobs, and what they took:
                     kerfledger check-past past_jobs.xlsx

4. When you have more time
   cut_list.xlsx      for jobs that come by telephone
   work_log.xlsx      one line a man and job; your own figures come from it:
                     kerfledger calibrate --log work_log.xlsx --out new.xlsx
   bills.xlsx         the month's gas bills against the log:
                     kerfledger reconcile --bills bills.xlsx --log work_log.xlsx
   price_lists.xlsx   two suppliers or more, on what you use:
                     kerfledger compare price_lists.xlsx --log work_log.xlsx
   And for any list, will the cylinders on the rack finish it:
                     kerfledger rack LIST.xlsx

HOW FAR TO TRUST IT
   Minutes decide a price, gas rarely does. Until ten of your own jobs are
   logged the hours rest on common practice, and the built-in speeds and fuel
   flows on memory: beside a price stands the range that it stays in on four
   jobs of five.

MIND
   Fire, fume, pressure and falling steel hurt people. Your torch's own manual,
   your local codes and licensed practice come before anything printed here.
   Acetylene never above 15 psi (103 kPa) gauge. Never cut a closed vessel or
   one that held what can burn. Watch for fire for an hour after the last cut.
"""


def guide_page(launcher: Launcher) -> str:
    """Return the page, for the system that the folder is on."""
    use = textwrap.fill(launcher.use, 78, initial_indent=" " * 23, subsequent_indent=" " * 23, break_on_hyphens=False)
    use = use.strip()
    return _PAGE.format(use=use)
