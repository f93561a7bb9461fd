"""GET /v1/products: step by step to a valid designation."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..decoding import Result
from ..transport import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class Product:
    """A product of a standard; `thread` is external, internal or None."""

    product: str
    standard: str
    edition: str
    title: str
    item: str
    thread: str | None = None
    unit: str = "mm"
    has_length: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One value of the next step."""

    value: str
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What the next step may be; `left_out` says why the rest is not possible, `free` that any value may be named."""

    values: tuple[Choice, ...] = ()
    left_out: tuple[Choice, ...] = ()
    free: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Configuration(Result):
    """How far a designation has come. `next` is the argument to give next, None when nothing is left."""

    standard: str | None = None
    size: str | None = None
    unit: str | None = None
    length: float | None = None
    property_class: str | None = None
    coating: str | None = None
    next: str | None = None
    choices: Choices
    products: tuple[Product, ...] = ()
    designation: str | None = None
    complete: bool = False


def products(
    connection: Connection,
    standard: str | None = None,
    size: str | None = None,
    length: float | Decimal | str | None = None,
    property_class: str | None = None,
    coating: str | None = None,
) -> Configuration:
    """List the products, or the values of the next step for what has been chosen.

        client.products("ISO 4014", "M10").choices.values     # its lengths

    Args:
        standard: a product, as ISO 4014. size, length, property_class: in this order.
        coating: a coating, or "none" for a plain product.

    Raises:
        NotFoundError, MemberError, DesignationError: a choice that is not possible. Others: see `boltwright.errors`.
    """
    return connection.get(
        Configuration,
        "/v1/products",
        standard=standard,
        size=size,
        length=length,
        property_class=property_class,
        coating=coating,
    )
