"""GET /v1/thread-limits: limits of size of a screw thread."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..decoding import Result
from ..transport import Connection, flag
from ..values import Bounds
from .derivation import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadLimits(Result):
    """Limits of one thread, by id: `major_diameter`, `pitch_diameter`, `minor_diameter` and more.

    A fit such as M10-6H/6g has `external` and `internal` in place of `limits`.
    """

    designation: str
    system: str
    member: str
    nominal_diameter: float
    pitch: float
    threads_per_inch: float | None = None
    series: str
    tolerance_class: str
    unit: str
    limits: Mapping[str, Bounds] = field(default_factory=dict)
    tolerances: Mapping[str, Bounds] = field(default_factory=dict)
    reference: Mapping[str, Bounds] = field(default_factory=dict)
    engagement: Mapping[str, Bounds] = field(default_factory=dict)
    stress_areas: Mapping[str, Bounds] = field(default_factory=dict)
    left_hand: bool = False
    engagement_group: str | None = None
    external: ThreadLimits | None = None
    internal: ThreadLimits | None = None
    derivation: tuple[Step, ...] = ()


def thread_limits(
    connection: Connection, designation: str, *, unit: str | None = None, explain: bool | None = None
) -> ThreadLimits:
    """Return the limits of a thread such as M10-6g, M16x1.5-6H, 1/2-13 UNC-2A or the fit M10-6H/6g.

    Args:
        designation: a thread with its tolerance class.
        unit: shows lengths in this unit (um, in); the limit itself stays in its standard's.
        explain: adds `derivation`, the steps to every number; to both members of a fit.

    Raises:
        NotFoundError: no such size. NotStandardisedError: no such class for it. Others: see `boltwright.errors`.
    """
    return connection.get(ThreadLimits, "/v1/thread-limits", designation=designation, unit=unit, explain=flag(explain))
