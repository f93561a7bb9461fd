"""GET and POST /v1/specification: everything required of one designation, and of a purchaser beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from ..decoding import HERE, Result
from ..drawing import Drawing
from ..transport import Connection
from ..values import Basis, Bounds, Deviation
from .gauge_sizes import Gauge
from .mechanical_minimums import Marking, Test
from .standards import InForce


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """What the designation names."""

    kind: str
    standard: str
    edition: str
    title: str = ""
    thread: str | None = None
    tolerance_class: str | None = None
    length: float | None = None
    product_grade: str | None = None
    property_class: str | None = None
    coating: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Characteristic:
    """One requirement: `limits` where `kind` is measured, `allowed` words or flags where it is not.

    `scales` holds the limits of a hardness by scale; each is judged on its own.
    """

    kind: str
    group: str
    instrument: str = ""
    destructive: bool
    mandatory: bool
    limits: Bounds = field(metadata={"member": HERE})
    allowed: tuple[Any, ...] = ()
    #: Coated products: `before_coating` or `as_delivered`; None for a plain product.
    state: str | None = None
    scales: Mapping[str, Bounds] = field(default_factory=dict)
    over_core: Bounds | None = None
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class LaterEdition:
    """A standard whose figures are of the edition `used`, though a later one is in force as far as known."""

    standard: str
    used: str
    in_force: InForce


@dataclass(frozen=True, slots=True, kw_only=True)
class Specification(Result):
    """Everything required of one designation. What the service does not cover is listed, never passed in silence."""

    designation: str
    item: Item
    characteristics: Mapping[str, Characteristic]
    reference_dimensions: Mapping[str, Bounds] = field(default_factory=dict)
    loads: Mapping[str, Bounds] = field(default_factory=dict)
    gauges: tuple[Gauge, ...] = ()
    gauge_standard: str | None = None
    tests: tuple[Test, ...] = ()
    marking: tuple[Marking, ...] = ()
    package_marking: Marking | None = None
    mass_per_1000: Bounds | None = None
    not_covered: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()
    editions: tuple[LaterEdition, ...] = ()
    #: With requirements only: where the purchaser asks for less than the standard.
    deviations: tuple[Deviation, ...] = ()
    dropped: Mapping[str, Any] = field(default_factory=dict)


def specification(
    connection: Connection,
    designation: str,
    *,
    requirements: Mapping[str, Mapping[str, Any] | None] | None = None,
    dropped: Mapping[str, Mapping[str, str]] | None = None,
    fracture_rule: str | None = None,
) -> Specification:
    """Return every requirement of a product such as `ISO 4014 - M10x60 - 8.8`, or of a thread such as M10-6g.

    Args:
        designation: what is specified.
        requirements: the purchaser's limits by id; None drops a characteristic, with its reason in `dropped`.
        dropped: by id, the reason of each drop.
        fracture_rule: `thread_only` where the purchaser accepts only a break in the thread.

    Raises:
        NotFoundError: no such standard, size or class; `nearest` holds the closest. NotStandardisedError: the standard
        leaves the combination empty. DesignationError: it cannot be understood. Others: see `boltwright.errors`.
    """
    asked = {"requirements": requirements, "dropped": dropped, "fracture_rule": fracture_rule}
    if all(one is None for one in asked.values()):
        return connection.get(Specification, "/v1/specification", designation=designation)
    return connection.post(Specification, "/v1/specification", {"designation": designation, **asked})


def specification_drawing(connection: Connection, designation: str, *, view: str | None = None) -> Drawing:
    """Return the drawing of a part to scale with its dimensions, or with `view="thread"` its thread's tolerance zones.

    Raises:
        NotCoveredError: no drawing of that family is held. Others: as `specification`.
    """
    return connection.get_drawing("/v1/specification/drawing.svg", designation=designation, view=view)
