"""GET /v1/size-limits: limits by product grade or ISO 286 class, at any nominal size."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..decoding import Result
from ..transport import Connection
from ..values import Bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeLimits(Result):
    """The limits of one feature or class."""

    nominal: float
    feature: str | None = None
    grade: str | None = None
    tolerance_class: str | None = None
    limits: Bounds


def size_limits(
    connection: Connection,
    nominal: float | Decimal,
    *,
    feature: str | None = None,
    grade: str | None = None,
    diameter: float | Decimal | None = None,
    thickness: float | Decimal | None = None,
    tolerance_class: str | None = None,
    unit: str | None = None,
) -> SizeLimits:
    """Return the limits of a feature in a product grade, or of a tolerance class such as h13, at any size in mm.

    Args:
        nominal: the size that the rule starts from: s for width across corners too.
        feature, grade: a dimension and A, B or C; or `tolerance_class` alone.
        diameter: of the thread, for the height of nuts. thickness: of a washer, for its diameters.

    Raises:
        MemberError: a member is missing or makes no sense. Others: see `boltwright.errors`.
    """
    return connection.get(
        SizeLimits,
        "/v1/size-limits",
        nominal=nominal,
        feature=feature,
        grade=grade,
        diameter=diameter,
        thickness=thickness,
        tolerance_class=tolerance_class,
        unit=unit,
    )
