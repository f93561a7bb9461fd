"""The answer `as: registers`: the image of one station with what was put into it, so that a person can read it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any

from msgspec import Struct

from ...specification import Specification
from ...standards.fingerprint import fingerprint
from ...stations import STATES, SetPoints
from ...stations.register_image import BANKS, LAYOUT, LIMITS, ImageRefusal, checksum, encode, switch_word
from ...stations.registers import Entry, entries_of, flags_of
from ..http.answers import Answer, described, shown
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


class EntryAnswer(Struct, kw_only=True):
    """One entry of a register image, in counts of its scale; null is an open side."""

    characteristic: str
    code: int
    scale: int
    stop_min: int | None
    warn_min: int | None
    target: int | None
    warn_max: int | None
    stop_max: int | None
    checked: str


class RegisterImage(Answer, kw_only=True):
    """With `as: registers`: the image of one station, and what was put into it."""

    designation: str
    layout: int
    image: Annotated[str, described("120 registers as 480 hex digits, high byte first.")]
    crc32: str
    switch_word: str
    basis_text: Annotated[str, described("What is hashed into registers 30 to 33.")]
    flags: int
    entries: list[EntryAnswer]
    notices: list[str]
    cautions: list[str]


def registers_shown(wanted: Specification, found: SetPoints, asked: Mapping[str, Any]) -> RegisterImage:
    """Return an image as its answer shows it.

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
    return shown(
        RegisterImage,
        found,
        layout=LAYOUT,
        image=image.hex(),
        crc32=f"{checksum(image):08x}",
        switch_word=f"{switch_word(asked['bank'], asked['sequence']):04x}",
        basis_text=basis_text,
        flags=flags,
        entries=[shown(EntryAnswer, one, characteristic=one.id) for one in entries],
    )


def _written(one: Entry) -> dict[str, Any]:
    return {"characteristic": one.code, "scale": one.scale, **{name: getattr(one, name) for name in LIMITS}}
