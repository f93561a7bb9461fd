"""GET /v1/product-dimensions: dimensions of a bolt, screw or nut."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from ..decoding import Result
from ..transport import Connection, flag
from ..values import Bounds
from .derivation import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductDimensions(Result):
    """Dimensions by id, as bounds."""

    standard: str
    edition: str
    size: str
    length: float | None = None
    product: str = ""
    item: str = ""
    product_grade: str | None = None
    thread_tolerance_class: str | None = None
    unit: str
    dimensions: Mapping[str, Bounds]
    mass_per_1000: Bounds | None = None
    fully_threaded: bool = False
    clearance_holes: Mapping[str, Bounds] = field(default_factory=dict)
    notices: tuple[str, ...] = ()
    derivation: tuple[Step, ...] = ()


def product_dimensions(
    connection: Connection,
    standard: str,
    size: str,
    length: float | Decimal | str | None = None,
    *,
    property_class: str | None = None,
    unit: str | None = None,
    explain: bool | None = None,
) -> ProductDimensions:
    """Return the dimensions of a product.

    Args:
        standard: a product, as ISO 4014 or ASME B18.2.1 hex cap screw.
        size: a thread without tolerance class, as M10 or 1/2-13; for a washer 10.
        length: nominal length in the standard's unit, in inch as 1-1/2 too; bolts and screws need it.
        property_class: the class, where it decides the thread tolerance (ISO 4762 in 12.9).
        unit: shows lengths in this unit (um, in).
        explain: adds `derivation`, the steps to what is computed (metric products).

    Raises:
        NotFoundError: no such standard or size. DesignationError: the length is missing. Others: see
        `boltwright.errors`.
    """
    return connection.get(
        ProductDimensions,
        "/v1/product-dimensions",
        standard=standard,
        size=size,
        length=length,
        property_class=property_class,
        unit=unit,
        explain=flag(explain),
    )
