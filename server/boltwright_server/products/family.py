"""What the standards of one family have in common: thread, shape of the head, what a symbol means."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..threads import Member

#: Symbol in the columns of a table -> id in an answer. Other columns (key, pitch, words) are no dimensions.
DIMENSION_IDS = {
    "s": "width_across_flats",
    "e": "width_across_corners",
    "k": "head_height",
    "kw": "wrenching_height",
    "dk": "head_diameter",
    "dkt": "head_diameter_theoretical",
    "dw": "washer_face_diameter",
    "c": "washer_face_thickness",
    "da": "bearing_face_inner_diameter",
    "dc": "flange_diameter",
    "ds": "body_diameter",
    "lf": "transition_length",
    "r": "fillet_radius",
    "a": "unthreaded_length",
    "m": "nut_height",
    "mw": "nut_wrenching_height",
    "h": "nut_overall_height",
}
_SOCKET = {
    "s": "socket_width_across_flats",
    "e": "socket_width_across_corners",
    "t": "socket_depth",
    "w": "socket_bottom_thickness",
    "v": "head_edge_rounding",
}
_FLANGE = {
    "c": "flange_thickness",
    "dv": "undercut_diameter",
    "v": "undercut_depth",
    "r1": "fillet_radius",
    "r2": "radius_r2",
    "r3": "radius_r3",
    "r4": "radius_r4",
}
_POINT = {"dp": "point_diameter", "z": "point_length", "dz": "cup_diameter", "dt": "cone_tip_diameter"}
_SCREW = {"f": "raised_head_height", "rf": "head_radius", "x": "thread_runout"}
_RECESS = {
    **_SCREW,
    "mH": "recess_width_h",
    "penH": "penetration_depth_h",
    "mZ": "recess_width_z",
    "penZ": "penetration_depth_z",
}
_SQUARE_NECK = {
    "f": "square_neck_height",
    "v": "square_neck_width",
    "r1": "head_radius",
    "r2": "fillet_radius",
    "r3": "radius_r3",
}
_WASHER = {
    "d1": "inner_diameter",
    "d2": "outer_diameter",
    "h": "thickness",
    "e": "outer_chamfer",
    "c": "inner_chamfer",
}
_INCH = {"F": "width_across_flats", "G": "width_across_corners"}
_INCH_BOLT = {
    **_INCH,
    "E": "body_diameter",
    "H": "head_height",
    "J": "wrenching_height",
    "Y": "incomplete_thread_length",
    "runout": "bearing_face_runout",
}
_INCH_SOCKET = {
    "D": "body_diameter",
    "A": "head_diameter",
    "H": "head_height",
    "J": "socket_width_across_flats",
    "T": "socket_depth",
}
#: A column may end in a word of its own (`dk_max_knurled`): the same dimension of another form of the product.
VARIANT_IDS = {
    ("dk", "knurled"): "head_diameter_knurled",
    ("da", "U"): "bearing_face_inner_diameter_type_u",
}


@dataclass(frozen=True, slots=True)
class Family:
    """A family of product standards. `head` is the shape that gives mass and drawing; a standard may name its own.

    `member` is None where the product has no thread. `hardness_only` products have no load: a hardness class decides.
    """

    item: str
    member: Member | None
    head: str
    has_length: bool = False
    hardness_only: bool = False
    inch: bool = False
    #: Row of the marking tables of ISO 898 and ISO 3506.
    marking_kind: str = "hexagon"
    ids: Mapping[str, str] = field(default_factory=dict)

    def dimension_ids(self) -> dict[str, str]:
        """Return symbol -> id for the tables of this family."""
        return {**DIMENSION_IDS, **self.ids}


#: The family words that a `standard.toml` of a product may use.
FAMILIES: dict[str, Family] = {
    "hexagon_bolt": Family("bolt or screw", "external", "hexagon", has_length=True),
    "hexagon_flange_bolt": Family(
        "bolt or screw", "external", "hexagon with flange", has_length=True, marking_kind="flange", ids=_FLANGE
    ),
    "socket_screw": Family(
        "bolt or screw", "external", "cylinder", has_length=True, marking_kind="socket", ids=_SOCKET
    ),
    "slotted_screw": Family(
        "bolt or screw",
        "external",
        "slotted",
        has_length=True,
        marking_kind="slotted",
        ids={**_SCREW, "n": "slot_width", "t": "slot_depth", "w": "material_below_slot"},
    ),
    "recessed_screw": Family(
        "bolt or screw", "external", "cross recessed", has_length=True, marking_kind="slotted", ids=_RECESS
    ),
    "hexalobular_screw": Family(
        "bolt or screw",
        "external",
        "hexalobular",
        has_length=True,
        marking_kind="hexalobular",
        ids={**_SCREW, "t": "socket_depth", "w": "socket_bottom_thickness", "A": "hexalobular_diameter"},
    ),
    "square_neck_bolt": Family(
        "bolt or screw", "external", "mushroom", has_length=True, marking_kind="cup_square", ids=_SQUARE_NECK
    ),
    "set_screw": Family(
        "set screw", "external", "none", has_length=True, hardness_only=True, ids={**_SOCKET, **_POINT}
    ),
    "threaded_rod": Family("threaded rod", "external", "none", has_length=True, marking_kind="stud"),
    "inch_threaded_rod": Family("threaded rod", "external", "none", has_length=True, inch=True, marking_kind="stud"),
    "hexagon_nut": Family("nut", "internal", "hexagon"),
    "hexagon_flange_nut": Family(
        "nut", "internal", "hexagon with flange", ids={"c": "flange_thickness", "r": "flange_fillet_radius"}
    ),
    "prevailing_torque_nut": Family("nut", "internal", "hexagon with insert"),
    "prevailing_torque_flange_nut": Family(
        "nut",
        "internal",
        "hexagon with insert and flange",
        ids={"c": "flange_thickness", "r": "flange_fillet_radius"},
    ),
    "cap_nut": Family("nut", "internal", "hexagon with dome", ids={"dk": "dome_diameter", "t": "thread_depth"}),
    "castle_nut": Family(
        "nut",
        "internal",
        "hexagon with slots",
        ids={"w": "height_below_slots", "n": "slot_width", "de": "crown_diameter"},
    ),
    "collar_nut": Family(
        "nut", "internal", "hexagon with collar", ids={"a": "collar_thickness", "d1": "collar_diameter"}
    ),
    "square_nut": Family("nut", "internal", "square"),
    "plain_washer": Family("washer", None, "ring", hardness_only=True, ids=_WASHER),
    "inch_hexagon_bolt": Family("bolt or screw", "external", "hexagon", has_length=True, inch=True, ids=_INCH_BOLT),
    "inch_hexagon_nut": Family("nut", "internal", "hexagon", inch=True, ids={**_INCH, "H": "nut_height"}),
    "inch_socket_screw": Family(
        "bolt or screw", "external", "cylinder", has_length=True, inch=True, marking_kind="socket", ids=_INCH_SOCKET
    ),
}
