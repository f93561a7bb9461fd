"""POST /v1/part-masters/validation: a whole catalogue of part masters, checked row by row."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from marshmallow import fields, validate

from ...part_masters.catalogue.columns import Columns, validated_members
from ..http.answers import Answer, answers
from ..http.answers import sent as sent_answer
from ..http.api import blueprint as new_blueprint
from ..http.bodies import problem
from ..http.caching import JSON
from ..http.queries import query
from .row_columns import refuse_unknown
from .row_streams import (
    CSV,
    NDJSON,
    CsvQuery,
    columns_of,
    delimiter_of,
    encoding_of,
    json_envelope,
    json_rows,
    rows_stream,
    sent,
)
from .validation_stream import (
    PartMasterAnswer,
    ValidationSummary,
    result_shown,
    seen,
    summary_shown,
    validate_csv,
    validate_ndjson,
    validator_of,
)

blueprint = new_blueprint("part_masters_validation", "Validation of part masters")


class ValidationQuery(CsvQuery):
    """How a CSV text is written, and where a part of a catalogue starts."""

    first_row = fields.Integer(
        validate=validate.Range(0, 2**53, error="is a row number, 0 or more"),
        metadata={
            "description": "The body is one part of a catalogue and starts at this row. Repeats are not looked for: "
            "each row carries `requirement` instead, the same text for the same requirement."
        },
    )


class CatalogueValidation(Answer, kw_only=True):
    """All rows back, and what they come to."""

    part_masters: list[PartMasterAnswer]
    summary: ValidationSummary


#: What a row may hold, for the OpenAPI document.
ROW_SCHEMA: dict[str, Any] = {
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
                    "additionalProperties": False,
                    "properties": {"part_masters": {"type": "array", "items": ROW_SCHEMA}},
                }
            },
            NDJSON: {"schema": {"type": "string", "description": "One row a line; the summary is the last line back."}},
            CSV: {"schema": {"type": "string", "description": "A header line, then one row a line."}},
        },
    }
)
@answers(blueprint, CatalogueValidation)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=NDJSON, description="A row a line", success=True)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=CSV, description="A row a line", success=True)
def post_part_masters_validation(arguments: dict[str, Any]) -> Response:
    """Check part masters; every row comes back, in the form that it was sent in. `Content-Encoding: gzip` is read."""
    if request.mimetype == NDJSON:
        return sent(validate_ndjson(rows_stream(), arguments.get("first_row")), NDJSON)
    if request.mimetype == CSV:
        delimiter, encoding = delimiter_of(arguments), encoding_of(arguments)
        names, first_row = columns_of(arguments), arguments.get("first_row")
        file, headers = validate_csv(rows_stream(), encoding, delimiter, names, first_row)
        return sent(file, CSV, headers)
    return _json(arguments.get("first_row"))


def _json(first_row: int | None) -> Response:
    envelope = json_envelope()
    rows = envelope.pop("part_masters", None)
    if rows is None or envelope:
        extra = next(iter(envelope), "part_masters")
        raise problem("missing_member" if rows is None else "unknown_member", "send {part_masters: [...]}", (extra,))
    columns = Columns(validated_members())
    with validator_of(first_row) as validator:
        shown = [result_shown(result) for result in validator.validate_rows(seen(json_rows(rows), columns))]
        answer = CatalogueValidation(part_masters=shown, summary=summary_shown(validator.summary, columns))
    if not first_row:
        refuse_unknown(columns, ("part_masters",))
    return sent_answer(answer)
