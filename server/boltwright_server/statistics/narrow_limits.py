"""Narrow-limit (pre-control) decisions on single pieces while a machine runs.

Common practice: the middle half of the tolerance is the target zone, the outer quarters are the warning zone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from .distributions import NORMAL

ZONES = ("target", "warning_low", "warning_high", "outside_low", "outside_high")
ACTIONS = (
    "measure_next",
    "continue",
    "adjust",
    "stop_spread_too_large",
    "stop_adjust_and_sort",
)
#: Consecutive pieces in the target zone that qualify a set-up.
QUALIFYING_PIECES = 5


@dataclass(frozen=True, slots=True)
class Zones:
    """Edges of the zones, exact; a side without limit has none. `target` sits on the better half of one limit."""

    low: Fraction | None
    warning_low: Fraction | None
    warning_high: Fraction | None
    high: Fraction | None

    def of(self, reading: Fraction) -> str:
        """Return the zone of a reading; a reading on an edge belongs to the better zone."""
        if self.low is not None and reading < self.low:
            return "outside_low"
        if self.high is not None and reading > self.high:
            return "outside_high"
        if self.warning_low is not None and reading < self.warning_low:
            return "warning_low"
        if self.warning_high is not None and reading > self.warning_high:
            return "warning_high"
        return "target"


@dataclass(frozen=True, slots=True)
class Step:
    """One piece: its zone, what to do, and whether the set-up is qualified after it."""

    zone: str
    action: str
    qualified: bool


def zones(low: Fraction | None, high: Fraction | None, target: Fraction | None) -> Zones:
    """Return the zones of a two-sided tolerance, or of one limit with a target value."""
    if low is not None and high is not None:
        quarter = (high - low) / 4
        return Zones(low, low + quarter, high - quarter, high)
    if low is not None and target is not None:
        return Zones(low, (low + target) / 2, None, None)
    if high is not None and target is not None:
        return Zones(None, None, (high + target) / 2, high)
    raise ValueError("one limit needs a target")


@dataclass(frozen=True, slots=True)
class Chances:
    """What a steady normal process does to the rules: chances of a piece, of a set-up, of a check of a run."""

    target_zone: float
    warning_zones: float
    outside: float
    #: Five pieces in a row in the target zone.
    qualification: float
    #: A check of a run, of one or two pieces, that ends in a stop; a false alarm where the process is good.
    stop: float


def chances(limits: Zones, mean: float, standard_deviation: float) -> Chances:
    """Return the chances of a process with a mean and a standard deviation, in the unit of the limits."""

    def below(edge: Fraction | None, otherwise: float) -> float:
        return otherwise if edge is None else NORMAL.cdf((float(edge) - mean) / standard_deviation)

    target = below(limits.warning_high, 1.0) - below(limits.warning_low, 0.0)
    outside = below(limits.low, 0.0) + 1.0 - below(limits.high, 1.0)
    warning = max(0.0, 1.0 - target - outside)
    return Chances(target, warning, outside, target**QUALIFYING_PIECES, outside + warning * (1.0 - target))


def decide(readings: Sequence[Fraction], limits: Zones) -> tuple[Step, ...]:
    """Return a decision for each piece in order, starting with an unqualified set-up.

    Set-up: five pieces in a row in the target zone; one in a warning zone starts the count again, two in a row or one
    outside mean adjust. Run: after a piece in a warning zone the next one decides.
    """
    steps: list[Step] = []
    qualified, streak, warned = False, 0, ""
    for reading in readings:
        zone = limits.of(reading)
        action, qualified, streak, warned = _next(zone, qualified, streak, warned)
        steps.append(Step(zone, action, qualified))
    return tuple(steps)


def _next(zone: str, qualified: bool, streak: int, warned: str) -> tuple[str, bool, int, str]:
    if zone.startswith("outside"):
        return ("stop_adjust_and_sort" if qualified else "adjust"), False, 0, ""
    if zone == "target":
        streak += 1
        if qualified or streak >= QUALIFYING_PIECES:
            return "continue", True, streak, ""
        return "measure_next", False, streak, ""
    if not warned:
        return "measure_next", qualified, 0, zone
    if not qualified:
        return "adjust", False, 0, ""
    return ("adjust" if warned == zone else "stop_spread_too_large"), False, 0, ""
