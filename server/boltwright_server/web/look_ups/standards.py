"""GET /v1/standards: which standards are held, in which edition, and how each table was checked."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields

from ...standards import REGISTRY, Standard, all_standards, current
from ...standards.editions import InForce, in_force
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.presentation import encode
from ..http.queries import query
from ..http.schemas import AnswerSchema

blueprint = new_blueprint("standards", "Which standards are held and how their tables were checked")


class TableSchema(Schema):
    """A printed table."""

    file = fields.String()
    printed_as = fields.String()
    content = fields.String()
    unit = fields.String()
    checked = fields.String(metadata={"description": "The default of the table; single cells may differ."})
    rows = fields.Integer()
    cells_by_check = fields.Dict(keys=fields.String(), values=fields.Integer())
    note = fields.String()


class InForceSchema(Schema):
    """The edition in force as far as known; no figure is served from it unless it is the one held."""

    edition = fields.String(
        allow_none=True, metadata={"example": "2025", "description": "null for a standard that is withdrawn."}
    )
    checked = fields.String(
        metadata={"description": "What names the edition: two catalogues or title pages, one, or none (memory)."}
    )
    remark = fields.String(allow_none=True, metadata={"description": "What is known to differ from the edition held."})


class StandardSchema(Schema):
    """A standard in one edition."""

    id = fields.String(metadata={"example": "ISO 4032"})
    title = fields.String()
    edition = fields.String()
    family = fields.String()
    current = fields.Boolean(metadata={"description": "Whether this edition answers when none is named."})
    in_force = fields.Nested(InForceSchema, allow_none=True, metadata={"description": "null where nothing is known."})
    own = fields.Boolean(metadata={"description": "A plant's own standard, not one of the built-in ones."})
    note = fields.String()
    tables = fields.List(fields.Nested(TableSchema))


class StandardsSchema(AnswerSchema):
    """All standards held."""

    standards = fields.List(fields.Nested(StandardSchema))


@blueprint.route("/standards")
@look_up
@query(blueprint, Schema)
@blueprint.response(200, StandardsSchema)
def get_standards(_: dict[str, Any]) -> Response:
    """List the standards held, with their tables and how each was checked."""
    return Response(encode({"standards": [_shown(one) for one in all_standards()]}), mimetype=JSON)


def in_force_shown(known: InForce) -> dict[str, Any]:
    """Return the members of what is known of the edition in force."""
    return {"edition": known.edition, "checked": known.checked, "remark": known.remark}


def _shown(standard: Standard) -> dict[str, Any]:
    known = in_force(standard.id)
    return {
        "id": standard.id,
        "title": standard.title,
        "edition": standard.edition,
        "family": standard.family,
        "current": current(standard.id) is standard,
        "in_force": None if known is None else in_force_shown(known),
        "own": standard.folder not in REGISTRY,
        "note": " ".join(standard.notes),
        "tables": [
            {
                "file": table.file,
                "printed_as": table.printed_as,
                "content": table.content,
                "unit": table.unit,
                "checked": table.checked,
                "rows": len(table.rows),
                "cells_by_check": table.cells_by_check(),
                "note": table.note or "",
            }
            for table in standard.tables.values()
        ],
    }
