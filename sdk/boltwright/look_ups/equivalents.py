"""GET /v1/equivalents: the nearest products of the same function, with everything in which they differ."""

from __future__ import annotations

from dataclasses import dataclass

from ..decoding import Result
from ..transport import Connection
from ..values import Bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One requirement that differs: bounds or a text on each side; None where nothing is required.

    `meets`: what meets the other meets what was asked; None where that cannot be said. `converted` holds the other's
    limits in the asked unit, where the units differ.
    """

    id: str
    group: str
    asked: Bounds | None = None
    other: Bounds | None = None
    asked_text: str | None = None
    other_text: str | None = None
    converted: Bounds | None = None
    direction: str
    meets: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternative:
    """Another product of the same function. It is never interchangeable without review."""

    designation: str
    standard: str
    edition: str
    title: str
    same_thread: bool
    distance: float
    interchange: str
    not_met: tuple[str, ...]
    differences: tuple[Difference, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Equivalents(Result):
    """The nearest alternatives first; `review` says what has to be looked at before one is used."""

    designation: str
    function: str
    alternatives: tuple[Alternative, ...]
    review: str
    notices: tuple[str, ...] = ()


def equivalents(connection: Connection, designation: str, limit: int | None = None) -> Equivalents:
    """Return the nearest products of the same function.

    Args:
        designation: a product, `ISO 4014 - M12x60 - 8.8`.
        limit: the greatest number of alternatives, 1 to 30.

    Raises:
        DesignationError, NotFoundError: it names no product. Others: see `boltwright.errors`.
    """
    return connection.get(Equivalents, "/v1/equivalents", designation=designation, limit=limit)
