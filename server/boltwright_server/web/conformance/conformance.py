"""POST /v1/conformance: judges a lot's readings against its specification."""

from __future__ import annotations

from typing import IO

from flask import Response, request

from ...conformance import Judgement, judge_columns
from ..http.answers import answers, body_of
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body
from ..http.observability import count_lot
from ..http.request_streams import body_stream, whole_body
from .answers import Conformance, Replay
from .arrow import MEDIA_TYPE as ARROW
from .arrow import read_arrow
from .body import Sent, read_request
from .digests import replay_of, with_digest
from .presentation import judgement_shown
from .schemas import BODY_SCHEMA
from .stream import MEDIA_TYPE, judge_stream

blueprint = new_blueprint("conformance", "Judgement of readings and lots")


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
@answers(blueprint, Conformance)
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
    found = judge_columns(sent.plan, sent.columns)
    return _counted(found, replay_of(sent.envelope, sent.readings))


def stream_answer(stream: IO[bytes]) -> Response:
    """Return the answer to a stream of lines; the client keeps the stream, the answer holds its digest."""
    found, sha256 = judge_stream(stream)
    return _counted(found, Replay(sha256, None))


def _counted(found: Judgement, replay: Replay) -> Response:
    count_lot(found.verdict)
    return with_digest(body_of(judgement_shown(found, replay)))
