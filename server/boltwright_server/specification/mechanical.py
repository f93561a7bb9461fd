"""The mechanical characteristics of a bolt or nut in its property class or grade."""

from __future__ import annotations

from dataclasses import replace

from ..mechanical import MechanicalMinimums, PartShape, Test
from ..quantities import Bounds
from .characteristic import (
    Characteristic,
    Guidance,
    attribute,
    category,
    hardness,
    has_role,
    measured,
    the_one,
    traits,
)

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
    found |= _torsion(minimums, decides=tensile is None and the_one("core") not in found)
    return found | _routine(minimums)


def _applying(minimums: MechanicalMinimums, ids: tuple[str, ...]) -> Test | None:
    return next((test for id in ids if (test := minimums.test(id)) is not None and test.applies), None)


def nut_characteristics(minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Return the mechanical characteristics of a nut.

    Proof load as an attribute (held, and the nut removable by hand) and hardness.
    """
    found = _guided(hardness_characteristics(minimums), minimums)
    proof = minimums.loads["proof_load"]
    found["nut_proof_load"] = attribute("nut_proof_load", proof.basis, bounds=proof)
    return found


def _guided(found: dict[str, Characteristic], minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Let the minimum hardness guide only, where the standard lets the proof load decide on it."""
    core = the_one("core")
    if minimums.hardness_guides is None or core not in found:
        return found
    guidance = Guidance("nut_proof_load", minimums.hardness_guides)
    return found | {core: replace(found[core], guidance=guidance)}


def hardness_characteristics(minimums: MechanicalMinimums) -> dict[str, Characteristic]:
    """Return each hardness that the class limits, each scale with its own limits."""
    found = {}
    for id, trait in traits().items():
        scales = {
            scale: minimums.properties[name] for scale, name in trait.scales.items() if name in minimums.properties
        }
        if scales:
            found[id] = replace(
                hardness(id, scales),
                disputed=minimums.disputed if has_role(id, "core") else {},
                over_core=minimums.surface_over_core if has_role(id, "over_core") else None,
            )
    return found


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
