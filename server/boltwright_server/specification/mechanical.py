"""The mechanical characteristics of a bolt or nut in its property class."""

from __future__ import annotations

from decimal import Decimal

from ..mechanical import MechanicalMinimums
from ..mechanical.iso_898_1_tests import tensile_test_possible
from ..quantities import Bounds
from ..standards import standard
from ..threads import MetricSize
from .characteristic import Characteristic, Kind, category, measured, traits

_SCALES = {
    "hardness_vickers": "HV",
    "hardness_brinell": "HBW",
    "hardness_rockwell_b": "HRB",
    "hardness_rockwell_c": "HRC",
}
_IMPACT_FROM_D, _IMPACT_FROM_L = 16, 55


def bolt_characteristics(
    size: MetricSize,
    minimums: MechanicalMinimums,
    length: Decimal,
    thread_length: Decimal | None,
    fully_threaded: bool,
) -> dict[str, Characteristic]:
    """Return the mechanical characteristics of a bolt; lengths in mm.

    ISO 898-1:2013, clauses 7 and 9. A bolt too short to be pulled has no tensile characteristic: hardness decides.
    """
    found = hardness_characteristics(minimums)
    possible = tensile_test_possible(size, length, length if thread_length is None else thread_length)
    if possible and "tensile_load" in minimums.loads:
        found |= _tensile(minimums, fully_threaded)
    if "elongation" in minimums.properties:
        found["elongation"] = measured("elongation", minimums.properties["elongation"])
    if "impact_energy" in minimums.properties and size.d >= _IMPACT_FROM_D and length >= _IMPACT_FROM_L:
        found["impact_energy"] = measured("impact_energy", minimums.properties["impact_energy"])
    return found | _decarburization(minimums)


def nut_characteristics(minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Return the mechanical characteristics of a nut.

    ISO 898-2:2012, clause 9.1 (proof load, as an attribute: held, and the nut removable by hand) and hardness.
    """
    found = hardness_characteristics(minimums)
    proof = minimums.loads["proof_load"]
    trait = traits()["nut_proof_load"]
    found["nut_proof_load"] = Characteristic(
        "nut_proof_load",
        trait.kind,
        trait.group,
        trait.instrument,
        trait.destructive,
        trait.mandatory,
        proof.basis,
        proof,
        (True,),
    )
    return found


def hardness_characteristics(minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Return core and surface hardness, each scale with its own limits."""
    scales = {scale: minimums.properties[id] for id, scale in _SCALES.items() if id in minimums.properties}
    found = {}
    if scales:
        found["hardness_core"] = _hardness("hardness_core", next(iter(scales.values())), scales, minimums, None)
    surface = minimums.properties.get("surface_hardness_vickers")
    if surface is not None:
        found["hardness_surface"] = _hardness(
            "hardness_surface", surface, {"HV": surface}, minimums, minimums.surface_over_core
        )
    return found


def _hardness(
    id: str,
    bounds: Bounds,
    scales: dict[str, Bounds],
    minimums: MechanicalMinimums,
    over_core: Bounds | None,
) -> Characteristic:
    trait = traits()[id]
    kind: Kind = "measured"
    return Characteristic(
        id,
        kind,
        trait.group,
        trait.instrument,
        trait.destructive,
        trait.mandatory,
        bounds.basis,
        bounds,
        scales=scales,
        disputed=minimums.disputed if id == "hardness_core" else {},
        over_core=over_core,
    )


def _tensile(minimums: MechanicalMinimums, fully_threaded: bool) -> dict[str, Characteristic]:
    """Load with its fracture location, strength, and the set after the proof load; clauses 9.1, 9.2 and 9.6."""
    facts = standard("iso_898_1_2013")
    fracture = facts.basis("clause 9.1, fracture", "one reproduction", "tabulated")
    set_row = facts.table("test_parameters").find("proof_permanent_set_max")
    found = {
        "tensile_load": measured("tensile_load", minimums.loads["tensile_load"]),
        "fracture_location": category(
            "fracture_location", fracture, ("thread",) if fully_threaded else ("thread", "shank")
        ),
        "tensile_strength": measured("tensile_strength", minimums.properties["tensile_strength"]),
    }
    if set_row is not None:
        most = set_row.number("value")
        found["proof_load_set"] = measured(
            "proof_load_set", Bounds("set", -most, most, "um", set_row.basis("value"), Decimal(0))
        )
    return found


def _decarburization(minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Depth G of complete decarburization in the thread; Table 3."""
    row = standard("iso_898_1_2013").table("table_3").find("G_max")
    name = minimums.property_class.removesuffix("U")
    column = "8.8_d_le_16" if name == "8.8" else name
    depth = None if row is None or column not in row.cells else row.get(column)
    if row is None or depth is None:
        return {}
    return {
        "decarburization_depth": measured("decarburization_depth", Bounds("G", None, depth, "mm", row.basis(column)))
    }
