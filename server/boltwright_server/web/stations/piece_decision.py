"""POST /v1/piece-decision: what to do after each piece, with a state that its holder sends back as it came."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from marshmallow import Schema, fields

from ...stations.piece_request import MOST_READINGS, answer
from ...stations.piece_rule import WORDS, PieceRefusal
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body, problem
from ..http.caching import JSON
from ..http.members import anything, members_of
from ..http.presentation import encode
from ..http.schemas import AnswerSchema

blueprint = new_blueprint("piece_decision", "Decisions on pieces, stateless")


class DecisionSchema(Schema):
    """The answer to one reading."""

    number = fields.Integer()
    decision = fields.String(metadata={"enum": list(WORDS)})
    pieces = fields.Integer(allow_none=True, metadata={"description": "measure_next: how many to measure."})
    amount = fields.Float(allow_none=True, metadata={"description": "adjust: by how much; null for no amount."})
    repeat = fields.Boolean(metadata={"description": "The reading was answered before."})
    gap = fields.Integer(metadata={"description": "Numbers missing before this piece."})
    reason = fields.String()


class PieceDecisionSchema(AnswerSchema):
    """Decisions and the state after them."""

    decisions = fields.List(fields.Nested(DecisionSchema))
    state = fields.String(metadata={"description": "Opaque: send it back as it came."})
    sigma_assumed = fields.Boolean(metadata={"description": "The standard deviation was taken from the limits."})


_MEMBERS = ("station", "readings", "state")
_NUMBER = {"type": ["number", "null"]}
BODY_SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["station", "readings"],
    "additionalProperties": False,
    "properties": {
        "station": {
            "type": "object",
            "required": ["min", "max", "resolution"],
            "additionalProperties": False,
            "properties": {
                "min": {"type": "number"},
                "max": {"type": "number"},
                "resolution": {"type": "number", "exclusiveMinimum": 0},
                "standard_deviation": {**_NUMBER, "description": "(max - min)/8 where it is not given."},
                "target": {**_NUMBER, "description": "The middle where it is not given."},
                "step": {**_NUMBER, "description": "Of the machine's adjustment; else the resolution."},
            },
        },
        "state": {"type": ["string", "null"], "description": "Of the answer before; none starts a set-up."},
        "readings": {
            "type": "array",
            "minItems": 1,
            "maxItems": MOST_READINGS,
            "items": {
                "type": "object",
                "required": ["number", "value"],
                "additionalProperties": False,
                "properties": {"number": {"type": "integer", "minimum": 1}, "value": _NUMBER},
            },
        },
    },
}


@blueprint.route("/piece-decision", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@blueprint.response(200, PieceDecisionSchema)
def post_piece_decision() -> Response:
    """Return one decision a reading, and the state; numbers are compared exactly."""
    envelope = members_of(json_body(request), ())
    for name in envelope:
        if name not in _MEMBERS:
            text = f"Unknown member {name[:40]}; known: {', '.join(_MEMBERS)}"
            raise problem("unknown_member", text, (name[:60],))
    members = {name: anything(raw, (name,)) for name, raw in envelope.items()}
    try:
        found = answer(*(members.get(name) for name in _MEMBERS))
    except PieceRefusal as refusal:
        raise problem(refusal.code, refusal.detail, refusal.path) from None
    return Response(encode(found), mimetype=JSON)
