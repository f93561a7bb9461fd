"""GET /v1/thread-limits: limits of size of one thread, or of both members of a fit."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Annotated, Any, TypeVar

from flask import Response
from marshmallow import Schema
from msgspec import UNSET, Struct

from ...designations import ThreadDesignation, parse_thread
from ...quantities import NotUnderstood
from ...quantities.derivation import Step
from ...threads import ThreadClass, limits, limits_derivation, system_of
from ..http.answers import Answer, BoundsAnswer, answers, described
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.derivations import Derivation, answer_with, explain
from ..http.presentation import all_bounds
from ..http.queries import designation, query, unit

blueprint = new_blueprint("thread_limits", "Limits of size of screw threads")
M = TypeVar("M", bound="MemberLimits")


class ThreadLimitsQuery(Schema):
    """What to look up."""

    designation = designation("M10-6g")
    unit = unit()
    explain = explain()


class MemberLimits(Struct, kw_only=True):
    """Limits of one member of a thread."""

    designation: Annotated[str, described("Canonical.", "M10-6g")]
    system: Annotated[str, described("The thread system.", "ISO metric")]
    member: Annotated[str, described("external or internal", "external")]
    nominal_diameter: Decimal
    pitch: Decimal
    threads_per_inch: Annotated[Decimal | None, described("Unified threads; null for metric ones.")]
    series: Annotated[str, described("coarse or fine; UNC, UNF, UNEF, UN or UNS, with R for UNR.")]
    tolerance_class: Annotated[str, described("Pitch diameter first.", "6g")]
    unit: str
    limits: Annotated[
        dict[str, BoundsAnswer],
        described(
            "major_diameter, pitch_diameter, minor_diameter; external threads also root_diameter and root_radius"
        ),
    ]
    tolerances: Annotated[
        dict[str, BoundsAnswer],
        described("What the limits are computed from: deviation or allowance, and tolerances"),
    ]
    reference: Annotated[dict[str, BoundsAnswer], described("Figures for reference; not limits of the standard")]
    engagement: Annotated[
        dict[str, BoundsAnswer],
        described("Lengths of thread engagement: short, normal, long; Unified: normal, of_the_tolerances"),
    ]
    stress_areas: Annotated[
        dict[str, BoundsAnswer],
        described("Unified external threads: tensile stress area, nominal and high_strength"),
    ]
    left_hand: bool
    engagement_group: str | None
    derivation: Derivation = UNSET


class ThreadLimits(MemberLimits, Answer, kw_only=True):
    """Limits of a thread."""


class FitLimits(Answer, kw_only=True):
    """Limits of both members of a fit."""

    designation: Annotated[str, described("Canonical.", "M10-6H/6g")]
    member: Annotated[str, described("fit", "fit")]
    system: str
    nominal_diameter: Decimal
    pitch: Decimal
    threads_per_inch: Decimal | None
    series: str
    unit: str
    tolerance_class: Annotated[str, described("Internal member first.", "6H/6g")]
    internal: MemberLimits
    external: MemberLimits
    derivation: Derivation = UNSET


@blueprint.route("/thread-limits")
@look_up
@query(blueprint, ThreadLimitsQuery)
@answers(blueprint, ThreadLimits, FitLimits)
def get_thread_limits(arguments: dict[str, Any]) -> Response:
    """Return the limits of a thread such as M10-6g, M10x1.25-5g6g, 1/2-13 UNC-2A or the fit M10-6H/6g."""
    thread = parse_thread(arguments["designation"])
    if not thread.classes:
        raise class_missing(thread)
    shown, asked = arguments.get("unit"), arguments["explain"]
    steps: dict[str, Sequence[Step]] = {
        one.member: limits_derivation(thread.size, one) for one in thread.classes if asked
    }
    if len(thread.classes) == 1:
        answer: Answer = _member(ThreadLimits, thread, thread.classes[0], shown)
    else:
        answer = _fit(thread, shown)
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


def _fit(thread: ThreadDesignation, unit: str | None) -> FitLimits:
    internal, external = (_member(MemberLimits, thread, one, unit) for one in thread.classes)
    either = external
    return FitLimits(
        designation=thread.canonical,
        member="fit",
        system=either.system,
        nominal_diameter=either.nominal_diameter,
        pitch=either.pitch,
        threads_per_inch=either.threads_per_inch,
        series=either.series,
        unit=either.unit,
        tolerance_class="/".join(one.designation for one in thread.classes),
        internal=internal,
        external=external,
    )


def _member(kind: type[M], thread: ThreadDesignation, tolerance: ThreadClass, unit: str | None) -> M:
    found = limits(thread.size, tolerance)
    return kind(
        designation=thread.only(tolerance).canonical,
        system=found.system,
        member=found.member,
        nominal_diameter=found.nominal_diameter,
        pitch=found.pitch,
        threads_per_inch=found.threads_per_inch,
        series=found.series,
        tolerance_class=found.tolerance_class,
        unit=unit or found.unit,
        limits=all_bounds(found.limits, unit),
        tolerances=all_bounds(found.tolerances),
        reference=all_bounds(found.reference, unit),
        engagement=all_bounds(found.engagement, unit),
        stress_areas=all_bounds(found.stress_areas),
        left_hand=thread.left_hand,
        engagement_group=thread.engagement,
    )
