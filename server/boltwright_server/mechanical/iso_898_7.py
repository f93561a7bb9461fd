"""Minimum breaking torques of small bolts and screws.

ISO 898-7:1992. Torques in N.m.
"""

from __future__ import annotations

from ..quantities import Bounds
from ..standards import rules
from ..threads import MetricSize


def breaking_torque(size: MetricSize, code: str) -> Bounds | None:
    """Return the minimum breaking torque of a thread in a class, or None where the table has none.

    ISO 898-7:1992, Table 2: M1 to M10, classes 8.8 to 12.9. The printed value decides, not the formula behind it.
    """
    row = rules("ISO 898-7").table("table_2").find(size.designation)
    column = code.removesuffix("U")
    if row is None or column not in row.cells or row.get(column) is None:
        return None
    note = "recalled cell; the formula of Table 1 reproduces it. Not a tightening torque"
    return Bounds("MB,min", row.number(column), None, "N.m", row.basis(column, note=note))
