"""GET /v1/gauge-sizes: the gauges of a thread, new and worn."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any
from urllib.parse import urlencode

from flask import Response, render_template, request
from marshmallow import Schema, fields, validate
from msgspec import UNSET, Struct

from ...designations import ThreadDesignation, parse_thread
from ...documents import GaugedThread, gauge_sheet, gauge_zones
from ...gauges import NAMES, Gauge, GaugeDimension, GaugeSet, gauge_derivation, gauge_sizes
from ...standards.fingerprint import fingerprint
from ...threads import limits
from ..http.answers import Answer, BasisAnswer, answers, described, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import HTML, SVG, look_up, preferred
from ..http.derivations import Derivation, answer_with, explain
from ..http.queries import designation, query
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


class ZoneAnswer(Struct, kw_only=True):
    """Where a gauge lies against the product limit that it guards, as offsets from that limit."""

    product_limit: Annotated[str, described("The limit that it guards.", "d2 max")]
    at: Decimal
    low: Annotated[Decimal, described("Least new gauge minus the product limit.")]
    high: Annotated[Decimal, described("Greatest new gauge minus the product limit.")]
    wear: Annotated[Decimal | None, described("Wear limit minus the product limit.")]
    unit: Annotated[str, described("um or in", "um")]
    inside: Annotated[str | None, described("On which side of the limit the tolerance lies: above, below or null.")]
    outside: Annotated[Decimal | None, described("How far a permitted gauge may lie outside the product tolerance.")]


class GaugeDimensionAnswer(Struct, kw_only=True, omit_defaults=True):
    """Limits of a new gauge and the size at which it is worn out."""

    symbol: Annotated[str, described("Of the dimension.", "d2")]
    min: Decimal | None
    max: Decimal | None
    nominal: Decimal | None
    unit: str
    wear_limit: Decimal | None
    zone: ZoneAnswer | None
    basis: BasisAnswer
    wear_basis: BasisAnswer | None = None


class GaugeAnswer(Struct, kw_only=True):
    """A gauge."""

    id: Annotated[str, described("What it is.", "go_screw_plug")]
    name: str
    member: Annotated[str, described("What it checks: external, internal or gauge.")]
    checks: str
    application: str
    turns_allowed: Annotated[int | None, described("How far a NOT GO gauge may enter; null for the others.")]
    wears: Annotated[str, described("smaller or larger: what use does to its diameters.")]
    dimensions: dict[str, GaugeDimensionAnswer]


class GaugeNotHeld(Struct):
    """A gauge without published value."""

    id: str
    reason: str


class GaugeSizes(Answer, kw_only=True):
    """The gauges of a thread."""

    designation: str
    gauge_standard: Annotated[str, described("As cited.", "ISO 1502:1996")]
    gauges: list[GaugeAnswer]
    not_covered: list[GaugeNotHeld]
    notices: list[str]
    derivation: Derivation = UNSET


@blueprint.route("/gauge-sizes")
@look_up
@query(blueprint, GaugeSizesQuery)
@answers(blueprint, GaugeSizes)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=HTML, description="A printable page", success=True)
def get_gauge_sizes(arguments: dict[str, Any]) -> Response:
    """Return the gauges for a thread such as M10-6g or 1/2-13 UNC-2A (rings), M10-6H (plugs) or a fit (both)."""
    thread = parse_thread(arguments["designation"])
    sets = gauge_sets(thread, arguments.get("standard"))
    asked = arguments["explain"]
    if not asked and preferred() == HTML:
        return _page(thread, sets)
    steps = {
        thread.only(one).canonical: gauge_derivation(thread.size, one, arguments.get("standard"))
        for one in thread.classes
        if asked
    }
    title = f"{thread.canonical}, gauges of {sets[0].gauge_standard}"
    return answer_with(GaugeSizes(designation=thread.canonical, **gauges_shown(sets)), title, steps, asked)


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
        "not_covered": [GaugeNotHeld(held.id, held.reason) for one in sets for held in one.not_covered],
        "notices": list(dict.fromkeys(notice for one in sets for notice in one.notices)),
    }


def _gauge(gauge: Gauge) -> GaugeAnswer:
    dimensions = {id: dimension_shown(one) for id, one in gauge.dimensions.items()}
    return shown(GaugeAnswer, gauge, dimensions=dimensions)


def dimension_shown(one: GaugeDimension) -> GaugeDimensionAnswer:
    """Return a dimension of a gauge as answers show it."""
    side = None if one.zone is None else {1: "above", -1: "below"}.get(one.zone.inward)
    zone = None if one.zone is None else shown(ZoneAnswer, one.zone, inside=side)
    return shown(GaugeDimensionAnswer, one, nominal=None, zone=zone)


def _page(thread: ThreadDesignation, sets: list[GaugeSet]) -> Response:
    """Return the sheet of the gauges of a thread. It holds no date: same fingerprint, same bytes."""
    members = [(limits(thread.size, one), held) for one, held in zip(thread.classes, sets, strict=True)]
    page = render_template(
        "gauges.html",
        sheet=gauge_sheet(thread.canonical, members),
        explained=f"?{urlencode({**request.args.to_dict(), 'explain': 'true'})}",
        fingerprint=fingerprint(),
    )
    return Response(page, mimetype=HTML)
