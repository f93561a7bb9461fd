"""GET /v1/mechanical-minimums: properties, loads and tests of a thread in a property class."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...designations import parse_thread
from ...mechanical import MechanicalMinimums, Test, mechanical_minimums
from ...quantities import NotUnderstood
from ...threads import metric
from ..api import blueprint as new_blueprint
from ..caching import JSON, look_up
from ..presentation import all_bounds, basis, bounds, encode
from ..queries import query, text
from ..schemas import AnswerSchema, BasisSchema, BoundsSchema, bounds_by_id

blueprint = new_blueprint("mechanical_minimums", "Strengths, hardness windows, loads and tests")


class MechanicalMinimumsQuery(Schema):
    """What to look up."""

    thread = text("A thread without tolerance class.", "M10", required=True)
    property_class = text("A property class: 8.8 for a bolt, 8 for a nut.", "8.8")
    grade = text("A grade of another standard, as SAE J429 5.", "SAE J429 5")
    member = fields.String(
        validate=validate.OneOf(("external", "internal"), error="is external (bolt) or internal (nut)"),
        metadata={"description": "external for bolts, internal for nuts; follows from the class where it is unique."},
    )
    style = fields.Integer(
        validate=validate.Range(0, 2, error="is 0 (thin), 1 (regular) or 2 (high)"),
        metadata={"description": "Style of a nut; the default is the lowest that Table 1 lists for the class."},
    )


class SettingSchema(Schema):
    """One condition of a test; `null` is an open side."""

    min = fields.Float(allow_none=True)
    max = fields.Float(allow_none=True)
    unit = fields.String()
    basis = fields.Nested(BasisSchema)


class TestSchema(Schema):
    """A test and its settings."""

    id = fields.String(metadata={"example": "wedge_tensile"})
    name = fields.String()
    applies = fields.Boolean(allow_none=True, metadata={"description": "null where the length would be needed."})
    condition = fields.String()
    settings = fields.Dict(keys=fields.String(), values=fields.Nested(SettingSchema))
    basis = fields.Dict()


class MechanicalMinimumsSchema(AnswerSchema):
    """Properties, loads and tests."""

    standard = fields.String(metadata={"example": "ISO 898-1"})
    edition = fields.String()
    thread = fields.String(metadata={"example": "M10"})
    property_class = fields.String(metadata={"example": "8.8"})
    member = fields.String()
    stress_area = fields.Nested(BoundsSchema)
    properties = bounds_by_id("tensile_strength, yield_strength, proof_stress, hardness_vickers ...")
    load_bounds = bounds_by_id("tensile_load, proof_load", data_key="loads")
    disputed = fields.Dict(
        metadata={"description": "Hardness scales on which sources disagree: limits by edition, never judged unasked."}
    )
    tests = fields.List(fields.Nested(TestSchema))
    notices = fields.List(fields.String())


@blueprint.route("/mechanical-minimums")
@look_up
@query(blueprint, MechanicalMinimumsQuery)
@blueprint.response(200, MechanicalMinimumsSchema)
def get_mechanical_minimums(arguments: dict[str, Any]) -> Response:
    """Return the mechanical properties of a thread in a property class."""
    thread = parse_thread(arguments["thread"])
    if thread.classes:
        raise NotUnderstood("thread is a size such as M10, without tolerance class", member="thread")
    if "property_class" not in arguments:
        raise NotUnderstood("name a property_class such as 8.8", member="property_class", code="class_missing")
    found = mechanical_minimums(
        metric(thread.size, "a property class of ISO 898", "thread"),
        arguments["property_class"].strip().upper(),
        arguments.get("member"),
        arguments.get("style"),
    )
    return Response(encode(mechanical_shown(found)), mimetype=JSON)


def mechanical_shown(found: MechanicalMinimums) -> dict[str, Any]:
    """Return the members of mechanical properties."""
    return {
        "standard": found.standard,
        "edition": found.edition,
        "thread": found.thread,
        "property_class": found.property_class,
        "member": found.member,
        "stress_area": bounds(found.stress_area),
        "properties": all_bounds(found.properties),
        "loads": all_bounds(found.loads),
        "disputed": {scale: all_bounds(by_edition) for scale, by_edition in found.disputed.items()},
        "tests": [shown_test(test) for test in found.tests],
        "notices": list(found.notices),
    }


def shown_test(test: Test) -> dict[str, Any]:
    """Return the members of a test."""
    return {
        "id": test.id,
        "name": test.name,
        "applies": test.applies,
        "condition": test.condition,
        "settings": {
            name: {"min": one.min, "max": one.max, "unit": one.unit, "basis": basis(one.basis)}
            for name, one in test.settings.items()
        },
        "basis": basis(test.basis),
    }
