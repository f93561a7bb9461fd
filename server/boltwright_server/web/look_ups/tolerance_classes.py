"""GET /v1/tolerance-classes: which classes exist, and for which pitches."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response
from marshmallow import Schema, fields, validate
from msgspec import Struct

from ...designations import parse_thread
from ...quantities import Contradiction, asked_as
from ...threads import SYSTEMS, ToleranceClass, system_of
from ...threads.hot_dip import is_hot_dip
from ...threads.listing import ClassEntry, class_entries, classes_of, find_system, grades_and_positions
from ..http.answers import Answer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.queries import query, text

blueprint = new_blueprint("tolerance_classes", "Which tolerance classes exist for which threads")


class ToleranceClassesQuery(Schema):
    """Which classes to list; every filter may be left out."""

    system = text("A thread system: ISO metric or Unified inch.", SYSTEMS[0].name)
    member = fields.String(
        validate=validate.OneOf(("external", "internal"), error="is external or internal"),
        metadata={"description": "external for bolts, internal for nuts."},
    )
    thread = text("A thread without class: only the classes that exist for it.", "M10")


class ToleranceClassShown(Struct, kw_only=True):
    """A class, and for which threads its standard gives every limit."""

    designation: Annotated[str, described("As in a thread's designation.", "6g")]
    system: str
    standard: str
    member: Annotated[str, described("external or internal", "external")]
    grades: Annotated[list[str], described("Of the pitch diameter, then of the crest.")]
    positions: Annotated[list[str], described("Of the pitch diameter, then of the crest.")]
    pitches: Annotated[list[Decimal], described("In mm; threads per inch for Unified threads.")]
    series: list[str]
    least_diameter: Decimal
    greatest_diameter: Decimal
    unit: Annotated[str, described("Of the diameters.", "mm")]
    thread_count: int


class ToleranceClasses(Answer):
    """The classes."""

    tolerance_classes: list[ToleranceClassShown]


@blueprint.route("/tolerance-classes")
@look_up
@query(blueprint, ToleranceClassesQuery)
@answers(blueprint, ToleranceClasses)
def get_tolerance_classes(arguments: dict[str, Any]) -> Response:
    """List the tolerance classes with the pitches for which they are standardised; a dash of a table is no class."""
    member = arguments.get("member")
    entries = [one for one in _entries(arguments) if member in (None, one.tolerance.member)]
    return sent(ToleranceClasses(tolerance_classes=[_class(one) for one in entries]))


def _entries(arguments: dict[str, Any]) -> tuple[ClassEntry, ...]:
    system = find_system(arguments["system"]) if "system" in arguments else None
    if "thread" not in arguments:
        return tuple(one for one in class_entries() if system in (None, one.system))
    with asked_as("thread"):
        size = parse_thread(arguments["thread"]).size
    if system not in (None, system_of(size)):
        raise Contradiction(f"{size.designation} is {size.system}, not {arguments['system']}", member="system")
    return classes_of(size, system_of(size))


def _class(entry: ClassEntry) -> ToleranceClassShown:
    grades, positions = grades_and_positions(entry.tolerance)
    return shown(
        ToleranceClassShown,
        entry,
        designation=entry.tolerance.designation,
        system=entry.system.name,
        standard=_standard(entry),
        member=entry.tolerance.member,
        grades=grades,
        positions=positions,
        unit=entry.system.unit,
    )


def _standard(entry: ClassEntry) -> str:
    """Threads for galvanizing have standards of their own."""
    tolerance = entry.tolerance
    if isinstance(tolerance, ToleranceClass) and is_hot_dip(tolerance):
        return "ISO 965-4" if tolerance.member == "external" else "ISO 965-5"
    return entry.system.standard
