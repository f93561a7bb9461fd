"""A problem as a page for people: what is wrong, the nearest designations as links, and a form to try again."""

from __future__ import annotations

from flask import Response, render_template, request, url_for

from ...designations.reader import LONGEST
from ...specification import nearest_designations
from .problems import Problem, ProblemType

_CLIENT_ERRORS = range(400, 500)
_PRODUCTS, _SHEET = "products.get_products", "specification.get_specification"


def refusal_page(problem: Problem, kind: ProblemType) -> Response:
    """Return the page, with the status of the problem."""
    asked = request.args.get("designation", "")[:LONGEST]
    links = _links(asked, problem) if kind.status in _CLIENT_ERRORS else {}
    page = render_template("refusal.html", problem=problem, kind=kind, asked=asked, links=links)
    return Response(page, kind.status, mimetype="text/html")


def _links(asked: str, problem: Problem) -> dict[str, str]:
    """Return what may have been meant, each with the address that shows it."""
    if request.endpoint == _PRODUCTS and problem.code == "unknown_standard":
        return {name: url_for(_PRODUCTS, standard=name) for name in problem.nearest}
    near = nearest_designations(asked, problem.nearest) if asked else ()
    return {one: url_for(_SHEET, designation=one) for one in near}
