"""GET /v1/coating-limits: room for coating on a thread, limits before and after it, gauges, pairs, loads, cautions."""

from __future__ import annotations

from decimal import Decimal
from typing import Any, TypeVar

from flask import Response
from marshmallow import Schema, fields

from ...coating import Coating, coating_limits
from ...designations import ProductDesignation, names_thread, parse_coating, parse_product, parse_thread
from ...products import dimensions
from ...quantities import Contradiction, NotCovered
from ...threads import ThreadClass, ThreadSize, find_class
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.presentation import encode
from ..http.queries import designation, length_of, query, text
from ..http.schemas import AnswerSchema, BasisSchema, BoundsSchema, bounds_by_id
from .coating_presentation import coating_limits_shown
from .thread_limits import class_missing

blueprint = new_blueprint("coating_limits", "Coatings of threads: room, limits before and after, gauges, pairs")
T = TypeVar("T", Decimal, str, Coating)
_GROUPS = "local, length_up_to_5_d, length_up_to_10_d, length_up_to_15_d (batch average)"


class CoatingLimitsQuery(Schema):
    """What to look up."""

    designation = designation("M10-6g")
    coating = text("A coating that a standard designates: tZn, Fe/Zn8/An/T0, A3L or flZn-480h.", "Fe/Zn8")
    length = text("Nominal length in mm; it chooses the length group.", "60")
    property_class = text("Property class, for loads and hydrogen embrittlement.", "8.8")


class CoatingSchema(Schema):
    """A coating."""

    designation = fields.String(metadata={"example": "tZn"})
    process = fields.String(metadata={"enum": ["hot dip galvanizing", "electroplating", "zinc flake"]})
    metal = fields.String()
    standard = fields.String()
    edition = fields.String()
    thickness = bounds_by_id("local, batch_average or reference thickness in um")
    basis = fields.Nested(BasisSchema)


class StateSchema(Schema):
    """The thread in one state. `go_gauge` and `not_go_gauge` are designations for /v1/gauge-sizes."""

    state = fields.String(metadata={"enum": ["before coating", "after coating", "tapped after galvanizing"]})
    limits = bounds_by_id("Limits in this state; after coating the basic profile, open on the other side")
    go_gauge = fields.String(allow_none=True, metadata={"example": "M10-6h"})
    not_go_gauge = fields.String(allow_none=True)
    remark = fields.String()


class PairingSchema(Schema):
    """Tolerance positions of a galvanized bolt and a nut."""

    external = fields.String(metadata={"example": "az"})
    internal = fields.String(metadata={"example": "AZ"})
    may_mate = fields.Boolean()
    reason = fields.String()
    basis = fields.Nested(BasisSchema)


class CoatingLimitsSchema(AnswerSchema):
    """What a coating means for a thread. Without a coating: what its tolerance position has room for."""

    designation = fields.String(metadata={"example": "M10-6g"})
    member = fields.String(metadata={"enum": ["external", "internal"]})
    tolerance_class = fields.String()
    coating = fields.Nested(CoatingSchema, allow_none=True)
    fundamental_deviation = fields.Nested(BoundsSchema)
    largest_thickness = bounds_by_id(f"By the rule, in um: {_GROUPS}; inch threads: local, in inch")
    largest_nominal_thickness = bounds_by_id(f"Printed, in um: {_GROUPS}; empty where the table has no such position")
    length_group = fields.String(allow_none=True)
    fit = fields.Dict(allow_none=True, metadata={"description": "fits (null: depends on the length), by_group, detail"})
    states = fields.List(fields.Nested(StateSchema))
    pairings = fields.List(fields.Nested(PairingSchema))
    reduced_loads = fields.Dict(
        metadata={"description": "By property class: loads of M8 and M10 that galvanizing reduces."}
    )
    hydrogen_embrittlement = fields.Dict(allow_none=True)
    cautions = fields.List(fields.String())
    notices = fields.List(fields.String())


@blueprint.route("/coating-limits")
@look_up
@query(blueprint, CoatingLimitsQuery)
@blueprint.response(200, CoatingLimitsSchema)
def get_coating_limits(arguments: dict[str, Any]) -> Response:
    """Return what a coating means for a thread, as M10-6g, or for a product, as ISO 4014 - M10x60 - 8.8 - tZn."""
    named = parse_coating(arguments["coating"]) if "coating" in arguments else None
    length = length_of(arguments.get("length"))
    property_class = arguments.get("property_class")
    if names_thread(arguments["designation"]):
        canonical, size, tolerance = _of_thread(arguments["designation"])
    else:
        product = parse_product(arguments["designation"])
        canonical, size, tolerance = _of_product(product)
        length = _agreed("length", product.length, length)
        property_class = _agreed("property_class", product.property_class, property_class)
        named = _agreed("coating", product.coating, named)
    found = coating_limits(size, tolerance, named, length, property_class)
    answer = {
        "designation": canonical,
        "member": tolerance.member,
        "tolerance_class": tolerance.designation,
        **coating_limits_shown(found),
    }
    return Response(encode(answer), mimetype=JSON)


def _of_thread(written: str) -> tuple[str, ThreadSize, ThreadClass]:
    thread = parse_thread(written)
    if len(thread.classes) != 1:
        raise class_missing(thread)
    return thread.canonical, thread.size, thread.classes[0]


def _of_product(product: ProductDesignation) -> tuple[str, ThreadSize, ThreadClass]:
    part = dimensions(product.product, product.size, product.length, product.property_class)
    named = product.tolerance_class or part.thread_tolerance_class
    if named is None:
        raise NotCovered(f"{product.canonical} has no thread that a coating could close", member="designation")
    return product.canonical, product.size, find_class(named, product.size)


def _agreed(member: str, of_product: T | None, given: T | None) -> T | None:
    """Return what the designation or the query says; both may say the same.

    Raises:
        Contradiction: they say different things.
    """
    if of_product is not None and given is not None and of_product != given:
        raise Contradiction(
            f"{member} {_written(given)} contradicts the designation, which says {_written(of_product)}",
            member=member,
        )
    return given if of_product is None else of_product


def _written(value: Decimal | str | Coating) -> str:
    return value.designation if isinstance(value, Coating) else str(value)
