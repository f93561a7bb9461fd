"""Screw gauges for ISO metric threads.

ISO 1502:1996, clause 13 and the table of pitch diameter tolerances. Diameters in mm; results stand on a grid of
0.0005 mm and are not rounded again. Much of it is recalled and says so in each basis.
"""

from __future__ import annotations

from ..quantities.keeper import remembered
from ..threads.iso_metric import MetricSize, ToleranceClass
from ..threads.iso_metric_tolerances import tolerances
from .gauge import Gauge, GaugeDimension, GaugeSet, NotHeld
from .iso_1502_check_plugs import check_plugs
from .iso_1502_frame import F1_NOTE, Frame, at_least, at_most, between, frame_of, wearing

TURNS = 2
_GO = "Must screw over or into the whole length of the thread by hand, without force."
_NOT_GO = (
    "May enter by hand from either side by at most two turns; "
    "a thread of three pitches or fewer must not be passed completely."
)
_GOST_NOTE = "GOST 24997-81 prints D1 + EI - H/6, partly garbled in the copy read"
_NOT_HELD_PLAIN = (
    "the table of plain gauge tolerances (H1, H2, Z1, Z2) of ISO 1502 was not found; no other standard's is substituted"
)
_NOT_HELD_SETTING = "the pitch diameter of setting plugs for adjustable rings could not be settled from any source"
TRAP = (
    "A part can pass a permitted gauge and measure outside its limits, because a GO ring may be larger than d2 max "
    "and a NOT GO gauge may be worn: report gauging and measurement as two results."
)
_BY_CHECK_PLUG = (
    "A ring that was accepted by check plugs, or set on a setting plug, is not also bound by the pitch diameter limits "
    "as measured: say which way a ring was accepted."
)


@remembered()
def gauge_sizes(size: MetricSize, tolerance: ToleranceClass) -> GaugeSet:
    """Return every gauge for one member of a thread.

    ISO 1502:1996, clause 13.

    Raises:
        NotCovered: the pitch diameter tolerance lies outside 24 to 670 um.
        NotStandardised, UnknownName: the thread itself has no limits.
    """
    frame = frame_of(size, tolerances(size, tolerance))
    if tolerance.member == "external":
        rings = (_go_ring(frame), _not_go_ring(frame))
        plain, setting = ("go_plain_ring", "not_go_plain_snap"), ("go_screw_ring", "not_go_screw_ring")
        held_back = [NotHeld(id, _NOT_HELD_PLAIN) for id in plain]
        held_back += [NotHeld(f"setting_plug_for_{id}", _NOT_HELD_SETTING) for id in setting]
        return GaugeSet(frame.cited, (*rings, *check_plugs(frame)), tuple(held_back), (TRAP, _BY_CHECK_PLUG))
    plugs = (_go_plug(frame), _not_go_plug(frame))
    held_back = [NotHeld(id, _NOT_HELD_PLAIN) for id in ("go_plain_plug", "not_go_plain_plug")]
    return GaugeSet(frame.cited, plugs, tuple(held_back), (TRAP,))


def _go_ring(f: Frame) -> Gauge:
    middle = f.d2 + f.deviation - f.um("Z_R")
    half = f.um("T_R") / 2
    new = f.basis("GO ring", "Z_R", "T_R")
    worn = f.basis("worn GO ring", "Z_R", "W_GO_ring")
    pitch = wearing("D2", middle, half, middle + f.um("W_GO_ring"), new, worn)
    return Gauge(
        "go_screw_ring",
        "GO screw ring gauge, solid or adjustable",
        "external",
        "the pitch diameter with its form deviations, and the minor diameter, at maximum material",
        _GO,
        {
            "major_diameter": _ring_clearance(f),
            "pitch_diameter": pitch.against("d2 max", f.d2 + f.deviation, -1),
            "minor_diameter": between("D1", f.d1 + f.deviation, half, f.basis("minor diameter of a GO ring", "T_R")),
        },
        wears="larger",
    )


def _ring_clearance(f: Frame) -> GaugeDimension:
    return at_least("D", f.d + f.deviation + f.um("T_PL"), f.basis("major diameter of a ring", "T_PL"))


def _not_go_ring(f: Frame) -> Gauge:
    half = f.um("T_R") / 2
    d2_min = f.d2 + f.deviation - f.tolerance
    middle = d2_min - half
    basis = f.basis("NOT GO ring", "T_R", "W_NG_ring")
    pitch = wearing("D2", middle, half, middle + f.um("W_NG_ring"), basis, basis)
    return Gauge(
        "not_go_screw_ring",
        "NOT GO screw ring gauge, solid or adjustable",
        "external",
        "the pitch diameter at minimum material",
        _NOT_GO,
        {
            "major_diameter": _ring_clearance(f),
            "pitch_diameter": pitch.against("d2 min", d2_min, 1),
            "minor_diameter": between(
                "D1", middle - 2 * f.F1, 2 * half, f.basis("truncation of a NOT GO gauge", "T_R", note=F1_NOTE)
            ),
        },
        TURNS,
        "larger",
    )


def _go_plug(f: Frame) -> Gauge:
    T_PL, wear = f.um("T_PL"), f.um("W_GO_plug")
    D, D2 = (basic + f.deviation for basic in (f.d, f.d2))
    new = f.basis("GO plug", "Z_PL", "T_PL")
    worn = f.basis("worn GO plug", "Z_PL", "W_GO_plug")
    major = wearing(
        "d",
        D + f.um("Z_PL"),
        T_PL,
        D + f.um("Z_PL") - wear,
        new,
        f.basis("major diameter of a worn GO plug", "W_GO_plug"),
    )
    pitch = wearing("d2", D2 + f.um("Z_PL"), T_PL / 2, D2 + f.um("Z_PL") - wear, new, worn)
    return Gauge(
        "go_screw_plug",
        "GO screw plug gauge",
        "internal",
        "the pitch diameter with its form deviations, and the major diameter, at maximum material",
        _GO,
        {
            "major_diameter": major.against("D min", D, 1),
            "pitch_diameter": pitch.against("D2 min", D2, 1),
            "minor_diameter": _plug_clearance(f),
        },
    )


def _plug_clearance(f: Frame) -> GaugeDimension:
    return at_most("d1", f.d1 + f.deviation, f.basis("minor diameter of a plug", note=_GOST_NOTE))


def _not_go_plug(f: Frame) -> Gauge:
    T_PL = f.um("T_PL")
    D2_max = f.d2 + f.deviation + f.tolerance
    middle = D2_max + T_PL / 2
    basis = f.basis("NOT GO plug", "T_PL", "W_NG_plug")
    pitch = wearing("d2", middle, T_PL / 2, middle - f.um("W_NG_plug"), basis, basis)
    return Gauge(
        "not_go_screw_plug",
        "NOT GO screw plug gauge",
        "internal",
        "the pitch diameter at minimum material",
        _NOT_GO,
        {
            "major_diameter": between(
                "d", middle + 2 * f.F1, T_PL, f.basis("truncation of a NOT GO gauge", "T_PL", note=F1_NOTE)
            ),
            "pitch_diameter": pitch.against("D2 max", D2_max, -1),
            "minor_diameter": _plug_clearance(f),
        },
        TURNS,
    )
