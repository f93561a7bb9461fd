"""Questions about coatings of threads: thickness, room, loads, pairs, hydrogen embrittlement."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from boltwright_server.coating import check_mating, coating_limits, hot_dip_galvanized, pairings
from boltwright_server.coating.embrittlement import embrittlement, embrittlement_of_inch, needs_measures
from boltwright_server.coating.room import SHARES, length_group, room
from boltwright_server.designations import parse_coating, parse_product, parse_thread
from boltwright_server.mechanical import mechanical_minimums
from boltwright_server.quantities import Contradiction
from boltwright_server.quantities.rounding import significant
from boltwright_server.standards import standard
from boltwright_server.threads import MetricSize, ToleranceClass, UnifiedClass, limits, sizes

from ..check import Cells, Check
from ..comparison import NO_VALUE, Answer, Rounded, exception_holds

#: Nominal thicknesses in um, ISO 4042:1999, Table 1.
_NOMINAL = (3, 5, 8, 10, 12, 15, 20, 25, 30)
_SHARES = {"local": 4, "length_up_to_5_d": 4, "length_up_to_10_d": 5, "length_up_to_15_d": 6}
#: As,nom of the full thread in mm2, ISO 898-2:2012.
_FULL_AREA = {"M8": Decimal("36.6"), "M10": Decimal("58.0")}


def coating_thickness(row: Cells, check: Check) -> Answer:
    """Least local thickness, least and greatest batch average."""
    thickness = parse_coating(row["coating"]).thickness
    average = thickness["batch_average"]
    return {
        "local_min": thickness["local"].min,
        "batch_average_min": average.min,
        "batch_average_max": average.max,
    }


def largest_nominal_thickness(row: Cells, check: Check) -> Answer:
    """The printed thickness, the deviation of ISO 965-1 behind it, and whether the rule gives the same."""
    size, position = _any_size(Decimal(row["pitch"])), row["position"]
    grade = 4 if position.isupper() or Decimal(row["pitch"]) < Decimal("0.35") else 6
    found = room(size, ToleranceClass(grade, position, grade, position))
    largest, deviation = found.nominal[row["length_group"]].max, found.deviation.max
    assert largest is not None
    assert deviation is not None
    share = _SHARES[row["length_group"]]
    rule = max((t for t in _NOMINAL if share * t <= abs(deviation)), default=None)
    return {"largest": largest, "deviation": deviation, "exception": exception_holds(row, rule == largest)}


def _any_size(pitch: Decimal) -> MetricSize:
    return next(size for size in sizes() if size.pitch == pitch and _has_tolerances(size))


def _has_tolerances(size: MetricSize) -> bool:
    return standard("iso_965_1_2013").table("table_4").find_in_band(size.d, size.pitch) is not None


def deviation_needed(row: Cells, check: Check) -> Answer:
    """What a nominal thickness takes of the pitch diameter."""
    return {"deviation": SHARES[row["length_group"]] * Decimal(row["nominal"])}


def worked_example(row: Cells, check: Check) -> Answer:
    """A quarter of the deviation, the verdict, and the pitch diameter of the greatest coated thread."""
    thread, coating = parse_thread(row["designation"]), parse_coating(row["coating"])
    tolerance = thread.classes[0]
    assert isinstance(thread.size, MetricSize)
    assert isinstance(tolerance, ToleranceClass)
    found = coating_limits(thread.size, tolerance, coating, 5 * thread.size.d)
    assert found.fit is not None
    greatest = limits(thread.size, tolerance).limits["pitch_diameter"].max
    assert greatest is not None
    after = found.states[1]
    boundary = after.limits["pitch_diameter"]
    assert (boundary.max if tolerance.member == "external" else boundary.min) == boundary.nominal
    return {
        "exact_quarter": found.room.exact["local"].max,
        "fits": "yes" if found.fit.fits else "no",
        "d2_max_coated": greatest + SHARES["local"] * coating.planned / 1000,
        "go": after.go,
        "not_go": after.not_go,
    }


def length_group_of(row: Cells, check: Check) -> Answer:
    """The length group of a part for the batch average."""
    size = parse_thread(row["thread"]).size
    assert isinstance(size, MetricSize)
    return {"group": length_group(size, Decimal(row["length"]))}


def coating_code(row: Cells, check: Check) -> Answer:
    """What a code stands for."""
    coating = parse_coating(row["code"])
    assert coating.basis.checked == "memory"
    return {"nominal": coating.planned, "metal": coating.metal}


def flake_thickness(row: Cells, check: Check) -> Answer:
    """Reference thickness of a zinc flake coating."""
    coating = parse_coating(row["coating"])
    assert (coating.standard, coating.edition) == (check.standard, check.edition)
    return {"thickness": coating.thickness["reference"].nominal}


def hydrogen_embrittlement(row: Cells, check: Check) -> Answer:
    """Group by the specified maximum hardness of a property class."""
    size = parse_thread(row["thread"]).size
    assert isinstance(size, MetricSize)
    found = coating_limits(
        size, ToleranceClass.parse("6g"), parse_coating("Fe/Zn5"), None, row["property_class"]
    ).embrittlement
    assert found is not None
    assert (found.caution is None) == (found.group == "A")
    return {"specified_maximum": found.specified_maximum_hardness, "group": found.group}


def stress_area(row: Cells, check: Check) -> Answer:
    """Stress area of the undersize thread, from the minor diameter for stress; no rounded diameter enters."""
    return {"As": Rounded(_area_6az(row["size"]))}


def _area_6az(name: str) -> Fraction:
    size = parse_thread(name).size
    found = limits(size, ToleranceClass.parse("6az"))
    es = found.tolerances["fundamental_deviation"].max
    assert es is not None
    diameter = Fraction(size.d) - Fraction(abs(es)) / 1000 - Fraction("0.9381942") * Fraction(size.pitch)
    return Fraction("3.14159265358979") / 4 * diameter * diameter


def reduced_loads(row: Cells, check: Check) -> Answer:
    """The load of the annex, and area times stress to three significant digits."""
    thread = parse_thread(row["designation"])
    tolerance = thread.classes[0]
    assert isinstance(thread.size, MetricSize)
    assert isinstance(tolerance, ToleranceClass)
    found = coating_limits(thread.size, tolerance, hot_dip_galvanized(), None, row["property_class"])
    load = found.reduced_loads[row["property_class"]][row["load"]]
    by_rule = _load_by_rule(thread.size, row)
    assert (load.basis.checked in ("conflict", "one reproduction")) == (row["exception"] != NO_VALUE)
    return {"value": load.min, "by_rule": by_rule, "exception": exception_holds(row, by_rule == load.min)}


def _load_by_rule(size: MetricSize, row: Cells) -> Decimal:
    name = row["property_class"]
    if "." not in name:
        stress = standard("iso_10684_2004").table("nut_stress").rows[(size.designation,)].number(name)
        return significant(_FULL_AREA[size.designation] * stress, 3)
    properties = mechanical_minimums(size, name).properties
    stress_of = properties["tensile_strength" if row["load"] == "tensile_load" else "proof_stress"].min
    assert stress_of is not None
    area = significant(_decimal(_area_6az(size.designation)), 3)
    return significant(area * stress_of, 3)


def _decimal(number: Fraction) -> Decimal:
    return Decimal(number.numerator) / number.denominator


def pairing(row: Cells, check: Check) -> Answer:
    """Whether two classes of galvanized threads may be mated; the pair that strips is refused outright."""
    external, internal = ToleranceClass.parse(row["external"]), ToleranceClass.parse(row["internal"])
    found = next(one for one in pairings(external) if one.internal == internal.pitch_position)
    assert found == next(one for one in pairings(internal) if one.external == external.pitch_position)
    try:
        check_mating(external, internal)
        refused = False
    except Contradiction:
        refused = True
    assert refused == (row["reason"] == "strips")
    return {"may_mate": "yes" if found.may_mate else "no"}


def marking(row: Cells, check: Check) -> Answer:
    """Which tolerance class a mark behind the property class stands for."""
    return {"tolerance_class": parse_product(row["written"]).tolerance_class}


def hot_dip_states(row: Cells, check: Check) -> Answer:
    """The last state of a galvanized thread, its gauges and the pitch diameter that it must not cross."""
    thread = parse_thread(row["designation"])
    found = coating_limits(thread.size, thread.classes[0], hot_dip_galvanized())
    last, external = found.states[-1], thread.external is not None
    boundary = last.limits.get("pitch_diameter")
    side = None if boundary is None else boundary.max if external else boundary.min
    return {
        "last_state": last.state,
        "states": len(found.states),
        "go": last.go,
        "not_go": last.not_go,
        "d2_boundary": side,
    }


def inch_coating_room(row: Cells, check: Check) -> Answer:
    """Allowance and largest thickness of a class, and the gauges of the coated thread."""
    thread = parse_thread(row["designation"])
    found = coating_limits(thread.size, thread.classes[0])
    after, allowance = found.states[1], found.room.deviation.max
    assert allowance is not None
    own, basic = (limits(thread.size, UnifiedClass.parse(name)) for name in (row["designation"][-2:], "3A"))
    for id, one in after.limits.items():
        assert one.max == basic.limits[id].max, id
        assert own.limits[id].max == one.max + allowance
    return {
        "allowance": -allowance,
        "thickness": found.room.exact["local"].max,
        "go": after.go,
        "not_go": after.not_go,
    }


def inch_embrittlement(row: Cells, check: Check) -> Answer:
    """Whether a grade is at risk by its specified maximum hardness."""
    size = parse_thread(row["thread"]).size
    found = coating_limits(size, UnifiedClass.parse("2A"), parse_coating("Fe/Zn5"), None, row["grade"]).embrittlement
    assert found is not None
    assert (found.caution is None) == (found.group == "not at risk")
    return {"specified_maximum": found.specified_maximum_hardness, "group": found.group}


def embrittlement_group(row: Cells, check: Check) -> Answer:
    """Group of a specified maximum hardness in HV, and whether electroplating it needs a measure."""
    hardness = Decimal(row["hardness"])
    found = embrittlement(parse_coating("Fe/Zn5"), hardness)
    assert (found.caution is not None) == needs_measures(hardness)
    return {"group": found.group, "measure": "yes" if needs_measures(hardness) else "no"}


def embrittlement_of_1999(row: Cells, check: Check) -> Answer:
    """What the older edition asks for at a specified maximum hardness in HV."""
    told = embrittlement(parse_coating("A2F"), Decimal(row["hardness"])).notices
    asked = told[0].partition("asks for ")[2].split(" and ") if told else []
    return {"asked": " and ".join(one.rpartition(" above")[0] for one in asked) or "none"}


def inch_embrittlement_group(row: Cells, check: Check) -> Answer:
    """Whether a specified maximum hardness in HRC puts a part at risk."""
    return {"group": embrittlement_of_inch(parse_coating("Fe/Zn5"), Decimal(row["hardness"])).group}


def hot_dip_scope(row: Cells, check: Check) -> Answer:
    """Whether galvanizing of a thread in a class lies within the standard."""
    thread, property_class = parse_thread(row["designation"]), row["property_class"]
    told = coating_limits(thread.size, thread.classes[0], parse_coating("tZn"), None, property_class).notices
    return {"covered": "no" if any(f"{check.standard}:{check.edition} covers" in one for one in told) else "yes"}


QUESTIONS = {
    "embrittlement_group": embrittlement_group,
    "embrittlement_of_1999": embrittlement_of_1999,
    "inch_embrittlement_group": inch_embrittlement_group,
    "hot_dip_scope": hot_dip_scope,
    "inch_coating_room": inch_coating_room,
    "inch_embrittlement": inch_embrittlement,
    "coating_thickness": coating_thickness,
    "largest_nominal_thickness": largest_nominal_thickness,
    "coating_deviation_needed": deviation_needed,
    "coating_worked_example": worked_example,
    "coating_code": coating_code,
    "coating_length_group": length_group_of,
    "flake_thickness": flake_thickness,
    "hydrogen_embrittlement": hydrogen_embrittlement,
    "hot_dip_stress_area": stress_area,
    "hot_dip_reduced_loads": reduced_loads,
    "hot_dip_pairing": pairing,
    "hot_dip_marking": marking,
    "hot_dip_states": hot_dip_states,
}
