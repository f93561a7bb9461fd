"""The gages of ASME B1.2 step by step.

ASME B1.2-1983, rules for the size of each gage, Table 6 (class X) and plain gages of class Z; product limits from
ASME B1.1. Inch.
"""

from __future__ import annotations

from ..quantities.derivation import Derivation, Rounding, Step
from ..standards import rules
from ..threads.unified import UnifiedClass, UnifiedSize
from ..threads.unified_derivation import add_limits
from .asme_b1_2 import STANDARD, class_x, gauge_sizes
from .asme_gages_derivation import add_class_x, add_deviations, add_gage, dimension_of
from .gauge import GaugeSet

_FOUR, _SIX = Rounding("half even", "0.0001"), Rounding("half even", "0.000001")
_GO_SETTING, _LO_SETTING = "setting_plug_for_go_screw_ring", "setting_plug_for_not_go_screw_ring"
#: gauge, dimension, symbol, size of the gauge, tolerance and its direction
_EXTERNAL = (
    ("go_screw_ring", "pitch_diameter", "D2_GO", "d2_max", "- X_pitch"),
    ("go_screw_ring", "minor_diameter", "D1_GO", "d1_max", "- X_crest"),
    ("not_go_screw_ring", "pitch_diameter", "D2_LO", "d2_min", "+ X_pitch"),
    ("not_go_screw_ring", "minor_diameter", "D1_LO", "d2_min - H/4", "+ X_crest"),
    (_GO_SETTING, "major_diameter", "d_set", "d_max", "+ X_crest"),
    (_GO_SETTING, "truncated_major_diameter", "d_cut", "d_max - t", "- X_crest"),
    (_GO_SETTING, "pitch_diameter", "d2_set", "d2_max", "- X_pitch"),
    (_LO_SETTING, "major_diameter", "d_set_LO", "d_max", "+ X_crest"),
    (_LO_SETTING, "truncated_major_diameter", "d_cut_LO", "d2_min + H/2", "- X_crest"),
    (_LO_SETTING, "pitch_diameter", "d2_set_LO", "d2_min", "+ X_pitch"),
    ("go_plain_ring", "major_diameter", "D_GO", "d_max", "- Z"),
    ("not_go_plain_snap", "major_diameter", "D_LO", "d_min", "+ Z"),
)
_INTERNAL = (
    ("go_screw_plug", "major_diameter", "d_GO", "D", "+ X_crest"),
    ("go_screw_plug", "pitch_diameter", "d2_GO", "D2_min", "+ X_pitch"),
    ("not_go_screw_plug", "major_diameter", "d_HI", "D2_max + H/2", "- X_crest"),
    ("not_go_screw_plug", "pitch_diameter", "d2_HI", "D2_max", "- X_pitch"),
    ("go_plain_plug", "minor_diameter", "d1_GO", "D1_min", "+ Z"),
    ("not_go_plain_plug", "minor_diameter", "d1_HI", "D1_max", "- Z"),
)


def gauge_derivation(size: UnifiedSize, wanted: UnifiedClass) -> tuple[Step, ...]:
    """Return the steps to every size of every gage; `answers` is gauges.<id>.dimensions.<id>.<end>.

    ASME B1.2-1983, rules for the size of each gage.

    Raises:
        NotCovered, NotStandardised, Contradiction: as `asme_b1_2.gauge_sizes`.
    """
    found, x = gauge_sizes(size, wanted), class_x(size)
    work = Derivation(answering=False)
    add_limits(work, size, wanted)
    work.answering = True
    add_class_x(work, x)
    _heights(work, wanted)
    for gauge, dimension, symbol, at, into in _EXTERNAL if wanted.member == "external" else _INTERNAL:
        one = dimension_of(found, gauge, dimension)
        if into.endswith("Z"):
            _plain_tolerance(work, found, gauge, dimension)
        add_gage(work, symbol, at, into, _FOUR, one, f"gauges.{gauge}.dimensions.{dimension}")
    add_deviations(work, found, x)
    return tuple(work.steps)


def _heights(work: Derivation, wanted: UnifiedClass) -> None:
    """What a NOT GO profile and a setting plug are cut by."""
    rule = rules(STANDARD).clause("rules for the size of each gage")
    setting = rules(STANDARD).clause("setting plugs")
    work.step("H", "0.86602540 * P", "in", rule, _SIX)
    if wanted.member == "external":
        work.step("t", "0.060 * cbrt(P**2) + 0.017 * P", "in", setting, _SIX)


def _plain_tolerance(work: Derivation, found: GaugeSet, gauge: str, dimension: str) -> None:
    """Class Z by the size of the gage itself: each plain gage looks its own up."""
    zone = dimension_of(found, gauge, dimension).zone
    assert zone is not None
    row = rules(STANDARD).table("plain_gages").find_in_band(zone.at)
    assert row is not None
    work.given("Z", row.number("Z"), "in", row.basis("Z"))
