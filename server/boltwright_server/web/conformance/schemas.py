"""The envelope of a conformance request: marshmallow validates it, never the readings inside."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from marshmallow import RAISE, Schema, fields, validate

from ...conformance.rules import EDITIONS, RULES, TIES
from ...designations.reader import LONGEST
from ...quantities.units import CODES
from ...specification import GROUPS
from ..http.fields import StrictBoolean, StrictDecimal, StrictInteger, StrictString


class OneOrEach(fields.Field[Any]):
    """A value for a whole column, or a list of one for each reading, null where there is none."""

    def __init__(self, one: fields.Field[Any]) -> None:
        super().__init__()
        self._one, self._each = one, fields.List(one)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if isinstance(value, list):
            return tuple(self._each.deserialize(value, attr, data, **kwargs))
        return self._one.deserialize(value, attr, data, **kwargs)


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
    """A purchaser's limit, or an attribute. A side that is not given keeps the standard's."""

    min = StrictDecimal(allow_none=True)
    max = StrictDecimal(allow_none=True)
    unit = StrictString(validate=validate.OneOf(CODES, error=f"is not one of {', '.join(CODES)}"))
    group = StrictString(validate=validate.OneOf(GROUPS, error=f"is not one of {', '.join(GROUPS)}"))
    mandatory = StrictBoolean()
    kind = StrictString(
        validate=validate.OneOf(("measured", "attribute"), error="is measured or attribute"),
    )
    basis = fields.Nested(BasisOfRequirementSchema, unknown=RAISE)


_NO_TIME: dict[str, Any] = dict.fromkeys(
    ("invalid", "invalid_awareness"), "is a time with its zone, as 2026-01-31T06:00:00Z"
)


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
    instrument = OneOrEach(StrictString(allow_none=True, validate=validate.Length(1, 100)))
    measured_at = OneOrEach(fields.AwareDateTime(format="iso", allow_none=True, error_messages=_NO_TIME))


class RetestSchema(Schema):
    """The purchaser's agreement to a retest of twice the number."""

    agreed_in = StrictString(required=True, validate=validate.Length(1, 200))
    first_sample = StrictInteger(validate=validate.Range(1, 10**6, error="is from 1 to 1000000"))


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
    retest = fields.Nested(RetestSchema, unknown=RAISE)
    requirements = fields.Dict(keys=fields.String())
    dropped = fields.Dict(keys=fields.String())


_TEXT, _TEXT_OR_NULL = {"type": "string", "maxLength": 100}, {"type": ["string", "null"], "maxLength": 100}
_TIME = {"type": "string", "format": "date-time"}
_TIME_OR_NULL = {"type": ["string", "null"], "format": "date-time"}
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
        "retest": {
            "type": "object",
            "description": "A retest of twice the first sample, as agreed in a document of the purchaser.",
            "required": ["agreed_in"],
            "additionalProperties": False,
            "properties": {
                "agreed_in": {"type": "string", "maxLength": 200, "examples": ["Order 4711, 7.2"]},
                "first_sample": {"type": "integer", "minimum": 1},
            },
        },
        "requirements": {
            "type": "object",
            "description": "By characteristic id: min, max, unit, group, mandatory, kind (attribute for a yes-or-no "
            "requirement that the standard does not have), basis; null drops it.",
            "additionalProperties": {"type": ["object", "null"]},
        },
        "dropped": {
            "type": "object",
            "description": "By id: the reason of each drop; needed for each id that is null.",
        },
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
                            "instrument": {"oneOf": [_TEXT, {"type": "array", "items": _TEXT_OR_NULL}]},
                            "measured_at": {"oneOf": [_TIME, {"type": "array", "items": _TIME_OR_NULL}]},
                        },
                    },
                ]
            },
        },
    },
}
