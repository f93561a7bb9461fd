"""GET /v1/product-dimensions: dimensions of one product of a product standard."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields

from ...designations import named_class, parse_length, parse_size, refuse_former, size_in
from ...products import Product, dimensions, find_product
from ...products.derivation import dimensions_derivation
from ...products.surroundings import clearance_holes, thread_end
from ...quantities import asked_as
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.derivations import answer_with, explain
from ..http.presentation import all_bounds, basis, bounds
from ..http.queries import query, text, unit
from ..http.schemas import AnswerSchema, BoundsSchema, bounds_by_id

blueprint = new_blueprint("product_dimensions", "Dimensions of bolts, screws and nuts")


class ProductDimensionsQuery(Schema):
    """What to look up."""

    standard = text("A product standard, as ISO 4014 or ASME B18.2.1 hex cap screw.", "ISO 4014", required=True)
    size = text("A thread without tolerance class; for a washer the thread or its diameter.", "M10", required=True)
    length = text("Nominal length of bolts and screws: mm, or inch as 1-1/2.", "60")
    property_class = text("Property class, where it decides the thread tolerance.", "12.9")
    unit = unit()
    explain = explain()


class ProductDimensionsSchema(AnswerSchema):
    """Dimensions of a product."""

    product = fields.String(metadata={"example": "ISO 4014", "description": "How a designation of it starts."})
    item = fields.String(metadata={"example": "bolt or screw"})
    standard = fields.String(metadata={"example": "ISO 4014"})
    edition = fields.String()
    size = fields.String(metadata={"example": "M10"})
    length = fields.Float(allow_none=True)
    product_grade = fields.String(allow_none=True, metadata={"enum": ["A", "B", "C", None]})
    thread_tolerance_class = fields.String(allow_none=True, metadata={"example": "6g"})
    unit = fields.String()
    dimensions = bounds_by_id("width_across_flats, width_across_corners, head_height, length ...")
    mass_per_1000 = fields.Nested(
        BoundsSchema,
        allow_none=True,
        metadata={"description": "kg, nominal, from the geometry; null where no form is held."},
    )
    fully_threaded = fields.Boolean(metadata={"description": "Threaded to the head: no plain shank."})
    thread_end = fields.Dict(allow_none=True, metadata={"description": "Form of the thread end, ISO 4753."})
    clearance_holes = bounds_by_id("fine, medium, coarse: diameter of the hole, ISO 273")
    notices = fields.List(fields.String())
    derivation = fields.Raw()


@blueprint.route("/product-dimensions")
@look_up
@query(blueprint, ProductDimensionsQuery)
@blueprint.response(200, ProductDimensionsSchema)
def get_product_dimensions(arguments: dict[str, Any]) -> Response:
    """Return the dimensions of a product, with the product grade that its size and length give it."""
    refuse_former(arguments["standard"], size_in(arguments["size"]), "standard")
    product = find_product(arguments["standard"])
    with asked_as("size"):
        size = parse_size(product, arguments["size"])
    with asked_as("length"):
        length = parse_length(product, arguments.get("length"))
    with asked_as("property_class"):
        named = named_class(product, arguments["property_class"]) if "property_class" in arguments else None
    found = dimensions(product, size, length, named)
    shown = arguments.get("unit")
    answer = {
        "product": product.id,
        "item": product.family.item,
        "standard": found.standard,
        "edition": found.edition,
        "size": found.size,
        "length": found.length,
        "product_grade": found.product_grade,
        "thread_tolerance_class": found.thread_tolerance_class,
        "unit": shown or found.unit,
        "dimensions": all_bounds(found.dimensions, shown),
        "mass_per_1000": None if found.mass_per_1000 is None else bounds(found.mass_per_1000),
        "fully_threaded": found.fully_threaded,
        "thread_end": _thread_end(product),
        "clearance_holes": all_bounds(clearance_holes(product, size), shown),
        "notices": list(found.notices),
    }
    asked = arguments["explain"]
    steps = {"Computed dimensions": dimensions_derivation(product, size, found)} if asked else {}
    title = " ".join(filter(None, (found.standard, found.size, f"x {found.length}" if found.length else "")))
    return answer_with(answer, title, steps, asked)


def _thread_end(product: Product) -> dict[str, Any] | None:
    end = thread_end(product)
    if end is None:
        return None
    return {"symbol": end.symbol, "name": end.name, "form": end.form, "basis": basis(end.basis)}
