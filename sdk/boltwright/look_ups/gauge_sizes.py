"""GET /v1/gauge-sizes: the screw gauges of a thread."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from ..decoding import HERE, Result
from ..drawing import Drawing
from ..transport import Connection, flag
from ..values import Basis, Bounds
from .derivation import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """Where a gauge lies against the product limit that it guards, as offsets from that limit in um or in.

    `inside` says on which side of the limit the product tolerance lies, `outside` how far a gauge that is still
    permitted may lie outside it: a part may pass the gauge and measure that far beyond the limit.
    """

    product_limit: str
    at: float
    low: float
    high: float
    wear: float | None = None
    unit: str
    inside: str | None = None
    outside: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeDimension:
    """Limits of a new gauge, and the size at which it is worn out."""

    limits: Bounds = field(metadata={"member": HERE})
    wear_limit: float | None = None
    exact_wear_limit: Decimal | None = field(default=None, repr=False, metadata={"member": "wear_limit"})
    wear_basis: Basis | None = None
    zone: Zone | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """A gauge, what it checks and how it is applied; `turns_allowed` is how far a NOT GO gauge may enter."""

    id: str
    name: str
    member: str
    checks: str = ""
    application: str = ""
    turns_allowed: int | None = None
    wears: str = ""
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
    derivation: tuple[Step, ...] = ()


def gauge_sizes(
    connection: Connection, designation: str, *, standard: str | None = None, explain: bool | None = None
) -> GaugeSizes:
    """Return the gauges for a thread such as M10-6g or 1/2-13 UNC-2A (rings), M10-6H (plugs) or a fit (both).

    Args:
        designation: a thread with its tolerance class.
        standard: ISO 1502 (default) or ASME B1.16M for metric threads, ASME B1.2 for Unified ones.
        explain: adds `derivation`, the steps to every size (metric threads).

    Raises:
        NotFoundError: no such size. Others: see `boltwright.errors`.
    """
    return connection.get(
        GaugeSizes, "/v1/gauge-sizes", designation=designation, standard=standard, explain=flag(explain)
    )


def gauge_sizes_drawing(connection: Connection, designation: str, *, standard: str | None = None) -> Drawing:
    """Return the zones of the gauges against the tolerance of the thread, to scale.

    Raises:
        NotFoundError: no such size. Others: see `boltwright.errors`.
    """
    return connection.get_drawing("/v1/gauge-sizes/drawing.svg", designation=designation, standard=standard)
