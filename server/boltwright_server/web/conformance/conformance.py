"""POST /v1/conformance: judges a lot's readings against its specification."""

from __future__ import annotations

from typing import IO, Any

from flask import Response, request
from marshmallow import Schema, fields

from ...conformance import Judgement, judge_columns
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body
from ..http.observability import count_lot
from ..http.presentation import encode
from ..http.request_streams import body_stream, whole_body
from ..http.schemas import AnswerSchema, BasisSchema, BoundsSchema
from ..look_ups.mechanical_minimums import MarkSchema
from .arrow import MEDIA_TYPE as ARROW
from .arrow import read_arrow
from .body import Sent, read_request
from .digests import replay_of, with_digest
from .presentation import judgement_shown
from .schemas import BODY_SCHEMA
from .stream import MEDIA_TYPE, judge_stream

blueprint = new_blueprint("conformance", "Judgement of readings and lots")


class RecordSchema(Schema):
    """With what and when a characteristic was measured, where the request says so."""

    instruments = fields.List(fields.String())
    measured_from = fields.String(allow_none=True, metadata={"format": "date-time"})
    measured_until = fields.String(allow_none=True, metadata={"format": "date-time"})


class CharacteristicVerdictSchema(Schema):
    """What was found of one characteristic."""

    verdict = fields.String(metadata={"enum": ["conforming", "nonconforming", "undecided"]})
    state = fields.String(
        allow_none=True,
        metadata={"description": "Coated products: before_coating or as_delivered; null for a plain one."},
    )
    limits = fields.Nested(BoundsSchema, allow_none=True)
    acceptance_limits = fields.Dict(allow_none=True, metadata={"description": "After the guard band, not rounded."})
    allowed = fields.List(fields.Raw(), metadata={"description": "What meets a requirement that is not measured."})
    count = fields.Integer()
    nonconforming_count = fields.Integer()
    undecided_count = fields.Integer()
    nonconforming_pieces = fields.List(fields.Integer())
    nonconforming_pieces_truncated = fields.Boolean()
    statistics = fields.Dict(allow_none=True)
    margin = fields.Float(
        allow_none=True, metadata={"description": "Least distance of a reading to its nearest limit; below 0 outside."}
    )
    outlying_pieces = fields.List(
        fields.Integer(),
        allow_none=True,
        metadata={"description": "Flagged, never dropped; null where not computed: readings in several blocks."},
    )
    risks = fields.Dict(allow_none=True, metadata={"description": "On request: JCGM 106 probabilities."})
    record = fields.Nested(RecordSchema, allow_none=True)
    decision_rule = fields.Dict()
    basis = fields.Nested(BasisSchema)


class ReplaySchema(Schema):
    """What replays the verdict: same request and fingerprint, same bytes."""

    request_sha256 = fields.String(
        metadata={"description": "Over the canonical JSON of the request, or over a stream as it was sent."}
    )
    request = fields.Dict(
        allow_none=True, metadata={"description": "The canonical request; null where it is long: keep your own."}
    )


class ReasonSchema(Schema):
    """A reason of the verdict, the heaviest first."""

    code = fields.String()
    characteristic = fields.String(allow_none=True)
    group = fields.String(allow_none=True)
    detail = fields.String()
    basis = fields.Nested(BasisSchema, allow_none=True)


class DeviationSchema(Schema):
    """Where the purchaser asks for less than the standard."""

    id = fields.String()
    standard_limit = fields.Dict(metadata={"description": "Bounds, scales or allowed, and whether it is mandatory."})
    used_limit = fields.Dict(allow_none=True, metadata={"description": "The same; null where it was dropped."})
    detail = fields.String()
    basis = fields.Nested(BasisSchema)


class NotLookedAtSchema(Schema):
    """A characteristic that the verdict says nothing of, with why."""

    id = fields.String()
    why = fields.String()


class ConformanceSchema(AnswerSchema):
    """The verdict on a lot."""

    designation = fields.String()
    verdict = fields.String(metadata={"enum": ["accept", "reject", "incomplete"]})
    lot_size = fields.Integer(allow_none=True)
    characteristics = fields.Dict(keys=fields.String(), values=fields.Nested(CharacteristicVerdictSchema))
    missing = fields.List(fields.String())
    conforms_to_standard = fields.Boolean(
        allow_none=True,
        metadata={
            "description": "The lot by its standard alone, without the purchaser's requirements; null: not known."
        },
    )
    deviations = fields.List(fields.Nested(DeviationSchema))
    not_looked_at = fields.List(fields.Nested(NotLookedAtSchema))
    dropped = fields.Dict(keys=fields.String(), values=fields.Dict())
    sampling = fields.Dict(metadata={"description": "By group: plan used, nonconforming pieces, acceptance number."})
    decision_rule = fields.Dict()
    fracture_rule = fields.String()
    reasons = fields.List(fields.Nested(ReasonSchema))
    notices = fields.List(fields.String())
    marking = fields.List(
        fields.Nested(MarkSchema),
        metadata={"description": "Only of a lot that is accepted and conforms to its standard; else empty."},
    )
    package_marking = fields.Nested(MarkSchema, allow_none=True, metadata={"description": "As `marking`; else null."})
    replay = fields.Nested(ReplaySchema)


@blueprint.route("/conformance", methods=["POST"])
@blueprint.doc(
    requestBody={
        "required": True,
        "content": {
            "application/json": {"schema": BODY_SCHEMA},
            MEDIA_TYPE: {
                "schema": {
                    "type": "string",
                    "description": 'First line: the members beside `readings`. Each further line: {"readings": {...}}, '
                    "the pieces following those of the line before.",
                }
            },
            ARROW: {
                "schema": {
                    "type": "string",
                    "format": "binary",
                    "description": "One uncompressed Arrow IPC stream, where pyarrow is installed: a column a "
                    "characteristic; metadata `request` of the schema holds the members beside `readings` as JSON, "
                    "metadata of a field what stands beside its values (unit, expanded_uncertainty ...).",
                }
            },
        },
    },
)
@blueprint.response(200, ConformanceSchema)
def post_conformance() -> Response:
    """Judge the readings of a lot: each characteristic, then the lot."""
    if request.mimetype == MEDIA_TYPE:
        return stream_answer(body_stream())
    if request.mimetype == ARROW:
        return arrow_answer(whole_body())
    return conformance_answer(json_body(request))


def conformance_answer(body: bytes) -> Response:
    """Return the answer to a JSON request, with the digest by which it is replayed."""
    return _answer(read_request(body))


def arrow_answer(body: bytes) -> Response:
    """Return the answer to an Arrow IPC stream: that of the same columns as JSON."""
    return _answer(read_arrow(body))


def _answer(sent: Sent) -> Response:
    shown = _counted(judge_columns(sent.plan, sent.columns))
    return with_digest(encode({**shown, "replay": replay_of(sent.envelope, sent.readings)}))


def stream_answer(stream: IO[bytes]) -> Response:
    """Return the answer to a stream of lines; the client keeps the stream, the answer holds its digest."""
    found, sha256 = judge_stream(stream)
    return with_digest(encode({**_counted(found), "replay": {"request_sha256": sha256, "request": None}}))


def _counted(found: Judgement) -> dict[str, Any]:
    count_lot(found.verdict)
    return judgement_shown(found)
