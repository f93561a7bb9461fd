"""GET /v1/threads: the sizes that the thread standards list, page by page."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...quantities import Contradiction
from ...threads import SYSTEMS, ThreadSize, UnifiedSize, system_of
from ...threads.iso_metric import in_selection_for_fasteners
from ...threads.listing import SizeFilter, series_names, sizes_matching
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.paging import cursor, limit, link, page_of
from ..http.presentation import encode
from ..http.queries import QueryDecimal, query, text
from ..http.schemas import AnswerSchema

blueprint = new_blueprint("threads", "Which threads the standards list")


class ThreadsQuery(Schema):
    """Which threads to list; every filter may be left out."""

    system = text("A thread system: ISO metric or Unified inch.", SYSTEMS[0].name)
    series = text(f"A series: {', '.join(series_names())}.", "coarse")
    choice = fields.Integer(
        validate=validate.Range(1, 3, error="is 1, 2 or 3"),
        metadata={"description": "Preference of the standard for the diameter, 1 the first."},
    )
    min_diameter = QueryDecimal(metadata={"description": "Least nominal diameter, in `unit`."})
    max_diameter = QueryDecimal(metadata={"description": "Greatest nominal diameter, in `unit`."})
    unit = fields.String(
        validate=validate.OneOf(("mm", "in"), error="is mm or in"),
        metadata={"description": "Unit of the diameters asked for; the default is that of the system, else mm."},
    )
    limit = limit()
    cursor = cursor()


class ThreadSchema(Schema):
    """A thread of a standard."""

    designation = fields.String(metadata={"example": "M10x1.25"})
    system = fields.String()
    nominal_diameter = fields.Float()
    pitch = fields.Float()
    threads_per_inch = fields.Float(allow_none=True)
    unit = fields.String()
    series = fields.String()
    choice = fields.Integer(allow_none=True, metadata={"description": "null where the standard states none."})
    selected_for_fasteners = fields.Boolean(
        allow_none=True, metadata={"description": "ISO 262: chosen for bolts, screws and nuts; null for other systems."}
    )


class ThreadsSchema(AnswerSchema):
    """One page of threads."""

    threads = fields.List(fields.Nested(ThreadSchema))
    total = fields.Integer(metadata={"description": "How many match in all."})
    next = fields.String(allow_none=True, metadata={"description": "The cursor of the next page, also in Link."})


@blueprint.route("/threads")
@look_up
@query(blueprint, ThreadsQuery)
@blueprint.response(200, ThreadsSchema)
def get_threads(arguments: dict[str, Any]) -> Response:
    """List the threads of the standards by system, series, diameter and choice."""
    low, high = arguments.get("min_diameter"), arguments.get("max_diameter")
    if low is not None and high is not None and low > high:
        raise Contradiction(f"min_diameter {low} exceeds max_diameter {high}", member="min_diameter")
    wanted = SizeFilter(
        arguments.get("system"), arguments.get("series"), arguments.get("choice"), low, high, arguments.get("unit")
    )
    page = page_of(sizes_matching(wanted), arguments)
    answer = {"threads": [_thread(size) for size in page.items], "total": page.total, "next": page.next}
    return Response(encode(answer), mimetype=JSON, headers=link(page))


def _thread(size: ThreadSize) -> dict[str, Any]:
    return {
        "designation": size.designation,
        "system": size.system,
        "nominal_diameter": size.d,
        "pitch": size.pitch,
        "threads_per_inch": size.threads_per_inch if isinstance(size, UnifiedSize) else None,
        "unit": system_of(size).unit,
        "series": size.series,
        "choice": size.choice or None,
        "selected_for_fasteners": None if isinstance(size, UnifiedSize) else in_selection_for_fasteners(size),
    }
