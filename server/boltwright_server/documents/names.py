"""What people call the ids of the wire contract."""

from __future__ import annotations

#: Only where the id read aloud is not what the trade says.
_NAMES = {
    "thread_go_gauge": "GO screw gauge passes",
    "thread_not_go_gauge": "NOT GO screw gauge does not enter",
    "thread_go_gauge_after_coating": "GO screw gauge passes after coating",
    "coating_thickness": "Local thickness of the coating",
    "coating_thickness_mean": "Batch average of the coating thickness",
    "hydrogen_embrittlement_measure": "Measure against hydrogen embrittlement on record",
    "hardness_core": "Hardness of the core",
    "hardness_surface": "Hardness of the surface",
    "proof_load_set": "Set after the proof load",
    "nut_proof_load": "Proof load held, nut removable",
    "wrenching_height": "Wrenching height of the head",
    "decarburization_depth": "Depth of complete decarburization",
    "stress_area": "Nominal stress area",
    "hold_time": "Time under load",
}
GROUP_NAMES = {
    "dimension": "Dimensions",
    "thread": "Thread",
    "mechanical": "Mechanical properties",
    "surface": "Surface",
    "marking": "Marking",
}


def name_of(id: str) -> str:
    """Return the name of a characteristic, property or setting, with a capital letter."""
    return _NAMES.get(id) or capital(id.replace("_", " "))


def capital(text: str) -> str:
    """Return the text with a capital letter in front; the rest stays as it is."""
    return text[:1].upper() + text[1:]
