"""GET /v1/product-dimensions: dimensions of one product of a product standard."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response
from marshmallow import Schema
from msgspec import UNSET, Struct

from ...designations import named_class, parse_length, parse_size, refuse_former, size_in
from ...products import dimensions, find_product
from ...products.derivation import dimensions_derivation
from ...products.surroundings import clearance_holes, thread_end
from ...quantities import asked_as
from ..http.answers import Answer, BasisAnswer, BoundsAnswer, answers, described
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.derivations import Derivation, answer_with, explain
from ..http.presentation import all_bounds, basis, bounds
from ..http.queries import query, text, unit

blueprint = new_blueprint("product_dimensions", "Dimensions of bolts, screws and nuts")


class ProductDimensionsQuery(Schema):
    """What to look up."""

    standard = text("A product standard, as ISO 4014 or ASME B18.2.1 hex cap screw.", "ISO 4014", required=True)
    size = text("A thread without tolerance class; for a washer the thread or its diameter.", "M10", required=True)
    length = text("Nominal length of bolts and screws: mm, or inch as 1-1/2.", "60")
    property_class = text("Property class, where it decides the thread tolerance.", "12.9")
    unit = unit()
    explain = explain()


class ThreadEnd(Struct):
    """Form of the thread end, ISO 4753."""

    symbol: str
    name: str
    form: str
    basis: BasisAnswer


class ProductDimensions(Answer, kw_only=True):
    """Dimensions of a product."""

    product: Annotated[str, described("How a designation of it starts.", "ISO 4014")]
    item: Annotated[str, described("What it is.", "bolt or screw")]
    standard: Annotated[str, described("As the trade cites it.", "ISO 4014")]
    edition: str
    size: Annotated[str, described("The thread; of a washer the size that it fits.", "M10")]
    length: Decimal | None
    product_grade: Annotated[str | None, described("A, B or C; null where the standard has none.", "A")]
    thread_tolerance_class: Annotated[str | None, described("null where it has no thread.", "6g")]
    unit: str
    dimensions: Annotated[
        dict[str, BoundsAnswer], described("width_across_flats, width_across_corners, head_height, length ...")
    ]
    mass_per_1000: Annotated[
        BoundsAnswer | None, described("kg, nominal, from the geometry; null where no form is held.")
    ]
    fully_threaded: Annotated[bool, described("Threaded to the head: no plain shank.")]
    thread_end: Annotated[ThreadEnd | None, described("null where the standard leaves it open.")]
    clearance_holes: Annotated[
        dict[str, BoundsAnswer], described("fine, medium, coarse: diameter of the hole, ISO 273")
    ]
    notices: list[str]
    derivation: Derivation = UNSET


@blueprint.route("/product-dimensions")
@look_up
@query(blueprint, ProductDimensionsQuery)
@answers(blueprint, ProductDimensions)
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
    unit = arguments.get("unit")
    end = thread_end(product)
    answer = ProductDimensions(
        product=product.id,
        item=product.family.item,
        standard=found.standard,
        edition=found.edition,
        size=found.size,
        length=found.length,
        product_grade=found.product_grade,
        thread_tolerance_class=found.thread_tolerance_class,
        unit=unit or found.unit,
        dimensions=all_bounds(found.dimensions, unit),
        mass_per_1000=None if found.mass_per_1000 is None else bounds(found.mass_per_1000),
        fully_threaded=found.fully_threaded,
        thread_end=None if end is None else ThreadEnd(end.symbol, end.name, end.form, basis(end.basis)),
        clearance_holes=all_bounds(clearance_holes(product, size), unit),
        notices=list(found.notices),
    )
    asked = arguments["explain"]
    steps = {"Computed dimensions": dimensions_derivation(product, size, found)} if asked else {}
    title = " ".join(filter(None, (found.standard, found.size, f"x {found.length}" if found.length else "")))
    return answer_with(answer, title, steps, asked)
