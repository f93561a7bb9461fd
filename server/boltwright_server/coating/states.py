"""A thread before and after coating: which limits hold, and which gauges go with each state.

ISO 4042:1999, clause on gauging (GO h or H after coating); ISO 10684:2004, methods A and B.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, Bounds
from ..standards import rules
from ..threads import MetricSize, ThreadClass, ToleranceClass, limits
from ..threads.hot_dip import POSITIONS
from ..threads.iso_metric_limits import basic_diameters
from .coating import Coating

BEFORE, AFTER, _TAPPED_AFTER = "before coating", "after coating", "tapped after galvanizing"
HOLDS_BEFORE = "the limits of every dimension hold before coating"
_DIAMETERS = ("major_diameter", "pitch_diameter", "minor_diameter")


@dataclass(frozen=True, slots=True)
class State:
    """One state of a thread: limits in mm, and the gauges by the thread that they are made for (None: none held)."""

    state: str
    limits: dict[str, Bounds]
    go: str | None
    not_go: str | None
    remark: str


def gauging_after_coating() -> Basis:
    """Return the basis of the limits of a coated thread."""
    return rules("ISO 4042", holding="table_2").clause("clause on gauging of coated threads")


def tapped_after(coating: Coating | None, tolerance: ThreadClass) -> bool:
    """Say whether the thread is cut after the coating, so that it stays bare: nuts that are hot-dip galvanized."""
    hot_dip = coating is not None and coating.process == "hot dip galvanizing"
    if not isinstance(tolerance, ToleranceClass):
        return False
    return tolerance.member == "internal" and (hot_dip or tolerance.pitch_position in POSITIONS)


def states(size: MetricSize, tolerance: ToleranceClass, coating: Coating | None) -> tuple[State, ...]:
    """Return the states of a thread that is coated.

    Raises:
        NotStandardised, UnknownName: as `threads.limits`.
    """
    own = f"{size.designation}-{tolerance.designation}"
    before = limits(size, tolerance).limits
    if tapped_after(coating, tolerance):
        remark = "nuts are tapped after galvanizing: the thread is bare, the zinc of the bolt protects it"
        return (State(_TAPPED_AFTER, before, own, own, remark),)
    first = State(BEFORE, before, own, own, HOLDS_BEFORE)
    if coating is not None and coating.process == "hot dip galvanizing" and tolerance.pitch_position in ("g", "h"):
        return (first, _in_oversize_nut(size, own))
    return (first, _at_basic_profile(size, tolerance, own))


def _at_basic_profile(size: MetricSize, tolerance: ToleranceClass, own: str) -> State:
    """After coating the thread must not cross the basic profile; the NOT GO gauge stays that of the class."""
    internal = tolerance.member == "internal"
    basis = gauging_after_coating()
    symbols = ("D", "D2", "D1") if internal else ("d", "d2", "d1")
    boundary = {
        name: _one_sided(symbol, basic, internal, basis)
        for name, symbol, basic in zip(_DIAMETERS, symbols, basic_diameters(size), strict=True)
    }
    position = "H" if internal else "h"
    go = f"{size.designation}-{tolerance.pitch_grade}{position}"
    return State(AFTER, boundary, go, own, f"the GO gauge of position {position} decides, not the mean thickness")


def _one_sided(symbol: str, basic: Decimal, internal: bool, basis: Basis) -> Bounds:
    return Bounds(symbol, basic if internal else None, None if internal else basic, "mm", basis, basic)


def _in_oversize_nut(size: MetricSize, own: str) -> State:
    remark = (
        "the zinc goes beyond the basic profile: GO gauges of position h do not pass; the bolt must go into its nut "
        "6AZ or 6AX. No gauge for this state is held: agree one"
    )
    return State(AFTER, {}, None, own, remark)
