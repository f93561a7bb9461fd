"""GET /v1/gauge-sizes: the gauges of a thread, new and worn."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...designations import ThreadDesignation, parse_thread
from ...documents import GaugedThread, gauge_zones
from ...gauges import NAMES, Gauge, GaugeDimension, GaugeSet, Zone, gauge_derivation, gauge_sizes
from ...threads import limits
from ..http.api import blueprint as new_blueprint
from ..http.caching import HTML, SVG, look_up, preferred
from ..http.derivations import answer_with, explain
from ..http.presentation import basis
from ..http.queries import designation, query
from ..http.schemas import AnswerSchema, BasisSchema, BoundsSchema
from .gauges_page import gauges_page
from .thread_limits import class_missing

blueprint = new_blueprint("gauge_sizes", "Screw gauges: limits when new, wear limits, application")


class GaugeDrawingQuery(Schema):
    """Gauges of what, by which standard."""

    designation = designation("M10-6H")
    standard = fields.String(
        metadata={"description": "The gauge standard; the default follows the thread system (ISO 1502, ASME B1.2)."},
        validate=validate.OneOf(NAMES, error=f"is not one of {', '.join(NAMES)}"),
    )


class GaugeSizesQuery(GaugeDrawingQuery):
    """What to look up."""

    explain = explain()


class ZoneSchema(Schema):
    """Where a gauge lies against the product limit that it guards, as offsets from that limit."""

    product_limit = fields.String(metadata={"example": "d2 max"})
    at = fields.Float()
    low = fields.Float(metadata={"description": "Least new gauge minus the product limit."})
    high = fields.Float(metadata={"description": "Greatest new gauge minus the product limit."})
    wear = fields.Float(allow_none=True, metadata={"description": "Wear limit minus the product limit."})
    unit = fields.String(metadata={"enum": ["um", "in"]})
    inside = fields.String(
        allow_none=True,
        metadata={
            "enum": ["above", "below", None],
            "description": "On which side of the limit the tolerance lies.",
        },
    )
    outside = fields.Float(
        allow_none=True,
        metadata={"description": "How far a permitted gauge may lie outside the product tolerance."},
    )


class GaugeDimensionSchema(BoundsSchema):
    """Limits of a new gauge and the size at which it is worn out."""

    wear_limit = fields.Float(allow_none=True)
    wear_basis = fields.Nested(BasisSchema)
    zone = fields.Nested(ZoneSchema, allow_none=True)


class GaugeSchema(Schema):
    """A gauge."""

    id = fields.String(metadata={"example": "go_screw_plug"})
    name = fields.String()
    member = fields.String(metadata={"enum": ["external", "internal", "gauge"], "description": "What it checks."})
    checks = fields.String()
    application = fields.String()
    turns_allowed = fields.Integer(
        allow_none=True, metadata={"description": "How far a NOT GO gauge may enter; null for the others."}
    )
    wears = fields.String(metadata={"enum": ["smaller", "larger"], "description": "What use does to its diameters."})
    dimensions = fields.Dict(keys=fields.String(), values=fields.Nested(GaugeDimensionSchema))


class NotHeldSchema(Schema):
    """A gauge without published value."""

    id = fields.String()
    reason = fields.String()


class GaugeSizesSchema(AnswerSchema):
    """The gauges of a thread."""

    designation = fields.String()
    gauge_standard = fields.String(metadata={"example": "ISO 1502:1996"})
    gauges = fields.List(fields.Nested(GaugeSchema))
    not_covered = fields.List(fields.Nested(NotHeldSchema))
    notices = fields.List(fields.String())
    derivation = fields.Raw()


@blueprint.route("/gauge-sizes")
@look_up
@query(blueprint, GaugeSizesQuery)
@blueprint.response(200, GaugeSizesSchema)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=HTML, description="A printable page", success=True)
def get_gauge_sizes(arguments: dict[str, Any]) -> Response:
    """Return the gauges for a thread such as M10-6g or 1/2-13 UNC-2A (rings), M10-6H (plugs) or a fit (both)."""
    thread = parse_thread(arguments["designation"])
    sets = gauge_sets(thread, arguments.get("standard"))
    asked = arguments["explain"]
    if not asked and preferred() == HTML:
        return gauges_page(thread, sets)
    steps = {
        thread.only(one).canonical: gauge_derivation(thread.size, one, arguments.get("standard"))
        for one in thread.classes
        if asked
    }
    title = f"{thread.canonical}, gauges of {sets[0].gauge_standard}"
    return answer_with({"designation": thread.canonical, **gauges_shown(sets)}, title, steps, asked)


@blueprint.route("/gauge-sizes/drawing.svg")
@look_up
@query(blueprint, GaugeDrawingQuery)
@blueprint.response(200, {"type": "string"}, content_type=SVG, description="A drawing")
def get_gauge_drawing(arguments: dict[str, Any]) -> Response:
    """Return the zones of the gauges against the tolerance of the thread, to scale."""
    thread = parse_thread(arguments["designation"])
    sets = gauge_sets(thread, arguments.get("standard"))
    threads = [
        GaugedThread(limits(thread.size, one).limits, held) for one, held in zip(thread.classes, sets, strict=True)
    ]
    return Response(gauge_zones(thread.canonical, threads), mimetype=SVG)


def gauge_sets(thread: ThreadDesignation, standard: str | None) -> list[GaugeSet]:
    """Return the gauges for each class of a designation.

    Raises:
        NotUnderstood: the designation names no tolerance class.
        Others: as `gauges.gauge_sizes`.
    """
    if not thread.classes:
        raise class_missing(thread)
    return [gauge_sizes(thread.size, tolerance, standard) for tolerance in thread.classes]


def gauges_shown(sets: list[GaugeSet]) -> dict[str, Any]:
    """Return the members of one or two sets of gauges."""
    return {
        "gauge_standard": sets[0].gauge_standard,
        "gauges": [_gauge(gauge) for one in sets for gauge in one.gauges],
        "not_covered": [{"id": held.id, "reason": held.reason} for one in sets for held in one.not_covered],
        "notices": list(dict.fromkeys(notice for one in sets for notice in one.notices)),
    }


def _gauge(gauge: Gauge) -> dict[str, Any]:
    return {
        "id": gauge.id,
        "name": gauge.name,
        "member": gauge.member,
        "checks": gauge.checks,
        "application": gauge.application,
        "turns_allowed": gauge.turns_allowed,
        "wears": gauge.wears,
        "dimensions": {id: dimension_shown(one) for id, one in gauge.dimensions.items()},
    }


def dimension_shown(one: GaugeDimension) -> dict[str, Any]:
    """Return the members of a dimension of a gauge."""
    shown = {
        "symbol": one.symbol,
        "min": one.min,
        "max": one.max,
        "nominal": None,
        "unit": one.unit,
        "wear_limit": one.wear_limit,
        "zone": None if one.zone is None else _zone(one.zone),
        "basis": basis(one.basis),
    }
    return shown if one.wear_basis is None else {**shown, "wear_basis": basis(one.wear_basis)}


def _zone(zone: Zone) -> dict[str, Any]:
    return {
        "product_limit": zone.product_limit,
        "at": zone.at,
        "low": zone.low,
        "high": zone.high,
        "wear": zone.wear,
        "unit": zone.unit,
        "inside": {1: "above", -1: "below"}.get(zone.inward),
        "outside": zone.outside,
    }
