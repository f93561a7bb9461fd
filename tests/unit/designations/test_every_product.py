"""Every product, size and class that the tables list has a canonical designation that reads back as itself."""

from collections.abc import Iterator
from decimal import Decimal

import pytest

from boltwright_server.designations import ProductDesignation, parse_product
from boltwright_server.designations.sizes import parse_size
from boltwright_server.products import Product, find_product, products
from boltwright_server.threads import ThreadSize, unified


def sizes_of(product: Product) -> Iterator[ThreadSize]:
    """The sizes of the table; an inch table lists diameters, which have their threads of UNC and UNF."""
    for key in product.size_keys():
        if product.family.inch:
            yield from (size for size in unified.of_diameter(key) if product.table.find(size.name) is not None)
        else:
            yield parse_size(product, key)


def designations_of(product: Product) -> Iterator[ProductDesignation]:
    length = Decimal(2 if product.family.inch else 60) if product.has_length else None
    classes = list(product.classes.column_values("property_class")) if product.classes else [None]
    for size in sizes_of(product):
        for name in classes:
            yield ProductDesignation(product, size, length, None if name is None else str(name))


@pytest.mark.parametrize("id", [product.id for product in products()])
def test_the_canonical_designation_reads_back(id: str) -> None:
    """By its name: a product is itself alone, and other tests let the engines forget theirs."""
    meant = list(designations_of(find_product(id)))
    assert meant
    for one in meant:
        assert parse_product(one.canonical) == one
