"""Gages of class X for metric M threads by the American standard.

ASME B1.16M-1984; mm. Limits of size of the product come from ISO 965-1, whose 6g and 6H pitch diameters are the gage
sizes that were read.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import NotCovered
from ..quantities.keeper import remembered
from ..standards import rules
from ..threads.iso_metric import MetricSize, ToleranceClass
from ..threads.iso_metric_limits import limits
from .asme_gages import TRAP, WEAR, ClassX, Truncation, external_gages, internal_gages
from .gauge import GaugeSet, NotHeld

STANDARD = "ASME B1.16M"
_UM = Decimal("0.001")
_GREATEST = Decimal("38.1")
_TRUNCATION = Decimal("0.2")
_NOT_HELD_PLAIN = "the plain gage tolerances of {} were not found; the inch table is not converted"
_NOT_HELD_SETTING = "rings are set on class W plugs, and the class W table of {} was not found"


@remembered()
def gauge_sizes(size: MetricSize, tolerance: ToleranceClass) -> GaugeSet:
    """Return the thread gages for one member of a metric thread.

    ASME B1.16M-1984, rules for the size of each gage and class X tolerances.

    Raises:
        NotCovered: a pitch over 4 mm, or a diameter whose pitch diameter tolerance was not read.
        NotStandardised, UnknownName: the thread itself has no limits.
    """
    product, named = limits(size, tolerance).limits, rules(STANDARD).cited
    x = class_x(size)
    depth = _TRUNCATION * size.pitch
    rule = "one reproduction" if tolerance.member == "internal" else "memory"
    cut = Truncation(depth, depth, rule, "0.2 P was read for the NOT GO plug of M20x1.5 only")
    if tolerance.member == "external":
        held_back = [NotHeld(id, _NOT_HELD_PLAIN.format(named)) for id in ("go_plain_ring", "not_go_plain_snap")]
        held_back += [
            NotHeld(f"setting_plug_for_{id}", _NOT_HELD_SETTING.format(named))
            for id in ("go_screw_ring", "not_go_screw_ring")
        ]
        gauges = external_gages(x, product, cut)
    else:
        held_back = [NotHeld(id, _NOT_HELD_PLAIN.format(named)) for id in ("go_plain_plug", "not_go_plain_plug")]
        gauges = internal_gages(x, product, cut)
    return GaugeSet(named, tuple(gauges), tuple(held_back), (TRAP, WEAR))


def class_x(size: MetricSize) -> ClassX:
    """Return the class X tolerances for a thread.

    Raises:
        NotCovered: as `gauge_sizes`.
    """
    row = rules(STANDARD).table("table_x").find_in_band(size.pitch)
    if row is None or size.d > _GREATEST:
        raise NotCovered(
            f"gage tolerances of {rules(STANDARD).cited} are held up to a pitch of 4 mm and a diameter of 38 mm, "
            f"not for {size.designation}",
            member="designation",
        )
    return ClassX(row, "crest", "pitch_small_diameters", "mm", _UM)
