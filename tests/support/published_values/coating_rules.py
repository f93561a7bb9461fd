"""The rules of coatings and of the use of gauges, each with the published files that must notice when it is gone."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from engine import replace_everywhere

from boltwright_server.coating import inch, metric, room, states
from boltwright_server.gauges import Zone, asme_gages, iso_1502, iso_1502_check_plugs
from boltwright_server.threads import UnifiedClass

from .patches import Patch, attribute, cell

WORKED = "iso_4042_1999/worked_examples.csv"
LARGEST = "iso_4042_1999/largest_nominal_thickness.csv"
NEEDED = "iso_4042_1999/deviation_needed.csv"
GROUPS = "iso_4042_2018/hydrogen_embrittlement.csv"
PAIRS = "iso_10684_2004/pairing.csv"
MARKS = "iso_10684_2004/marking.csv"
STATES = "iso_10684_2004/states.csv"
LOADS = "iso_10684_2004/reduced_loads.csv"
UNDERSIZE, OVERSIZE = "iso_965_4_1998/thread_limits_external.csv", "iso_965_5_1998/thread_limits_internal.csv"
INCH, INCH_HARD = "astm_f1941_2015/largest_thickness.csv", "astm_f1941_2015/embrittlement.csv"
GAUGES, ZONES, USE = (f"iso_1502_1996/{name}.csv" for name in ("gauge_limits", "zones", "application"))


def _item(owner: dict[str, Any], name: str, new: Any) -> Patch:
    return lambda monkeypatch: monkeypatch.setitem(owner, name, new)


def _own_gauges_after(size: Any, tolerance: Any, own: str) -> Any:
    """The coated thread gauged with the gauges of the thread before coating."""
    return replace(_AT_BASIC(size, tolerance, own), go=own)


def _inside(*args: Any) -> Zone:
    """Every gauge said to lie inside the product tolerance."""
    return replace(_ZONE(*args), outside=Decimal(0))


_AT_BASIC, _ZONE = states._at_basic_profile, Zone

COATING_RULES: dict[str, tuple[tuple[str, ...], Patch]] = {
    "coating: t on each flank takes 4 t of the pitch diameter": (
        (WORKED,),
        _item(room._GROUPS, "local", ("t_local", 2)),
    ),
    "coating: long parts are reckoned with 5 t and 6 t": (
        (NEEDED,),
        _item(room.SHARES, "length_up_to_10_d", 4),
    ),
    "coating: the printed nominal thickness is below the rule": (
        (LARGEST,),
        cell("iso_4042_1999", "table_2", (Decimal("1.5"), "g"), "t_l_le_10d", Decimal(8)),
    ),
    "coating: an exhausted room is still room": (
        (WORKED,),
        attribute(metric, "_fit", lambda *args: replace(f := _FIT(*args), fits=f.fits and "takes 32" not in f.detail)),
    ),
    "coating: GO h or H after coating": ((WORKED,), attribute(states, "_at_basic_profile", _own_gauges_after)),
    "coating: thickness codes stand in the order of Table 1": (
        ("iso_4042_1999/codes.csv",),
        cell("iso_4042_1999", "thickness_codes", (Decimal(3),), "nominal", Decimal(10)),
    ),
    "embrittlement: 360 HV itself belongs to group B": (
        (GROUPS,),
        cell("iso_4042_2018", "clause_4_4", ("B",), "from_included", "no"),
    ),
    "embrittlement: above 390 HV baking": (
        (GROUPS,),
        cell("iso_4042_2018", "clause_4_4", ("C",), "HV_from", Decimal(440)),
    ),
    "galvanized: az is -(300 + 20 P)": (
        (UNDERSIZE,),
        cell("iso_965_4_1998", "deviations", ("M10",), "es_az", Decimal(-300)),
    ),
    "galvanized: AX is 220 P - 20": (
        (OVERSIZE,),
        cell("iso_965_5_1998", "deviations", ("M10",), "EI_AX", Decimal(330)),
    ),
    "galvanized: undersize bolts never with oversize nuts": (
        (PAIRS,),
        cell("iso_10684_2004", "pairing", ("az", "AZ"), "because", "undersize bolt"),
    ),
    "galvanized: nuts are tapped after it and stay bare": (
        (STATES,),
        attribute(states, "tapped_after", lambda coating, tolerance: False),
    ),
    "galvanized: a bolt 6g goes beyond the basic profile": (
        (STATES,),
        attribute(states, "_in_oversize_nut", lambda size, own: states.State(states.AFTER, {}, own, own, "")),
    ),
    "galvanized: U marks 6az": ((MARKS,), cell("iso_10684_2004", "marking", ("6az",), "mark", "Z")),
    "galvanized: small sizes have reduced loads": (
        (LOADS,),
        cell("iso_10684_2004", "bolt_tensile_loads", ("M10",), "8.8", Decimal(46400)),
    ),
    "galvanized: at least 40 um": (
        ("iso_10684_2004/coating_thickness.csv",),
        cell("iso_10684_2004", "thickness", ("local_min",), "value", Decimal(45)),
    ),
    "zinc flake: thickness by duration": (
        ("iso_10683_2014/reference_thickness.csv",),
        cell("iso_10683_2014", "reference_thickness", (Decimal(480),), "thickness", Decimal(8)),
    ),
    "inch coating: a quarter of the allowance": (
        (INCH,),
        cell("astm_f1941_2015", "room", ("external",), "share", Decimal(2)),
    ),
    "inch coating: GO 3A after coating": ((INCH,), attribute(inch, "_LARGEST", UnifiedClass("2", "A"))),
    "inch coating: at risk above 39 HRC": (
        (INCH_HARD,),
        cell("astm_f1941_2015", "embrittlement", ("at risk",), "HRC_over", Decimal(38)),
    ),
    "gauges: NOT GO may enter by two turns": ((USE,), attribute(iso_1502, "TURNS", 3)),
    "gages: NOT GO may enter by three turns": (
        ("asme_b1_2_1983/application.csv", "asme_b1_16m_1984/application.csv"),
        attribute(asme_gages, "TURNS", 2),
    ),
    "gauges: a permitted gauge may lie outside": (
        (ZONES,),
        lambda monkeypatch: replace_everywhere(monkeypatch, "Zone", _inside),
    ),
    "gauges: check plugs are smaller than the new ring by m": (
        (GAUGES,),
        cell("iso_1502_1996", "table_pitch_diameter", (Decimal(125), Decimal(200)), "m", Decimal(0)),
    ),
    "gauges: check plugs of NOT GO are cut by 2 F1": (
        (GAUGES,),
        attribute(iso_1502_check_plugs, "_truncated", lambda f, pitch: iso_1502_check_plugs._full(f)),
    ),
    "gauges: plugs of position G start above the basic size": (
        (GAUGES,),
        attribute(iso_1502, "frame_of", lambda *args: replace(_FRAME(*args), deviation=Decimal(0))),
    ),
}

_FIT, _FRAME = metric._fit, iso_1502.frame_of
