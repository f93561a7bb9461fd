"""The specification sheet as a page: printable, without scripts, every figure a link to its basis."""

from __future__ import annotations

from flask import Response, render_template

from ...documents import sheet_of
from ...specification import Specification
from ...standards.fingerprint import fingerprint
from ..http.caching import HTML


def specification_page(found: Specification) -> Response:
    """Return the sheet of a specification. It holds no date: same fingerprint, same bytes."""
    sheet = sheet_of(found)
    page = render_template("specification.html", sheet=sheet, fingerprint=fingerprint())
    return Response(page, mimetype=HTML)
