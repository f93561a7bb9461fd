"""GET /v1/gauge-sizes: the gauges of a thread, new and worn."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...designations import parse_thread
from ...gauges import Gauge, GaugeSet, gauge_sizes
from ..api import blueprint as new_blueprint
from ..caching import JSON, look_up
from ..presentation import basis, encode
from ..queries import designation, query
from ..schemas import AnswerSchema, BoundsSchema
from .thread_limits import class_missing

blueprint = new_blueprint("gauge_sizes", "Screw gauges: limits when new, wear limits, application")
STANDARDS = ("ISO 1502",)


class GaugeSizesQuery(Schema):
    """What to look up."""

    designation = designation("M10-6H")
    standard = fields.String(
        metadata={"description": "The gauge standard; the default follows the thread system."},
        validate=validate.OneOf(STANDARDS, error=f"is not one of {', '.join(STANDARDS)}"),
    )


class GaugeDimensionSchema(BoundsSchema):
    """Limits of a new gauge and the size at which it is worn out."""

    wear_limit = fields.Float(allow_none=True)


class GaugeSchema(Schema):
    """A gauge."""

    id = fields.String(metadata={"example": "go_screw_plug"})
    name = fields.String()
    member = fields.String(metadata={"enum": ["external", "internal", "gauge"], "description": "What it checks."})
    checks = fields.String()
    application = fields.String()
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


@blueprint.route("/gauge-sizes")
@look_up
@query(blueprint, GaugeSizesQuery)
@blueprint.response(200, GaugeSizesSchema)
def get_gauge_sizes(arguments: dict[str, Any]) -> Response:
    """Return the gauges for a thread such as M10-6g (rings), M10-6H (plugs) or a fit (both)."""
    thread = parse_thread(arguments["designation"])
    if not thread.classes:
        raise class_missing(thread)
    sets = [gauge_sizes(thread.size, tolerance) for tolerance in thread.classes]
    return Response(encode({"designation": thread.canonical, **gauges_shown(sets)}), mimetype=JSON)


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
        "dimensions": {
            id: {
                "symbol": one.symbol,
                "min": one.min,
                "max": one.max,
                "nominal": None,
                "unit": one.unit,
                "wear_limit": one.wear_limit,
                "basis": basis(one.basis),
            }
            for id, one in gauge.dimensions.items()
        },
    }
