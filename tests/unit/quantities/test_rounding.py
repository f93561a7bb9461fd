"""Rounding against whole-number arithmetic: no library's rounding is asked twice.

ISO 80000-1:2009, Annex B (rules A and B); the worked values stand in tests/published/iso_80000_1_2009.
"""

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltwright_server.quantities.rounding import half_even, half_up, plain, significant

NUMBERS = st.decimals(-100_000, 100_000, allow_nan=False, allow_infinity=False, places=6)
QUANTA = st.sampled_from(["1", "0.1", "0.01", "0.001", "1E+1", "1E+2"])


def nearest(value: Decimal, quantum: str, tie_to_even: bool) -> Fraction:
    """Round in whole steps: the lower step, and one more where the rest says so."""
    steps = abs(Fraction(value)) / Fraction(quantum)
    low = floor(steps)
    rest = steps - low
    up = rest > Fraction(1, 2) or (rest == Fraction(1, 2) and (not tie_to_even or low % 2 == 1))
    return (1 if value >= 0 else -1) * (low + up) * Fraction(quantum)


@given(NUMBERS, QUANTA)
def test_half_up_takes_ties_away_from_zero(value: Decimal, quantum: str) -> None:
    assert Fraction(half_up(value, quantum)) == nearest(value, quantum, tie_to_even=False)


@given(NUMBERS, QUANTA)
def test_half_even_takes_ties_to_the_even_step(value: Decimal, quantum: str) -> None:
    assert Fraction(half_even(value, quantum)) == nearest(value, quantum, tie_to_even=True)


@given(st.integers(-10_000, 10_000), QUANTA)
def test_ties_part_the_two_rules(steps: int, quantum: str) -> None:
    tie = (Decimal(steps) + Decimal("0.5")) * Decimal(quantum)
    up, even = half_up(tie, quantum), half_even(tie, quantum)
    assert abs(Fraction(up)) == (abs(2 * steps + 1) + 1) * Fraction(quantum) / 2
    assert (Fraction(even) / Fraction(quantum)) % 2 == 0


@given(st.decimals(1, 10_000_000, allow_nan=False, places=4), st.integers(1, 6), st.booleans())
def test_significant_digits(value: Decimal, digits: int, even: bool) -> None:
    found = significant(value, digits, ROUND_HALF_EVEN if even else ROUND_HALF_UP)
    quantum = Decimal(1).scaleb(value.adjusted() - digits + 1)
    assert Fraction(found) == nearest(value, str(quantum), tie_to_even=even)


@pytest.mark.parametrize(
    ("value", "printed"), [("125600", "126000"), ("1190720", "1190000"), ("9.995", "10.0"), ("84.27", "84.3")]
)
def test_significant_digits_print_without_an_exponent(value: str, printed: str) -> None:
    found = significant(Decimal(value), 3)
    assert Decimal(printed) == found
    assert "E" not in str(found)


@given(st.integers(-(10**9), 10**9), st.integers(0, 6))
def test_plain_is_the_same_number_without_an_exponent(mantissa: int, zeros: int) -> None:
    found = plain(Decimal(mantissa).scaleb(zeros))
    assert found == mantissa * 10**zeros
    assert "E" not in str(found)


def test_a_value_is_rounded_in_one_step() -> None:
    """ISO 80000-1:2009, Annex B: 12.254 becomes 12.3; by way of 12.25 it would become 12.2."""
    assert half_even(Decimal("12.254"), "0.1") == Decimal("12.3")
    assert half_even(half_even(Decimal("12.254"), "0.01"), "0.1") == Decimal("12.2")
