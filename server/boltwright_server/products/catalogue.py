"""Which products are held, and the answer for each."""

from __future__ import annotations

from decimal import Decimal
from difflib import get_close_matches
from functools import cache, lru_cache

from ..quantities import UnknownName
from ..standards import BadFacts, Standard, all_standards, current
from ..threads import MetricSize
from .family import FAMILIES
from .product import Options, Product, ProductDimensions
from .table_engine import table_dimensions


@cache
def products() -> tuple[Product, ...]:
    """Return every product held, current editions only, in the order of the registry."""
    return tuple(
        product
        for one in all_standards()
        if one.family in FAMILIES and current(one.id) is one
        for product in products_of(one)
    )


@cache
def products_of(standard: Standard) -> tuple[Product, ...]:
    """Return the products of one standard: one for each `[[product]]` entry, or one where it has none.

    Raises:
        BadFacts: an entry that no family can be built from.
    """
    where = f"{standard.folder}/standard.toml, product"
    entries = [
        Product(standard, Options.of(entry, f"{where} {number}"))
        for number, entry in enumerate(standard.products, start=1)
    ]
    found = entries or [Product(standard)]
    for product in found:
        if product.options.table and product.options.table not in standard.tables:
            raise BadFacts(f"{where} {product.options.name!r}: there is no table {product.options.table!r}")
        if "thread" not in product.table.key:
            raise BadFacts(f"{product.table.where}: the table of sizes of a product needs the key 'thread'")
    return tuple(found)


@cache
def find_product(product_id: str) -> Product:
    """Return the product of that name: the number of its standard, as `ISO 4014`, and its own name if it has one.

    Raises:
        UnknownName: no such product is held; carries the nearest.
    """
    for product in products():
        if product.id == product_id:
            return product
    known = [product.id for product in products()]
    raise UnknownName(
        f"no product standard {product_id!r} is held; held are {', '.join(known)}",
        member="standard",
        code="unknown_standard",
        nearest=get_close_matches(product_id[:60], known, n=3, cutoff=0.3),
    )


@lru_cache(maxsize=4096)
def dimensions(
    product: Product, size: MetricSize, length: Decimal | None, property_class: str | None = None
) -> ProductDimensions:
    """Return the dimensions of one product in mm.

    Raises:
        UnknownName, NotUnderstood, NotCovered: as the engine.
    """
    return table_dimensions(product, size, length, property_class)
