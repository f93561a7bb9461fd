"""POST /v1/trend: how fast values drift, and how many pieces are left until the limit that they run towards."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from ..decoding import Result
from ..readings import written_values
from ..transport import Connection
from ..values import StatedLimits


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend(Result):
    """A straight line through the values. Where the slope is not `significant` there is no forecast.

    `pieces_until_limit` is when the line meets the limit, `pieces_until_risk` when a single piece may.
    """

    slope: float
    slope_interval: tuple[float, ...]
    significant: bool
    residual_standard_deviation: float
    limit: float | None = None
    pieces_until_limit: float | None = None
    pieces_until_limit_interval: tuple[float | None, ...] = ()
    pieces_until_risk: float | None = None
    limits: StatedLimits | None = None
    notices: tuple[str, ...] = ()


def trend(
    connection: Connection,
    values: Iterable[float | Decimal],
    *,
    min: float | Decimal | None = None,
    max: float | Decimal | None = None,
    limits_unit: str | None = None,
    designation: str | None = None,
    characteristic: str | None = None,
    unit: str | None = None,
    confidence_level: float | None = None,
) -> Trend:
    """Return the drift per piece and the pieces until a limit, counted after the last value.

    Args:
        values: readings in the order of production.
        min, max: the limits of the product, in `limits_unit` where that is not the unit of the readings, or
        designation, characteristic: the characteristic of a product whose limits count.
        unit: of the readings.
        confidence_level: of the intervals.

    Raises:
        InvalidRequestError: values that cannot be used. ValueError: NaN or Infinity among the values.
    """
    body = {
        "values": written_values("values", values),
        "min": min,
        "max": max,
        "limits_unit": limits_unit,
        "designation": designation,
        "characteristic": characteristic,
        "unit": unit,
        "confidence_level": confidence_level,
    }
    return connection.post(Trend, "/v1/trend", body)
