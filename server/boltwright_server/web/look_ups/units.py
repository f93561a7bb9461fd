"""GET /v1/units: the unit codes with their UCUM and UN/ECE Recommendation 20 codes."""

from __future__ import annotations

from typing import Annotated, Any

from flask import Response
from marshmallow import Schema
from msgspec import Struct

from ...quantities.units import CODES, INTERCHANGE_CODES, dimension
from ..http.answers import Answer, answers, described, sent
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.queries import query

blueprint = new_blueprint("units", "Unit codes")


class Unit(Struct):
    """A unit."""

    code: Annotated[str, described("As everywhere in this service.", "mm")]
    measures: Annotated[str, described("What it is a unit of.", "length")]
    ucum: Annotated[str | None, described("UCUM code; hardness scales have none.")]
    unece_rec_20: Annotated[str | None, described("UN/ECE Recommendation 20 common code.")]


class Units(Answer):
    """All unit codes."""

    units: list[Unit]


@blueprint.route("/units")
@look_up
@query(blueprint, Schema)
@answers(blueprint, Units)
def get_units(_: dict[str, Any]) -> Response:
    """List the unit codes. Units of one kind are converted exactly; hardness scales never."""
    return sent(Units(units=[Unit(code, dimension(code), *INTERCHANGE_CODES[code]) for code in CODES]))
