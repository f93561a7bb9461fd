"""The computed dimensions of every product at every length of ISO 888 follow from the steps that the service shows."""

from __future__ import annotations

from decimal import Decimal

import pytest
from exact_steps import recompute
from steps_in_answers import steps_in_answers

from boltwright_server.products import Product, dimensions
from boltwright_server.products.catalogue import products
from boltwright_server.products.derivation import dimensions_derivation
from boltwright_server.products.product import size_of
from boltwright_server.quantities import Refusal
from boltwright_server.standards import standard

LENGTHS = [row.number("l") for row in standard("iso_888_2012").table("table_1").rows.values()]


METRIC = [product for product in products() if not product.family.inch]


@pytest.mark.parametrize("product", METRIC, ids=lambda product: product.standard.folder)
def test_every_computed_dimension_has_steps_that_give_it(product: Product) -> None:
    for name in product.size_keys():
        size = size_of(name)
        for length in LENGTHS[::3] if product.has_length else (None,):
            try:
                found = dimensions(product, size, length)
            except Refusal:
                continue
            steps = dimensions_derivation(product, size, found)
            assert recompute(steps_in_answers(steps)) == []
            computed: dict[str, Decimal] = {
                f"dimensions.{id}.{end}": value
                for id, bounds in found.dimensions.items()
                if bounds.basis.method == "computed"
                for end in ("min", "max")
                if (value := getattr(bounds, end)) is not None
            }
            assert {step.answers: step.rounded for step in steps} == computed
