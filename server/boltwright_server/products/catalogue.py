"""Which product standards are held, and which engine answers for each family."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from difflib import get_close_matches
from functools import cache, lru_cache

from ..quantities import UnknownName
from ..standards import all_standards, current
from ..threads import MetricSize
from .hexagon_bolt import hexagon_bolt
from .hexagon_nut import hexagon_nut
from .product import Product, ProductDimensions

Engine = Callable[[Product, MetricSize, Decimal | None], ProductDimensions]

#: family in a `standard.toml` -> (member of the thread, engine)
PRODUCT_FAMILIES: dict[str, tuple[str, Engine]] = {
    "hexagon_bolt": ("external", hexagon_bolt),
    "hexagon_nut": ("internal", hexagon_nut),
}


@cache
def products() -> tuple[Product, ...]:
    """Return every product standard held, current editions only, in the order of the registry."""
    return tuple(
        Product(one, PRODUCT_FAMILIES[one.family][0])
        for one in all_standards()
        if one.family in PRODUCT_FAMILIES and current(one.id) is one
    )


@cache
def find_product(standard_id: str) -> Product:
    """Return the product standard of that number, as `ISO 4014`.

    Raises:
        UnknownName: no such product standard is held; carries the nearest.
    """
    for product in products():
        if product.standard.id == standard_id:
            return product
    known = [product.standard.id for product in products()]
    raise UnknownName(
        f"no product standard {standard_id!r} is held; held are {', '.join(known)}",
        member="standard",
        code="unknown_standard",
        nearest=get_close_matches(standard_id[:60], known, n=3, cutoff=0.3),
    )


@lru_cache(maxsize=4096)
def dimensions(product: Product, size: MetricSize, length: Decimal | None) -> ProductDimensions:
    """Return the dimensions of one product in mm.

    Raises:
        UnknownName, NotUnderstood, NotCovered: as the family's engine.
    """
    _, engine = PRODUCT_FAMILIES[product.standard.family]
    return engine(product, size, length)
