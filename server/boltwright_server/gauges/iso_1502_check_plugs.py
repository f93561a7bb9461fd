"""Check plugs for the screw rings of ISO metric threads.

ISO 1502:1996, clause 13. Diameters in mm. Every formula is recalled; two rules of use were read in one text.
"""

from __future__ import annotations

from decimal import Decimal

from .gauge import Gauge, GaugeDimension
from .iso_1502_frame import F1_NOTE, Frame, between

_MUST_ENTER = "Must screw into the new ring by hand."
_AT_MOST_ONE_TURN = "May enter from either side by at most one turn."
_WORN = f"{_AT_MOST_ONE_TURN} More means that the ring is worn out."
_LEAST, _GREATEST = "the new ring at its least pitch diameter", "the new ring at its greatest pitch diameter"
_USED = "the used ring at its wear limit"


def check_plugs(f: Frame) -> tuple[Gauge, ...]:
    """Return the three check plugs of the GO ring and the three of the NOT GO ring."""
    return (*_for_go_ring(f), *_for_not_go_ring(f))


def _for_go_ring(f: Frame) -> tuple[Gauge, ...]:
    ring = f.d2 + f.deviation - f.um("Z_R")
    upper = ring + f.um("T_R") / 2
    worn = ring + f.um("W_GO_ring")
    return (
        _plug(f, "go", "GO", "go_screw_ring", _LEAST, _MUST_ENTER, ring - f.um("m"), _full(f)),
        _plug(f, "not_go", "NOT GO", "go_screw_ring", _GREATEST, _AT_MOST_ONE_TURN, upper, _truncated(f, upper)),
        _plug(f, "wear", "Wear", "go_screw_ring", _USED, _WORN, worn, _truncated(f, worn)),
    )


def _for_not_go_ring(f: Frame) -> tuple[Gauge, ...]:
    d2_min = f.d2 + f.deviation - f.tolerance
    ring = d2_min - f.um("T_R") / 2
    worn = ring + f.um("W_NG_ring")
    major = between(
        "d", f.d + f.deviation - f.tolerance, f.um("T_PL"), f.basis("major diameter of a check plug", "T_PL")
    )
    return (
        _plug(f, "go", "GO", "not_go_screw_ring", _LEAST, _MUST_ENTER, ring - f.um("m"), _full(f)),
        _plug(f, "not_go", "NOT GO", "not_go_screw_ring", _GREATEST, _AT_MOST_ONE_TURN, d2_min, major),
        _plug(f, "wear", "Wear", "not_go_screw_ring", _USED, _WORN, worn, major),
    )


def _plug(
    f: Frame, kind: str, name: str, ring: str, checks: str, application: str, pitch: Decimal, major: GaugeDimension
) -> Gauge:
    basis = f.basis("check plug", "T_CP", "T_R", "Z_R", "m")
    go = ring == "go_screw_ring"
    limit, at = ("d2 max", Decimal(0)) if go else ("d2 min", f.tolerance)
    middle = between("d2", pitch, f.um("T_CP") / 2, basis).against(limit, f.d2 + f.deviation - at, 0)
    new = "" if kind == "wear" else "new solid "
    return Gauge(
        f"{kind}_check_plug_for_{ring}",
        f"{name} check plug for a {new}{'GO' if go else 'NOT GO'} screw ring",
        "gauge",
        checks,
        application,
        {"major_diameter": major, "pitch_diameter": middle},
        None if application is _MUST_ENTER else 1,
    )


def _full(f: Frame) -> GaugeDimension:
    return between("d", f.d + f.deviation, f.um("T_PL"), f.basis("major diameter of a check plug", "T_PL"))


def _truncated(f: Frame, pitch: Decimal) -> GaugeDimension:
    return between(
        "d", pitch + 2 * f.F1, f.um("T_PL") / 2, f.basis("truncation of a NOT GO gauge", "T_PL", note=F1_NOTE)
    )
