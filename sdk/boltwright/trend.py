"""POST /v1/trend: how fast values drift, and how many pieces are left until the limit that they run towards."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from .decoding import Result
from .readings import written_values
from .transport import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend(Result):
    """A straight line through the values. Where the slope is not `significant` there is no forecast."""

    slope: float
    slope_interval: tuple[float, ...]
    significant: bool
    residual_standard_deviation: float
    limit: float | None = None
    pieces_until_limit: float | None = None
    pieces_until_limit_interval: tuple[float | None, ...] = ()
    notices: tuple[str, ...] = ()


def trend(
    connection: Connection,
    values: Iterable[float | Decimal],
    *,
    min: float | Decimal | None = None,
    max: float | Decimal | None = None,
    confidence_level: float | None = None,
) -> Trend:
    """Return the drift per piece and the pieces until a limit, counted after the last value.

    Args:
        values: readings in the order of production.
        min, max: the limits of the product.
        confidence_level: of the intervals.

    Raises:
        InvalidRequestError: values that cannot be used. ValueError: NaN or Infinity among the values.
    """
    body = {
        "values": written_values("values", values),
        "min": min,
        "max": max,
        "confidence_level": confidence_level,
    }
    return connection.post(Trend, "/v1/trend", body)
