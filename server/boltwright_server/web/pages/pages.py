"""GET / and /docs: pages for people, among them one for each problem type and each finding of part masters."""

from __future__ import annotations

from flask import Blueprint, Response, render_template
from markupsafe import Markup, escape

from ...part_masters.meaning.findings import CODES
from ..http.problems import PROBLEM_TYPES, Problem

blueprint = Blueprint("pages", __name__)


@blueprint.app_template_filter("with_code")
def with_code(text: str) -> Markup:
    """Return a text with what stands between backticks as code."""
    parts = enumerate(text.split("`"))
    return Markup("").join(Markup("<code>{}</code>").format(part) if at % 2 else escape(part) for at, part in parts)


@blueprint.get("/docs/problems/<code>")
def problem_page(code: str) -> str:
    """Explain one problem type; the `type` of every problem document leads here."""
    if code not in PROBLEM_TYPES:
        raise Problem("not_found", f"no problem type {code[:60]!r}")
    return render_template("problem.html", code=code, kind=PROBLEM_TYPES[code])


@blueprint.get("/docs/findings/<code>")
def finding_page(code: str) -> str:
    """Explain one code of the findings of part masters."""
    if code not in CODES:
        raise Problem("not_found", f"no finding {code[:60]!r}")
    return render_template("finding.html", code=code, kind=CODES[code])


@blueprint.get("/docs")
def docs() -> str:
    """List the operations, the problem types and the findings of part masters."""
    from flask import current_app

    spec = current_app.extensions["flask-smorest"]["apis"][""]["ext_obj"].spec.to_dict()
    operations = [
        (method.upper(), path, operation.get("summary", ""))
        for path, item in spec["paths"].items()
        for method, operation in item.items()
        if isinstance(operation, dict)
    ]
    return render_template("docs.html", operations=operations, problems=PROBLEM_TYPES, findings=CODES)


@blueprint.get("/")
def index() -> Response:
    """Send people to the documentation."""
    return Response(status=302, headers={"Location": "/docs"})
