"""POST /v1/histogram: readings counted in classes, and their picture against limits. It changes nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Unpack

from ..decoding import Result
from ..drawing import Drawing, LimitsToDraw
from ..readings import written_values
from ..transport import Connection
from ..values import StatedLimits

_PATH = "/v1/histogram"


@dataclass(frozen=True, slots=True, kw_only=True)
class Histogram(Result):
    """Readings in classes of equal width: `edges` has one entry more than `counts`, and no reading lies on one.

    `step` is the step in which the readings stand, 0 where there is none.
    """

    count: int
    mean: float
    step: float
    edges: tuple[float, ...]
    counts: tuple[int, ...]
    limits: StatedLimits | None = None
    acceptance_limits: StatedLimits | None = None


def histogram(connection: Connection, values: Iterable[float | Decimal], **limits: Unpack[LimitsToDraw]) -> Histogram:
    """Return readings counted in classes; the limits beside them are those of `boltwright.drawing.LimitsToDraw`.

    Raises:
        InvalidRequestError: values or limits that cannot be used. ValueError: NaN or Infinity among the values.
    """
    return connection.post(Histogram, _PATH, {"values": written_values("values", values), **limits})


def histogram_drawing(
    connection: Connection, values: Iterable[float | Decimal], **limits: Unpack[LimitsToDraw]
) -> Drawing:
    """Return the picture of a histogram with limits, acceptance limits and mean, as `histogram` is asked.

    Raises:
        InvalidRequestError: values or limits that cannot be used. ValueError: NaN or Infinity among the values.
    """
    return connection.post_for_drawing(_PATH, {"values": written_values("values", values), **limits})
