"""POST /v1/part-masters/validation: a whole catalogue of part masters, checked row by row."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import IO, Any

import msgspec
from flask import Response, request
from marshmallow import Schema, fields, validate

from ...part_masters.findings import CODES
from ..api import blueprint as new_blueprint
from ..bodies import ANYTHING, ENVELOPE, decoded, json_body, problem
from ..caching import JSON
from ..part_masters_stream import (
    CSV,
    NDJSON,
    Unzipped,
    result_shown,
    summary_shown,
    validate_csv,
    validate_ndjson,
    validator_of,
)
from ..presentation import encode
from ..problems import Problem
from ..queries import query
from ..schemas import AnswerSchema, BasisSchema

blueprint = new_blueprint("part_masters_validation", "Validation of part masters")
_ROWS = msgspec.json.Decoder(list[msgspec.Raw])
_ENCODINGS = ("utf-8", "utf-8-sig", "utf-16", "cp1252", "latin-1", "iso-8859-15", "cp850")
_DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", "pipe": "|"}
_PIECE = 65_536


class ValidationQuery(Schema):
    """How a CSV text is written, and where a part of a catalogue starts."""

    first_row = fields.Integer(
        validate=validate.Range(0, 2**53, error="is a row number, 0 or more"),
        metadata={
            "description": "The body is one part of a catalogue and starts at this row. Repeats are not looked for: "
            "each row carries `requirement` instead, the same text for the same requirement."
        },
    )

    delimiter = fields.String(
        validate=validate.OneOf(tuple(_DELIMITERS), error=f"is not one of {', '.join(_DELIMITERS)}"),
        metadata={"description": "CSV: detected from the header where it is not stated."},
    )
    encoding = fields.String(
        validate=validate.OneOf(_ENCODINGS, error=f"is not one of {', '.join(_ENCODINGS)}"),
        metadata={"description": "CSV: UTF-8 or Windows-1252, detected, where it is not stated."},
    )
    columns = fields.String(
        validate=validate.Length(1, 2000, error="has 1 to 2000 characters"),
        metadata={"description": "CSV: column titles as members, `Artikel:part_number,Text:description`."},
    )


class FindingSchema(Schema):
    """What is wrong with a row, what the standard says, and where."""

    code = fields.String(metadata={"enum": list(CODES)})
    severity = fields.String(metadata={"enum": ["error", "warning", "notice"]})
    member = fields.String()
    given = fields.String(allow_none=True)
    expected = fields.String(allow_none=True)
    detail = fields.String()
    basis = fields.Nested(BasisSchema, allow_none=True)


class PartMasterSchema(Schema):
    """One row back."""

    part_number = fields.String()
    row = fields.Integer(metadata={"description": "Counted from 0."})
    status = fields.String(metadata={"enum": ["valid", "questionable", "invalid", "unreadable"]})
    designation = fields.String(allow_none=True, metadata={"description": "Canonical; null where it is not certain."})
    confidence = fields.Float()
    alternatives = fields.List(fields.String())
    left_over = fields.List(fields.String(), metadata={"description": "Words that were not understood."})
    findings = fields.List(fields.Nested(FindingSchema))
    requirement = fields.String(
        metadata={"description": "With `first_row`: product and coating asked for; empty where they are not certain."}
    )


class ValidationSchema(AnswerSchema):
    """All rows back, and what they come to."""

    part_masters = fields.List(fields.Nested(PartMasterSchema))
    summary = fields.Dict(metadata={"description": "rows, statuses, codes, rows_per_second."})


_ROW_SCHEMA: dict[str, Any] = {
    "type": "object",
    "properties": {
        name: {"type": "string"}
        for name in (
            "part_number",
            "description",
            "designation",
            "standard",
            "thread",
            "property_class",
            "coating",
            "mates_with",
        )
    },
    "additionalProperties": {"type": ["number", "string", "object", "null"]},
}


@blueprint.route("/part-masters/validation", methods=["POST"])
@query(blueprint, ValidationQuery)
@blueprint.doc(
    requestBody={
        "required": True,
        "content": {
            JSON: {
                "schema": {
                    "type": "object",
                    "required": ["part_masters"],
                    "properties": {"part_masters": {"type": "array", "items": _ROW_SCHEMA}},
                }
            },
            NDJSON: {"schema": {"type": "string", "description": "One row a line; the summary is the last line back."}},
            CSV: {"schema": {"type": "string", "description": "A header line, then one row a line."}},
        },
    }
)
@blueprint.response(200, ValidationSchema)
def post_part_masters_validation(arguments: dict[str, Any]) -> Response:
    """Check part masters; every row comes back, in the form that it was sent in. `Content-Encoding: gzip` is read."""
    if request.mimetype == NDJSON:
        return _sent(validate_ndjson(_stream(), arguments.get("first_row")), NDJSON)
    if request.mimetype == CSV:
        delimiter = _DELIMITERS.get(arguments.get("delimiter", ""))
        encoding = arguments.get("encoding") or _declared_encoding()
        names, first_row = _names(arguments), arguments.get("first_row")
        return _sent(validate_csv(_stream(), encoding, delimiter, names, first_row), CSV)
    return _json(arguments.get("first_row"))


def _json(first_row: int | None) -> Response:
    body = _stream().read() if request.mimetype == JSON and request.content_encoding == "gzip" else json_body(request)
    envelope = decoded(ENVELOPE, body, ())
    rows = envelope.pop("part_masters", None)
    if rows is None or envelope:
        extra = next(iter(envelope), "part_masters")
        raise problem("missing_member" if rows is None else "unknown_member", "send {part_masters: [...]}", (extra,))
    shown = []
    with validator_of(first_row) as validator:
        for at, raw in enumerate(decoded(_ROWS, rows, ("part_masters",), "an array of objects")):
            row = decoded(ANYTHING, raw, ("part_masters", str(at)))
            if isinstance(row, dict):
                shown.append(result_shown(validator.validate(row)))
            else:
                shown.append(result_shown(validator.unreadable("the row is no JSON object")))
        answer = {"part_masters": shown, "summary": summary_shown(validator.summary)}
    return Response(encode(answer), mimetype=JSON)


def _stream() -> IO[bytes]:
    """Return the body as a stream without limit of length; gzip is unzipped on the way."""
    if request.mimetype not in (NDJSON, CSV, JSON):
        raise Problem("unsupported_media_type", f"send {JSON}, {NDJSON} or {CSV}")
    if request.mimetype != JSON:
        request.max_content_length = None
    coding = request.content_encoding
    if coding is None:
        return request.stream
    if coding != "gzip":
        raise Problem("unsupported_media_type", f"Content-Encoding {coding[:40]} is not read; send gzip or none")
    return io.BufferedReader(Unzipped(request.stream), _PIECE)


def _declared_encoding() -> str | None:
    charset = str(request.mimetype_params.get("charset", "")).lower()
    if charset and charset not in _ENCODINGS:
        raise problem("invalid", f"charset {charset[:40]!r} is not one of {', '.join(_ENCODINGS)}", ("charset",))
    return charset or None


def _names(arguments: dict[str, Any]) -> dict[str, str]:
    """Read `columns=Title:member,Title:member`."""
    found = {}
    for pair in arguments.get("columns", "").split(","):
        title, colon, member = pair.rpartition(":")
        if pair and not (colon and title.strip() and member.strip()):
            raise problem("invalid", f"columns: {pair[:60]!r} is no Title:member", ("columns",))
        if pair:
            found[title.strip()] = member.strip()
    return found


def _sent(file: IO[bytes], media_type: str) -> Response:
    def pieces() -> Iterator[bytes]:
        with file:
            while piece := file.read(_PIECE):
                yield piece

    return Response(pieces(), content_type=f"{media_type}; charset=utf-8", direct_passthrough=True)
