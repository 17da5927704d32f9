"""Format, then parse: 20,000 random lengths, written in every notation that is accepted, come back exactly."""

import random
from collections.abc import Callable
from fractions import Fraction

import pytest

from estimator.read.lengths import Length, read_length

EACH = 1_000


def _decimal(value: Fraction, mark: str = ".", group: str = "") -> str:
    whole, rest = divmod(value, 1)
    figures = f"{int(whole):,}".replace(",", group)
    tail = f"{int(rest * 10_000):04d}".rstrip("0")
    return figures + (mark + tail if tail else "")


def _mixed(value: Fraction, between: str) -> str:
    whole, rest = divmod(value, 1)
    parts = [str(whole)] if whole or not rest else []
    return between.join([*parts, *([f"{rest.numerator}/{rest.denominator}"] if rest else [])])


def _feet(value: Fraction, pattern: str) -> str:
    feet, inches = divmod(value, 12)
    return pattern.format(feet=feet, inches=_mixed(inches, " "))


SIGNS = {Fraction(1, 2): "½", Fraction(1, 4): "¼", Fraction(3, 4): "¾", Fraction(3, 8): "⅜", Fraction(7, 8): "⅞"}


def _sign(value: Fraction, between: str) -> str:
    whole, rest = divmod(value, 1)
    return (str(whole) if whole else "") + (between if whole else "") + SIGNS[rest]


def _some_decimal(rng: random.Random) -> Fraction:
    digits = rng.choice((0, 1, 2, 4))
    return Fraction(rng.randrange(1, 10 ** (4 + digits)), 10**digits)


def _some_fraction(rng: random.Random) -> Fraction:
    under = rng.choice((2, 4, 8, 16, 32, 64))
    return rng.randrange(0, 40) + Fraction(rng.randrange(1, under, 2), under)


def _some_inches(rng: random.Random) -> Fraction:
    return (
        Fraction(rng.randrange(12 * 64, 12 * 64 * 40), 64) if rng.random() < 0.8 else Fraction(rng.randrange(12, 480))
    )


def _some_sign(rng: random.Random) -> Fraction:
    return rng.randrange(0, 30) + rng.choice(list(SIGNS))


NOTATIONS: dict[str, tuple[Callable[[random.Random], Fraction], Callable[[Fraction], str], str | None, str | None]] = {
    "12.5": (_some_decimal, _decimal, None, "."),
    "12.5 mm": (_some_decimal, lambda v: _decimal(v) + " mm", "mm", "."),
    "12.5MM": (_some_decimal, lambda v: _decimal(v) + "MM", "mm", "."),
    "12,5": (_some_decimal, lambda v: _decimal(v, ","), None, ","),
    "12,5 cm": (_some_decimal, lambda v: _decimal(v, ",") + " cm", "cm", ","),
    "1 200,5": (_some_decimal, lambda v: _decimal(v, ",", " "), None, ","),
    "1,200.5 mm": (_some_decimal, lambda v: _decimal(v, ".", ",") + " mm", "mm", "."),
    "1.200,5 m": (_some_decimal, lambda v: _decimal(v, ",", ".") + " m", "m", ","),
    "t=12.5": (_some_decimal, lambda v: "t=" + _decimal(v), None, "."),
    "PL12.5mm": (_some_decimal, lambda v: "PL" + _decimal(v) + "mm", "mm", "."),
    "12.5 THK": (_some_decimal, lambda v: _decimal(v) + " THK", None, "."),
    '0.375"': (_some_decimal, lambda v: _decimal(v) + '"', "in", "."),
    "3/8": (_some_fraction, lambda v: _mixed(v, " "), None, None),
    '1-1/2"': (_some_fraction, lambda v: _mixed(v, "-") + '"', "in", None),
    "1 1/2 in": (_some_fraction, lambda v: _mixed(v, " ") + " in", "in", None),
    "1.1/2”": (_some_fraction, lambda v: _mixed(v, ".") + "”", "in", None),
    "PL 3/8": (_some_fraction, lambda v: "PL " + _mixed(v, "-"), None, None),
    "1½": (_some_sign, lambda v: _sign(v, ""), None, None),
    '1-½"': (_some_sign, lambda v: _sign(v, "-") + '"', "in", None),
    "5'-3 1/2\"": (_some_inches, lambda v: _feet(v, "{feet}'-{inches}\""), "in", None),
    "5' 3 1/2\"": (_some_inches, lambda v: _feet(v, "{feet}' {inches}\""), "in", None),
    "5 ft 3 1/2 in": (_some_inches, lambda v: _feet(v, "{feet} ft {inches} in"), "in", None),
}


def test_the_notations_make_twenty_thousand_examples() -> None:
    assert len(NOTATIONS) * EACH >= 20_000


@pytest.mark.parametrize("name", NOTATIONS)
def test_a_length_written_in_a_notation_reads_back_exactly(name: str) -> None:
    some, write, unit, decimal = NOTATIONS[name]
    rng = random.Random(name)
    for _ in range(EACH):
        value = some(rng)
        text = write(value)
        read = read_length(text, decimal)
        assert isinstance(read, Length), (text, read)
        assert (read.value, read.unit) == (value, unit), text
