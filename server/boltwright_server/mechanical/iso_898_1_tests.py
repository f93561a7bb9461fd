"""What the tests of a bolt are set to by its class and size: loads, wedge, block, temperatures, heights.

ISO 898-1:2013, clause 9. Much of it is recalled and says so in each basis.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from ..quantities import Bounds
from ..standards import rules
from ..threads import MetricSize
from .answer import PartShape, Setting

#: test id -> the load that it is taken to
_LOADS = {"wedge_tensile": "tensile_load", "tensile": "tensile_load", "proof_load": "proof_load"}


def class_settings(
    size: MetricSize,
    code: str,
    properties: Mapping[str, Bounds],
    loads: Mapping[str, Bounds],
    over_core: Bounds | None,
    shape: PartShape | None,
) -> dict[str, dict[str, Setting]]:
    """Return the settings that depend on class and size, by test."""
    found = {test: {"load": _from(loads[load])} for test, load in _LOADS.items() if load in loads}
    found.setdefault("wedge_tensile", {}).update(_wedge(size, code, shape))
    found["head_soundness"] = _block(size, code)
    found["retempering"] = _retempering(properties)
    found["decarburization"] = {
        name: _from(properties[id])
        for name, id in (("height_E", "non_decarburized_height"), ("depth_G", "decarburization_depth"))
        if id in properties
    }
    for test, setting, limits in (
        ("torsion", "breaking_torque", loads.get("breaking_torque")),
        ("impact", "energy", properties.get("impact_energy")),
        ("hardness_surface", "rise_over_core", over_core),
        ("hardness_core", "hardness", properties.get("hardness_vickers")),
    ):
        if limits is not None:
            found[test] = {setting: _from(limits)}
    cap = properties.get("surface_hardness_vickers")
    if cap is not None and cap.max is not None:
        found["hardness_surface"]["hardness"] = _from(cap)
    return found


def _from(limits: Bounds) -> Setting:
    return Setting(limits.min, limits.max, limits.unit, limits.basis)


def has_long_shank(size: MetricSize, shape: PartShape) -> bool | None:
    """Say whether the unthreaded shank is at least 2 d long; None where the lengths are not known.

    ISO 898-1:2013, clause 9.1.
    """
    if shape.fully_threaded:
        return False
    if shape.length is None or shape.thread_length is None:
        return None
    return shape.length - shape.thread_length >= 2 * size.d


def _wedge(size: MetricSize, code: str, shape: PartShape | None) -> dict[str, Setting]:
    """Wedge angle and hole; clause 9.1, tables recalled. No angle where the shank length is not known."""
    facts = rules("ISO 898-1")
    found = {}
    long_shank = None if shape is None else has_long_shank(size, shape)
    if long_shank is not None:
        row = facts.table("wedge_angle").find("ls_ge_2d" if long_shank else "ls_lt_2d_or_full_thread", code)
        if row is not None:
            column = "angle_d_le_20" if size.d <= 20 else "angle_d_gt_20"
            angle = row.number(column)
            found["wedge_angle"] = Setting(angle, angle, "deg", row.basis(column))
    return found | _hole(size, "wedge_hole")


def _hole(size: MetricSize, name: str) -> dict[str, Setting]:
    row = rules("ISO 898-1").table("wedge_hole").find(f"M{size.d}")
    if row is None:
        return {}
    return {name: Setting(row.number("dh_min"), row.number("dh_max"), "mm", row.basis("dh_min"))}


def _block(size: MetricSize, code: str) -> dict[str, Setting]:
    row = rules("ISO 898-1").table("head_soundness").find(code)
    if row is None:
        return {}
    beta = row.number("beta")
    return {"block_angle": Setting(beta, beta, "deg", row.basis("beta")), **_hole(size, "block_hole")}


def _retempering(properties: Mapping[str, Bounds]) -> dict[str, Setting]:
    """30 min at 10 Cel below the minimum tempering temperature of the class; clause 9.12."""
    tempering = properties.get("tempering_temperature")
    if tempering is None or tempering.min is None:
        return {}
    basis = tempering.basis.computed(
        "clause 9.12", "one reproduction", note="minimum tempering temperature less 10 Cel"
    )
    at = tempering.min - Decimal(10)
    return {"temperature": Setting(at, at, "Cel", basis)}
