"""Product grades and the classes behind them."""

from decimal import Decimal

import pytest

from boltwright_server.products.product_grade import length_bounds, limits_of_class, product_grade, tolerance_class
from boltwright_server.quantities import NotCovered, NotUnderstood


@pytest.mark.parametrize(
    ("d", "length", "grade"),
    [("24", "150", "A"), ("24", "150.5", "B"), ("6", "60", "A"), ("6", "65", "B"), ("27", "100", "B")],
)
def test_grade_of_hexagon_bolts(d: str, length: str, grade: str) -> None:
    """ISO 4014:2011, scope: A for d <= 24 and l <= 10 d and l <= 150, each bound included; two reproductions."""
    assert product_grade(Decimal(d), Decimal(length)) == grade


def test_bands_are_up_to_and_including() -> None:
    """ISO 286-1:2010, Table 1: 18 belongs to 10 to 18, so h14 of 18 is 0.43 and of 18.1 is 0.52; two reproductions."""
    assert limits_of_class("h14", Decimal(18))[0] == Decimal("-0.43")
    assert limits_of_class("h14", Decimal("18.1"))[0] == Decimal("-0.52")


def test_class_of_the_grade_c_head_changes_at_ten() -> None:
    """ISO 4016:2011: the head of M16, k = 10, is printed 9.25 to 10.75, which is js17; one reproduction."""
    assert tolerance_class("k", "C", Decimal(10))[0] == "js17"
    assert tolerance_class("k", "C", Decimal("8.8"))[0] == "js16"


def test_length_class_of_a_product_wins_over_its_grade() -> None:
    """ISO 4762:2004 uses js15 over the whole range; ISO 4016:2011 prints 195.4 to 204.6 for 200 of grade C."""
    assert length_bounds(Decimal(200), "A", "js15").max == Decimal("200.925")
    assert (length_bounds(Decimal(200), "C").min, length_bounds(Decimal(200), "C").max) == (
        Decimal("195.4"),
        Decimal("204.6"),
    )


@pytest.mark.parametrize("tolerance", ["h", "13", "hh13", "g6", "h13 "])
def test_a_class_that_is_none_is_refused(tolerance: str) -> None:
    with pytest.raises(NotUnderstood):
        limits_of_class(tolerance, Decimal(10))


@pytest.mark.parametrize(
    ("tolerance", "size"), [("h19", "10"), ("h13", "501"), ("K9", "4"), ("EF8", "11"), ("h13", "0")]
)
def test_what_the_standard_does_not_give_is_not_extrapolated(tolerance: str, size: str) -> None:
    with pytest.raises(NotCovered):
        limits_of_class(tolerance, Decimal(size))
