"""Bounds and bases: a number cannot exist without its reference, and a sum is known no better than its worst term."""

from decimal import Decimal
from itertools import product

import pytest

from boltwright_server.quantities import CHECKED_WORDS, Basis, Bounds, weakest

BASIS = Basis("ISO 4032", "2012", "Table 1", "tabulated", "two reproductions")


def test_a_minimum_above_its_maximum_cannot_be_built() -> None:
    with pytest.raises(ValueError, match=r"s: min 16\.1 exceeds max 16\.0"):
        Bounds("s", Decimal("16.1"), Decimal("16.0"), "mm", BASIS)


@pytest.mark.parametrize(("low", "high"), [(None, "1"), ("1", None), (None, None), ("1", "1")])
def test_an_open_side_or_equal_limits_can(low: str | None, high: str | None) -> None:
    Bounds("s", None if low is None else Decimal(low), None if high is None else Decimal(high), "mm", BASIS)


@pytest.mark.parametrize(("one", "other"), list(product(CHECKED_WORDS, CHECKED_WORDS)))
def test_the_weakest_mark_wins_in_any_order(one: str, other: str) -> None:
    expected = CHECKED_WORDS[max(CHECKED_WORDS.index(one), CHECKED_WORDS.index(other))]
    assert weakest(one, other) == weakest(other, one) == expected


def test_a_computed_basis_is_marked_so_and_takes_the_weakest_mark() -> None:
    found = BASIS.computed("l - b", "memory", note="why")
    assert (found.method, found.checked, found.clause, found.note) == ("computed", "memory", "l - b", "why")
    assert BASIS.computed().clause == "Table 1"
