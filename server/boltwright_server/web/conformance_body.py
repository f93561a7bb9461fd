"""From the JSON text of a conformance request to the columns of a lot.

Readings are decoded straight into typed lists, column by column: a string, a boolean among numbers, NaN or Infinity
is refused where it stands. marshmallow validates the envelope around them, never the readings.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import msgspec
import numpy as np
from marshmallow import RAISE, Schema, fields, validate

from ..conformance import Column, Request, Requirement
from ..conformance.rules import EDITIONS, RULES, SIMPLE, TIES, DecisionRule
from ..conformance.tensile import LOCATIONS
from ..designations.reader import LONGEST
from ..quantities.units import CODES
from ..specification import GROUPS
from ..specification.characteristic import traits
from .bodies import ANYTHING, ENVELOPE, decoded, load, problem
from .fields import StrictBoolean, StrictDecimal, StrictInteger, StrictString

_FLOATS = msgspec.json.Decoder(list[float | None])
_BOOLEANS = msgspec.json.Decoder(list[bool | None])
_WORDS = msgspec.json.Decoder(list[str | None])
_EXPECTED = {
    "measured": "a JSON number or null (no strings, no true or false)",
    "attribute": "true, false or null (true: the requirement is met)",
    "category": f"one of {', '.join(LOCATIONS)} or null",
}


class RuleSchema(Schema):
    """A decision rule with its edition."""

    rule = StrictString(required=True, validate=validate.OneOf(RULES, error=f"is not one of {', '.join(RULES)}"))
    edition = StrictString(validate=validate.OneOf(EDITIONS, error=f"is not one of {', '.join(EDITIONS)}"))
    ties = StrictString(validate=validate.OneOf(TIES, error=f"is not one of {', '.join(TIES)}"))


class BasisOfRequirementSchema(Schema):
    """Where a purchaser's requirement stands."""

    document = StrictString(validate=validate.Length(1, 200))
    revision = StrictString(validate=validate.Length(1, 60))


class RequirementSchema(Schema):
    """A purchaser's limit. A side that is not given keeps the standard's."""

    min = StrictDecimal(allow_none=True)
    max = StrictDecimal(allow_none=True)
    unit = StrictString(validate=validate.OneOf(CODES, error=f"is not one of {', '.join(CODES)}"))
    group = StrictString(validate=validate.OneOf(GROUPS, error=f"is not one of {', '.join(GROUPS)}"))
    mandatory = StrictBoolean()
    basis = fields.Nested(BasisOfRequirementSchema, unknown=RAISE)


class ColumnSchema(Schema):
    """What stands beside the values of a column."""

    unit = StrictString(validate=validate.OneOf(CODES, error=f"is not one of {', '.join(CODES)}"))
    expanded_uncertainty = StrictDecimal(validate=validate.Range(min=0, error="is 0 or above"))
    coverage_factor = StrictDecimal(
        load_default=Decimal(2), validate=validate.Range(min=0, min_inclusive=False, error="is above 0")
    )
    decision_rule = fields.Raw()
    pieces = fields.List(StrictInteger())
    edition = StrictString(validate=validate.Length(1, 20))
    repeated = StrictString(validate=validate.OneOf(("each", "mean"), error="is each or mean"))
    replaced = fields.Dict(keys=fields.String(), values=StrictString(validate=validate.Length(1, 200)))
    instrument = StrictString(validate=validate.Length(1, 100))
    measured_at = fields.AwareDateTime(format="iso")


class EnvelopeSchema(Schema):
    """Everything but the readings."""

    designation = StrictString(
        required=True, validate=validate.Length(1, LONGEST, error=f"has 1 to {LONGEST} characters")
    )
    lot_size = StrictInteger(allow_none=True, validate=validate.Range(1, 10**9, error="is from 1 to 1000000000"))
    decision_rule = fields.Raw()
    fracture_rule = StrictString(
        load_default="standard",
        validate=validate.OneOf(("standard", "thread_only"), error="is standard or thread_only"),
    )
    sampling = fields.Dict(keys=fields.String(), allow_none=True)
    sampling_destructive = fields.Dict(keys=fields.String(), allow_none=True)
    risks = StrictBoolean(load_default=False)
    requirements = fields.Dict(keys=fields.String())
    dropped = fields.Dict(keys=fields.String())


def read_request(body: bytes) -> Request:
    """Return the request that a JSON body holds.

    Raises:
        Problem: not JSON, or a member that is missing, unknown or of the wrong kind; `errors` points at it.
    """
    envelope = decoded(ENVELOPE, body, ())
    readings = envelope.pop("readings", None)
    if readings is None:
        raise problem("missing_member", "readings is missing", ("readings",))
    plain = {name: decoded(ANYTHING, raw, (name,)) for name, raw in envelope.items()}
    members = load(EnvelopeSchema, plain, ())
    requirements, dropped = _requirements(members)
    columns = decoded(ENVELOPE, readings, ("readings",))
    return Request(
        members["designation"],
        tuple(_column(id, raw, requirements) for id, raw in columns.items()),
        _rule(members.get("decision_rule"), ("decision_rule",)) or SIMPLE,
        members["fracture_rule"],
        members.get("lot_size"),
        tuple(requirements.values()),
        dropped,
        members.get("sampling"),
        members.get("sampling_destructive"),
        members["risks"],
    )


def _rule(given: Any, path: tuple[str, ...]) -> DecisionRule | None:
    if given is None:
        return None
    members = {"rule": given} if isinstance(given, str) else given
    if not isinstance(members, dict):
        raise problem("wrong_type", f"{'/'.join(path)} is a name or an object with rule and edition", path)
    loaded = load(RuleSchema, members, path)
    for name, owner in (("edition", "guarded"), ("ties", "rounded")):
        if name in loaded and loaded["rule"] != owner:
            raise problem("invalid", f"{name} belongs to {owner}, not to {loaded['rule']}", (*path, name))
    edition = loaded.get("edition", EDITIONS[-1]) if loaded["rule"] == "guarded" else None
    return DecisionRule(loaded["rule"], edition, loaded.get("ties", TIES[0]))


def _requirements(members: dict[str, Any]) -> tuple[dict[str, Requirement], dict[str, str]]:
    """Return requirements by id and, for each id that is null, the reason of the drop."""
    found: dict[str, Requirement] = {}
    dropped: dict[str, str] = {}
    reasons = members.get("dropped") or {}
    for id, given in (members.get("requirements") or {}).items():
        path = ("requirements", id)
        if given is None:
            dropped[id] = _reason(reasons.get(id), id)
            continue
        if not isinstance(given, dict):
            raise problem("wrong_type", f"{'/'.join(path)} is an object or null", path)
        loaded = load(RequirementSchema, given, path)
        source = loaded.get("basis", {})
        found[id] = Requirement(id, loaded, source.get("document"), source.get("revision"))
    if extra := [id for id in reasons if id not in dropped]:
        raise problem("invalid", f"dropped/{extra[0]}: requirements/{extra[0]} is not null", ("dropped", extra[0]))
    return found, dropped


def _reason(given: Any, id: str) -> str:
    reason = given.get("reason") if isinstance(given, dict) else given
    if not isinstance(reason, str) or not reason.strip():
        detail = f"dropped/{id}/reason is missing: a characteristic is dropped only with a reason"
        raise problem("missing_member", detail, ("dropped", id, "reason"))
    return reason[:500]


def _column(id: str, raw: msgspec.Raw, requirements: Mapping[str, Requirement]) -> Column:
    path = ("readings", id)
    text = bytes(raw).lstrip()
    if text[:1] == b"[":
        return Column(id, _values(id, raw, path, requirements))
    members = decoded(ENVELOPE, raw, path, "a list of values or an object with values")
    values = members.pop("values", None)
    if values is None:
        raise problem("missing_member", f"readings/{id}/values is missing", (*path, "values"))
    plain = {name: decoded(ANYTHING, one, (*path, name)) for name, one in members.items()}
    beside = load(ColumnSchema, plain, path)
    pieces = beside.get("pieces")
    return Column(
        id,
        _values(id, values, (*path, "values"), requirements),
        beside.get("unit"),
        beside.get("expanded_uncertainty"),
        beside["coverage_factor"],
        _rule(beside.get("decision_rule"), (*path, "decision_rule")),
        None if pieces is None else tuple(pieces),
        beside.get("edition"),
        beside.get("repeated"),
        _replaced(beside.get("replaced", {}), path),
        beside.get("instrument"),
        None if "measured_at" not in beside else beside["measured_at"].isoformat(),
    )


def _replaced(given: Mapping[str, str], path: tuple[str, ...]) -> dict[int, str]:
    """Piece numbers are keys of a JSON object and therefore text."""
    for piece in given:
        if not (piece.isascii() and piece.isdigit()):
            raise problem("wrong_type", f"replaced/{piece[:20]}: a piece is a whole number", (*path, "replaced", piece))
    return {int(piece): reason for piece, reason in given.items()}


def _values(id: str, raw: msgspec.Raw, path: tuple[str, ...], requirements: Mapping[str, Requirement]) -> Any:
    trait = traits().get(id)
    kind = "measured" if trait is None else trait.kind
    if kind == "measured":
        return np.array(decoded(_FLOATS, raw, path, _EXPECTED[kind]), dtype=np.float64)
    decoder = _BOOLEANS if kind == "attribute" else _WORDS
    values = decoded(decoder, raw, path, _EXPECTED[kind])
    if kind == "category":
        for at, word in enumerate(values):
            if word is not None and word not in LOCATIONS:
                detail = f"{id}: {word[:40]!r} is not {_EXPECTED[kind]}"
                raise problem("invalid", detail, (*path, str(at)))
    return values


_NUMBERS = {"type": "array", "items": {"type": ["number", "boolean", "string", "null"]}}
BODY_SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["designation", "readings"],
    "additionalProperties": False,
    "properties": {
        "designation": {"type": "string", "maxLength": LONGEST, "examples": ["ISO 4014 - M10x60 - 8.8"]},
        "lot_size": {"type": ["integer", "null"], "minimum": 1},
        "decision_rule": {
            "description": "simple (default), guarded, absolute, rounded; or an object with rule and edition.",
            "oneOf": [
                {"type": "string", "enum": list(RULES)},
                {
                    "type": "object",
                    "required": ["rule"],
                    "properties": {
                        "rule": {"type": "string", "enum": list(RULES)},
                        "edition": {"type": "string", "enum": list(EDITIONS)},
                        "ties": {"type": "string", "enum": list(TIES)},
                    },
                },
            ],
        },
        "fracture_rule": {"type": "string", "enum": ["standard", "thread_only"]},
        "sampling": {"type": ["object", "null"]},
        "sampling_destructive": {"type": ["object", "null"]},
        "risks": {"type": "boolean", "description": "Ask for conformance probability and risks (JCGM 106)."},
        "requirements": {"type": "object", "additionalProperties": {"type": ["object", "null"]}},
        "dropped": {"type": "object"},
        "readings": {
            "type": "object",
            "description": "Columns by characteristic id; index = piece, null = not measured on that piece.",
            "additionalProperties": {
                "oneOf": [
                    _NUMBERS,
                    {
                        "type": "object",
                        "required": ["values"],
                        "properties": {
                            "values": _NUMBERS,
                            "unit": {"type": "string", "enum": list(CODES)},
                            "expanded_uncertainty": {"type": "number", "minimum": 0},
                            "coverage_factor": {"type": "number", "exclusiveMinimum": 0},
                            "decision_rule": {},
                            "pieces": {"type": "array", "items": {"type": "integer", "minimum": 0}},
                            "edition": {"type": "string"},
                            "repeated": {"type": "string", "enum": ["each", "mean"]},
                            "replaced": {"type": "object", "additionalProperties": {"type": "string"}},
                            "instrument": {"type": "string"},
                            "measured_at": {"type": "string", "format": "date-time"},
                        },
                    },
                ]
            },
        },
    },
}
