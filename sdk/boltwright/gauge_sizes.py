"""GET /v1/gauge-sizes: the screw gauges of a thread."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from .decoding import HERE, Result
from .transport import Connection
from .values import Bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeDimension:
    """Limits of a new gauge, and the size at which it is worn out."""

    limits: Bounds = field(metadata={"member": HERE})
    wear_limit: float | None = None
    exact_wear_limit: Decimal | None = field(default=None, repr=False, metadata={"member": "wear_limit"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """A gauge, what it checks and how it is applied."""

    id: str
    name: str
    member: str
    checks: str = ""
    application: str = ""
    dimensions: Mapping[str, GaugeDimension]


@dataclass(frozen=True, slots=True, kw_only=True)
class NotHeld:
    """A gauge for which the service holds no value, and why."""

    id: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeSizes(Result):
    """The gauges of a thread."""

    designation: str
    gauge_standard: str
    gauges: tuple[Gauge, ...]
    not_covered: tuple[NotHeld, ...] = ()
    notices: tuple[str, ...] = ()


def gauge_sizes(connection: Connection, designation: str, *, standard: str | None = None) -> GaugeSizes:
    """Return the gauges for a thread such as M10-6g (rings), M10-6H (plugs) or a fit (both).

    Args:
        designation: a thread with its tolerance class.
        standard: the gauge standard; the default follows the thread system.

    Raises:
        NotFoundError: no such size. Others: see `boltwright.errors`.
    """
    return connection.get(GaugeSizes, "/v1/gauge-sizes", designation=designation, standard=standard)
