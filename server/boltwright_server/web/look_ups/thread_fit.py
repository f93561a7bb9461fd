"""GET /v1/thread-fit: least and greatest clearance of a bolt and a nut thread."""

from __future__ import annotations

from typing import Annotated, Any

from flask import Response
from marshmallow import Schema

from ...coating import check_mating, pairings
from ...designations import ThreadDesignation, parse_thread
from ...quantities import Contradiction, asked_as
from ...threads import Member, ThreadClass, ToleranceClass, thread_fit
from ...threads.hot_dip import is_hot_dip
from ..http.answers import Answer, BoundsAnswer, answers, described, sent
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.presentation import all_bounds, bounds
from ..http.queries import query, text, unit
from .thread_limits import class_missing

blueprint = new_blueprint("thread_fit", "Clearances of a bolt and a nut thread")


class ThreadFitQuery(Schema):
    """The two threads."""

    external = text("The bolt thread.", "M10-6g", required=True)
    internal = text("The nut thread.", "M10-6H", required=True)
    unit = unit()


class ThreadFit(Answer, kw_only=True):
    """How two threads go together. Clearances are on the diameter; a negative one is interference."""

    designation: Annotated[str, described("Of the fit.", "M10-6H/6g")]
    system: str
    external: Annotated[str, described("The bolt thread.", "M10-6g")]
    internal: Annotated[str, described("The nut thread.", "M10-6H")]
    unit: str
    clearances: Annotated[
        dict[str, BoundsAnswer],
        described("pitch_diameter (flanks), major_diameter, minor_diameter; null: the standard sets no limit"),
    ]
    overlap: Annotated[BoundsAnswer, described("Of the flanks, on the radius: (d - D1)/2.")]
    overlap_ratio: Annotated[BoundsAnswer, described("In percent of the basic 5/8 H.")]
    engagement: Annotated[dict[str, BoundsAnswer], described("Lengths of thread engagement: short, normal, long")]
    notices: list[str]


@blueprint.route("/thread-fit")
@look_up
@query(blueprint, ThreadFitQuery)
@answers(blueprint, ThreadFit)
def get_thread_fit(arguments: dict[str, Any]) -> Response:
    """Compare a bolt thread such as M10-6g with a nut thread such as M10-6H."""
    bolt, external = _member(arguments["external"], "external")
    nut, internal = _member(arguments["internal"], "internal")
    _same_thread(bolt, nut)
    if isinstance(external, ToleranceClass) and isinstance(internal, ToleranceClass):
        check_mating(external, internal, "internal")
    found = thread_fit(bolt.size, external, internal)
    unit = arguments.get("unit")
    hand = "-LH" if bolt.left_hand else ""
    return sent(
        ThreadFit(
            designation=f"{bolt.size.designation}-{internal.designation}/{external.designation}{hand}",
            system=found.external.system,
            external=bolt.canonical,
            internal=nut.canonical,
            unit=unit or found.external.unit,
            clearances=all_bounds(found.clearances, unit),
            overlap=bounds(found.overlap, unit),
            overlap_ratio=bounds(found.overlap_ratio),
            engagement=all_bounds(found.engagement, unit),
            notices=_notices(external, internal),
        )
    )


def _member(written: str, member: Member) -> tuple[ThreadDesignation, ThreadClass]:
    with asked_as(member):
        thread = parse_thread(written)
        if not thread.classes:
            raise class_missing(thread)
    if len(thread.classes) > 1 or thread.classes[0].member != member:
        raise Contradiction(
            f"{thread.canonical}: name one class of an {member} thread, as "
            f"{'M10-6g' if member == 'external' else 'M10-6H'}",
            member=member,
        )
    return thread, thread.classes[0]


def _same_thread(bolt: ThreadDesignation, nut: ThreadDesignation) -> None:
    if bolt.size.system != nut.size.system or (bolt.size.d, bolt.size.pitch) != (nut.size.d, nut.size.pitch):
        raise Contradiction(
            f"{bolt.size.designation} and {nut.size.designation} do not go together: they must have one diameter "
            "and one pitch",
            member="internal",
        )
    if bolt.left_hand != nut.left_hand:
        raise Contradiction("one thread is left-hand, the other right-hand", member="internal")


def _notices(external: ThreadClass, internal: ThreadClass) -> list[str]:
    """Galvanized threads: the limits hold before the zinc, which takes most of the clearance."""
    if not isinstance(external, ToleranceClass) or not isinstance(internal, ToleranceClass):
        return []
    if not is_hot_dip(external) and not is_hot_dip(internal):
        return []
    found = ["clearances before galvanizing: 4 t of the pitch diameter goes to a zinc layer of t on each flank"]
    pair = next((one for one in pairings(external) if one.internal == internal.pitch_position), None)
    return found if pair is None else [*found, pair.reason]
