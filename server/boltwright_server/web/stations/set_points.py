"""GET and POST /v1/set-points: the figures of each station of the line, in the state in which the part is there."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from marshmallow import Schema, fields, validate

from ...quantities.units import CODES
from ...specification import Specification, specification
from ...stations import STATES, Plant, SetPoint, SetPoints, Station, set_points
from ...stations.plant import TOOLS
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body, load
from ..http.caching import HTML, JSON, look_up, preferred
from ..http.derivations import explain, steps_shown
from ..http.members import anything, members_of
from ..http.presentation import basis, encode
from ..http.queries import designation, query
from ..http.schemas import AnswerSchema, BasisSchema
from .bodies import FIGURE_SCHEMA, SetPointsBody, check_nested, plant_of, wanted_of
from .register_answer import REGISTERS_SCHEMA, registers_shown
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


class ExactSchema(Schema):
    """Figures before rounding."""

    min = fields.Float(allow_none=True)
    target = fields.Float(allow_none=True)
    max = fields.Float(allow_none=True)


class SetPointSchema(Schema):
    """A figure of a station. A reading on `min` or `max` is inside; beyond is stop."""

    target = fields.Float(allow_none=True)
    min = fields.Float(allow_none=True)
    max = fields.Float(allow_none=True)
    warning_min = fields.Float(allow_none=True)
    warning_max = fields.Float(allow_none=True)
    unit = fields.String(metadata={"enum": list(CODES)})
    basis = fields.Nested(BasisSchema)
    exact = fields.Nested(ExactSchema)


class StationSchema(Schema):
    """A machine of the line, and the state that leaves it."""

    id = fields.String(metadata={"enum": _STAGES})
    state = fields.String()
    set_points = fields.Dict(keys=fields.String(), values=fields.Nested(SetPointSchema))
    pieces_at_risk = fields.Float(metadata={"description": "rate x check_interval, where both are given."})


class NeedSchema(Schema):
    """What is missing for a set-point, or was counted as 0."""

    station = fields.String()
    set_point = fields.String()
    member = fields.String(metadata={"example": "tools.chamfer_circle"})


class EntrySchema(Schema):
    """One entry of a register image, in counts of its scale; null is an open side."""

    characteristic = fields.String()
    code = fields.Integer()
    scale = fields.Integer()
    stop_min = fields.Integer(allow_none=True)
    warn_min = fields.Integer(allow_none=True)
    target = fields.Integer(allow_none=True)
    warn_max = fields.Integer(allow_none=True)
    stop_max = fields.Integer(allow_none=True)
    checked = fields.String()


class SetPointsSchema(AnswerSchema):
    """Set-points by station."""

    designation = fields.String()
    stations = fields.List(fields.Nested(StationSchema))
    notices = fields.List(fields.String())
    cautions = fields.List(fields.String())
    needs = fields.List(fields.Nested(NeedSchema))
    derivation = fields.Raw()
    layout = fields.Integer(metadata={"description": "`as: registers` only, as the members below."})
    image = fields.String(metadata={"description": "120 registers as 480 hex digits, high byte first."})
    crc32 = fields.String()
    switch_word = fields.String()
    basis_text = fields.String(metadata={"description": "What is hashed into registers 30 to 33."})
    flags = fields.Integer()
    entries = fields.List(fields.Nested(EntrySchema))


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
@blueprint.response(200, SetPointsSchema)
@blueprint.alt_response(200, schema=_PAGE, content_type=HTML, description="A set-up sheet, with `stage`", success=True)
def get_set_points(arguments: dict[str, Any]) -> Response:
    """Return the final limits by station, and what geometry alone gives."""
    wanted = specification(arguments["designation"])
    return _answer(wanted, Plant(), arguments.get("stage"), arguments["explain"])


@blueprint.route("/set-points", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@blueprint.response(200, SetPointsSchema)
@blueprint.alt_response(200, schema=_PAGE, content_type=HTML, description="A set-up sheet, with `stage`", success=True)
def post_set_points() -> Response:
    """Return the set-points with what only the plant knows: wire, tools, aims, roller, recipe, shifts, coating."""
    raw = {name: anything(one, (name,)) for name, one in members_of(json_body(request), ()).items()}
    check_nested(raw)
    members = load(SetPointsBody, raw, ())
    wanted = wanted_of(members)
    plant = plant_of(members, "in" if wanted.size.system == "Unified inch" else "mm")
    if "as_" in members:
        return Response(encode(registers_shown(wanted, set_points(wanted, plant), members["registers"])), mimetype=JSON)
    return _answer(wanted, plant, members.get("stage"), members["explain"])


def _answer(wanted: Specification, plant: Plant, stage: str | None, explained: bool) -> Response:
    found = set_points(wanted, plant)
    if preferred() == HTML:
        return set_up_page(wanted, found, stage)
    answer = set_points_shown(found, stage)
    if explained:
        answer["derivation"] = steps_shown(found.steps)
    return Response(encode(answer), mimetype=JSON)


def set_points_shown(found: SetPoints, stage: str | None = None) -> dict[str, Any]:
    """Return the members of the answer, of one station only where `stage` names it."""
    return {
        "designation": found.designation,
        "stations": [_station(one) for one in found.stations if stage in (None, one.id)],
        "notices": list(found.notices),
        "cautions": list(found.cautions),
        "needs": [
            {"station": one.station, "set_point": one.set_point, "member": one.member}
            for one in found.needs
            if stage in (None, one.station)
        ],
    }


def _station(one: Station) -> dict[str, Any]:
    points = {id: _set_point(point) for id, point in one.set_points.items()}
    shown = {"id": one.id, "state": one.state, "set_points": points}
    return shown if one.pieces_at_risk is None else {**shown, "pieces_at_risk": one.pieces_at_risk}


def _set_point(one: SetPoint) -> dict[str, Any]:
    return {
        "target": one.target,
        "min": one.min,
        "max": one.max,
        "warning_min": one.warning_min,
        "warning_max": one.warning_max,
        "unit": one.unit,
        "basis": basis(one.basis),
        "exact": {"min": one.exact.min, "target": one.exact.target, "max": one.exact.max},
    }
