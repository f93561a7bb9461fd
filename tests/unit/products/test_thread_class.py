"""The tolerance class of the thread of a product."""

from decimal import Decimal

import pytest

from boltwright_server.products import dimensions, find_product
from boltwright_server.products.product import size_of


@pytest.mark.parametrize(
    ("product", "length", "property_class", "expected"),
    [
        ("ISO 4014", "60", "8.8", "6g"),
        ("ISO 4016", "60", "4.6", "8g"),
        ("ISO 4016", "60", "8.8", "6g"),
        ("ISO 4762", "60", "8.8", "6g"),
        ("ISO 4762", "60", "12.9", "5g6g"),
        ("ISO 4032", None, "8", "6H"),
        ("ISO 4034", None, "5", "7H"),
        ("ISO 7089", None, "200 HV", None),
    ],
)
def test_class_by_product_grade_and_property_class(
    product: str, length: str | None, property_class: str, expected: str | None
) -> None:
    """ISO 4759-1:2000 (6g, 6g, 8g; 6H, 6H, 7H: one reproduction; 6g of strong grade C: memory), ISO 4762:2004."""
    nominal = None if length is None else Decimal(length)
    found = dimensions(find_product(product), size_of("M10"), nominal, property_class)
    assert found.thread_tolerance_class == expected


def test_without_a_property_class_the_usual_one_answers_and_the_other_is_told() -> None:
    found = dimensions(find_product("ISO 4762"), size_of("M10"), Decimal(60))
    assert found.thread_tolerance_class == "6g"
    assert any("5g6g for class 12.9" in notice for notice in found.notices)
