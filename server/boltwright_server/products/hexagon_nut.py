"""Hexagon nuts of product grades A and B.

ISO 4032:2012 (coarse thread), ISO 8673:2012 (fine thread), both style 1.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import NotUnderstood
from ..threads import MetricSize
from .product import Product, ProductDimensions
from .table_row import dimensions_of


def hexagon_nut(product: Product, size: MetricSize, length: Decimal | None) -> ProductDimensions:
    """Return the dimensions of one hexagon nut in mm; the row states its product grade.

    Raises:
        UnknownName: the standard does not list the thread.
        NotUnderstood: a length was given.
    """
    if length is not None:
        raise NotUnderstood(f"{product.standard.id} is a nut and has no length", member="length", code="no_length")
    row = product.row(size)
    return ProductDimensions(
        product.standard.id,
        product.standard.edition,
        size.designation,
        None,
        row.word("grade"),
        "6H",
        dimensions_of(row, row.word("grade")),
        (),
    )
