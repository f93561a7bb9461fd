"""How much coating a tolerance position leaves room for.

ISO 4042:1999, Table 2 and the rule behind it: a coating t on each flank of a 60 degree thread moves the pitch diameter
by 4 t; after coating the thread must not cross the basic profile (GO gauge of position h or H). Thickness in um.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal

from ..quantities import Basis, Bounds
from ..quantities.keeper import remembered
from ..standards import Standard, rules
from ..threads import MetricSize, ToleranceClass
from ..threads.iso_metric_tolerances import tolerances

#: Length group -> (column of Table 2, share of the deviation). Long parts collect coating at their ends.
_GROUPS = {
    "local": ("t_local", 4),
    "length_up_to_5_d": ("t_l_le_5d", 4),
    "length_up_to_10_d": ("t_l_le_10d", 5),
    "length_up_to_15_d": ("t_l_le_15d", 6),
}
GROUPS = tuple(_GROUPS)
#: Length group -> how much of the pitch diameter one um of coating is reckoned to take.
SHARES = {name: share for name, (_, share) in _GROUPS.items()}


@dataclass(frozen=True, slots=True)
class Room:
    """What the fundamental deviation leaves for coating, by length group; um, for Unified threads inch.

    `exact` follows from the rule, rounded down to 0.01 um; `nominal` is the largest printed nominal thickness. A group
    that the table does not have is absent; no room at all is a greatest thickness of 0.
    """

    deviation: Bounds
    exact: dict[str, Bounds]
    nominal: dict[str, Bounds]


@remembered()
def room(size: MetricSize, tolerance: ToleranceClass) -> Room:
    """Return the room for coating of one member of a thread.

    ISO 4042:1999, Table 2; positions without a row there (a to d, az, AZ, AX) by the rule alone.

    Raises:
        NotStandardised, UnknownName: as `threads.limits`.
    """
    cells = tolerances(size, tolerance)
    internal = tolerance.member == "internal"
    symbol = "EI" if internal else "es"
    deviation = Bounds(symbol, cells.deviation, cells.deviation, "um", cells.pitch_basis, cells.deviation)
    groups = ("local",) if internal else GROUPS
    exact = {name: _by_rule(cells.deviation, _GROUPS[name][1], symbol, cells.pitch_basis) for name in groups}
    return Room(deviation, exact, _tabulated(size, tolerance.pitch_position))


def length_group(size: MetricSize, length: Decimal) -> str | None:
    """Return the length group of a part for batch average thickness, or None above 15 d.

    ISO 4042:1999, Table 2: up to and including 5 d, 10 d, 15 d.
    """
    for name, multiple in (("length_up_to_5_d", 5), ("length_up_to_10_d", 10), ("length_up_to_15_d", 15)):
        if length <= multiple * size.d:
            return name
    return None


def _by_rule(deviation: Decimal, share: int, symbol: str, deviation_basis: Basis) -> Bounds:
    most = (abs(deviation) / share).quantize(Decimal("0.01"), rounding=ROUND_FLOOR)
    basis = _facts().clause("thickness of coating on threads")
    return Bounds("t", None, most, "um", basis.computed(f"|{symbol}|/{share}, rounded down", deviation_basis.checked))


def cited_table() -> str:
    """Return how the table of the room is cited."""
    return _facts().table("table_2").cited


def _facts() -> Standard:
    return rules("ISO 4042", holding="table_2")


def _tabulated(size: MetricSize, position: str) -> dict[str, Bounds]:
    row = _facts().table("table_2").find(size.pitch, position)
    if row is None:
        return {}
    return {
        name: Bounds("t", None, row.number(column), "um", row.basis(column))
        for name, (column, _) in _GROUPS.items()
        if row.get(column) is not None
    }
