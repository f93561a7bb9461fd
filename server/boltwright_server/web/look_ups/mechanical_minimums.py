"""GET /v1/mechanical-minimums: properties, loads and tests of a thread in a property class or grade."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...designations import parse_thread
from ...mechanical import Grade, MechanicalMinimums, Setting, Steel, Test, find_grade, mechanical_minimums
from ...mechanical.derivation import minimums_derivation
from ...quantities import Bounds, Contradiction, NotUnderstood, asked_as, cited
from ...quantities.units import CODES, dimension
from ..http.answers import BoundsAnswer
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.derivations import answer_with, explain
from ..http.presentation import all_bounds, basis, bounds, shown_mark
from ..http.queries import query, text
from ..http.schemas import AnswerSchema, BasisSchema, BoundsSchema, bounds_by_id

blueprint = new_blueprint("mechanical_minimums", "Strengths, hardness windows, loads and tests")


class MechanicalMinimumsQuery(Schema):
    """What to look up."""

    thread = text("A thread without tolerance class.", "M10", required=True)
    property_class = text(
        "A property class: 8.8 or A2-70 for a bolt, 8 for a nut; 08.8 has reduced loadability.", "8.8"
    )
    grade = text("A grade of another standard, as SAE J429 5.", "SAE J429 5")
    member = fields.String(
        validate=validate.OneOf(("external", "internal"), error="is external (bolt) or internal (nut)"),
        metadata={"description": "external for bolts, internal for nuts; follows from the class where it is unique."},
    )
    style = fields.Integer(
        validate=validate.Range(0, 2, error="is 0 (thin), 1 (regular) or 2 (high)"),
        metadata={"description": "Style of a nut; the default is the lowest that Table 1 lists for the class."},
    )
    form = fields.String(
        validate=validate.OneOf(("hex", "heavy_hex"), error="is hex or heavy_hex"),
        metadata={"description": "Form of a nut of ASTM A194 and A563; the default is heavy_hex where there is one."},
    )
    structural = fields.Boolean(
        load_default=False,
        metadata={"description": "Bolts for structural bolting: class 8.8 then has its higher loads from M12."},
    )
    unit = fields.String(
        validate=validate.OneOf(CODES, error=f"is not one of {', '.join(CODES)}"),
        metadata={
            "description": "Show what has this dimension in this unit (kN, lbf, ksi ...); limits stay as they are."
        },
    )
    explain = explain()


class SettingSchema(Schema):
    """One condition of a test; `null` is an open side."""

    min = fields.Float(allow_none=True)
    max = fields.Float(allow_none=True)
    unit = fields.String()
    basis = fields.Nested(BasisSchema)


class TestSchema(Schema):
    """A test: whether it applies and why, how it is set up, what passes."""

    id = fields.String(metadata={"example": "wedge_tensile"})
    name = fields.String()
    applies = fields.Boolean(allow_none=True, metadata={"description": "null where the length would be needed."})
    reason = fields.String(metadata={"description": "Why it applies to this part or does not."})
    condition = fields.String()
    specimen = fields.String()
    destructive = fields.Boolean()
    specimens = fields.Nested(
        SettingSchema,
        allow_none=True,
        metadata={"description": "Smallest sample of ISO 3269:2000 with acceptance number 0; null for inch standards."},
    )
    readings_per_specimen = fields.Integer()
    equipment = fields.List(fields.String())
    settings = fields.Dict(keys=fields.String(), values=fields.Nested(SettingSchema))
    acceptance = fields.String()
    cautions = fields.List(fields.String())
    basis = fields.Nested(BasisSchema)


class SteelSchema(Schema):
    """A steel that the class may be made of."""

    name = fields.String(metadata={"example": "carbon with additives"})
    treatment = fields.String(allow_none=True)
    elements = bounds_by_id("Mass fractions of the cast analysis in percent, by chemical symbol")
    tempering_temperature = fields.Nested(BoundsSchema, allow_none=True)
    basis = fields.Nested(BasisSchema)


class MarkSchema(Schema):
    """What must stand where on the part."""

    place = fields.String()
    symbol = fields.String()
    requirement = fields.String()
    basis = fields.Nested(BasisSchema)


class MechanicalMinimumsSchema(AnswerSchema):
    """Properties, loads and tests."""

    standard = fields.String(metadata={"example": "ISO 898-1"})
    edition = fields.String()
    thread = fields.String(metadata={"example": "M10"})
    property_class = fields.String(metadata={"example": "8.8"})
    member = fields.String()
    stress_area = fields.Nested(BoundsSchema)
    properties = bounds_by_id("tensile_strength, yield_strength, proof_stress, hardness_vickers ...")
    load_bounds = bounds_by_id("tensile_load, proof_load, yield_load, breaking_torque", data_key="loads")
    disputed = fields.Dict(
        metadata={
            "description": "Limits on which sources or editions disagree, by hardness scale or property and edition: "
            "never judged unasked."
        }
    )
    chemical_composition = fields.List(fields.Nested(SteelSchema))
    marking = fields.List(fields.Nested(MarkSchema))
    tests = fields.List(fields.Nested(TestSchema))
    notices = fields.List(fields.String())
    derivation = fields.Raw()


@blueprint.route("/mechanical-minimums")
@look_up
@query(blueprint, MechanicalMinimumsQuery)
@blueprint.response(200, MechanicalMinimumsSchema)
def get_mechanical_minimums(arguments: dict[str, Any]) -> Response:
    """Return the mechanical properties of a thread in a property class or grade."""
    with asked_as("thread"):
        thread = parse_thread(arguments["thread"])
    if thread.classes:
        raise NotUnderstood("thread is a size such as M10, without tolerance class", member="thread")
    found = mechanical_minimums(
        thread.size,
        _grade(arguments),
        style=arguments.get("style"),
        form=arguments.get("form"),
        structural=arguments["structural"],
    )
    asked = arguments["explain"]
    title = f"{found.thread}, {found.property_class}"
    steps = {cited(found.standard, found.edition): minimums_derivation(thread.size, found)} if asked else {}
    return answer_with(mechanical_shown(found, arguments.get("unit")), title, steps, asked)


def _grade(arguments: dict[str, Any]) -> Grade:
    given = [name for name in ("property_class", "grade") if name in arguments]
    if not given:
        raise NotUnderstood(
            "name a property_class such as 8.8 or a grade such as SAE J429 5",
            member="property_class",
            code="class_missing",
        )
    if len(given) == 2:
        raise Contradiction("name a property_class or a grade, not both", member="grade")
    return find_grade(arguments[given[0]], arguments.get("member"), given[0])


def mechanical_shown(found: MechanicalMinimums, unit: str | None = None) -> dict[str, Any]:
    """Return the members of mechanical properties; what has the dimension of `unit` is shown in it."""
    if unit is not None:
        _check_unit(unit, [found.stress_area, *found.properties.values(), *found.loads.values()])
    return {
        "standard": found.standard,
        "edition": found.edition,
        "thread": found.thread,
        "property_class": found.property_class,
        "member": found.member,
        "stress_area": _shown_in(found.stress_area, unit),
        "properties": {id: _shown_in(one, unit) for id, one in found.properties.items()},
        "loads": {id: _shown_in(one, unit) for id, one in found.loads.items()},
        "disputed": {scale: all_bounds(by_edition) for scale, by_edition in found.disputed.items()},
        "chemical_composition": [_shown_steel(steel) for steel in found.steels],
        "marking": [shown_mark(mark) for mark in found.marking],
        "tests": [shown_test(test) for test in found.tests],
        "notices": list(found.notices),
    }


def _check_unit(unit: str, limits: list[Bounds]) -> None:
    if all(dimension(one.unit) != dimension(unit) for one in limits):
        raise Contradiction(
            f"nothing in this answer is a {dimension(unit)}; its units are "
            f"{', '.join(dict.fromkeys(one.unit for one in limits))}",
            member="unit",
            code="unit_does_not_fit",
        )


def _shown_in(limits: Bounds, unit: str | None) -> BoundsAnswer:
    return bounds(limits, unit if unit is not None and dimension(unit) == dimension(limits.unit) else None)


def _shown_steel(steel: Steel) -> dict[str, Any]:
    tempering = steel.tempering_temperature
    return {
        "name": steel.name,
        "treatment": steel.treatment,
        "elements": all_bounds(steel.elements),
        "tempering_temperature": None if tempering is None else bounds(tempering),
        "basis": basis(steel.basis),
    }


def shown_test(test: Test) -> dict[str, Any]:
    """Return the members of a test."""
    return {
        "id": test.id,
        "name": test.name,
        "applies": test.applies,
        "reason": test.reason,
        "condition": test.condition,
        "specimen": test.specimen,
        "destructive": test.destructive,
        "specimens": None if test.pieces is None else _shown_setting(test.pieces),
        "readings_per_specimen": test.readings,
        "equipment": list(test.equipment),
        "settings": {name: _shown_setting(one) for name, one in test.settings.items()},
        "acceptance": test.acceptance,
        "cautions": list(test.cautions),
        "basis": basis(test.basis),
    }


def _shown_setting(setting: Setting) -> dict[str, Any]:
    return {"min": setting.min, "max": setting.max, "unit": setting.unit, "basis": basis(setting.basis)}
