"""GET /v1/equivalents: the nearest products of the same function, with everything in which they differ."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...specification.equivalents import MOST, Alternative, equivalents
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.presentation import encode
from ..http.queries import designation, query
from ..http.schemas import AnswerSchema
from .difference_presentation import difference_schema, difference_shown

blueprint = new_blueprint("equivalents", "Nearest products of the same function, none of them interchangeable")
INTERCHANGE = "not interchangeable without review"
_REVIEW = (
    "Every alternative is another part: whoever answers for the joint reviews thread, strength, dimensions, coating, "
    "tightening, the current editions of the standards, the purchase order and local codes before it is used."
)
_SHOWN = 6


class EquivalentsQuery(Schema):
    """What is to be replaced."""

    designation = designation("ISO 4014 - M12x60 - 8.8")
    limit = fields.Integer(
        load_default=_SHOWN,
        validate=validate.Range(1, MOST, error=f"is 1 to {MOST}"),
        metadata={"description": "The greatest number of alternatives."},
    )


class AlternativeSchema(Schema):
    """Another product of the same function."""

    designation = fields.String(metadata={"example": "ISO 4017 - M12x60 - 8.8"})
    standard = fields.String()
    edition = fields.String()
    title = fields.String()
    same_thread = fields.Boolean(metadata={"description": "false: it does not mate with the same nut or hole."})
    distance = fields.Float(metadata={"description": "The service's own order: smaller is nearer."})
    interchange = fields.String(metadata={"enum": [INTERCHANGE]})
    not_met = fields.List(
        fields.String(), metadata={"description": "Ids of the differences that are not in the safe direction."}
    )
    differences = fields.List(fields.Nested(difference_schema("asked", "other")))


class EquivalentsSchema(AnswerSchema):
    """The nearest alternatives first; an empty list where no other product has this function."""

    designation = fields.String()
    function = fields.String(metadata={"example": "bolt or screw, hexagon"})
    alternatives = fields.List(fields.Nested(AlternativeSchema))
    review = fields.String()
    notices = fields.List(fields.String())


@blueprint.route("/equivalents")
@look_up
@query(blueprint, EquivalentsQuery)
@blueprint.response(200, EquivalentsSchema)
def get_equivalents(arguments: dict[str, Any]) -> Response:
    """Return the nearest products of the same function, every difference with both sides and its direction."""
    found = equivalents(arguments["designation"], arguments["limit"])
    answer = {
        "designation": found.asked.designation,
        "function": found.function,
        "alternatives": [_alternative(one) for one in found.alternatives],
        "review": _REVIEW,
        "notices": list(found.notices),
    }
    return Response(encode(answer), mimetype=JSON)


def _alternative(one: Alternative) -> dict[str, Any]:
    item = one.found.item
    return {
        "designation": one.found.designation,
        "standard": item.standard,
        "edition": item.edition,
        "title": item.title,
        "same_thread": one.same_thread,
        "distance": one.distance,
        "interchange": INTERCHANGE,
        "not_met": [difference.id for difference in one.differences if difference.meets is False],
        "differences": [difference_shown(difference, "asked", "other") for difference in one.differences],
    }
