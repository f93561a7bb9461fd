"""The rules of Unified threads and ASME gages, each with the published files that must notice when it is taken away."""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

import pytest

from boltwright_server.gauges import asme_b1_2, asme_gages
from boltwright_server.threads import unified_limits, unified_profile, unified_stress_area, unified_tolerances

from .patches import Patch, attribute, cell, everywhere

EXTERNAL = "asme_b1_1_2003/thread_limits_external.csv"
INTERNAL = "asme_b1_1_2003/thread_limits_internal.csv"
STATED = "asme_b1_1_2003/stated_engagement.csv"
WORKED = "asme_b1_1_2003/worked_examples.csv"
BASIC = "asme_b1_1_2003/basic_dimensions.csv"
AREAS = "asme_b1_1_2003/tensile_stress_area.csv"
GAGES = "asme_b1_2_1983/gauge_sizes_formula.csv"
LISTED = "asme_b1_2_1983/gauge_sizes_published.csv"
SETTING = "asme_b1_2_1983/setting_plugs.csv"
METRIC_GAGES = "asme_b1_16m_1984/gauge_sizes_published.csv"


def _half_up(value: Decimal, quantum: str) -> Decimal:
    return value.quantize(Decimal(quantum), ROUND_HALF_UP)


def _engagement(series: str, column: str, new: Decimal | None) -> Patch:
    return cell("asme_b1_1_2003", "engagement", (series,), column, new)


def _all_9p(monkeypatch: pytest.MonkeyPatch) -> None:
    for series in ("UNC", "UNF"):
        _engagement(series, "diameters", None)(monkeypatch)
        _engagement(series, "pitches", Decimal(9))(monkeypatch)
        _engagement(series, "normal_from_pitches", Decimal(5))(monkeypatch)
        _engagement(series, "normal_up_to_pitches", Decimal(15))(monkeypatch)


def _unrounded_chain(size: Any, wanted: Any, cells: Any) -> Any:
    """Every limit from unrounded ones, rounded once at the end."""
    limits, reference = _EXTERNAL(size, wanted, cells)
    d_max = size.d - cells.allowance
    d2_max = d_max - unified_profile.PITCH_FACTOR * size.pitch
    for id, low, high in (
        ("major_diameter", d_max - cells.crest, d_max),
        ("pitch_diameter", d2_max - cells.pitch, d2_max),
    ):
        limits[id] = replace(limits[id], min=unified_profile.four_places(low), max=unified_profile.four_places(high))
    return limits, reference


def _without_cap(size: Any, wanted: Any) -> Decimal:
    P = size.pitch
    close = Decimal("0.05") * unified_profile.cube_root(P**2) + Decimal("0.03") * P / size.d - Decimal("0.002")
    return (
        max(unified_profile.six_places(close), _MINOR(size, wanted))
        if size.d < Decimal("0.1")
        else _MINOR(size, wanted)
    )


def _as_large_sizes(size: Any, wanted: Any) -> Decimal:
    return _MINOR(replace(size, d=Decimal(1)), wanted)


def _without_floor(size: Any, wanted: Any) -> Decimal:
    if wanted.grade != "3":
        return _MINOR(size, wanted)
    P = size.pitch
    close = Decimal("0.05") * unified_profile.cube_root(P**2) + Decimal("0.03") * P / size.d - Decimal("0.002")
    return unified_profile.six_places(min(close, Decimal("0.394") * P))


def _from_rounded_minor(d: Decimal, P: Decimal) -> Decimal:
    return unified_profile.four_places(_MINOR_DIAMETER(d, P))


_EXTERNAL = unified_limits._external
_MINOR = unified_tolerances.minor_tolerance
_MINOR_DIAMETER = unified_profile.minor_diameter

INCH_RULES: dict[str, tuple[tuple[str, ...], Patch]] = {
    "Unified: each limit starts from the rounded one before": (
        (EXTERNAL,),
        attribute(unified_limits, "_external", _unrounded_chain),
    ),
    "Unified: a tie goes to the even digit": ((EXTERNAL, INTERNAL), attribute(unified_profile, "half_even", _half_up)),
    "Unified: heights have six decimals": (
        (INTERNAL,),
        attribute(unified_profile, "six_places", lambda value: value.quantize(Decimal("0.001"))),
    ),
    "Unified: LE is D for UNC and UNF": ((EXTERNAL, INTERNAL), _all_9p),
    "Unified: LE is 9P for UNEF": ((WORKED, EXTERNAL), _engagement("UNEF", "pitches", Decimal(13))),
    "Unified: LE is D for 8-UN": ((INTERNAL,), _engagement("8-UN", "diameters", Decimal("0.5"))),
    "Unified: a stated engagement beyond 15P goes into the formula": (
        (STATED,),
        _engagement("UNS", "normal_up_to_pitches", Decimal(40)),
    ),
    "Unified: a stated engagement beyond 1.5 D goes into the formula": (
        (STATED,),
        _engagement("UNC", "normal_up_to_diameters", Decimal(2)),
    ),
    "Unified: 15P itself is normal": ((STATED,), _engagement("UNS", "normal_up_to_pitches", Decimal("14.9"))),
    "Unified: 2A has an allowance of 0.3 Td2": (
        (EXTERNAL, WORKED),
        cell("asme_b1_1_2003", "tolerance_factors", ("2A",), "allowance", Decimal(0)),
    ),
    "Unified: 3A has no allowance": (
        (EXTERNAL,),
        cell("asme_b1_1_2003", "tolerance_factors", ("3A",), "allowance", Decimal("0.300")),
    ),
    "Unified: 1A has a wider major diameter": (
        (EXTERNAL,),
        cell("asme_b1_1_2003", "tolerance_factors", ("1A",), "major_diameter", Decimal("0.060")),
    ),
    "Unified: 1B is 1.95 Td2": (
        (INTERNAL,),
        cell("asme_b1_1_2003", "tolerance_factors", ("1B",), "pitch_diameter", Decimal("1.5")),
    ),
    "Unified: sizes under 1/4 have their own minor tolerance": (
        (INTERNAL,),
        attribute(unified_tolerances, "minor_tolerance", _as_large_sizes),
    ),
    "Unified: small minor tolerances are capped at 0.394 P": (
        (INTERNAL,),
        attribute(unified_tolerances, "minor_tolerance", _without_cap),
    ),
    "Unified: 3B has a floor by pitch": (
        (INTERNAL,),
        attribute(unified_tolerances, "minor_tolerance", _without_floor),
    ),
    "Unified: the minor diameter has three decimals from #6": (
        (INTERNAL,),
        attribute(unified_limits, "_THREE_PLACES_FROM", Decimal(9)),
    ),
    "Unified: below #6 it has four": ((INTERNAL,), attribute(unified_limits, "_THREE_PLACES_FROM", Decimal(0))),
    "Unified: D1 max starts from the unrounded D1": (
        ("asme_b1_1_2003/disagreements.csv",),
        attribute(unified_limits, "minor_diameter", _from_rounded_minor),
    ),
    "Unified: the UNR root is 1.19078493 P deep": (
        (EXTERNAL, WORKED),
        attribute(unified_profile, "ROOT_FACTOR", unified_profile.MINOR_FACTOR),
    ),
    "Unified: basic minor is D - 1.0825 P": (
        (BASIC,),
        attribute(unified_profile, "MINOR_FACTOR", unified_profile.ROOT_FACTOR),
    ),
    "Unified: unfinished hot-rolled bolts have 0.090": ((WORKED,), attribute(unified_limits, "HOT_ROLLED", ())),
    "Unified: printed stress areas win over the formula": (
        (AREAS,),
        cell("asme_b1_1_2003", "stress_area", (Decimal("0.5000"), Decimal(20)), "As", Decimal("0.1600")),
    ),
    "Unified: the stress area has 9/16 H": (
        (AREAS,),
        attribute(unified_stress_area, "STRESS_FACTOR", unified_profile.MINOR_FACTOR),
    ),
    "ASME gages: a GO ring goes minus": (
        (GAGES,),
        attribute(asme_gages.ClassX, "sized", lambda x, s, size, sign, c, b: _SIZED(x, s, size, abs(sign), c, b)),
    ),
    "ASME gages: NOT GO plug cut by H/2, ring by H/4": (
        (GAGES, SETTING),
        attribute(asme_b1_2, "H_FACTOR", unified_profile.H_FACTOR / 2),
    ),
    "ASME gages: plain gages have class Z": (
        (GAGES,),
        cell("asme_b1_2_1983", "plain_gages", (Decimal("0.010"), Decimal("0.825")), "Z", Decimal("0.00007")),
    ),
    "ASME gages: the plain band goes by the size of the gage": (
        ("asme_b1_2_1983/disagreements.csv",),
        cell("asme_b1_2_1983", "plain_gages", (Decimal("0.010"), Decimal("0.825")), "Z", Decimal("0.00012")),
    ),
    "ASME gages: sizes are the product limits": (
        (LISTED, METRIC_GAGES),
        attribute(asme_gages, "_size", lambda product, side: _SIZE(product, side) + Decimal("0.001")),
    ),
    "ASME B1.16M: NOT GO is cut by 0.2 P": (
        (METRIC_GAGES,),
        everywhere("_TRUNCATION", Decimal("0.2165")),
    ),
}

_SIZED = asme_gages.ClassX.sized
_SIZE = asme_gages._size
