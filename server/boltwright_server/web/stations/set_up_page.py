"""The set-up sheet as a page: one side of A4, without scripts."""

from __future__ import annotations

from flask import Response, render_template

from ...documents import set_up_sheet
from ...quantities import NotUnderstood
from ...specification import Specification
from ...standards.fingerprint import fingerprint
from ...stations import SetPoints
from ..http.bodies import problem
from ..http.caching import HTML


def set_up_page(wanted: Specification, found: SetPoints, stage: str | None) -> Response:
    """Return the sheet of one station. It holds no date: same fingerprint and request, same bytes.

    Raises:
        Problem: no `stage`. NotUnderstood: the part does not pass it.
    """
    if stage is None:
        raise problem("missing_member", "a set-up sheet is of one station: name its stage", ("stage",))
    station = next((one for one in found.stations if one.id == stage), None)
    if station is None:
        text = f"{found.designation} passes {', '.join(one.id for one in found.stations)}, not {stage}"
        raise NotUnderstood(text, member="stage", code="contradiction")
    sheet = set_up_sheet(wanted, found, station)
    page = render_template("set_up_sheet.html", sheet=sheet, fingerprint=fingerprint())
    response = Response(page, mimetype=HTML)
    response.vary.add("Accept")
    return response
