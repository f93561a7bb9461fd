"""GET /v1/equivalents: the nearest products of the same function, with everything in which they differ."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response
from marshmallow import Schema, fields, validate
from msgspec import Meta, Struct

from ...specification.equivalents import MOST, Alternative, equivalents
from ..http.answers import Answer, BoundsAnswer, answers, described, sent
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.queries import designation, query
from .difference_presentation import DifferenceAnswer, difference_shown, sides

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


class EquivalentsDifference(DifferenceAnswer, kw_only=True, rename=sides("asked", "other")):
    """A requirement in which the other product differs from what was asked."""

    first: Annotated[BoundsAnswer | None, described("null: nothing, or a text.")]
    second: Annotated[BoundsAnswer | None, described("null: nothing, or a text.")]
    first_text: str | None
    second_text: str | None


class AlternativeAnswer(Struct, kw_only=True):
    """Another product of the same function."""

    designation: Annotated[str, Meta(examples=["ISO 4017 - M12x60 - 8.8"])]
    standard: str
    edition: str
    title: str
    same_thread: Annotated[bool, described("false: it does not mate with the same nut or hole.")]
    distance: Annotated[Decimal, described("The service's own order: smaller is nearer.")]
    interchange: Annotated[str, Meta(extra_json_schema={"enum": [INTERCHANGE]})]
    not_met: Annotated[list[str], described("Ids of the differences that are not in the safe direction.")]
    differences: list[EquivalentsDifference]


class Equivalents(Answer, kw_only=True):
    """The nearest alternatives first; an empty list where no other product has this function."""

    designation: str
    function: Annotated[str, Meta(examples=["bolt or screw, hexagon"])]
    alternatives: list[AlternativeAnswer]
    review: str
    notices: list[str]


@blueprint.route("/equivalents")
@look_up
@query(blueprint, EquivalentsQuery)
@answers(blueprint, Equivalents)
def get_equivalents(arguments: dict[str, Any]) -> Response:
    """Return the nearest products of the same function, every difference with both sides and its direction."""
    found = equivalents(arguments["designation"], arguments["limit"])
    return sent(
        Equivalents(
            designation=found.asked.designation,
            function=found.function,
            alternatives=[_alternative(one) for one in found.alternatives],
            review=_REVIEW,
            notices=list(found.notices),
        )
    )


def _alternative(one: Alternative) -> AlternativeAnswer:
    item = one.found.item
    return AlternativeAnswer(
        designation=one.found.designation,
        standard=item.standard,
        edition=item.edition,
        title=item.title,
        same_thread=one.same_thread,
        distance=one.distance,
        interchange=INTERCHANGE,
        not_met=[difference.id for difference in one.differences if difference.meets is False],
        differences=[difference_shown(EquivalentsDifference, difference) for difference in one.differences],
    )
