"""Members that several answers share, documented once."""

from __future__ import annotations

from marshmallow import Schema, fields

from ...quantities import CHECKED_WORDS, STATED


class BasisSchema(Schema):
    """Where a limit comes from."""

    standard = fields.String(metadata={"example": "ISO 965-1"})
    edition = fields.String(metadata={"example": "2013"})
    clause = fields.String(metadata={"example": "Tables 1 and 5"})
    method = fields.String(metadata={"enum": ["tabulated", "computed", "common practice"]})
    checked = fields.String(
        metadata={
            "enum": [*CHECKED_WORDS, STATED],
            "description": "How the figure was checked. `original`: read in the standard itself. "
            "`memory` was not seen in print. `conflict`: sources disagree.",
        }
    )
    note = fields.String()


class BoundsSchema(Schema):
    """Least and greatest permissible value; `null` is an open side."""

    symbol = fields.String(metadata={"example": "d2"})
    min = fields.Float(allow_none=True)
    max = fields.Float(allow_none=True)
    nominal = fields.Float(allow_none=True)
    unit = fields.String(metadata={"example": "mm"})
    basis = fields.Nested(BasisSchema)


class StatedLimitsSchema(BoundsSchema):
    """Limits of a characteristic, or those of the request: these have no basis, and no unit unless it gave one."""

    unit = fields.String(allow_none=True, metadata={"example": "mm"})


class AnswerSchema(Schema):
    """Every 200 answer."""

    fingerprint = fields.String(
        metadata={"description": "Over all tables and engines: same fingerprint and request, same bytes."}
    )


def bounds_by_id(description: str, data_key: str | None = None) -> fields.Dict:
    """Return the field of a mapping from id to bounds."""
    return fields.Dict(
        keys=fields.String(),
        values=fields.Nested(BoundsSchema),
        data_key=data_key,
        metadata={"description": description},
    )
