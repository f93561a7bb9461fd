"""Metric threads with an allowance for hot-dip galvanizing: tolerance classes 6az, 6AZ and 6AX.

ISO 965-4:1998 (external, before galvanizing), ISO 965-5:1998 (internal, tapped after it), ISO 10684:2004, Annex B (M8).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, NotStandardised, UnknownName
from ..standards import Row, Standard, rules
from .iso_metric import MetricSize, ToleranceClass

POSITIONS = ("az", "AZ", "AX")
CLASSES = ("6az", "6AZ", "6AX")
#: class -> (standard of its table, columns: deviation at maximum material, far deviation of d2 or D2, of d or D1)
_COLUMNS = {
    "6az": ("ISO 965-4", "es_az", "ei_d2_6az", "ei_d_6az"),
    "6AZ": ("ISO 965-5", "EI_AZ", "ES_D2_6AZ", "ES_D1_6AZ"),
    "6AX": ("ISO 965-5", "EI_AX", "ES_D2_6AX", "ES_D1_6AX"),
}


@dataclass(frozen=True, slots=True)
class HotDipCells:
    """Deviation and tolerances in um, each from one row."""

    deviation: Decimal
    pitch: Decimal
    crest: Decimal
    basis: Basis


def is_hot_dip(tolerance: ToleranceClass) -> bool:
    """Say whether a class has a position of ISO 965-4 or ISO 965-5."""
    return tolerance.pitch_position in POSITIONS or tolerance.crest_position in POSITIONS


def hot_dip_cells(size: MetricSize, tolerance: ToleranceClass) -> HotDipCells:
    """Return deviation and tolerances in um of a class with an allowance for galvanizing.

    ISO 965-4:1998 and ISO 965-5:1998, M10 to M64; ISO 10684:2004, Annex B, M8.

    Raises:
        UnknownName: positions az, AZ and AX stand with grade 6 only.
        NotStandardised: no coarse thread of M8 to M64.
    """
    name = tolerance.designation
    if name not in _COLUMNS:
        raise UnknownName(
            f"no tolerance class {name}: the positions for galvanizing are {', '.join(CLASSES)}",
            member="designation",
            code="unknown_tolerance_class",
            nearest=[one for one in CLASSES if one[1:] == tolerance.pitch_position] or list(CLASSES),
        )
    number, near, far_pitch, far_crest = _COLUMNS[name]
    row = _row(rules(number), size)
    deviation = row.number(near)
    return HotDipCells(
        deviation,
        abs(row.number(far_pitch) - deviation),
        abs(row.number(far_crest) - deviation),
        row.basis(far_pitch),
    )


def _row(facts: Standard, size: MetricSize) -> Row:
    further = rules("ISO 10684")
    row = facts.table("deviations").find(size.designation) or further.table("annex_b").find(size.designation)
    if row is None:
        raise NotStandardised(
            f"{facts.cited} gives coarse threads M10 to M64 ({further.cited} adds M8), not {size.designation}",
            member="designation",
        )
    return row
