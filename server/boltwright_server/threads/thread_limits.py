"""What every thread system answers with when it is asked for limits."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from ..quantities import Bounds

Member = Literal["external", "internal"]


@dataclass(frozen=True, slots=True)
class ThreadLimits:
    """All limits of one thread and tolerance class, in the unit of its standard (mm or in).

    `tolerances` and `engagement` say what the limits were computed from, `reference` holds figures that are no limits,
    `stress_areas` the tensile stress areas by the name of their formula.
    """

    system: str
    member: Member
    nominal_diameter: Decimal
    pitch: Decimal
    series: str
    tolerance_class: str
    unit: str
    limits: dict[str, Bounds]
    tolerances: dict[str, Bounds]
    reference: dict[str, Bounds]
    engagement: dict[str, Bounds]
    threads_per_inch: Decimal | None = None
    stress_areas: dict[str, Bounds] = field(default_factory=dict)
