"""GET and POST /v1/set-points: the figures of each station of the line, in the state in which the part is there."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response, request
from marshmallow import Schema, fields, validate
from msgspec import UNSET, Meta, Struct, UnsetType

from ...quantities.units import CODES
from ...specification import Specification, specification
from ...stations import STATES, Plant, SetPoints, Station, set_points
from ...stations.plant import TOOLS
from ..http.answers import Answer, BasisAnswer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body, load
from ..http.caching import HTML, JSON, PDF, look_up, preferred
from ..http.derivations import Derivation, explain, steps_shown
from ..http.members import anything, members_of
from ..http.queries import designation, query
from .bodies import FIGURE_SCHEMA, SetPointsBody, check_nested, plant_of, wanted_of
from .register_answer import REGISTERS_SCHEMA, RegisterImage, registers_shown
from .set_up_page import set_up_page

blueprint = new_blueprint("set_points", "Set-points of the stations of a line")
_STAGES = list(STATES)
_PAGE = {"type": "string"}


class SetPointsQuery(Schema):
    """What to look up."""

    designation = designation("ISO 4014 - M10x60 - 8.8")
    explain = explain()
    stage = fields.String(
        metadata={"description": "One station only."},
        validate=validate.OneOf(_STAGES, error=f"is one of {', '.join(_STAGES)}"),
    )


class ExactFigures(Struct):
    """Figures before rounding."""

    min: Decimal | None
    target: Decimal | None
    max: Decimal | None


class SetPointAnswer(Struct, kw_only=True):
    """A figure of a station. A reading on `min` or `max` is inside; beyond is stop."""

    target: Decimal | None
    min: Decimal | None
    max: Decimal | None
    warning_min: Decimal | None
    warning_max: Decimal | None
    unit: Annotated[str, Meta(extra_json_schema={"enum": list(CODES)})]
    basis: BasisAnswer
    exact: ExactFigures


class StationAnswer(Struct, kw_only=True):
    """A machine of the line, and the state that leaves it."""

    id: Annotated[str, Meta(extra_json_schema={"enum": _STAGES})]
    state: str
    set_points: dict[str, SetPointAnswer]
    pieces_at_risk: Annotated[Decimal | UnsetType, described("rate x check_interval, where both are given.")] = UNSET


class NeedAnswer(Struct):
    """What is missing for a set-point, or was counted as 0."""

    station: str
    set_point: str
    member: Annotated[str, Meta(examples=["tools.chamfer_circle"])]


class StationSetPoints(Answer, kw_only=True):
    """Set-points by station."""

    designation: str
    stations: list[StationAnswer]
    notices: list[str]
    cautions: list[str]
    needs: list[NeedAnswer]
    derivation: Derivation = UNSET


def _object(**properties: Any) -> dict[str, Any]:
    return {"type": "object", "additionalProperties": False, "properties": properties}


_FRACTION = {"type": "number", "minimum": 0, "maximum": 1}
_NUMBERS = {"type": "array", "items": {"type": "number"}}
_POSITIVE = {"type": "number", "exclusiveMinimum": 0}
_WINDOW = _object(
    min={"type": ["number", "null"]},
    max={"type": ["number", "null"]},
    unit={"type": "string", "enum": ["HV", "HBW", "HRC", "HRB"]},
)
BODY_SCHEMA: dict[str, Any] = {
    **_object(
        designation={"type": "string", "maxLength": 200, "examples": ["ISO 4014 - M10x60 - 8.8", "M10-6g"]},
        wire_diameter={**FIGURE_SCHEMA, "description": "Of the wire, or of the bar for hot forging."},
        extruded_diameter=FIGURE_SCHEMA,
        head_trim={**_FRACTION, "description": "Of the head's volume."},
        elongation={**_FRACTION, "description": "Of the threaded length, in rolling."},
        forging_loss=_FRACTION,
        aims={"type": "object", "description": "By characteristic id.", "additionalProperties": FIGURE_SCHEMA},
        tools=_object(**dict.fromkeys(TOOLS, FIGURE_SCHEMA)),
        roller=_object(pitch_diameter_spread=FIGURE_SCHEMA, factor={"type": "number"}, root_radius=FIGURE_SCHEMA),
        recipe=_object(tempering_temperature=FIGURE_SCHEMA, hardness_core=_WINDOW),
        state_shifts={
            "type": "array",
            "maxItems": 200,
            "items": _object(
                characteristic={"type": "string"},
                state={"type": "string"},
                final_state={"type": "string", "default": "as_delivered"},
                unit={"type": "string", "enum": list(CODES)},
                before=_NUMBERS,
                after=_NUMBERS,
                n={"type": "integer"},
                shift={"type": "number"},
                standard_deviation={"type": "number", "minimum": 0},
                content={"type": "number", "default": 0.95},
                confidence={"type": "number", "default": 0.95},
            ),
        },
        coating_thickness=_object(min=FIGURE_SCHEMA, max=FIGURE_SCHEMA),
        rate={**_POSITIVE, "description": "Pieces per minute."},
        check_interval={**_POSITIVE, "description": "Minutes."},
        step={**FIGURE_SCHEMA, "description": "What the figures of its unit are rounded to, inwards."},
        requirements={"type": "object", "description": "As in POST /v1/specification."},
        dropped={"type": "object", "description": "As in POST /v1/specification."},
        explain={"type": "boolean"},
        stage={"type": "string", "enum": _STAGES},
        **{"as": {"type": "string", "enum": ["registers"]}},
        registers=REGISTERS_SCHEMA,
    ),
    "required": ["designation"],
}


@blueprint.route("/set-points")
@look_up
@query(blueprint, SetPointsQuery)
@answers(blueprint, StationSetPoints)
@blueprint.alt_response(200, schema=_PAGE, content_type=HTML, description="A set-up sheet, with `stage`", success=True)
@blueprint.alt_response(200, schema=_PAGE, content_type=PDF, description="The sheet as PDF, with `stage`", success=True)
def get_set_points(arguments: dict[str, Any]) -> Response:
    """Return the final limits by station, and what geometry alone gives."""
    wanted = specification(arguments["designation"])
    return _answer(wanted, Plant(), arguments.get("stage"), arguments["explain"])


@blueprint.route("/set-points", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@answers(blueprint, StationSetPoints, RegisterImage)
@blueprint.alt_response(200, schema=_PAGE, content_type=HTML, description="A set-up sheet, with `stage`", success=True)
@blueprint.alt_response(200, schema=_PAGE, content_type=PDF, description="The sheet as PDF, with `stage`", success=True)
def post_set_points() -> Response:
    """Return the set-points with what only the plant knows: wire, tools, aims, roller, recipe, shifts, coating."""
    raw = {name: anything(one, (name,)) for name, one in members_of(json_body(request), ()).items()}
    check_nested(raw)
    members = load(SetPointsBody, raw, ())
    wanted = wanted_of(members)
    plant = plant_of(members, "in" if wanted.size.system == "Unified inch" else "mm")
    if "as_" in members:
        return sent(registers_shown(wanted, set_points(wanted, plant), members["registers"]))
    return _answer(wanted, plant, members.get("stage"), members["explain"])


def _answer(wanted: Specification, plant: Plant, stage: str | None, explained: bool) -> Response:
    found = set_points(wanted, plant)
    media = preferred(HTML, PDF)
    if media != JSON:
        return set_up_page(wanted, found, stage, media)
    answer = set_points_shown(found, stage)
    if explained:
        answer.derivation = steps_shown(found.steps)
    return sent(answer)


def set_points_shown(found: SetPoints, stage: str | None = None) -> StationSetPoints:
    """Return the answer, of one station only where `stage` names it."""
    return shown(
        StationSetPoints,
        found,
        stations=[_station(one) for one in found.stations if stage in (None, one.id)],
        needs=[one for one in found.needs if stage in (None, one.station)],
    )


def _station(one: Station) -> StationAnswer:
    at_risk = UNSET if one.pieces_at_risk is None else one.pieces_at_risk
    points = {id: shown(SetPointAnswer, point) for id, point in one.set_points.items()}
    return StationAnswer(id=one.id, state=one.state, set_points=points, pieces_at_risk=at_risk)
