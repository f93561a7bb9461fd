"""What the room answers with: set-points by station, what is missing, what is to be told."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from ..quantities import Basis
from ..quantities.derivation import Step

#: Station -> the state that leaves it.
STATES = {
    "cut_off": "cut",
    "heading": "headed",
    "extrusion": "extruded",
    "thread_rolling": "rolled",
    "hot_forging": "forged",
    "piercing": "pierced",
    "tapping": "tapped",
    "hardening": "hardened",
    "coating": "coated",
}
AS_DELIVERED = "as_delivered"
#: Every state of a bolt or a nut, in no order: the order is that of the stations of a part.
ALL_STATES = (*STATES.values(), "slug", AS_DELIVERED)


@dataclass(frozen=True, slots=True)
class Exact:
    """The figures before rounding, in the same unit."""

    min: Decimal | None
    target: Decimal | None
    max: Decimal | None


@dataclass(frozen=True, slots=True)
class SetPoint:
    """A figure of a station: a reading on `min` or `max` is inside, beyond it the machine stops.

    A figure without a tolerance of its own has neither. `final`: the limits are the final ones, no shift is known.
    """

    target: Decimal | None
    min: Decimal | None
    max: Decimal | None
    warning_min: Decimal | None
    warning_max: Decimal | None
    unit: str
    basis: Basis
    exact: Exact
    final: bool = True


@dataclass(slots=True)
class Station:
    """One machine of the line and the state of the part that leaves it."""

    id: str
    set_points: dict[str, SetPoint] = field(default_factory=dict)
    pieces_at_risk: Decimal | None = None

    @property
    def state(self) -> str:
        """The state that leaves the station."""
        return STATES[self.id]


@dataclass(frozen=True, slots=True)
class Need:
    """A set-point that is absent, or told with 0, for want of a member of the request."""

    station: str
    set_point: str
    member: str


@dataclass(frozen=True, slots=True)
class SetPoints:
    """Every station of one designation."""

    designation: str
    stations: tuple[Station, ...]
    notices: tuple[str, ...]
    cautions: tuple[str, ...]
    needs: tuple[Need, ...]
    steps: tuple[Step, ...]
