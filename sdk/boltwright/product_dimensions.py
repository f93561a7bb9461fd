"""GET /v1/product-dimensions: dimensions of a bolt, screw or nut."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from .decoding import Result
from .transport import Connection
from .values import Bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductDimensions(Result):
    """Dimensions by id, as bounds."""

    standard: str
    edition: str
    size: str
    length: float | None = None
    product_grade: str
    thread_tolerance_class: str = ""
    unit: str
    dimensions: Mapping[str, Bounds]
    notices: tuple[str, ...] = ()


def product_dimensions(
    connection: Connection,
    standard: str,
    size: str,
    length: float | Decimal | str | None = None,
    *,
    unit: str | None = None,
) -> ProductDimensions:
    """Return the dimensions of a product.

    Args:
        standard: a product standard, as ISO 4014.
        size: a thread without tolerance class, as M10.
        length: nominal length in the standard's unit; bolts and screws need it.
        unit: shows lengths in this unit (um, in).

    Raises:
        NotFoundError: no such standard or size. DesignationError: the length is missing. Others: see
        `boltwright.errors`.
    """
    return connection.get(
        ProductDimensions, "/v1/product-dimensions", standard=standard, size=size, length=length, unit=unit
    )
