"""The answer `as: registers`: the image of one station with what was put into it, so that a person can read it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ...specification import Specification
from ...standards.fingerprint import fingerprint
from ...stations import STATES, SetPoints
from ...stations.register_image import BANKS, LAYOUT, LIMITS, ImageRefusal, checksum, encode, switch_word
from ...stations.registers import Entry, entries_of, flags_of
from ..http.bodies import problem

REGISTERS_SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["station", "stage", "characteristics", "sequence", "issued_at", "order", "lot"],
    "additionalProperties": False,
    "properties": {
        "station": {"type": "integer", "description": "Number of the station on the floor."},
        "stage": {"type": "string", "enum": list(STATES)},
        "characteristics": {"type": "array", "items": {"type": "string"}, "minItems": 1, "maxItems": 6},
        "sequence": {"type": "integer", "minimum": 1, "maximum": 2**32 - 1, "description": "Never used again."},
        "issued_at": {"type": "integer", "description": "Unix seconds, UTC."},
        "valid_until": {"type": "integer", "default": 0, "description": "Unix seconds, UTC; 0 for no end."},
        "order": {"type": "string", "maxLength": 20},
        "lot": {"type": "string", "maxLength": 20},
        "bank": {"type": "string", "enum": list(BANKS), "default": "A"},
        "trial": {"type": "boolean", "default": False},
        "run_on": {"type": "boolean", "default": True},
    },
}


def registers_shown(wanted: Specification, found: SetPoints, asked: Mapping[str, Any]) -> dict[str, Any]:
    """Return the members of an image.

    Raises:
        Problem: a number or text that no image can hold. Others: as `entries_of`.
    """
    internal = wanted.tolerance is not None and wanted.tolerance.member == "internal"
    entries = entries_of(found, asked["stage"], asked["characteristics"], internal)
    if 0 < asked["valid_until"] <= asked["issued_at"]:
        raise problem("contradiction", "valid_until is not after issued_at", ("registers", "valid_until"))
    basis_text = f"{found.designation} @ {fingerprint()}"
    flags = flags_of(found, asked["stage"], entries, asked["trial"], asked["run_on"])
    header = {
        **{name: asked[name] for name in ("station", "sequence", "issued_at", "valid_until", "order", "lot")},
        "basis_text": basis_text,
        "flags": flags,
        "entries": [_written(one) for one in entries],
    }
    try:
        image = encode(header)
    except ImageRefusal as refusal:
        path = ("registers", *refusal.member.split("/"))
        raise problem("out_of_range", f"{refusal.member} {refusal.detail}", path) from None
    return {
        "designation": found.designation,
        "layout": LAYOUT,
        "image": image.hex(),
        "crc32": f"{checksum(image):08x}",
        "switch_word": f"{switch_word(asked['bank'], asked['sequence']):04x}",
        "basis_text": basis_text,
        "flags": flags,
        "entries": [_shown(one) for one in entries],
        "notices": list(found.notices),
        "cautions": list(found.cautions),
    }


def _limits(one: Entry) -> dict[str, int | None]:
    return {name: getattr(one, name) for name in LIMITS}


def _written(one: Entry) -> dict[str, Any]:
    return {"characteristic": one.code, "scale": one.scale, **_limits(one)}


def _shown(one: Entry) -> dict[str, Any]:
    return {
        "characteristic": one.id,
        "code": one.code,
        "scale": one.scale,
        **_limits(one),
        "checked": one.checked,
    }
