"""The judgement once more, straight from the words of the wire contract, in plain Python and exact fractions.

It shares nothing with the service: limits are copied from the printed tables (ISO 4014:2011 Tables 1 and 2, ISO 965-1
Tables 1, 3 and 5, ISO 898-1:2013 Tables 3 and 4, for M10x60 of class 8.8), units from their definitions, sampling plans
from the printed cells. Slow and simple: one reading, one limit at a time.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Any

CONFORMING, UNDECIDED, NONCONFORMING = "conforming", "undecided", "nonconforming"
_WORST_FIRST = (NONCONFORMING, UNDECIDED, CONFORMING)

LENGTH = {"mm": Fraction(1), "um": Fraction(1, 1000), "in": Fraction("25.4")}
FORCE = {"N": Fraction(1), "kN": Fraction(1000), "lbf": Fraction("4.4482216152605")}
STRESS = {"MPa": Fraction(1), "ksi": 1000 * FORCE["lbf"] / LENGTH["in"] ** 2}
HARDNESS = {"HV": Fraction(1)}, {"HRC": Fraction(1)}
SCALES = (LENGTH, FORCE, STRESS, *HARDNESS)


@dataclass(frozen=True)
class Limit:
    """A limit as printed: its digits say to what a reading is rounded."""

    value: Decimal
    unit: str

    def digit(self) -> Decimal:
        """16.00 mm to 0.01, 46 400 N to 100 N, 320 HV to 1 HV."""
        if "." in str(self.value):
            return Decimal(1).scaleb(int(self.value.as_tuple().exponent))
        return Decimal(100) if self.unit == "N" and self.value % 100 == 0 else Decimal(1)


@dataclass(frozen=True)
class Wanted:
    """One characteristic: limits by scale where it is measured, allowed words or True where it is not."""

    group: str
    mandatory: bool
    destructive: bool = False
    limits: Mapping[str, tuple[Limit | None, Limit | None]] | None = None
    allowed: tuple[Any, ...] = ()


def _mm(group: str, mandatory: bool, least: str | None, most: str | None) -> Wanted:
    return Wanted(group, mandatory, limits={"mm": (_limit(least, "mm"), _limit(most, "mm"))})


def _limit(text: str | None, unit: str) -> Limit | None:
    return None if text is None else Limit(Decimal(text), unit)


M10X60_8_8: dict[str, Wanted] = {
    "width_across_flats": _mm("dimension", True, "15.73", "16.00"),
    "width_across_corners": _mm("dimension", True, "17.77", None),
    "head_height": _mm("dimension", True, "6.22", "6.58"),
    "washer_face_diameter": _mm("dimension", False, "14.63", None),
    "body_diameter": _mm("dimension", True, "9.78", "10.00"),
    "length": _mm("dimension", True, "59.40", "60.60"),
    "thread_pitch_diameter": _mm("thread", False, "8.862", "8.994"),
    "thread_go_gauge": Wanted("thread", True, allowed=(True,)),
    "thread_not_go_gauge": Wanted("thread", True, allowed=(True,)),
    "hardness_core": Wanted(
        "mechanical",
        True,
        limits={
            "HV": (Limit(Decimal(250), "HV"), Limit(Decimal(320), "HV")),
            "HRC": (Limit(Decimal(22), "HRC"), Limit(Decimal(32), "HRC")),
        },
    ),
    "hardness_surface": Wanted("mechanical", False, limits={"HV": (None, None)}),
    "tensile_load": Wanted("mechanical", True, True, {"N": (Limit(Decimal(46400), "N"), None)}),
    "tensile_strength": Wanted("mechanical", False, True, {"MPa": (Limit(Decimal(800), "MPa"), None)}),
    "proof_load_set": Wanted(
        "mechanical", False, True, {"um": (Limit(Decimal("-12.5"), "um"), Limit(Decimal("12.5"), "um"))}
    ),
    "fracture_location": Wanted("mechanical", True, True, allowed=("thread", "shank")),
    "marking": Wanted("marking", True, allowed=(True,)),
    "surface_discontinuities": Wanted("surface", False, allowed=(True,)),
}
GROUPS = ("dimension", "thread", "mechanical", "surface", "marking")
OVER_CORE = Limit(Decimal(30), "HV")

#: (scheme, AQL, lot size) -> group -> sample size and acceptance number.
#: ISO 2859-1:1999, level II, Tables 1 and 2-A: code letters A, C (also by the arrows to B and D) and D; ISO 3269:2019,
#: Table 1, first samples.
PLANS: dict[tuple[str, str | None, int], dict[str, tuple[int, int]]] = {
    ("ISO 2859-1", "6.5", 8): dict.fromkeys(GROUPS, (2, 0)),
    ("ISO 2859-1", "4.0", 20): dict.fromkeys(GROUPS, (3, 0)),
    ("ISO 2859-1", "10", 20): dict.fromkeys(GROUPS, (5, 1)),
    ("ISO 2859-1", "6.5", 20): dict.fromkeys(GROUPS, (8, 1)),
    ("ISO 2859-1", "10", 40): dict.fromkeys(GROUPS, (8, 2)),
    ("ISO 3269", None, 60): {
        "dimension": (5, 0),
        "thread": (5, 0),
        "surface": (5, 1),
        "marking": (5, 1),
        "mechanical": (1, 0),
    },
}


def judge(body: Mapping[str, Any]) -> dict[str, Any]:
    """Judge a request whose numbers are Decimals or whole numbers; return verdicts, counts and what is missing.

    `conforms_to_standard` is the verdict on the same lot without what the purchaser asks beside the standard.
    """
    found = _judge(body)
    alone = {name: one for name, one in body.items() if name not in ("requirements", "dropped", "fracture_rule")}
    known = {id: one for id, one in body["readings"].items() if id in M10X60_8_8}
    by_standard, deviations = _judge({**alone, "readings": known}), _deviations(body)
    conforms = {"accept": True, "reject": False, "incomplete": None}[by_standard["verdict"]]
    if conforms is None and found["verdict"] != "incomplete" and deviations & set(by_standard["missing"]):
        # Nobody will look at what was given up: null is for lots that are not complete yet.
        conforms = False
    return {**found, "conforms_to_standard": conforms, "deviations": deviations}


def _deviations(body: Mapping[str, Any]) -> set[str]:
    """Ids of which less is asked for than by the standard: dropped, made optional, or a given side that is looser."""
    found = set()
    for id, given in body.get("requirements", {}).items():
        standing = M10X60_8_8.get(id)
        if standing is None:
            continue
        if standing.mandatory and (given is None or given.get("mandatory") is False):
            found.add(id)
        elif given is not None and standing.limits is not None:
            scale, (low, high) = next(iter(standing.limits.items()))
            unit = given.get("unit", scale)
            for side, limit, outward in (("min", low, -1), ("max", high, 1)):
                if side in given and limit is not None:
                    used = None if given[side] is None else Fraction(given[side]) * _step(unit, scale)
                    if used is None or (used - Fraction(limit.value)) * outward > 0:
                        found.add(id)
    return found


def _judge(body: Mapping[str, Any]) -> dict[str, Any]:
    wanted = _wanted(body)
    readings = {id: _column(column) for id, column in body["readings"].items()}
    found = {id: _readings(id, readings, wanted[id], body) for id in readings}
    if "fracture_location" in wanted and wanted["fracture_location"].mandatory:
        _without_fracture(found, readings)
    groups = dict.fromkeys(GROUPS, (1, 0)) | _plans(body)
    bad = {group: {piece for id in found for piece in _bad(found, wanted, id, group)} for group in GROUPS}
    missing = {
        id
        for id, one in wanted.items()
        if one.mandatory and len({piece for piece, _ in found.get(id, ())}) < groups[one.group][0]
    }
    undecided = any(wanted[id].mandatory and _has(one, UNDECIDED) for id, one in found.items())
    over = any(len(bad[group]) > groups[group][1] for group in GROUPS)
    return {
        "verdict": "reject" if over else "incomplete" if missing or undecided else "accept",
        "missing": missing,
        "not_looked_at": {id for id, one in wanted.items() if not one.mandatory and id not in readings}
        | {id for id, given in body.get("requirements", {}).items() if given is None},
        "groups": {group: len(pieces) for group, pieces in bad.items()},
        "characteristics": {id: _characteristic(one) for id, one in found.items()},
    }


def _characteristic(found: list[tuple[int, str]]) -> dict[str, Any]:
    bad = {piece for piece, verdict in found if verdict == NONCONFORMING}
    return {
        "verdict": next((verdict for verdict in _WORST_FIRST if _has(found, verdict)), UNDECIDED),
        "count": len(found),
        "nonconforming_pieces": sorted(bad),
        "undecided_count": len([piece for piece, verdict in found if verdict == UNDECIDED]),
    }


def _has(found: list[tuple[int, str]], verdict: str) -> bool:
    return any(one == verdict for _, one in found)


def _bad(found: Any, wanted: Mapping[str, Wanted], id: str, group: str) -> set[tuple[bool, int]]:
    if wanted[id].group != group:
        return set()
    return {(wanted[id].destructive, piece) for piece, verdict in found[id] if verdict == NONCONFORMING}


def _plans(body: Mapping[str, Any]) -> dict[str, tuple[int, int]]:
    found = {}
    for group in GROUPS:
        asked = body.get("sampling_destructive" if group == "mechanical" else "sampling")
        if asked is not None:
            aql = None if "aql" not in asked else str(asked["aql"])
            found[group] = PLANS[asked["scheme"], aql, body["lot_size"]][group]
    return found


def _wanted(body: Mapping[str, Any]) -> dict[str, Wanted]:
    """The standard's characteristics with the purchaser's requirements."""
    found = dict(M10X60_8_8)
    if body.get("fracture_rule") == "thread_only":
        found["fracture_location"] = replace(found["fracture_location"], allowed=("thread",))
    for id, given in body.get("requirements", {}).items():
        if given is None:
            del found[id]
        elif id not in found and given.get("kind") == "attribute":
            found[id] = Wanted(given.get("group", "dimension"), given.get("mandatory", True), allowed=(True,))
        elif id not in found:
            found[id] = Wanted(
                given.get("group", "dimension"), given.get("mandatory", True), limits={given["unit"]: _sides(given, {})}
            )
        else:
            found[id] = _required(found[id], given)
    return found


def _required(standing: Wanted, given: Mapping[str, Any]) -> Wanted:
    changed = replace(
        standing, group=given.get("group", standing.group), mandatory=given.get("mandatory", standing.mandatory)
    )
    if standing.limits is None or not {"min", "max"} & set(given):
        return changed
    scale = next(iter(standing.limits))
    low, high = standing.limits[scale]
    return replace(changed, limits={scale: _sides({"unit": scale, **given}, {"min": low, "max": high})})


def _sides(given: Mapping[str, Any], standing: Mapping[str, Limit | None]) -> tuple[Limit | None, Limit | None]:
    found = []
    for side in ("min", "max"):
        if side in given:
            found.append(None if given[side] is None else Limit(given[side], given["unit"]))
        else:
            found.append(standing.get(side))
    return found[0], found[1]


def _column(given: Any) -> dict[str, Any]:
    column = dict(given) if isinstance(given, Mapping) else {"values": given}
    column.setdefault("pieces", list(range(len(column["values"]))))
    return column


def _readings(id: str, readings: Mapping[str, Any], wanted: Wanted, body: Mapping[str, Any]) -> list[tuple[int, str]]:
    column = readings[id]
    read = [
        (piece, value) for piece, value in zip(column["pieces"], column["values"], strict=True) if value is not None
    ]
    if wanted.limits is None:
        return [(piece, CONFORMING if value in wanted.allowed else NONCONFORMING) for piece, value in read]
    scale = _scale(column.get("unit"), wanted.limits)
    unit = column.get("unit", scale)
    rule = column.get("decision_rule", body.get("decision_rule", "simple"))
    u = Fraction(column.get("expanded_uncertainty", 0)) / Fraction(column.get("coverage_factor", 2))
    low, high = wanted.limits[scale]
    found = [(piece, verdict(rule, low, high, Fraction(value), unit, u)) for piece, value in read]
    return _over_core(column, found, readings.get("hardness_core"), rule, u) if id == "hardness_surface" else found


def _scale(unit: str | None, limits: Mapping[str, Any]) -> str:
    return unit if unit in limits else next(iter(limits))


def verdict(rule: Any, low: Limit | None, high: Limit | None, y: Fraction, unit: str, u: Fraction) -> str:
    """Return the verdict on a reading `y` with standard uncertainty `u`, both in `unit`."""
    name, edition, ties = (rule, "2017", "even") if isinstance(rule, str) else _named(rule)
    L, H = (None if side is None else Fraction(side.value) * _step(side.unit, unit) for side in (low, high))
    if name == "guarded" and u > 0:
        return _guarded(edition, L, H, y, u)
    below = low is not None and L is not None and (_rounded(y, low, unit, ties) if name == "rounded" else y) < L
    above = high is not None and H is not None and (_rounded(y, high, unit, ties) if name == "rounded" else y) > H
    return NONCONFORMING if below or above else CONFORMING


def _named(rule: Mapping[str, str]) -> tuple[str, str, str]:
    return rule["rule"], rule.get("edition", "2017"), rule.get("ties", "even")


def _step(given: str, wanted: str) -> Fraction:
    """How many of `wanted` one of `given` is."""
    scale = next(scale for scale in SCALES if given in scale and wanted in scale)
    return scale[given] / scale[wanted]


def _rounded(y: Fraction, limit: Limit, unit: str, ties: str) -> Fraction:
    """Round once to the last digit of the limit, in the limit's own unit."""
    steps = y * _step(unit, limit.unit) / Fraction(limit.digit())
    below = math.floor(steps)
    if steps - below == Fraction(1, 2):
        whole = below + (below % 2 if ties == "even" else 1)
    else:
        whole = below + (steps - below > Fraction(1, 2))
    return whole * Fraction(limit.digit()) * _step(limit.unit, unit)


def _guarded(edition: str, L: Fraction | None, H: Fraction | None, y: Fraction, u: Fraction) -> str:
    one_sided = Fraction(165, 100) if edition == "2017" else Fraction(2)
    if (L is not None and y < L - one_sided * u) or (H is not None and y > H + one_sided * u):
        return NONCONFORMING
    inward = one_sided
    if edition == "2017" and L is not None and H is not None:
        width = (H - L) / u
        if width < Fraction("3.92"):
            return UNDECIDED
        if width < 6:
            inward = max(one_sided, both_sides(width))
    inside = (L is None or L + inward * u <= y) and (H is None or y <= H - inward * u)
    return CONFORMING if inside else UNDECIDED


def both_sides(width: Fraction) -> Fraction:
    """Return g/u for which Phi(width - g) - Phi(-g) = 0.95, from the error function by bisection."""
    near, far = 1.0, float(width) / 2
    for _ in range(100):
        g = (near + far) / 2
        inside = (math.erf((float(width) - g) / math.sqrt(2)) + math.erf(g / math.sqrt(2))) / 2
        near, far = (near, g) if inside >= 0.95 else (g, far)
    return Fraction(Decimal(repr(far)).quantize(Decimal("1e-9"), ROUND_HALF_UP))


def _over_core(
    column: Mapping[str, Any], found: list[tuple[int, str]], core: Mapping[str, Any] | None, rule: Any, u: Fraction
) -> list[tuple[int, str]]:
    """The surface is at most 30 HV harder than the core of the same piece; without it nothing is decided."""
    of_piece = (
        {} if core is None or core.get("unit", "HV") != "HV" else dict(zip(core["pieces"], core["values"], strict=True))
    )
    surface = dict(zip(column["pieces"], column["values"], strict=True))
    judged = []
    for piece, cap in found:
        base = of_piece.get(piece)
        if base is None:
            rise = UNDECIDED
        else:
            rise = verdict(rule, None, OVER_CORE, Fraction(surface[piece]) - Fraction(base), "HV", u)
        judged.append((piece, next(one for one in _WORST_FIRST if one in (cap, rise))))
    return judged


def _without_fracture(found: dict[str, list[tuple[int, str]]], readings: Mapping[str, Any]) -> None:
    """A tensile reading counts only with its fracture location."""
    given = readings.get("fracture_location", {"pieces": [], "values": []})
    located = {piece for piece, where in zip(given["pieces"], given["values"], strict=True) if where is not None}
    for id in ("tensile_load", "tensile_strength"):
        if id in found:
            found[id] = [
                (piece, UNDECIDED if verdict == CONFORMING and piece not in located else verdict)
                for piece, verdict in found[id]
            ]
