"""POST /v1/piece-decision: what to do after each piece, with a state that its holder sends back as it came."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import Response, request
from marshmallow import Schema, ValidationError, fields, validate

from ...stations.piece_rule import WORDS, PieceRefusal, decide, read, reading_of, station_of, written
from ..api import blueprint as new_blueprint
from ..bodies import Path, json_body, load, problem
from ..caching import JSON
from ..fields import StrictDecimal, StrictString
from ..members import anything, members_of
from ..presentation import encode
from ..schemas import AnswerSchema

blueprint = new_blueprint("piece_decision", "Decisions on pieces, stateless")
#: One request is some minutes of a line at most.
MOST_READINGS = 10_000
_LONGEST_STATE = 4000


class StationBody(Schema):
    """Limits, gauge and machine, in one unit."""

    min = StrictDecimal(allow_none=True)
    max = StrictDecimal(allow_none=True)
    resolution = StrictDecimal(required=True)
    standard_deviation = StrictDecimal(allow_none=True)
    target = StrictDecimal(allow_none=True)
    step = StrictDecimal(allow_none=True)


class PieceDecisionBody(Schema):
    """A station and its state; the readings are read apart."""

    station = fields.Nested(StationBody, required=True)
    state = StrictString(allow_none=True, validate=validate.Length(max=_LONGEST_STATE, error="is no state"))


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
    readings = _readings(envelope.pop("readings", None))
    members = load(PieceDecisionBody, {name: anything(raw, (name,)) for name, raw in envelope.items()}, ())
    try:
        station = station_of(members["station"])
        state = read(station, members.get("state"))
        wanted = [reading_of(number, value, at) for at, (number, value) in enumerate(readings)]
        decisions = decide(station, wanted, state)
    except PieceRefusal as refusal:
        raise problem(refusal.code, refusal.detail, refusal.path) from None
    answer = {"decisions": decisions, "state": written(station, state), "sigma_assumed": station.sigma_assumed}
    return Response(encode(answer), mimetype=JSON)


def _readings(raw: Any) -> list[tuple[int, Any]]:
    if raw is None:
        raise problem("missing_member", "readings is missing", ("readings",))
    given = anything(raw, ("readings",))
    if not isinstance(given, list):
        raise problem("wrong_type", "readings is an array of {number, value}", ("readings",))
    if not 1 <= len(given) <= MOST_READINGS:
        raise problem("no_readings", f"readings holds 1 to {MOST_READINGS} of them, not {len(given)}", ("readings",))
    return [_reading(one, ("readings", str(at))) for at, one in enumerate(given)]


_VALUED = StrictDecimal()


def _reading(one: Any, path: Path) -> tuple[int, Any]:
    if not isinstance(one, Mapping):
        raise problem("wrong_type", f"{'/'.join(path)} is an object with number and value", path)
    for name in one:
        if name not in ("number", "value"):
            raise problem("unknown_member", f"Unknown member {name[:40]}; known: number, value", (*path, name[:40]))
    for name in ("number", "value"):
        if name not in one:
            raise problem("missing_member", f"{'/'.join(path)}/{name} is missing; null for no value", (*path, name))
    number, value = one["number"], one["value"]
    if isinstance(number, bool) or not isinstance(number, int) or abs(number) > 2**53:
        raise problem("wrong_type", f"{'/'.join(path)}/number is a whole number", (*path, "number"))
    if value is None:
        return number, None
    return number, _value(value, (*path, "value"))


def _value(value: Any, path: Path) -> Any:
    try:
        return _VALUED.deserialize(value)
    except ValidationError as error:
        raise problem("wrong_type", f"{'/'.join(path)}: {error.messages[0]}", path) from None
