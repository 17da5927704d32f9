"""Karnataka Water Resources Department, Schedule of Rates 2010-11, gate works, two public copies, seen as excerpts.

(pdfslide.us, data rates gate works 5; vdocument.in, data rates gate works 6.) Tolerance: the printed minor unit.
"""

import pytest

from estimator.pricing.money import to_minor


@pytest.mark.parametrize(
    ("quantity", "rate", "printed_minor"),
    [(180, 48.00, 864_000), (60, 258.00, 1_548_000), (36, 2.50, 9_000)],
    ids=["oxygen m3", "acetylene m3", "tool hours"],
)
def test_a_printed_line_is_quantity_times_rate(quantity, rate, printed_minor):
    assert int(to_minor(quantity * rate)) == printed_minor


def test_the_three_lines_add_to_the_printed_total():
    assert sum(int(to_minor(q * r)) for q, r in [(180, 48.0), (60, 258.0), (36, 2.5)]) == 2_421_000


def test_additions_on_one_base_are_rounded_once():
    """1, 10 and 5 % are added on one base: 648,537.03 is printed; rounding each part first would give .04."""
    base = 559_083.65
    assert int(to_minor(base * 1.16)) == 64_853_703
    parts = [int(to_minor(base * share)) for share in (0.01, 0.10, 0.05)]
    assert int(to_minor(base)) + sum(parts) == 64_853_704


def test_labour_with_its_additions_is_as_printed():
    assert int(to_minor(204_083.80 * 1.46)) == 29_796_235
