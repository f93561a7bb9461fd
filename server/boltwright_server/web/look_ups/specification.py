"""GET /v1/specification: everything required of one designation, as JSON or as a printable sheet."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate
from msgspec import structs

from ...documents import part_drawing, thread_drawing
from ...quantities import NotCovered
from ...specification import Characteristic, Specification, specification
from ..http.answers import BoundsAnswer
from ..http.api import blueprint as new_blueprint
from ..http.caching import HTML, JSON, SVG, look_up, preferred
from ..http.presentation import all_bounds, basis, bounds, encode, shown_mark
from ..http.queries import designation, query
from ..http.schemas import AnswerSchema, BoundsSchema, bounds_by_id
from .coating_presentation import coating_limits_shown
from .gauge_sizes import gauges_shown
from .mechanical_minimums import MarkSchema, TestSchema, shown_test
from .specification_page import specification_page
from .standards import InForceSchema, in_force_shown

blueprint = new_blueprint("specification", "Everything required of one designation")
VIEWS = ("part", "thread")
PAGE = {"type": "string"}


class SpecificationQuery(Schema):
    """What to look up."""

    designation = designation("ISO 4014 - M10x60 - 8.8")


class DrawingQuery(SpecificationQuery):
    """Which drawing of what."""

    view = fields.String(
        load_default="part",
        validate=validate.OneOf(VIEWS, error=f"is one of {', '.join(VIEWS)}"),
        metadata={"description": "The part with its dimensions, or the tolerance zones of its thread."},
    )


class LaterEditionSchema(Schema):
    """A standard whose figures are of the edition `used`; another is in force as far as known."""

    standard = fields.String(metadata={"example": "ISO 7040"})
    used = fields.String(metadata={"example": "2012"})
    in_force = fields.Nested(InForceSchema)


class CharacteristicSchema(BoundsSchema):
    """One requirement: bounds where it is measured, `allowed` where it is an attribute or a category."""

    symbol = fields.String(allow_none=True)
    unit = fields.String(allow_none=True, metadata={"description": "null where nothing is measured."})
    kind = fields.String(metadata={"enum": ["measured", "attribute", "category"]})
    group = fields.String(metadata={"enum": ["dimension", "thread", "mechanical", "surface", "marking"]})
    instrument = fields.String()
    destructive = fields.Boolean()
    mandatory = fields.Boolean()
    allowed = fields.List(fields.Raw())
    state = fields.String(
        allow_none=True,
        metadata={
            "enum": ["before_coating", "as_delivered", None],
            "description": "Coated products: when it holds; null for a plain product.",
        },
    )
    scales = bounds_by_id("Hardness only: the limits of each scale")
    over_core = fields.Nested(
        BoundsSchema, metadata={"description": "Surface hardness only: how far it may lie above the core of its piece."}
    )


class SpecificationSchema(AnswerSchema):
    """Everything required of one designation."""

    designation = fields.String(metadata={"example": "ISO 4014 - M10x60 - 8.8"})
    item = fields.Dict()
    characteristics = fields.Dict(keys=fields.String(), values=fields.Nested(CharacteristicSchema))
    reference_dimensions = bounds_by_id("Dimensions for reference; not judged")
    mass_per_1000 = fields.Nested(
        BoundsSchema,
        allow_none=True,
        metadata={"description": "kg, nominal, from the geometry; null where no form is held."},
    )
    load_bounds = bounds_by_id("tensile_load, proof_load", data_key="loads")
    gauges = fields.List(fields.Dict())
    gauge_standard = fields.String(allow_none=True)
    tests = fields.List(fields.Nested(TestSchema))
    marking = fields.List(fields.Nested(MarkSchema))
    package_marking = fields.Nested(MarkSchema, allow_none=True)
    coating = fields.Dict(
        allow_none=True, metadata={"description": "As in /v1/coating-limits; null for a plain product."}
    )
    not_covered = fields.List(fields.String())
    cautions = fields.List(fields.String())
    notices = fields.List(fields.String())
    editions = fields.List(
        fields.Nested(LaterEditionSchema),
        metadata={"description": "Standards of which a later edition is in force than the one the figures are from."},
    )
    deviations = fields.List(
        fields.Dict(), metadata={"description": "POST only: where the purchaser asks for less than the standard."}
    )
    dropped = fields.Dict(metadata={"description": "POST only: characteristics that the purchaser drops, with reason."})


@blueprint.route("/specification")
@look_up
@query(blueprint, SpecificationQuery)
@blueprint.response(200, SpecificationSchema)
@blueprint.alt_response(200, schema=PAGE, content_type=HTML, description="A printable sheet", success=True)
def get_specification(arguments: dict[str, Any]) -> Response:
    """Return every requirement of a product or a thread; with `Accept: text/html` as a printable sheet."""
    found = specification(arguments["designation"])
    if preferred() == HTML:
        return specification_page(found)
    return Response(encode(specification_shown(found)), mimetype=JSON)


@blueprint.route("/specification/drawing.svg")
@look_up
@query(blueprint, DrawingQuery)
@blueprint.response(200, {"type": "string"}, content_type=SVG, description="A drawing")
def get_drawing(arguments: dict[str, Any]) -> Response:
    """Return the drawing of a part, or of its thread's tolerance zones, to scale."""
    found = specification(arguments["designation"])
    view = arguments["view"]
    drawing = part_drawing(found) if view == "part" else thread_drawing(found)
    if drawing is None:
        raise NotCovered(f"no drawing of the {view} is held for {found.designation}", member="view")
    return Response(drawing, mimetype=SVG)


def specification_shown(found: Specification) -> dict[str, Any]:
    """Return the members of a specification."""
    gauges = gauges_shown([found.gauges]) if found.gauges is not None else None
    return {
        "designation": found.designation,
        "item": _item(found),
        "characteristics": {id: characteristic_shown(one) for id, one in found.characteristics.items()},
        "reference_dimensions": _reference(found),
        "mass_per_1000": _mass(found),
        "loads": all_bounds(found.mechanical.loads) if found.mechanical is not None else {},
        "gauges": gauges["gauges"] if gauges else [],
        "gauge_standard": gauges["gauge_standard"] if gauges else None,
        "tests": [shown_test(test) for test in found.tests],
        "marking": [shown_mark(one) for one in found.marking],
        "package_marking": None if found.package is None else shown_mark(found.package),
        "coating": None if found.coating is None else coating_limits_shown(found.coating),
        "not_covered": list(found.not_covered) + ([] if found.tolerance is None else _gauges_not_held(gauges)),
        "cautions": list(found.cautions),
        "notices": list(found.notices) + (gauges["notices"] if gauges else []),
        "editions": [
            {"standard": one.standard, "used": one.used, "in_force": in_force_shown(one.in_force)}
            for one in found.editions
        ],
    }


def _mass(found: Specification) -> BoundsAnswer | None:
    mass = None if found.dimensions is None else found.dimensions.mass_per_1000
    return None if mass is None else bounds(mass)


def _gauges_not_held(gauges: dict[str, Any] | None) -> list[str]:
    if gauges is None:
        return ["Gauges: ISO 1502 has no gauge tolerances for this thread tolerance."]
    return [f"Gauge {one.id}: {one.reason}." for one in gauges["not_covered"]]


def _item(found: Specification) -> dict[str, Any]:
    item = found.item
    return {
        "kind": item.kind,
        "standard": item.standard,
        "edition": item.edition,
        "title": item.title,
        "thread": item.thread,
        "tolerance_class": item.tolerance_class,
        "length": item.length,
        "product_grade": item.product_grade,
        "property_class": item.property_class,
        "coating": item.coating,
    }


def _reference(found: Specification) -> dict[str, Any]:
    if found.dimensions is None:
        return {}
    return all_bounds({id: one for id, one in found.dimensions.dimensions.items() if id not in found.characteristics})


def characteristic_shown(one: Characteristic) -> dict[str, Any]:
    """Return the members of a characteristic."""
    limits: dict[str, Any] = (
        structs.asdict(bounds(one.bounds))
        if one.bounds is not None
        else {
            "symbol": None,
            "min": None,
            "max": None,
            "nominal": None,
            "unit": None,
            "basis": basis(one.basis),
        }
    )
    shown: dict[str, Any] = {
        **limits,
        "kind": one.kind,
        "group": one.group,
        "instrument": one.instrument,
        "destructive": one.destructive,
        "mandatory": one.mandatory,
        "allowed": list(one.allowed),
        "state": one.state,
    }
    if one.scales:
        shown["scales"] = all_bounds(one.scales)
    if one.over_core is not None:
        shown["over_core"] = bounds(one.over_core)
    return shown
