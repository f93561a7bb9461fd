"""A problem as a page for people: what is wrong, the nearest designations as links, and a form to try again."""

from __future__ import annotations

from flask import Response, render_template, request

from ..designations.reader import LONGEST
from ..specification import nearest_designations
from .problems import Problem, ProblemType

_CLIENT_ERRORS = range(400, 500)


def refusal_page(problem: Problem, kind: ProblemType) -> Response:
    """Return the page, with the status of the problem."""
    asked = request.args.get("designation", "")[:LONGEST]
    suggestions = nearest_designations(asked, problem.nearest) if asked and kind.status in _CLIENT_ERRORS else ()
    page = render_template("refusal.html", problem=problem, kind=kind, asked=asked, suggestions=suggestions)
    return Response(page, kind.status, mimetype="text/html")
