"""Limits of a state of the part, from the final limits: by paired readings, or by the geometry of a coating.

A limit belongs to a state; a limit of one state never judges another. Common practice for paired readings (tolerance
intervals); ISO 4042 for the geometry: a coating t on each flank of a 60 degree thread moves the pitch diameter by 4 t.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..coating.states import gauging_after_coating
from ..quantities import Basis, Bounds, NotUnderstood, Refusal, unpublished
from ..quantities.derivation import Derivation, Rounding, RoundingRule, Step
from .changes import Change, change_basis
from .plant import given
from .rounding import inwards, shown

_UNKNOWN = unpublished("limits given", "final limits of the request", "tabulated", "original")
#: Diameter of a thread -> by how many thicknesses of the coating it moves.
_THICKNESSES = {
    "external": {"thread_pitch_diameter": 4, "thread_major_diameter": 2},
    "internal": {"thread_pitch_diameter": 4, "thread_minor_diameter": 2},
}


class NothingRemains(Refusal):
    """Shift and spread, or the coating, leave nothing of the tolerance; `figures` holds what was found."""

    code = "nothing_remains"

    def __init__(self, detail: str, low: Fraction | None, high: Fraction | None, member: str = "") -> None:
        super().__init__(detail, member=member, more={"figures": {"min": shown(low), "max": shown(high)}})


@dataclass(frozen=True, slots=True)
class Zone:
    """Limits of one state, unrounded; None is an open side. `final`: no shift is known, these are the final limits."""

    low: Fraction | None
    high: Fraction | None
    unit: str
    basis: Basis
    final: bool = True

    @property
    def sides(self) -> int:
        """How many limits there are."""
        return (self.low is not None) + (self.high is not None)

    @property
    def middle(self) -> Fraction | None:
        """The middle of two limits."""
        return None if self.low is None or self.high is None else (self.low + self.high) / 2


def zone_of(bounds: Bounds) -> Zone:
    """Return limits as the zone of the final state."""
    low, high = (None if limit is None else Fraction(limit) for limit in (bounds.min, bounds.max))
    return Zone(low, high, bounds.unit, bounds.basis)


def zone_given(low: Decimal | None, high: Decimal | None, unit: str) -> Zone:
    """Return limits that a request states."""
    least, most = (None if limit is None else Fraction(limit) for limit in (low, high))
    return Zone(least, most, unit, _UNKNOWN)


def before_changes(final: Zone, changes: Sequence[Change]) -> Zone:
    """Return the zone before one or more changes: shifts are added, k s too, linearly, which is safe.

    The shift is taken off the final limit: what grows has to be smaller before.
    """
    sides = final.sides
    shift = sum((one.shift for one in changes), Fraction(0))
    spread = sum((one.factor(sides) * one.standard_deviation for one in changes), Fraction(0))
    low = None if final.low is None else final.low - shift + spread
    high = None if final.high is None else final.high - shift - spread
    basis = change_basis().computed(
        "final limit - shift, k s inwards", final.basis.checked, note="by paired readings of the plant"
    )
    return Zone(low, high, final.unit, basis, final=False)


def before_coating(id: str, bounds: Bounds, basic: Decimal, member: str, thickest: Fraction) -> Zone:
    """Return the zone of a thread diameter before a coating whose greatest thickness is known.

    ISO 4042: after coating the thread must not cross the basic profile; NOT GO judges before coating. `thickest` in the
    unit of the bounds.

    Raises:
        NotUnderstood: the coating does not move this diameter by geometry.
    """
    times = _THICKNESSES[member].get(id)
    if times is None:
        known = ", ".join(_THICKNESSES[member])
        text = f"{id} of an {member} thread has no limit that follows from a coating; {known} have"
        raise NotUnderstood(text, member="characteristic", code="unknown_characteristic")
    clause = f"class limits within the basic profile less {times} t_max"
    zone = zone_of(bounds)
    basis = gauging_after_coating().computed(clause, bounds.basis.checked)
    if member == "external":
        high = Fraction(basic) - times * thickest
        return Zone(zone.low, high if zone.high is None else min(zone.high, high), zone.unit, basis, final=False)
    low = Fraction(basic) + times * thickest
    return Zone(low if zone.low is None else max(zone.low, low), zone.high, zone.unit, basis, final=False)


def in_process(zone: Zone, step: Decimal, member: str = "") -> tuple[Decimal | None, Decimal | None]:
    """Return the limits of a state rounded inwards to `step`.

    Raises:
        NothingRemains: the zone is empty, or no multiple of the step lies in it; carries the exact figures.
    """
    low, high = inwards(zone.low, zone.high, step)
    if low is not None and high is not None and low > high:
        text = f"nothing remains of the tolerance: min {shown(zone.low)}, max {shown(zone.high)} {zone.unit}"
        raise NothingRemains(text, zone.low, zone.high, member)
    return low, high


def steps_of(final: Zone, zone: Zone, step: Decimal, change: Change) -> tuple[Step, ...]:
    """Return the way from final limits to those before a change."""
    work, own = Derivation(), change_basis()
    work.given("m", change.shift, zone.unit, own)
    work.given("s", change.standard_deviation, zone.unit, own)
    work.given("k", change.factor(final.sides), "1", own)
    if final.low is not None:
        work.given("L", final.low, zone.unit, final.basis)
        work.step("min", "L - m + k*s", zone.unit, zone.basis, Rounding("up", str(step)), "min")
    if final.high is not None:
        work.given("U", final.high, zone.unit, final.basis)
        work.step("max", "U - m - k*s", zone.unit, zone.basis, Rounding("down", str(step)), "max")
    return tuple(work.steps)


def coating_steps(
    final: Zone, zone: Zone, step: Decimal, id: str, basic: Fraction, member: str, thickest: Fraction
) -> tuple[Step, ...]:
    """Return the way from class limits to those before a coating; `basic` and `thickest` in the unit of the zones."""
    work, times = Derivation(), _THICKNESSES[member][id]
    work.given("D", basic, zone.unit, final.basis)
    work.given("t", thickest, zone.unit, given("coating_thickness.max"))
    bounded = {"external": ("L", "min(U, D - {0}*t)"), "internal": ("max(L, D + {0}*t)", "U")}[member]
    unbounded = {"external": ("L", "D - {0}*t"), "internal": ("D + {0}*t", "U")}[member]
    sides: tuple[tuple[str, str, RoundingRule, Fraction | None, Fraction | None], ...] = (
        ("L", "min", "up", final.low, zone.low),
        ("U", "max", "down", final.high, zone.high),
    )
    for at, (symbol, side, rule, limit, found) in enumerate(sides):
        if limit is not None:
            work.given(symbol, limit, zone.unit, final.basis)
        if found is not None:
            expression = (unbounded if limit is None else bounded)[at].format(times)
            work.step(side, expression, zone.unit, zone.basis, Rounding(rule, str(step)), side)
    return tuple(work.steps)
