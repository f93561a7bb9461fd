"""GET /v1/threads: the sizes that the thread standards list, page by page."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response
from marshmallow import Schema, fields, validate
from msgspec import Struct

from ...quantities import Contradiction
from ...threads import SYSTEMS, ThreadSize, UnifiedSize, system_of
from ...threads.iso_metric import in_selection_for_fasteners
from ...threads.listing import SizeFilter, series_names, sizes_matching
from ..http.answers import Answer, answers, described, sent
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.paging import cursor, limit, link, page_of
from ..http.queries import QueryDecimal, query, text

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


class Thread(Struct, kw_only=True):
    """A thread of a standard."""

    designation: Annotated[str, described("Without tolerance class.", "M10x1.25")]
    system: str
    nominal_diameter: Decimal
    pitch: Decimal
    threads_per_inch: Decimal | None
    unit: str
    series: str
    choice: Annotated[int | None, described("null where the standard states none.")]
    selected_for_fasteners: Annotated[
        bool | None, described("ISO 262: chosen for bolts, screws and nuts; null for other systems.")
    ]


class Threads(Answer):
    """One page of threads."""

    threads: list[Thread]
    total: Annotated[int, described("How many match in all.")]
    next: Annotated[str | None, described("The cursor of the next page, also in Link.")]


@blueprint.route("/threads")
@look_up
@query(blueprint, ThreadsQuery)
@answers(blueprint, Threads)
def get_threads(arguments: dict[str, Any]) -> Response:
    """List the threads of the standards by system, series, diameter and choice."""
    low, high = arguments.get("min_diameter"), arguments.get("max_diameter")
    if low is not None and high is not None and low > high:
        raise Contradiction(f"min_diameter {low} exceeds max_diameter {high}", member="min_diameter")
    wanted = SizeFilter(
        arguments.get("system"), arguments.get("series"), arguments.get("choice"), low, high, arguments.get("unit")
    )
    page = page_of(sizes_matching(wanted), arguments)
    answer = Threads(threads=[_thread(size) for size in page.items], total=page.total, next=page.next)
    return sent(answer, link(page))


def _thread(size: ThreadSize) -> Thread:
    return Thread(
        designation=size.designation,
        system=size.system,
        nominal_diameter=size.d,
        pitch=size.pitch,
        threads_per_inch=size.threads_per_inch if isinstance(size, UnifiedSize) else None,
        unit=system_of(size).unit,
        series=size.series,
        choice=size.choice or None,
        selected_for_fasteners=None if isinstance(size, UnifiedSize) else in_selection_for_fasteners(size),
    )
