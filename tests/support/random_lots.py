"""Random lots of M10x60 - 8.8 for the tests that hold for every lot. All readings are invented.

Readings crowd where verdicts change: on limits, on the edges of guard bands, on ties of rounding, and a little beside.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from random import Random
from typing import Any

import msgspec
from plain_judgement import M10X60_8_8, PLANS, SCALES

BOLT = "ISO 4014 - M10x60 - 8.8"
RULES: tuple[Any, ...] = (
    "simple",
    "simple",
    "absolute",
    "rounded",
    {"rule": "rounded", "ties": "greater"},
    "guarded",
    {"rule": "guarded", "edition": "1998"},
    {"rule": "guarded", "edition": "2013"},
)
_UNITS = {"mm": ("mm", "um", "in"), "um": ("um", "mm", "in"), "N": ("N", "kN", "lbf"), "MPa": ("MPa", "ksi")}
_ADDED = {
    "hole_diameter": {"min": Decimal("2.00"), "max": Decimal("2.20"), "unit": "mm"},
    "salt_spray_240_h": {"kind": "attribute", "group": "surface"},
    "seat_width": {"max": Decimal("0.5"), "unit": "mm", "group": "surface", "mandatory": False},
}
_WRITER = msgspec.json.Encoder(decimal_format="number")


def off_the_edges(body: Mapping[str, Any]) -> dict[str, Any]:
    """Return the lot with every reading a little higher: none is left on an edge, where the 16th digit would decide."""
    found = columns_of(body)
    for column in found.values():
        column["values"] = [
            _digits(value + abs(value) * Decimal("3.7e-8"), 15) if isinstance(value, Decimal) else value
            for value in column["values"]
        ]
    return {**body, "readings": found}


def json_of(body: Mapping[str, Any]) -> bytes:
    """Return the JSON text of a request: every Decimal with the digits that it has."""
    return _WRITER.encode(body)


def random_lot(chance: Random) -> dict[str, Any]:
    """Return the request of a lot: any rule, requirement, plan, unit, unmeasured piece, named pieces and faults."""
    body: dict[str, Any] = {"designation": BOLT, "decision_rule": chance.choice(RULES)}
    if chance.random() < 0.3:
        body["requirements"] = _requirements(chance)
        gone = [id for id, given in body["requirements"].items() if given is None]
        if gone:
            body["dropped"] = {id: {"reason": "as agreed"} for id in gone}
    if chance.random() < 0.2:
        body["fracture_rule"] = "thread_only"
    _plan(body, chance)
    body["readings"] = _columns(body, chance)
    return body


def _plan(body: dict[str, Any], chance: Random) -> None:
    if chance.random() < 0.6:
        return
    scheme, aql, lot_size = chance.choice(list(PLANS))
    plan = {"scheme": scheme} if aql is None else {"scheme": scheme, "aql": Decimal(aql)}
    body["lot_size"] = lot_size
    if chance.random() < 0.8:
        body["sampling"] = plan
    if chance.random() < 0.3:
        body["sampling_destructive"] = plan


def _requirements(chance: Random) -> dict[str, Any]:
    every: dict[str, Any] = {
        "width_across_flats": {"min": Decimal("15.80")},
        "head_height": {"max": Decimal("0.26"), "unit": "in"},
        "length": {"min": Decimal("59.9"), "max": Decimal("60.1")},
        "tensile_load": {"min": Decimal("48.5"), "unit": "kN"},
        "body_diameter": {"max": None},
        "hardness_surface": {"max": 340},
        "washer_face_diameter": {"mandatory": True},
        "width_across_corners": {"group": "surface", "mandatory": False},
        "surface_discontinuities": None,
        "marking": {"mandatory": False},
        "fracture_location": chance.choice((None, {"mandatory": False})),
        **_ADDED,
    }
    return {id: every[id] for id in chance.sample(sorted(every), chance.randint(1, 4))}


def _columns(body: Mapping[str, Any], chance: Random) -> dict[str, Any]:
    given = body.get("requirements", {})
    known = [
        id for id in (*M10X60_8_8, *_ADDED) if given.get(id, True) is not None and (id not in _ADDED or id in given)
    ]
    pieces = {False: chance.randint(1, 9), True: chance.randint(1, 4)}
    faulty = chance.choice((0.0, 0.0, 0.0, 0.02, 0.2))
    found = {}
    for id in known:
        mandatory = id in M10X60_8_8 and M10X60_8_8[id].mandatory
        if chance.random() < (0.97 if mandatory else 0.4):
            destructive = id in M10X60_8_8 and M10X60_8_8[id].destructive
            found[id] = _column(id, pieces[destructive], faulty, body, chance)
    order = list(found.items())
    chance.shuffle(order)
    return dict(order)


def _column(id: str, count: int, faulty: float, body: Mapping[str, Any], chance: Random) -> Any:
    column: dict[str, Any] = {}
    if chance.random() < 0.1:
        count = chance.randint(1, 4)
        column["pieces"] = chance.sample(range(9), count)
    if not _is_measured(id):
        allowed = (True,) if id in _ADDED else M10X60_8_8[id].allowed
        values = [_word(allowed, faulty, chance) for _ in range(count)]
    else:
        values = _measured(id, count, faulty, body, column, chance)
    column["values"] = [None if chance.random() < 0.02 else value for value in values]
    return column if len(column) > 1 or chance.random() < 0.5 else column["values"]


def _is_measured(id: str) -> bool:
    return "kind" not in _ADDED[id] if id in _ADDED else M10X60_8_8[id].limits is not None


def _word(allowed: tuple[Any, ...], faulty: float, chance: Random) -> Any:
    if chance.random() >= faulty:
        return chance.choice(allowed)
    return False if allowed == (True,) else chance.choice(("head", "head_junction", "shank"))


def _measured(
    id: str, count: int, faulty: float, body: Mapping[str, Any], column: dict[str, Any], chance: Random
) -> list[Decimal]:
    scale, low, high = limits_of(id, body)
    if id == "hardness_core" and chance.random() < 0.2 and "hardness_core" not in body.get("requirements", {}):
        scale, low, high = "HRC", Decimal(22), Decimal(32)
        column["unit"] = scale
    unit = chance.choice(_UNITS.get(scale, (scale,)))
    if unit != scale:
        column["unit"] = unit
    if chance.random() < 0.1:
        column["decision_rule"] = chance.choice(RULES)
    u = _uncertainty(low, high, unit, scale, column, body, chance)
    return [_reading(low, high, unit, scale, u, faulty, chance) for _ in range(count)]


def limits_of(id: str, body: Mapping[str, Any]) -> tuple[str, Decimal | None, Decimal | None]:
    """Return about where the limits of a characteristic lie, in the unit of its table."""
    if id in _ADDED:
        return "mm", _ADDED[id].get("min"), _ADDED[id]["max"]  # type: ignore[return-value]
    limits = M10X60_8_8[id].limits
    assert limits is not None
    scale, (low, high) = next(iter(limits.items()))
    given = body.get("requirements", {}).get(id, {})
    step = step_of(given.get("unit", scale), scale)
    sides = []
    for side, standing in (("min", low), ("max", high)):
        value = given.get(side) if side in given else standing and standing.value
        sides.append(None if value is None else Decimal(value) * (step if side in given else 1))
    return scale, sides[0], sides[1]


def step_of(given: str, wanted: str) -> Decimal:
    """How many of `wanted` one of `given` is, to the precision of a Decimal."""
    scale = next(scale for scale in SCALES if given in scale and wanted in scale)
    step = scale[given] / scale[wanted]
    return Decimal(step.numerator) / Decimal(step.denominator)


def _uncertainty(
    low: Decimal | None,
    high: Decimal | None,
    unit: str,
    scale: str,
    column: dict[str, Any],
    body: Mapping[str, Any],
    chance: Random,
) -> Decimal:
    """State an expanded uncertainty where the rule asks for one, often 0 or large against the tolerance; return u."""
    rule = column.get("decision_rule", body["decision_rule"])
    if rule != "guarded" and not (isinstance(rule, dict) and rule["rule"] == "guarded"):
        return Decimal(0)
    width = high - low if low is not None and high is not None else (high or low or Decimal(30)) / 50
    ratio = chance.choice((0, 2, 3, "3.92", 4, 5, 6, 8, 20, 100))
    u = Decimal(0) if ratio == 0 else width / Decimal(ratio) * step_of(scale, unit)
    U = _digits(2 * u, 6)
    column["expanded_uncertainty"] = U
    if chance.random() < 0.2:
        column["coverage_factor"] = chance.choice((1, 3, Decimal("1.96")))
    return U / Decimal(column.get("coverage_factor", 2))


def _reading(
    low: Decimal | None, high: Decimal | None, unit: str, scale: str, u: Decimal, faulty: float, chance: Random
) -> Decimal:
    step = step_of(scale, unit)
    least = (high or Decimal(300)) * Decimal("0.9") * step if low is None else low * step
    most = (low or Decimal(300)) * Decimal("1.1") * step if high is None else high * step
    if chance.random() >= 2 * faulty:
        inside = Decimal(chance.randint(20, 80)) / 100
        return _digits(least + (most - least) * inside, 6)
    edge = chance.choice([side for side in (low, high) if side is not None] or [least / step]) * step
    bands = (0, Decimal("1.65") * u, 2 * u, Decimal("0.005") * step, Decimal("0.5") * step, 50 * step)
    around = edge + chance.choice((-1, 1)) * chance.choice(bands)
    beside = chance.choice((0, 0, 1, -1)) * chance.choice((Decimal("1e-9"), Decimal("1e-4"))) * step
    return _digits(around + beside, 14) if scale == "um" else max(Decimal(0), _digits(around + beside, 14))


def _digits(value: Decimal, digits: int) -> Decimal:
    """Round to so many significant digits; up to 15 of them survive a double."""
    return Decimal(f"{value:.{digits - 1}e}") if value else Decimal(0)


def moved_inward(body: Mapping[str, Any], chance: Random) -> tuple[str, dict[str, Any]] | None:
    """Return the lot with one reading nearer to the middle of its limits, or farther from its only one, and its id."""
    readings = body["readings"]
    held = {"hardness_core"} if "hardness_surface" in readings else set()
    ids = [id for id in readings if _is_measured(id) and id not in held]
    if not ids:
        return None
    id = chance.choice(sorted(ids))
    column = columns_of(body)[id]
    scale, low, high = limits_of(id, body)
    if column.get("unit") == "HRC":
        scale, low, high = "HRC", Decimal(22), Decimal(32)
    step = step_of(scale, column.get("unit", scale))
    at = chance.randrange(len(column["values"]))
    value = column["values"][at]
    if value is None:
        return None
    target = (low + high) / 2 * step if low is not None and high is not None else value * (2 if high is None else 0)
    share = chance.choice((Decimal("1e-9"), Decimal("0.01"), Decimal("0.3"), Decimal(1)))
    column["values"] = [*column["values"]]
    column["values"][at] = _digits(value + (target - value) * share, 15)
    return id, {**body, "readings": {**readings, id: column}}


def columns_of(body: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """Return the columns of a lot, each as an object of its own."""
    return {id: dict(one) if isinstance(one, dict) else {"values": one} for id, one in body["readings"].items()}


def with_pieces_in_another_order(
    body: Mapping[str, Any], chance: Random
) -> tuple[dict[str, Any], dict[str, list[int]]]:
    """Return the lot with its pieces numbered otherwise, and for each column the old number of each new one."""
    found, old = columns_of(body), {}
    orders: dict[bool, list[int]] = {}
    for id, column in found.items():
        destructive = id in M10X60_8_8 and M10X60_8_8[id].destructive
        count = _length(body, destructive)
        if destructive not in orders:
            orders[destructive] = [*chance.sample(range(count), count), *range(count, 10)]
        order = old[id] = orders[destructive]
        if "pieces" in column:
            rows = chance.sample(range(len(column["values"])), len(column["values"]))
            column["pieces"] = [order.index(column["pieces"][at]) for at in rows]
        else:
            rows = order[: len(column["values"])]
        column["values"] = [column["values"][at] for at in rows]
    return {**body, "readings": found}, old


def _length(body: Mapping[str, Any], destructive: bool) -> int:
    """Return how many pieces the columns without named pieces have."""
    lengths = [
        len(one["values"])
        for id, one in columns_of(body).items()
        if "pieces" not in one and (id in M10X60_8_8 and M10X60_8_8[id].destructive) is destructive
    ]
    return max(lengths, default=0)


def in_other_units(body: Mapping[str, Any], chance: Random) -> dict[str, Any]:
    """Return the lot with readings and uncertainties written to 15 digits in other units of the same kind."""
    found = columns_of(body)
    for id, column in found.items():
        if not _is_measured(id):
            continue
        scale = column.get("unit", limits_of(id, body)[0])
        unit = chance.choice(next((known for known in _UNITS.values() if scale in known), (scale,)))
        step = step_of(scale, unit)
        column["unit"] = unit
        column["values"] = [None if value is None else _digits(value * step, 15) for value in column["values"]]
        if "expanded_uncertainty" in column:
            column["expanded_uncertainty"] = _digits(column["expanded_uncertainty"] * step, 15)
    return {**body, "readings": found}
