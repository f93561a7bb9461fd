"""POST /v1/conformance/replay: judges a stored request again and says whether the answer is the same, byte for byte."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import replace
from typing import Annotated, Any, cast

import msgspec
from flask import Response, request
from marshmallow import Schema, validate

from ...quantities import Refusal
from ...standards.fingerprint import fingerprint
from ..http.answers import Answer, answers, described, sent
from ..http.api import blueprint as new_blueprint
from ..http.bodies import decoded, json_body, load, problem
from ..http.fields import StrictString
from ..http.members import anything, members_of
from ..http.problems import Problem
from ..http.request_streams import body_stream, without_mark
from .answers import Conformance
from .conformance import conformance_answer, stream_answer
from .moved import Moved, moved
from .schemas import BODY_SCHEMA
from .stream import MEDIA_TYPE

#: Bytes of the line that holds fingerprint, digest and answer of a stream.
_LONGEST_KEPT = 4 * 1024 * 1024
_PLAIN = msgspec.json.Decoder()
blueprint = new_blueprint("conformance_replay", "Replay of a verdict")


class ReplayBody(Schema):
    """What was kept beside the request."""

    fingerprint = StrictString(validate=validate.Length(1, 64))
    answer_sha256 = StrictString(validate=validate.Regexp("[0-9a-f]{64}", error="is 64 hexadecimal digits"))


class ConformanceReplay(Answer, kw_only=True):
    """Whether the verdict replays, and which limits of this request moved."""

    same: Annotated[bool | None, described("null where no answer_sha256 was given.")]
    detail: str
    fingerprint_given: str | None
    answer_sha256: Annotated[str, described("Over the bytes of `answer` as POST /v1/conformance sends it.")]
    moved: Annotated[
        list[Moved] | None, described("Limits and verdicts that moved; null where the kept answer was not sent.")
    ]
    answer: Conformance


@blueprint.route("/conformance/replay", methods=["POST"])
@blueprint.doc(
    requestBody={
        "required": True,
        "content": {
            "application/json": {
                "schema": {
                    "type": "object",
                    "required": ["request"],
                    "additionalProperties": False,
                    "properties": {
                        "request": BODY_SCHEMA,
                        "fingerprint": {"type": "string"},
                        "answer_sha256": {"type": "string", "pattern": "^[0-9a-f]{64}$"},
                        "answer": {
                            "type": "object",
                            "description": "The kept answer: then `moved` says which limits moved, old and new.",
                        },
                    },
                }
            },
            MEDIA_TYPE: {
                "schema": {
                    "type": "string",
                    "description": "First line: fingerprint, answer_sha256, answer, or {}. Then the lot as sent.",
                }
            },
        },
    }
)
@answers(blueprint, ConformanceReplay)
def post_conformance_replay() -> Response:
    """Judge a stored request again and compare the answer with the one that was kept."""
    if request.mimetype == MEDIA_TYPE:
        stream = body_stream()
        first = members_of(without_mark(stream.readline(_LONGEST_KEPT)), ())
        old = first.pop("answer", None)
        kept = _kept(first)
        answer = stream_answer(stream).get_data()
    else:
        envelope = members_of(json_body(request), ())
        stored = envelope.pop("request", None)
        if stored is None:
            raise problem("missing_member", "request is missing", ("request",))
        old = envelope.pop("answer", None)
        kept = _kept(envelope)
        answer = _judged_again(bytes(stored))
    digest = hashlib.sha256(answer).hexdigest()
    given = kept.get("answer_sha256")
    same = None if given is None else given == digest
    changes = None if old is None else moved(_answer_kept(old), anything(answer, ()))
    return sent(
        ConformanceReplay(
            same=same,
            detail=_sentence(same, kept.get("fingerprint"), changes),
            fingerprint_given=kept.get("fingerprint"),
            answer_sha256=digest,
            moved=changes,
            answer=cast(Conformance, msgspec.Raw(answer)),
        )
    )


def _judged_again(stored: bytes) -> bytes:
    """Return the answer to a stored request; a problem with it points below `request`."""
    try:
        return conformance_answer(stored).get_data()
    except (Problem, Refusal) as error:
        found = error if isinstance(error, Problem) else Problem.from_refusal(error)
    errors = [replace(error, pointer=f"/request{error.pointer}") for error in found.errors]
    raise Problem(found.code, found.detail, errors, found.nearest)


def _answer_kept(raw: msgspec.Raw) -> dict[str, Any]:
    """Return the kept answer, of which only what is compared has to be there."""
    found = anything(raw, ("answer",))
    characteristics = found.get("characteristics") if isinstance(found, dict) else None
    if not isinstance(characteristics, dict) or not all(isinstance(one, dict) for one in characteristics.values()):
        raise problem("wrong_type", "answer is the answer of POST /v1/conformance, with characteristics", ("answer",))
    return dict(found)


def _kept(members: Mapping[str, msgspec.Raw]) -> dict[str, Any]:
    """Return what was kept beside the request."""
    return load(ReplayBody, {name: decoded(_PLAIN, raw, (name,)) for name, raw in members.items()}, ())


def _sentence(same: bool | None, given: str | None, changes: list[Moved] | None) -> str:
    if same:
        return "The answer is the same, byte for byte."
    why = "same tables and engines"
    if given is not None and given != fingerprint():
        why = f"the tables or engines changed since ({given} then, {fingerprint()} now)"
    head = f"The answer differs: {why}"
    if same is None:
        head = f"Judged again; no digest was given to compare with ({why})"
    if changes is None:
        return f"{head}." if same is None else f"{head}. Send the kept answer as `answer` to see which limits moved."
    limits = sum("limits" in one.member for one in changes)
    return f"{head}. {limits or 'No'} limit{'' if limits == 1 else 's'} of this request moved."
