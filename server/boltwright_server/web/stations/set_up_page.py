"""The set-up sheet as a page without scripts or as PDF: one side of A4."""

from __future__ import annotations

from flask import Response, render_template

from ...documents import PdfMissing, SetUpSheet, set_up_pdf, set_up_sheet
from ...quantities import NotUnderstood
from ...specification import Specification
from ...standards.fingerprint import fingerprint
from ...stations import SetPoints
from ..http.bodies import problem
from ..http.caching import HTML, PDF
from ..http.problems import Problem


def set_up_page(wanted: Specification, found: SetPoints, stage: str | None, media: str) -> Response:
    """Return the sheet of one station. It holds no date: same fingerprint and request, same bytes.

    Raises:
        Problem: no `stage`; `not_acceptable` where PDF is asked for and its extra is not installed.
        NotUnderstood: the part does not pass the station.
    """
    if stage is None:
        raise problem("missing_member", "a set-up sheet is of one station: name its stage", ("stage",))
    station = next((one for one in found.stations if one.id == stage), None)
    if station is None:
        text = f"{found.designation} passes {', '.join(one.id for one in found.stations)}, not {stage}"
        raise NotUnderstood(text, member="stage", code="contradiction")
    sheet = set_up_sheet(wanted, found, station)
    if media == PDF:
        response = Response(_pdf(sheet), mimetype=PDF)
    else:
        page = render_template("set_up_sheet.html", sheet=sheet, fingerprint=fingerprint())
        response = Response(page, mimetype=HTML)
    response.vary.add("Accept")
    return response


def _pdf(sheet: SetUpSheet) -> bytes:
    try:
        return set_up_pdf(sheet, fingerprint())
    except PdfMissing:
        text = f"{PDF} needs the extra `documents` of the service; {HTML} is the same sheet, to be printed"
        raise Problem("not_acceptable", text) from None
