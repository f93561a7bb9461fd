"""The picture of one characteristic of a verdict: its readings against limits and acceptance limits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from ..drawing import Drawing
from ..readings import Column, Reading, values_of
from ..statistics.histogram import histogram_drawing
from ..transport import Connection
from .conformance import Conformance
from .verdicts import CharacteristicVerdict


def conformance_drawing(
    connection: Connection,
    found: Conformance,
    readings: Mapping[str, Column | Iterable[Reading] | Mapping[str, Any]],
    characteristic: str,
) -> Drawing:
    """Return a histogram of the readings that were judged, with the limits that they were judged by.

    Args:
        found: the verdict of `Client.conformance` on
        readings: which carry more than the verdict, which repeats none of them.
        characteristic: a measured one, by id.

    Raises:
        ValueError: the verdict does not know it, or it was not measured. Error: see `boltwright.errors`.
    """
    one = found.characteristics.get(characteristic)
    if one is None or characteristic not in readings:
        raise ValueError(f"{characteristic!r} was not judged; it is one of {', '.join(found.characteristics)}")
    if one.limits is None or one.statistics is None:
        raise ValueError(f"{characteristic} was not measured: it has no histogram")
    values = [value for value in values_of(readings[characteristic]) if value is not None]
    return histogram_drawing(
        connection,
        values,
        title=f"{found.designation}: {characteristic.replace('_', ' ')}",
        unit=one.statistics.unit or one.limits.unit,
        min=one.limits.exact_min,
        max=one.limits.exact_max,
        limits_unit=one.limits.unit,
        **_acceptance(found, one),
    )


def _acceptance(found: Conformance, one: CharacteristicVerdict) -> Any:
    """Acceptance limits are drawn where a guard band makes them others than the limits."""
    rule = one.decision_rule or found.decision_rule
    ends = one.acceptance_limits
    if ends is None or rule.rule != "guarded" or not ends.attainable:
        return {}
    return {"acceptance_min": ends.min, "acceptance_max": ends.max}
