"""From a request about a process to the picture of its readings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from ...documents.charts import Picture, histogram_drawing
from ...statistics import histogram
from ...statistics.subgroups import Floats, mean_of
from .bodies import Limits


def drawn(
    members: Mapping[str, Any], values: Floats, limits: Limits, remarks: Sequence[str], title: str = "Histogram"
) -> str:
    """Return the drawing of readings against limits; the title of the request goes before what the limits are of."""
    return histogram_drawing(
        Picture(
            histogram(values),
            mean_of(values),
            members.get("title") or limits.of or title,
            limits.unit,
            (limits.low, limits.high),
            acceptance_of(members),
            remarks,
        )
    )


def acceptance_of(members: Mapping[str, Any]) -> tuple[Decimal | None, Decimal | None]:
    """Return the acceptance limits that a request gives."""
    return members.get("acceptance_min"), members.get("acceptance_max")
