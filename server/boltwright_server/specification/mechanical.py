"""The mechanical characteristics of a bolt or nut in its property class or grade."""

from __future__ import annotations

from dataclasses import replace

from ..mechanical import MechanicalMinimums, PartShape, Test
from ..quantities import Bounds
from .characteristic import Characteristic, Guidance, Kind, attribute, category, measured, traits

_SCALES = {
    "hardness_vickers": "HV",
    "hardness_brinell": "HBW",
    "hardness_rockwell_b": "HRB",
    "hardness_rockwell_c": "HRC",
}
_SURFACE = {"surface_hardness_vickers": "HV", "surface_hardness_rockwell_30n": "HR30N"}
_TENSILE_TESTS = ("wedge_tensile", "tensile")
#: Optional characteristics: property id -> the tests that show it.
_BY_TEST = {
    "yield_strength": ("machined_tensile", "yield"),
    "elongation": ("machined_tensile", "full_size_elongation", "elongation"),
    "reduction_of_area": ("machined_tensile",),
    "impact_energy": ("impact",),
    "decarburization_depth": ("decarburization",),
    "non_decarburized_height": ("decarburization",),
}


def bolt_characteristics(minimums: MechanicalMinimums, shape: PartShape) -> dict[str, Characteristic]:
    """Return the mechanical characteristics of a bolt, as the test programme of its shape says.

    A bolt too short to be pulled has no tensile characteristic: hardness decides, or the breaking torque where the
    class has no hardness.
    """
    found = hardness_characteristics(minimums)
    tensile = _applying(minimums, _TENSILE_TESTS)
    if tensile is not None and "tensile_load" in minimums.loads:
        found |= _tensile(minimums, tensile, shape.fully_threaded)
    for id, tests in _BY_TEST.items():
        if id in minimums.properties and _applying(minimums, tests) is not None:
            found[id] = measured(id, minimums.properties[id])
    found |= _torsion(minimums, decides=tensile is None and "hardness_core" not in found)
    return found | _routine(minimums)


def _applying(minimums: MechanicalMinimums, ids: tuple[str, ...]) -> Test | None:
    return next((test for id in ids if (test := minimums.test(id)) is not None and test.applies), None)


def nut_characteristics(minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Return the mechanical characteristics of a nut.

    Proof load as an attribute (held, and the nut removable by hand) and hardness.
    """
    found = _guided(hardness_characteristics(minimums), minimums)
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


def _guided(found: dict[str, Characteristic], minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Let the minimum hardness guide only, where the standard lets the proof load decide on it."""
    if minimums.hardness_guides is None or "hardness_core" not in found:
        return found
    guidance = Guidance("nut_proof_load", minimums.hardness_guides)
    return found | {"hardness_core": replace(found["hardness_core"], guidance=guidance)}


def hardness_characteristics(minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Return core and surface hardness, each scale with its own limits."""
    scales = {scale: minimums.properties[id] for id, scale in _SCALES.items() if id in minimums.properties}
    found = {}
    if scales:
        found["hardness_core"] = _hardness("hardness_core", next(iter(scales.values())), scales, minimums, None)
    surface = {scale: minimums.properties[id] for id, scale in _SURFACE.items() if id in minimums.properties}
    if surface:
        found["hardness_surface"] = _hardness(
            "hardness_surface", next(iter(surface.values())), surface, minimums, minimums.surface_over_core
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


def _tensile(minimums: MechanicalMinimums, tensile: Test, fully_threaded: bool) -> dict[str, Characteristic]:
    """Load with its fracture location, strength, and the set after the proof load."""
    places = ("thread",) if fully_threaded else ("thread", "shank")
    found = {
        "tensile_load": measured("tensile_load", minimums.loads["tensile_load"]),
        "fracture_location": category("fracture_location", tensile.basis, places),
        "tensile_strength": measured("tensile_strength", minimums.properties["tensile_strength"]),
    }
    proof = _applying(minimums, ("proof_load",))
    allowed = None if proof is None else proof.settings.get("permanent_set")
    if allowed is not None:
        bounds = Bounds("set", allowed.min, allowed.max, allowed.unit, allowed.basis)
        found["proof_load_set"] = measured("proof_load_set", bounds)
    return found


def _torsion(minimums: MechanicalMinimums, decides: bool) -> dict[str, Characteristic]:
    torque = minimums.loads.get("breaking_torque")
    if torque is None or _applying(minimums, ("torsion",)) is None:
        return {}
    return {"breaking_torque": measured("breaking_torque", torque, mandatory=decides)}


def _routine(minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Head soundness and retempering: judged where readings are sent, never missing."""
    found = {}
    soundness = _applying(minimums, ("head_soundness",))
    if soundness is not None:
        found["head_soundness"] = attribute("head_soundness", soundness.basis)
    retempering = _applying(minimums, ("retempering",))
    drop = None if retempering is None else retempering.settings.get("hardness_drop")
    if drop is not None:
        found["retempering_drop"] = measured("retempering_drop", Bounds("drop", None, drop.max, drop.unit, drop.basis))
    return found
