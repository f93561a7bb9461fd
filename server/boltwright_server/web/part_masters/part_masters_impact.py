"""POST /v1/part-masters/impact: what a change of standard, edition or coating does to a catalogue."""

from __future__ import annotations

from typing import Annotated, Any

from flask import Response, request
from marshmallow import Schema, fields, validate
from msgspec import Meta, Struct

from ...designations.reader import LONGEST
from ...part_masters.catalogue.columns import ASSESSED_MEMBERS, Columns
from ...part_masters.impact.change import Change, change_of
from ...part_masters.impact.impact import Assessment
from ...quantities import Refusal
from ..http.answers import Answer, answers, described
from ..http.answers import sent as sent_answer
from ..http.api import blueprint as new_blueprint
from ..http.bodies import load, problem
from ..http.caching import JSON
from ..http.fields import StrictString
from ..http.members import anything
from ..http.queries import query
from .impact_stream import ImpactRow, ImpactSummaryAnswer, assess_csv, assess_ndjson, assessed, summary_shown
from .part_masters_validation import ROW_SCHEMA
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

blueprint = new_blueprint("part_masters_impact", "Impact of a change on part masters")
_SIDE = "A standard (`ISO 4014`, `ISO 4014:2011`, `DIN 933`) or a coating (`tZn`, `Fe/Zn8`, `none`)."
_LENGTH = validate.Length(1, LONGEST, error=f"has 1 to {LONGEST} characters")


class ChangeSchema(Schema):
    """The change, in the body of a JSON request."""

    before = StrictString(data_key="from", required=True, validate=_LENGTH, metadata={"description": _SIDE})
    after = StrictString(data_key="to", required=True, validate=_LENGTH, metadata={"description": _SIDE})


class ImpactQuery(CsvQuery):
    """The change, where the body is NDJSON or CSV, and how a CSV text is written."""

    first_row = fields.Integer(
        load_default=0,
        validate=validate.Range(0, 2**53, error="is a row number, 0 or more"),
        metadata={"description": "The body is one part of a catalogue and starts at this row."},
    )
    before = fields.String(data_key="from", validate=_LENGTH, metadata={"description": f"NDJSON, CSV: {_SIDE}"})
    after = fields.String(data_key="to", validate=_LENGTH, metadata={"description": f"NDJSON, CSV: {_SIDE}"})


class SideAnswer(Struct):
    """One side of the change, as it was understood."""

    name: Annotated[str, Meta(examples=["ISO 4017:2014"])]
    held: bool
    reason: Annotated[str | None, described("Why nothing can be judged by it.")]


class CatalogueImpact(Answer, kw_only=True):
    """All rows back, and what they come to."""

    change: Annotated[dict[str, SideAnswer], described("from and to")]
    part_masters: list[ImpactRow]
    summary: ImpactSummaryAnswer


@blueprint.route("/part-masters/impact", methods=["POST"])
@query(blueprint, ImpactQuery)
@blueprint.doc(
    requestBody={
        "required": True,
        "content": {
            JSON: {
                "schema": {
                    "type": "object",
                    "required": ["change", "part_masters"],
                    "additionalProperties": False,
                    "properties": {
                        "change": {
                            "type": "object",
                            "required": ["from", "to"],
                            "properties": {name: {"type": "string", "description": _SIDE} for name in ("from", "to")},
                        },
                        "part_masters": {"type": "array", "items": ROW_SCHEMA},
                    },
                }
            },
            NDJSON: {"schema": {"type": "string", "description": "One row a line; the summary is the last line back."}},
            CSV: {"schema": {"type": "string", "description": "A header line, then one row a line."}},
        },
    }
)
@answers(blueprint, CatalogueImpact)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=NDJSON, description="A row a line", success=True)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=CSV, description="A row a line", success=True)
def post_part_masters_impact(arguments: dict[str, Any]) -> Response:
    """Say which part masters a change touches and how, which it does not, and which cannot be judged and why."""
    if request.mimetype not in (NDJSON, CSV):
        return _json(arguments["first_row"])
    missing = next((name for name, key in (("from", "before"), ("to", "after")) if key not in arguments), None)
    if missing is not None:
        raise problem("missing_member", f"name the change in the query: {missing} is missing", (missing,))
    assessment = Assessment(_change(arguments, ()), arguments["first_row"])
    if request.mimetype == NDJSON:
        return sent(assess_ndjson(rows_stream(), assessment, arguments["first_row"]), NDJSON)
    written = encoding_of(arguments), delimiter_of(arguments), columns_of(arguments)
    file, headers = assess_csv(rows_stream(), assessment, *written)
    return sent(file, CSV, headers)


def _json(first_row: int) -> Response:
    envelope = json_envelope()
    for name in ("change", "part_masters"):
        if name not in envelope:
            raise problem("missing_member", f"{name} is missing", (name,))
    wanted, rows = anything(envelope.pop("change"), ("change",)), envelope.pop("part_masters")
    if envelope:
        raise problem("unknown_member", "send {change: {from, to}, part_masters: [...]}", (next(iter(envelope)),))
    if not isinstance(wanted, dict):
        raise problem("wrong_type", "change is an object {from, to}", ("change",))
    change = _change(load(ChangeSchema, wanted, ("change",)), ("change",))
    assessment = Assessment(change, first_row)
    columns = Columns(ASSESSED_MEMBERS)
    shown = [assessed(row, assessment, columns) for row in json_rows(rows)]
    if not first_row:
        refuse_unknown(columns, ("part_masters",))
    summary = summary_shown(assessment.summary, columns)
    return sent_answer(CatalogueImpact(change=_shown(change), part_masters=shown, summary=summary))


def _change(members: dict[str, Any], path: tuple[str, ...]) -> Change:
    """Read the change; a refusal points at its side, in the body or in the query."""
    try:
        return change_of(members["before"], members["after"])
    except Refusal as refusal:
        refusal.member = "/".join((*path, refusal.member))
        raise


def _shown(change: Change) -> dict[str, SideAnswer]:
    return {
        name: SideAnswer(side.cited, not side.not_held, side.not_held or None)
        for name, side in (("from", change.before), ("to", change.after))
    }
