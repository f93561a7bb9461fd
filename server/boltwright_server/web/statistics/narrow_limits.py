"""POST /v1/narrow-limits: a decision for each piece while a machine runs, by the zones of the tolerance."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any

from flask import Response, request
from marshmallow import validate
from msgspec import UNSET, Meta, Struct, UnsetType

from ...quantities import NotUnderstood
from ...statistics.narrow_limits import ACTIONS, ZONES, Zones, chances, decide, zones
from ...statistics.sources import narrow_limits_basis
from ..http.answers import Answer, BasisAnswer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.fields import StrictDecimal
from ..http.presentation import basis
from .bodies import LIMITS, Limits, LimitsBody, StatedLimits, limits_of, read, request_body

blueprint = new_blueprint("narrow_limits", "Narrow-limit (pre-control) decisions")
_PROCESS = ("process_mean", "process_standard_deviation")


class NarrowLimitsBody(LimitsBody):
    """Limits; one limit alone needs a target value. With a process there are chances of the rules too."""

    target = StrictDecimal(allow_none=True)
    process_mean = StrictDecimal()
    process_standard_deviation = StrictDecimal(
        validate=validate.Range(min=0, min_inclusive=False, error="is above 0"),
    )


class NarrowLimitsStep(Struct):
    """The decision after one piece."""

    zone: Annotated[str, Meta(extra_json_schema={"enum": list(ZONES)})]
    action: Annotated[str, Meta(extra_json_schema={"enum": list(ACTIONS)})]
    qualified: bool


class NarrowLimitsChances(Struct):
    """What a steady normal process does to the rules."""

    target_zone: float
    warning_zones: float
    outside: float
    qualification: Annotated[float, described("Five pieces in a row in the target zone.")]
    stop: Annotated[float, described("A check of one or two pieces that ends in a stop.")]


class NarrowLimitsZones(Struct):
    """The edges of the zones."""

    min: float | None
    warning_low: float | None
    warning_high: float | None
    max: float | None


class NarrowLimits(Answer, kw_only=True):
    """Zones and decisions."""

    zones: NarrowLimitsZones
    steps: list[NarrowLimitsStep]
    action: str
    qualified: bool
    chances: Annotated[NarrowLimitsChances | UnsetType, described("Only for a given process.")] = UNSET
    limits: StatedLimits
    notices: list[str]
    basis: BasisAnswer


REQUEST_BODY = request_body(
    LIMITS,
    {
        "target": {"type": ["number", "null"], "description": "One limit alone needs it."},
        "process_mean": {"type": "number", "description": "With the standard deviation: asks for the chances."},
        "process_standard_deviation": {"type": "number", "exclusiveMinimum": 0},
    },
)


@blueprint.route("/narrow-limits", methods=["POST"])
@blueprint.doc(requestBody=REQUEST_BODY)
@answers(blueprint, NarrowLimits)
def post_narrow_limits() -> Response:
    """Return zone and action for each piece in the order of production, starting with a set-up to qualify."""
    members, values = read(request, NarrowLimitsBody)
    limits = limits_of(members)
    edges = _zones(members, limits)
    # By their shortest text the readings are the decimals that were written, so that an edge is an edge.
    steps = decide([Fraction(repr(value)) for value in values.tolist()], edges)
    return sent(
        NarrowLimits(
            zones=NarrowLimitsZones(*map(_number, (edges.low, edges.warning_low, edges.warning_high, edges.high))),
            steps=[NarrowLimitsStep(one.zone, one.action, one.qualified) for one in steps],
            action=steps[-1].action,
            qualified=steps[-1].qualified,
            chances=_chances(members, edges),
            limits=limits.shown,
            notices=list(limits.notices),
            basis=basis(narrow_limits_basis()),
        )
    )


def _chances(members: dict[str, Any], edges: Zones) -> NarrowLimitsChances | UnsetType:
    given = [name for name in _PROCESS if name in members]
    if not given:
        return UNSET
    for name in _PROCESS:
        if name not in members:
            raise NotUnderstood(f"{given[0]} needs {name}", member=name, code="missing_member")
    return shown(NarrowLimitsChances, chances(edges, *(float(members[name]) for name in _PROCESS)))


def _zones(members: dict[str, Any], limits: Limits) -> Zones:
    if limits.low is None and limits.high is None:
        raise NotUnderstood("narrow limits need min or max", member="min", code="missing_member")
    target = members.get("target")
    if None in (limits.low, limits.high) and target is None:
        raise NotUnderstood("one limit alone needs a target value", member="target", code="missing_member")
    return zones(*(None if one is None else Fraction(one) for one in (limits.low, limits.high, target)))


def _number(edge: Fraction | None) -> float | None:
    return None if edge is None else edge.numerator / edge.denominator
