"""Screw gauges for ISO metric threads.

ISO 1502:1996, clause 13 and the table of pitch diameter tolerances. Diameters in mm; results stand on a grid of
0.0005 mm and are not rounded again. Much of it is recalled and says so in each basis.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from ..quantities import Basis, NotCovered, weakest
from ..standards import Row, standard
from ..threads.geometry import H_PER_PITCH, minor_diameter, pitch_diameter, tabulated
from ..threads.iso_metric import MetricSize, ToleranceClass
from ..threads.iso_metric_limits import Tolerances, tolerances
from .gauge import Gauge, GaugeDimension, GaugeSet, NotHeld

_UM = Decimal("0.001")
_GRID = Decimal("0.0001")
_STANDARD = "ISO 1502:1996"

_GO = "Must screw over or into the whole length of the thread by hand, without force."
_NOT_GO = (
    "May enter by hand from either side by at most two turns; "
    "a thread of three pitches or fewer must not be passed completely."
)
_AT_MOST_ONE_TURN = "May enter from either side by at most one turn."

_F1_NOTE = (
    "F1 taken as H/8, which every cell seen of one reproduction fits; another source recalls 0.1 P, "
    "which moves this diameter by 0.0165 P. The pitch diameter is not affected."
)
_NOT_HELD_PLAIN = (
    "the table of plain gauge tolerances (H1, H2, Z1, Z2) of ISO 1502 was not found; no other standard's is substituted"
)
_NOT_HELD_SETTING = "the pitch diameter of setting plugs for adjustable rings could not be settled from any source"
TRAP = (
    "A part can pass a permitted gauge and measure outside its limits, because a GO ring may be larger than d2 max "
    "and a NOT GO gauge may be worn: report gauging and measurement as two results."
)


@dataclass(frozen=True, slots=True)
class _Frame:
    """The sizes that the formulas of clause 13 speak of; mm."""

    d: Decimal
    d2: Decimal
    d1: Decimal
    deviation: Decimal
    tolerance: Decimal
    truncation: Decimal
    row: Row
    thread: Basis

    def um(self, column: str) -> Decimal:
        return self.row.number(column) * _UM

    def basis(self, checked: str, *columns: str, note: str | None = None) -> Basis:
        marks = [self.row.checked(column) for column in columns]
        owner = self.row.table.standard
        return owner.basis("clause 13", weakest(checked, self.thread.checked, *marks), note=note)


@cache
def gauge_sizes(size: MetricSize, tolerance: ToleranceClass) -> GaugeSet:
    """Return every gauge for one member of a thread.

    ISO 1502:1996, clause 13.

    Raises:
        NotCovered: the pitch diameter tolerance lies outside 24 to 670 um.
        NotStandardised, UnknownName: the thread itself has no limits.
    """
    cells = tolerances(size, tolerance)
    frame = _frame(size, cells)
    if tolerance.member == "external":
        gauges = [make(frame) for make in _RINGS_AND_CHECKS]
        held_back = [
            NotHeld("go_plain_ring", _NOT_HELD_PLAIN),
            NotHeld("not_go_plain_snap", _NOT_HELD_PLAIN),
            NotHeld("setting_plug_for_go_screw_ring", _NOT_HELD_SETTING),
            NotHeld("setting_plug_for_not_go_screw_ring", _NOT_HELD_SETTING),
        ]
    else:
        gauges = [_go_plug(frame), _not_go_plug(frame)]
        held_back = [
            NotHeld("go_plain_plug", _NOT_HELD_PLAIN),
            NotHeld("not_go_plain_plug", _NOT_HELD_PLAIN),
        ]
    return GaugeSet(_STANDARD, tuple(gauges), tuple(held_back), (TRAP,))


def _frame(size: MetricSize, cells: Tolerances) -> _Frame:
    table = standard("iso_1502_1996").table("table_pitch_diameter")
    row = table.find_in_band(cells.pitch)
    if row is None:
        raise NotCovered(
            f"{_STANDARD} has no gauge tolerances for a pitch diameter tolerance of {cells.pitch} um "
            "(it covers over 24 up to and including 670 um)",
            member="designation",
        )
    return _Frame(
        size.d,
        tabulated(pitch_diameter(size.d, size.pitch)),
        tabulated(minor_diameter(size.d, size.pitch)),
        cells.deviation * _UM,
        cells.pitch * _UM,
        H_PER_PITCH * size.pitch / 8,
        row,
        cells.pitch_basis,
    )


def _between(symbol: str, middle: Decimal, half: Decimal, basis: Basis, wear: Decimal | None = None) -> GaugeDimension:
    worn = None if wear is None else wear.quantize(_GRID)
    return GaugeDimension(symbol, (middle - half).quantize(_GRID), (middle + half).quantize(_GRID), "mm", basis, worn)


def _at_least(symbol: str, low: Decimal, basis: Basis) -> GaugeDimension:
    return GaugeDimension(symbol, low.quantize(_GRID), None, "mm", basis)


def _at_most(symbol: str, high: Decimal, basis: Basis) -> GaugeDimension:
    return GaugeDimension(symbol, None, high.quantize(_GRID), "mm", basis)


def _go_ring(f: _Frame) -> Gauge:
    middle = f.d2 + f.deviation - f.um("Z_R")
    half = f.um("T_R") / 2
    pitch_basis = f.basis("one reproduction", "Z_R", "T_R", "W_GO_ring")
    crest_basis = f.basis("memory", "T_R", "T_PL")
    return Gauge(
        "go_screw_ring",
        "GO screw ring gauge, solid or adjustable",
        "external",
        "the pitch diameter with its form deviations, and the minor diameter, at maximum material",
        _GO,
        {
            "major_diameter": _at_least("D", f.d + f.deviation + f.um("T_PL"), crest_basis),
            "pitch_diameter": _between("D2", middle, half, pitch_basis, middle + f.um("W_GO_ring")),
            "minor_diameter": _between("D1", f.d1 + f.deviation, half, crest_basis),
        },
    )


def _not_go_ring_middle(f: _Frame) -> Decimal:
    return f.d2 + f.deviation - f.tolerance - f.um("T_R") / 2


def _not_go_ring(f: _Frame) -> Gauge:
    middle = _not_go_ring_middle(f)
    half = f.um("T_R") / 2
    pitch_basis = f.basis("memory", "T_R", "W_NG_ring")
    return Gauge(
        "not_go_screw_ring",
        "NOT GO screw ring gauge, solid or adjustable",
        "external",
        "the pitch diameter at minimum material",
        _NOT_GO,
        {
            "major_diameter": _at_least("D", f.d + f.deviation + f.um("T_PL"), f.basis("memory", "T_PL")),
            "pitch_diameter": _between("D2", middle, half, pitch_basis, middle + f.um("W_NG_ring")),
            "minor_diameter": _between(
                "D1", middle - 2 * f.truncation, 2 * half, f.basis("conflict", "T_R", note=_F1_NOTE)
            ),
        },
    )


def _go_plug(f: _Frame) -> Gauge:
    middle = f.d2 + f.deviation + f.um("Z_PL")
    columns = ("Z_PL", "T_PL", "W_GO_plug")
    return Gauge(
        "go_screw_plug",
        "GO screw plug gauge",
        "internal",
        "the pitch diameter with its form deviations, and the major diameter, at maximum material",
        _GO,
        {
            "major_diameter": _between(
                "d",
                f.d + f.deviation + f.um("Z_PL"),
                f.um("T_PL"),
                f.basis("two reproductions", *columns),
                f.d + f.deviation + f.um("Z_PL") - f.um("W_GO_plug"),
            ),
            "pitch_diameter": _between(
                "d2",
                middle,
                f.um("T_PL") / 2,
                f.basis("two reproductions", *columns),
                middle - f.um("W_GO_plug"),
            ),
            "minor_diameter": _at_most("d1", f.d1 + f.deviation, f.basis("memory")),
        },
    )


def _not_go_plug(f: _Frame) -> Gauge:
    middle = f.d2 + f.deviation + f.tolerance + f.um("T_PL") / 2
    return Gauge(
        "not_go_screw_plug",
        "NOT GO screw plug gauge",
        "internal",
        "the pitch diameter at minimum material",
        _NOT_GO,
        {
            "major_diameter": _between(
                "d",
                middle + 2 * f.truncation,
                f.um("T_PL"),
                f.basis("conflict", "T_PL", note=_F1_NOTE),
            ),
            "pitch_diameter": _between(
                "d2",
                middle,
                f.um("T_PL") / 2,
                f.basis("two reproductions", "T_PL", "W_NG_plug"),
                middle - f.um("W_NG_plug"),
            ),
            "minor_diameter": _at_most("d1", f.d1 + f.deviation, f.basis("memory")),
        },
    )


def _check_plug(
    f: _Frame, id: str, name: str, checks: str, application: str, pitch: Decimal, major: GaugeDimension
) -> Gauge:
    basis = f.basis("memory", "T_CP", "T_R", "Z_R", "m")
    return Gauge(
        id,
        name,
        "gauge",
        checks,
        application,
        {"major_diameter": major, "pitch_diameter": _between("d2", pitch, f.um("T_CP") / 2, basis)},
    )


def _full_major(f: _Frame) -> GaugeDimension:
    return _between("d", f.d + f.deviation, f.um("T_PL"), f.basis("memory", "T_PL"))


def _truncated_major(f: _Frame, pitch: Decimal) -> GaugeDimension:
    basis = f.basis("conflict", "T_PL", note=_F1_NOTE)
    return _between("d", pitch + 2 * f.truncation, f.um("T_PL") / 2, basis)


def _not_go_side_major(f: _Frame) -> GaugeDimension:
    return _between("d", f.d + f.deviation - f.tolerance, f.um("T_PL"), f.basis("memory", "T_PL"))


def _go_check_for_go_ring(f: _Frame) -> Gauge:
    pitch = f.d2 + f.deviation - f.um("Z_R") - f.um("m")
    return _check_plug(
        f,
        "go_check_plug_for_go_screw_ring",
        "GO check plug for a new solid GO screw ring",
        "the new ring at its least pitch diameter",
        "Must screw into the new ring by hand.",
        pitch,
        _full_major(f),
    )


def _not_go_check_for_go_ring(f: _Frame) -> Gauge:
    pitch = f.d2 + f.deviation - f.um("Z_R") + f.um("T_R") / 2
    return _check_plug(
        f,
        "not_go_check_plug_for_go_screw_ring",
        "NOT GO check plug for a new solid GO screw ring",
        "the new ring at its greatest pitch diameter",
        _AT_MOST_ONE_TURN,
        pitch,
        _truncated_major(f, pitch),
    )


def _wear_check_for_go_ring(f: _Frame) -> Gauge:
    pitch = f.d2 + f.deviation - f.um("Z_R") + f.um("W_GO_ring")
    return _check_plug(
        f,
        "wear_check_plug_for_go_screw_ring",
        "Wear check plug for a GO screw ring",
        "the used ring at its wear limit",
        f"{_AT_MOST_ONE_TURN} More means that the ring is worn out.",
        pitch,
        _truncated_major(f, pitch),
    )


def _go_check_for_not_go_ring(f: _Frame) -> Gauge:
    pitch = _not_go_ring_middle(f) - f.um("m")
    return _check_plug(
        f,
        "go_check_plug_for_not_go_screw_ring",
        "GO check plug for a new solid NOT GO screw ring",
        "the new ring at its least pitch diameter",
        "Must screw into the new ring by hand.",
        pitch,
        _full_major(f),
    )


def _not_go_check_for_not_go_ring(f: _Frame) -> Gauge:
    return _check_plug(
        f,
        "not_go_check_plug_for_not_go_screw_ring",
        "NOT GO check plug for a new solid NOT GO screw ring",
        "the new ring at its greatest pitch diameter",
        _AT_MOST_ONE_TURN,
        f.d2 + f.deviation - f.tolerance,
        _not_go_side_major(f),
    )


def _wear_check_for_not_go_ring(f: _Frame) -> Gauge:
    return _check_plug(
        f,
        "wear_check_plug_for_not_go_screw_ring",
        "Wear check plug for a NOT GO screw ring",
        "the used ring at its wear limit",
        f"{_AT_MOST_ONE_TURN} More means that the ring is worn out.",
        _not_go_ring_middle(f) + f.um("W_NG_ring"),
        _not_go_side_major(f),
    )


_RINGS_AND_CHECKS: tuple[Callable[[_Frame], Gauge], ...] = (
    _go_ring,
    _not_go_ring,
    _go_check_for_go_ring,
    _not_go_check_for_go_ring,
    _wear_check_for_go_ring,
    _go_check_for_not_go_ring,
    _not_go_check_for_not_go_ring,
    _wear_check_for_not_go_ring,
)
