"""POST /v1/gauge-sizes/check: a measured gauge against its limits when new and its wear limit. It changes nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields
from decimal import Decimal
from typing import Any, Literal

from ..decoding import Result
from ..transport import Connection
from ..values import Basis, plain_number
from .gauge_sizes import GaugeDimension

Status = Literal["fit_for_use", "worn", "out_of_new_limits"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredGauge:
    """A measured size of one gauge: its id as `gauge_sizes` lists it, and which of its dimensions was measured."""

    designation: str
    gauge: str
    value: float | Decimal
    unit: str
    dimension: str = "pitch_diameter"
    standard: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeCondition(Result):
    """What a measured size means, in `unit`.

    `remaining_wear` is negative for a worn gauge and None without a wear limit. `passes_outside` is how far a part may
    measure beyond its limit and still pass this gauge.
    """

    designation: str
    gauge_standard: str
    gauge: str
    dimension: str
    status: Status
    within_new_limits: bool
    measured: float
    unit: str
    remaining_wear: float | None = None
    passes_outside: float | None = None
    limits: GaugeDimension
    basis: Basis
    reasons: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeConditions(Result):
    """The condition of each gauge of a list, in its order."""

    gauges: tuple[GaugeCondition, ...]


def gauge_sizes_check(connection: Connection, gauges: Iterable[MeasuredGauge]) -> GaugeConditions:
    """Judge measured gauges: fit for use, worn, or out of their limits.

    Args:
        gauges: up to 1000 measured sizes.

    Raises:
        NotFoundError: no such thread or gauge. NotCoveredError: no value of the gauge is held. Others: see
            `boltwright.errors`.
    """
    return connection.post(GaugeConditions, "/v1/gauge-sizes/check", {"gauges": [_sent(one) for one in gauges]})


def _sent(gauge: MeasuredGauge) -> dict[str, Any]:
    members = {one.name: getattr(gauge, one.name) for one in fields(gauge)}
    measured = {"value": plain_number(members.pop("value")), "unit": members.pop("unit")}
    return {**{name: value for name, value in members.items() if value is not None}, "measured": measured}
