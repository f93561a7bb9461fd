"""POST /v1/piece-decision: what to do after each piece, with a state that its holder sends back as it came."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response, request
from msgspec import Meta, Struct

from ...stations.piece_request import MOST_READINGS, answer
from ...stations.piece_rule import WORDS, PieceRefusal
from ..http.answers import Answer, answers, described, sent
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body, problem
from ..http.members import anything, members_of

blueprint = new_blueprint("piece_decision", "Decisions on pieces, stateless")


class PieceDecision(Struct, kw_only=True):
    """The answer to one reading."""

    number: int
    decision: Annotated[str, Meta(extra_json_schema={"enum": list(WORDS)})]
    pieces: Annotated[int | None, described("measure_next: how many to measure.")]
    amount: Annotated[Decimal | None, described("adjust: by how much; null for no amount.")]
    repeat: Annotated[bool, described("The reading was answered before.")]
    gap: Annotated[int, described("Numbers missing before this piece.")]
    reason: str


class PieceDecisions(Answer, kw_only=True):
    """Decisions and the state after them."""

    decisions: list[PieceDecision]
    state: Annotated[str, described("Opaque: send it back as it came.")]
    sigma_assumed: Annotated[bool, described("The standard deviation was taken from the limits.")]


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
@answers(blueprint, PieceDecisions)
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
    return sent(PieceDecisions(**{**found, "decisions": [PieceDecision(**one) for one in found["decisions"]]}))
