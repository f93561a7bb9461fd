"""A canonical designation of any product, size and class is read as itself, as a designation and as a description."""

import pytest
from tests.unit.designations.test_every_product import designations_of

from boltwright_server.part_masters.validation import Validator
from boltwright_server.products import Product, products


@pytest.mark.parametrize("product", products(), ids=lambda product: product.id)
@pytest.mark.parametrize("member", ["designation", "description"])
def test_a_canonical_designation_is_read_as_itself(product: Product, member: str) -> None:
    with Validator(repeats=False) as validator:
        for text in (one.canonical for one in designations_of(product)):
            read = validator.validate({member: text})
            assert (read.designation, read.left_over) == (text, [])
            assert read.confidence == 1.0
