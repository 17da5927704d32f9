"""The same job gives the same bytes whatever the machine's language, encoding, time zone and hash seed are."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
WRITE = r"""
import hashlib, io
from tests.samples.jobs import a_bit_of_everything, changed_shop, estimated
from estimator.write.book import write_book
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.quote.page import quote_page
from estimator.write.quote.pdf import quote_pdf
from estimator.write.quote.workbook import quote_workbook
name = "Sch\u00fc\u00dfler \u0131\u0130 \u03a9"
estimate = estimated(a_bit_of_everything(), changed_shop(prices_are_examples=False, shop_name=name))
page = quote_page(estimate)
plain = write_book(lambda book: book.sheet("A").text(0, 0, "\u00e4"), title="t")
for write in (estimate_workbook(estimate), quote_workbook(page), plain):
    file = io.BytesIO()
    write(file)
    print(hashlib.sha256(file.getvalue()).hexdigest())
print(hashlib.sha256(quote_pdf(page)).hexdigest())
"""

SURROUNDINGS = {
    "plain": {"LC_ALL": "C.UTF-8", "TZ": "UTC", "PYTHONHASHSEED": "1"},
    "C, no UTF-8": {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "PYTHONHASHSEED": "2"},
    "POSIX, UTF-8 forced": {"LC_ALL": "POSIX", "PYTHONUTF8": "1", "PYTHONHASHSEED": "3"},
    "Turkish, far east": {"LC_ALL": "tr_TR.UTF-8", "TZ": "Asia/Tokyo", "PYTHONHASHSEED": "4"},
    "German, far west": {"LC_ALL": "de_DE.UTF-8", "TZ": "Pacific/Honolulu", "PYTHONHASHSEED": "5"},
    "Arabic": {"LC_ALL": "ar_EG.UTF-8", "TZ": "Africa/Cairo", "PYTHONHASHSEED": "6"},
}
"""Locales that a machine does not have fall back to C there, which is tried as well."""


def written(surroundings: dict[str, str]) -> str:
    kept = {key: value for key, value in os.environ.items() if not key.startswith(("LC_", "LANG", "PYTHON", "TZ"))}
    environment = {**kept, "PYTHONPATH": str(ROOT), **surroundings}
    ran = subprocess.run([sys.executable, "-c", WRITE], env=environment, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
    return ran.stdout


@pytest.fixture(scope="module")
def plain() -> str:
    return written(SURROUNDINGS["plain"])


@pytest.mark.parametrize("name", [name for name in SURROUNDINGS if name != "plain"])
def test_language_encoding_time_zone_and_hash_seed_change_no_byte(plain: str, name: str) -> None:
    assert written(SURROUNDINGS[name]) == plain
    assert len(plain.split()) == 4
