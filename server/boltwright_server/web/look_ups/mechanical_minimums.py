"""GET /v1/mechanical-minimums: properties, loads and tests of a thread in a property class or grade."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response
from marshmallow import Schema, fields, validate
from msgspec import UNSET, Struct

from ...designations import parse_thread
from ...mechanical import Grade, Test, find_grade, mechanical_minimums
from ...mechanical import MechanicalMinimums as Found
from ...mechanical.derivation import minimums_derivation
from ...quantities import Bounds, Contradiction, NotUnderstood, asked_as, cited
from ...quantities.units import CODES, dimension
from ..http.answers import Answer, BasisAnswer, BoundsAnswer, answers, described, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.derivations import Derivation, answer_with, explain
from ..http.presentation import bounds
from ..http.queries import query, text

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


class SettingAnswer(Struct):
    """One condition of a test; `null` is an open side."""

    min: Decimal | None
    max: Decimal | None
    unit: str
    basis: BasisAnswer


class TestAnswer(Struct, kw_only=True):
    """A test: whether it applies and why, how it is set up, what passes."""

    id: Annotated[str, described("Of the test.", "wedge_tensile")]
    name: str
    applies: Annotated[bool | None, described("null where the length would be needed.")]
    reason: Annotated[str, described("Why it applies to this part or does not.")]
    condition: str
    specimen: str
    destructive: bool
    specimens: Annotated[
        SettingAnswer | None,
        described("Smallest sample of ISO 3269:2000 with acceptance number 0; null for inch standards."),
    ]
    readings_per_specimen: int
    equipment: list[str]
    settings: dict[str, SettingAnswer]
    acceptance: str
    cautions: list[str]
    basis: BasisAnswer


class SteelAnswer(Struct, kw_only=True):
    """A steel that the class may be made of."""

    name: Annotated[str, described("As its table names it.", "carbon with additives")]
    treatment: str | None
    elements: Annotated[
        dict[str, BoundsAnswer], described("Mass fractions of the cast analysis in percent, by chemical symbol")
    ]
    tempering_temperature: BoundsAnswer | None
    basis: BasisAnswer


class MarkAnswer(Struct):
    """What must stand where on the part."""

    place: str
    symbol: str
    requirement: str
    basis: BasisAnswer


class MechanicalMinimums(Answer, kw_only=True):
    """Properties, loads and tests."""

    standard: Annotated[str, described("Of the class or grade.", "ISO 898-1")]
    edition: str
    thread: Annotated[str, described("Canonical.", "M10")]
    property_class: Annotated[str, described("Or the grade.", "8.8")]
    member: Annotated[str, described("external or internal", "external")]
    stress_area: BoundsAnswer
    properties: Annotated[
        dict[str, BoundsAnswer], described("tensile_strength, yield_strength, proof_stress, hardness_vickers ...")
    ]
    loads: Annotated[dict[str, BoundsAnswer], described("tensile_load, proof_load, yield_load, breaking_torque")]
    disputed: Annotated[
        dict[str, dict[str, BoundsAnswer]],
        described(
            "Limits on which sources or editions disagree, by hardness scale or property and edition: never judged "
            "unasked."
        ),
    ]
    chemical_composition: list[SteelAnswer]
    marking: list[MarkAnswer]
    tests: list[TestAnswer]
    notices: list[str]
    derivation: Derivation = UNSET


@blueprint.route("/mechanical-minimums")
@look_up
@query(blueprint, MechanicalMinimumsQuery)
@answers(blueprint, MechanicalMinimums)
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


def mechanical_shown(found: Found, unit: str | None = None) -> MechanicalMinimums:
    """Return mechanical properties as their answer shows them; what has the dimension of `unit` is shown in it."""
    if unit is not None:
        _check_unit(unit, [found.stress_area, *found.properties.values(), *found.loads.values()])
    return shown(
        MechanicalMinimums,
        found,
        stress_area=_shown_in(found.stress_area, unit),
        properties={id: _shown_in(one, unit) for id, one in found.properties.items()},
        loads={id: _shown_in(one, unit) for id, one in found.loads.items()},
        chemical_composition=found.steels,
        tests=[test_shown(test) for test in found.tests],
    )


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


def test_shown(test: Test) -> TestAnswer:
    """Return a test as answers show it."""
    return shown(TestAnswer, test, specimens=test.pieces, readings_per_specimen=test.readings)
