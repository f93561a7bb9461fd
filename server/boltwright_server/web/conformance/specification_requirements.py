"""POST /v1/specification: the specification with a purchaser's requirements put in."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Any

from flask import Response, request
from marshmallow import Schema, fields, validate

from ...conformance import Request
from ...conformance.characteristics import Judged, judged_characteristics
from ...conformance.rules import SIMPLE
from ...designations.reader import LONGEST
from ...specification import specification
from ..http.answers import answers, described, sent
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body
from ..http.fields import StrictString
from ..http.members import load_body
from ..look_ups.specification import Specification, specification_shown
from .answers import DeviationAnswer, DroppedAnswer
from .body import read_requirements
from .presentation import deviation_shown

blueprint = new_blueprint("specification_requirements", "A specification with a purchaser's requirements")


class SpecificationBody(Schema):
    """A designation and what the purchaser asks beside the standard."""

    designation = StrictString(
        required=True, validate=validate.Length(1, LONGEST, error=f"has 1 to {LONGEST} characters")
    )
    requirements = fields.Dict(keys=fields.String())
    dropped = fields.Dict(keys=fields.String())
    fracture_rule = StrictString(
        load_default="standard",
        validate=validate.OneOf(("standard", "thread_only"), error="is standard or thread_only"),
    )


class RequiredSpecification(Specification, kw_only=True):
    """Everything required of one designation, and what the purchaser changes of it."""

    deviations: Annotated[list[DeviationAnswer], described("Where the purchaser asks for less than the standard.")]
    dropped: Annotated[dict[str, DroppedAnswer], described("Characteristics that the purchaser drops, with reason.")]


def _withheld(judged: Judged) -> tuple[str, ...]:
    if not judged.deviations:
        return ()
    return ("Less is asked for than by the standard: class mark and package text of the class are withheld",)


BODY_SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["designation"],
    "additionalProperties": False,
    "properties": {
        "designation": {"type": "string", "maxLength": LONGEST, "examples": ["ISO 4014 - M10x60 - 8.8"]},
        "requirements": {
            "type": "object",
            "description": "By characteristic id: min, max, unit, group, mandatory, kind, basis; null drops it.",
            "additionalProperties": {"type": ["object", "null"]},
        },
        "dropped": {"type": "object", "description": "By id: the reason of each drop."},
        "fracture_rule": {"type": "string", "enum": ["standard", "thread_only"]},
    },
}


@blueprint.route("/specification", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@answers(blueprint, RequiredSpecification)
def post_specification() -> Response:
    """Return the specification as a purchaser's requirements change it; looser limits are said in `notices`."""
    members, _ = load_body(json_body(request), SpecificationBody, {})
    requirements, dropped = read_requirements(members)
    wanted = specification(members["designation"])
    asked = Request(
        members["designation"], (), SIMPLE, members["fracture_rule"], requirements=requirements, dropped=dropped
    )
    judged = judged_characteristics(wanted, asked)
    changed = replace(
        wanted, characteristics=judged.characteristics, notices=(*wanted.notices, *judged.notices, *_withheld(judged))
    )
    shown = specification_shown(
        RequiredSpecification,
        changed,
        deviations=[deviation_shown(one) for one in judged.deviations],
        dropped={id: DroppedAnswer(why) for id, why in judged.dropped.items()},
    )
    if judged.deviations:
        # Whoever asks for less than the standard has no claim to its class mark, nor to the package text of the class.
        shown.marking, shown.package_marking = [], None
    return sent(shown)
