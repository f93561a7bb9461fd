"""Questions about strengths, hardness windows and tests of bolts and nuts."""

from __future__ import annotations

from decimal import Decimal

import numpy as np

from boltwright_server.conformance import Column, Judgement, Request, judge
from boltwright_server.conformance.rules import SIMPLE
from boltwright_server.designations import parse_thread
from boltwright_server.mechanical import MechanicalMinimums, PartShape, mechanical_minimums
from boltwright_server.mechanical.iso_898_2 import nut_styles
from boltwright_server.quantities import Bounds, NotStandardised, Refusal
from boltwright_server.standards import standard
from boltwright_server.threads import metric, sizes

from ..check import Cells, Check
from ..comparison import Answer

_PROPERTIES = {
    "A": "elongation",
    "E": "non_decarburized_height",
    "HBW": "hardness_brinell",
    "HRB": "hardness_rockwell_b",
    "HRC": "hardness_rockwell_c",
    "HR30N": "surface_hardness_rockwell_30n",
    "HV": "hardness_vickers",
    "G": "decarburization_depth",
    "KV": "impact_energy",
    "Re": "yield_strength",
    "Rm": "tensile_strength",
    "Sp": "proof_stress",
    "Z": "reduction_of_area",
    "t": "tempering_temperature",
}
_LOADS = {"breaking_torque", "proof_load", "proof_load_overtapped", "tensile_load", "yield_load"}
_LOCATIONS = {"head_to_shank_junction": "head_junction"}


def mechanical(row: Cells, check: Check) -> Answer:
    """One limit of a thread in a property class."""
    size, quantity = parse_thread(row["thread"]).size, row["quantity"]
    structural = quantity.endswith("_structural")
    style = int(row["style"]) if "style" in row else None
    found = mechanical_minimums(
        size, row["property_class"], row["member"], style, form=row.get("form"), structural=structural
    )
    return {"expected": _limit(found, quantity.removesuffix("_structural"))}


def _limit(found: MechanicalMinimums, quantity: str) -> Decimal | None:
    if quantity == "As":
        return found.stress_area.nominal
    load, _, side = quantity.rpartition("_")
    if {quantity, load} & _LOADS:
        bounds = found.loads[quantity if quantity in _LOADS else load]
        return bounds.max if side == "max" else bounds.min
    symbol, _, side = quantity.partition("_")
    bounds = found.properties[_PROPERTIES[symbol]]
    return {"max": bounds.max, "nom": bounds.nominal}.get(side, bounds.min)


def composition(row: Cells, check: Check) -> Answer:
    """Limits of one element of one steel of a class, or its tempering temperature (`element` t)."""
    size = parse_thread(row["thread"]).size
    found = mechanical_minimums(size, row["property_class"], row["member"])
    steel = next(one for one in found.steels if one.name == row["steel"])
    bounds = steel.tempering_temperature if row["element"] == "t" else steel.elements.get(row["element"])
    return {"min": bounds and bounds.min, "max": bounds and bounds.max}


def styles(row: Cells, check: Check) -> Answer:
    """In which styles a nut class exists for a thread."""
    found = nut_styles(metric(parse_thread(row["thread"]).size, "ISO 898-2", "thread"), row["property_class"])
    return {"styles": " ".join(map(str, found)) or None}


def setting(row: Cells, check: Check) -> Answer:
    """One setting of one test of a class at a size, with the shape that the row names."""
    long_shank = row.get("shank") == "long"
    length = Decimal(200) if "shank" in row else None
    thread = length and (Decimal(20) if long_shank else length)
    shape = None if length is None else PartShape(length, thread, fully_threaded=not long_shank)
    size = parse_thread(row["thread"]).size
    test = mechanical_minimums(size, row["property_class"], row.get("member"), shape=shape).test(row["test"])
    found = None if test is None else test.settings.get(row["setting"])
    return {"min": found and found.min, "max": found and found.max}


def hardness_limits(row: Cells, check: Check) -> Answer:
    """The hardness window of a nut class and style in a band of diameters, from every coarse thread of the band."""
    low, high = Decimal(row["D_over"]), Decimal(row["D_up_to"])
    table = standard(check.folder).table("table_6")
    seen = set()
    for D in (low + Decimal("0.01"), high):
        band = table.find_in_band(D, row["property_class"], row["style"])
        seen.add(None if band is None else (band.get("HV_min"), band.get("HV_max")))
    for size in sizes():
        if size.series == "coarse" and low < size.d <= high:
            bounds = _vickers(size.designation, row["property_class"], int(row["style"]))
            seen |= set() if bounds is None else {(bounds.min, bounds.max)}
    assert len(seen) == 1, f"not one window in the band: {seen}"
    only = seen.pop()
    return {"HV_min": only and only[0], "HV_max": only and only[1]}


def nut_hardness(row: Cells, check: Check) -> Answer:
    """The Vickers window of a nut class and style at a size."""
    found = _vickers(row["thread"], row["property_class"], int(row["style"]))
    return {"HV_min": found and found.min, "HV_max": found and found.max}


def _vickers(thread: str, property_class: str, style: int) -> Bounds | None:
    """The window that the engine answers, or None where Table 1 or the load table leaves the size out."""
    try:
        found = mechanical_minimums(parse_thread(thread).size, property_class, "internal", style)
    except NotStandardised:
        return None
    return found.properties["hardness_vickers"]


def surface_hardness(row: Cells, check: Check) -> Answer:
    """The greatest whole surface hardness that the judgement lets pass beside a core of the same piece."""
    surfaces = float(row["core_HV"]) + np.arange(80.0)
    columns = (
        Column("hardness_core", np.full(surfaces.shape, float(row["core_HV"])), "HV"),
        Column("hardness_surface", surfaces, "HV"),
    )
    found = _judge(row["property_class"], *columns).characteristics["hardness_surface"]
    assert found.undecided_count == 0
    return {"surface_HV_max": Decimal(int(surfaces[min(found.nonconforming_pieces) - 1]))}


def proof_set(row: Cells, check: Check) -> Answer:
    """Whether a lengthening after the proof load passes; lengths in mm."""
    set_um = (Decimal(row["length_after"]) - Decimal(row["length_before"])) * 1000
    found = _judge("8.8", Column("proof_load_set", np.array([float(set_um)]), "um"))
    return {"verdict": found.characteristics["proof_load_set"].verdict}


def wedge_fracture(row: Cells, check: Check) -> Answer:
    """The verdict on a bolt that bore a multiple of its load and broke at a place."""
    least = mechanical_minimums(parse_thread("M10").size, "8.8").loads["tensile_load"].min
    assert least is not None
    load = float(least * Decimal(row["load_over_minimum"]))
    found = _judge(
        "8.8",
        Column("tensile_load", np.array([load]), "N"),
        Column("fracture_location", [_LOCATIONS[row["fracture_at"]]]),
    )
    assert found.verdict == "reject"
    return {"verdict": found.characteristics["fracture_location"].verdict}


def _judge(property_class: str, *columns: Column) -> Judgement:
    return judge(Request(f"ISO 4014 - M10x60 - {property_class}", columns, SIMPLE))


def wedge_angle(row: Cells, check: Check) -> Answer:
    """The wedge of the tensile test for a shank of that length; 0 is threaded to the head."""
    length, shank = Decimal(row["length"]), Decimal(row["shank_length"])
    size = parse_thread(row["thread"]).size
    shape = PartShape(length, length - shank, fully_threaded=shank == 0)
    test = mechanical_minimums(size, row["property_class"], shape=shape).test("wedge_tensile")
    return {"angle": test and test.settings["wedge_angle"].min}


def refusal(row: Cells, check: Check) -> Answer:
    """Whether a standard gives a class at a size: the code of the refusal, or that it answers."""
    style = row.get("style", "-")
    try:
        mechanical_minimums(
            parse_thread(row["thread"]).size,
            row["property_class"],
            row["member"],
            None if style == "-" else int(style),
            structural=row.get("structural") == "yes",
        )
    except Refusal as refused:
        return {"answer": refused.code}
    return {"answer": "given"}


def feasibility(row: Cells, check: Check) -> Answer:
    """Whether a test applies to a part of that length and thread length, in mm; dashes: to the thread alone."""
    shape = None
    if row["length"] != "-":
        length, b = Decimal(row["length"]), Decimal(row["b"])
        shape = PartShape(length, b, fully_threaded=length == b, kind=row.get("kind", "hexagon"))
    size = parse_thread(row["thread"]).size
    test = mechanical_minimums(size, row["property_class"], row["member"], shape=shape).test(row["test"])
    return {"applies": "no such test" if test is None else _APPLIES[test.applies]}


def inch_wedge_angle(row: Cells, check: Check) -> Answer:
    """The wedge of the tensile test of an inch grade, lengths in inch; none where the part is not pulled over one."""
    length, shank = Decimal(row["length"]), Decimal(row["shank_length"])
    shape = PartShape(length, length - shank, fully_threaded=shank == 0, kind=row["kind"])
    found = mechanical_minimums(parse_thread(row["thread"]).size, row["property_class"], shape=shape)
    test = found.test("wedge_tensile")
    return {"angle": test.settings["wedge_angle"].min if test is not None and test.applies else None}


def marking(row: Cells, check: Check) -> Answer:
    """The symbols that a part of a kind is marked with in a class, in the order of the answer."""
    shape = PartShape(Decimal(50), Decimal(20), fully_threaded=False, kind=row["kind"])
    shape = None if row["member"] == "internal" else shape
    size = parse_thread(row["thread"]).size
    marks = mechanical_minimums(size, row["property_class"], row["member"], shape=shape).marking
    return {"symbols": " / ".join(mark.symbol for mark in marks) or "none"}


def loads_given(row: Cells, check: Check) -> Answer:
    """Which loads and torques a standard gives for a class at a size."""
    found = mechanical_minimums(parse_thread(row["thread"]).size, row["property_class"], row["member"])
    return {"loads": " ".join(sorted(found.loads)) or "none"}


def treatment(row: Cells, check: Check) -> Answer:
    """The heat treatment that every steel of a class has."""
    found = mechanical_minimums(parse_thread(row["thread"]).size, row["property_class"], row["member"])
    (only,) = {steel.treatment or "none" for steel in found.steels}
    return {"treatment": only}


def nut_load_of_1992(row: Cells, check: Check) -> Answer:
    """The proof load that the edition of 1992 printed for a class and style, as the notice tells it."""
    size = parse_thread(row["thread"]).size
    notices = mechanical_minimums(size, row["property_class"], "internal", int(row["style"])).notices
    told = next((text for text in notices if text.startswith("the edition of 1992")), "- N")
    load = told.split(" N ")[0].split()[-1]
    return {"load": None if told == "- N" else Decimal(load)}


_APPLIES = {True: "yes", False: "no", None: "by length"}

QUESTIONS = {
    "inch_wedge_angle": inch_wedge_angle,
    "nut_load_of_1992": nut_load_of_1992,
    "marking": marking,
    "loads_given": loads_given,
    "treatment": treatment,
    "mechanical_refusal": refusal,
    "test_feasibility": feasibility,
    "mechanical": mechanical,
    "composition": composition,
    "styles": styles,
    "nut_hardness": nut_hardness,
    "setting": setting,
    "hardness_limits": hardness_limits,
    "surface_hardness": surface_hardness,
    "proof_set": proof_set,
    "wedge_angle": wedge_angle,
    "wedge_fracture": wedge_fracture,
}
