"""GET /v1/thread-limits: limits of size of one thread, or of both members of a fit."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields

from ...designations import ThreadDesignation, parse_thread
from ...quantities import NotUnderstood
from ...quantities.derivation import Step
from ...threads import ThreadClass, limits, limits_derivation, system_of
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.derivations import answer_with, derivation_field, explain
from ..http.presentation import all_bounds
from ..http.queries import designation, query, unit
from ..http.schemas import AnswerSchema, bounds_by_id

blueprint = new_blueprint("thread_limits", "Limits of size of screw threads")
#: Members that both members of a fit have alike.
_SHARED = ("system", "nominal_diameter", "pitch", "threads_per_inch", "series", "unit")


class ThreadLimitsQuery(Schema):
    """What to look up."""

    designation = designation("M10-6g")
    unit = unit()
    explain = explain()


class ThreadLimitsSchema(AnswerSchema):
    """Limits of a thread. A fit has `external` and `internal`, each with these members, in place of `limits`."""

    designation = fields.String(metadata={"example": "M10-6g"})
    system = fields.String(metadata={"example": "ISO metric"})
    member = fields.String(metadata={"enum": ["external", "internal", "fit"]})
    nominal_diameter = fields.Float()
    pitch = fields.Float()
    threads_per_inch = fields.Float(allow_none=True, metadata={"description": "Unified threads; null for metric ones."})
    series = fields.String(metadata={"description": "coarse or fine; UNC, UNF, UNEF, UN or UNS, with R for UNR."})
    tolerance_class = fields.String(metadata={"example": "6g"})
    unit = fields.String()
    limits = bounds_by_id(
        "major_diameter, pitch_diameter, minor_diameter; external threads also root_diameter and root_radius"
    )
    tolerances = bounds_by_id("What the limits are computed from: deviation or allowance, and tolerances")
    reference = bounds_by_id("Figures for reference; not limits of the standard")
    engagement = bounds_by_id("Lengths of thread engagement: short, normal, long; Unified: normal, of_the_tolerances")
    stress_areas = bounds_by_id("Unified external threads: tensile stress area, nominal and high_strength")
    left_hand = fields.Boolean()
    engagement_group = fields.String(allow_none=True)
    external = fields.Dict()
    internal = fields.Dict()
    derivation = derivation_field()


@blueprint.route("/thread-limits")
@look_up
@query(blueprint, ThreadLimitsQuery)
@blueprint.response(200, ThreadLimitsSchema)
def get_thread_limits(arguments: dict[str, Any]) -> Response:
    """Return the limits of a thread such as M10-6g, M10x1.25-5g6g, 1/2-13 UNC-2A or the fit M10-6H/6g."""
    thread = parse_thread(arguments["designation"])
    shown = arguments.get("unit")
    if not thread.classes:
        raise class_missing(thread)
    members = [_member(thread, tolerance, shown) for tolerance in thread.classes]
    answer = members[0] if len(members) == 1 else _fit(thread, members)
    asked = arguments["explain"]
    steps: dict[str, tuple[Step, ...]] = {
        one.member: limits_derivation(thread.size, one) for one in thread.classes if asked
    }
    return answer_with(answer, thread.canonical, steps, asked)


def class_missing(thread: ThreadDesignation) -> NotUnderstood:
    """Return the refusal of a designation that names no tolerance class, or two where one is asked for."""
    bolt, nut = (thread.in_class(common) for common in system_of(thread.size).common_classes)
    return NotUnderstood(
        f"{thread.canonical}: name {'one' if thread.classes else 'a'} tolerance class, as {bolt} for a bolt or "
        f"{nut} for a nut",
        member="designation",
        code="class_missing",
        nearest=(bolt, nut),
    )


def _fit(thread: ThreadDesignation, members: list[dict[str, Any]]) -> dict[str, Any]:
    shared = {name: members[0][name] for name in _SHARED}
    by_member = {member["member"]: member for member in members}
    tolerance_class = "/".join(one.designation for one in thread.classes)
    return {
        "designation": thread.canonical,
        "member": "fit",
        **shared,
        "tolerance_class": tolerance_class,
        **by_member,
    }


def _member(thread: ThreadDesignation, tolerance: ThreadClass, unit: str | None) -> dict[str, Any]:
    found = limits(thread.size, tolerance)
    return {
        "designation": thread.only(tolerance).canonical,
        "system": found.system,
        "member": found.member,
        "nominal_diameter": found.nominal_diameter,
        "pitch": found.pitch,
        "threads_per_inch": found.threads_per_inch,
        "series": found.series,
        "tolerance_class": found.tolerance_class,
        "unit": unit or found.unit,
        "limits": all_bounds(found.limits, unit),
        "tolerances": all_bounds(found.tolerances),
        "reference": all_bounds(found.reference, unit),
        "engagement": all_bounds(found.engagement, unit),
        "stress_areas": all_bounds(found.stress_areas),
        "left_hand": thread.left_hand,
        "engagement_group": thread.engagement,
    }
