"""The gauges of a thread as a page: printable, without scripts, every figure a link to its basis."""

from __future__ import annotations

from urllib.parse import urlencode

from flask import Response, render_template, request

from ...designations import ThreadDesignation
from ...documents import gauge_sheet
from ...gauges import GaugeSet
from ...standards.fingerprint import fingerprint
from ...threads import limits
from ..http.caching import HTML


def gauges_page(thread: ThreadDesignation, sets: list[GaugeSet]) -> Response:
    """Return the sheet of the gauges of a thread. It holds no date: same fingerprint, same bytes."""
    members = [(limits(thread.size, one), held) for one, held in zip(thread.classes, sets, strict=True)]
    page = render_template(
        "gauges.html",
        sheet=gauge_sheet(thread.canonical, members),
        explained=f"?{urlencode({**request.args.to_dict(), 'explain': 'true'})}",
        fingerprint=fingerprint(),
    )
    return Response(page, mimetype=HTML)
