"""GET /v1/tolerance-classes: which classes exist, and for which pitches."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...designations import parse_thread
from ...quantities import Contradiction, asked_as
from ...threads import SYSTEMS, ToleranceClass, system_of
from ...threads.hot_dip import is_hot_dip
from ...threads.listing import ClassEntry, class_entries, classes_of, find_system, grades_and_positions
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.presentation import encode
from ..http.queries import query, text
from ..http.schemas import AnswerSchema

blueprint = new_blueprint("tolerance_classes", "Which tolerance classes exist for which threads")


class ToleranceClassesQuery(Schema):
    """Which classes to list; every filter may be left out."""

    system = text("A thread system: ISO metric or Unified inch.", SYSTEMS[0].name)
    member = fields.String(
        validate=validate.OneOf(("external", "internal"), error="is external or internal"),
        metadata={"description": "external for bolts, internal for nuts."},
    )
    thread = text("A thread without class: only the classes that exist for it.", "M10")


class ToleranceClassSchema(Schema):
    """A class, and for which threads its standard gives every limit."""

    designation = fields.String(metadata={"example": "6g"})
    system = fields.String()
    standard = fields.String()
    member = fields.String(metadata={"enum": ["external", "internal"]})
    grades = fields.List(fields.String(), metadata={"description": "Of the pitch diameter, then of the crest."})
    positions = fields.List(fields.String(), metadata={"description": "Of the pitch diameter, then of the crest."})
    pitches = fields.List(fields.Float(), metadata={"description": "In mm; threads per inch for Unified threads."})
    series = fields.List(fields.String())
    least_diameter = fields.Float()
    greatest_diameter = fields.Float()
    unit = fields.String(metadata={"description": "Of the diameters."})
    thread_count = fields.Integer()


class ToleranceClassesSchema(AnswerSchema):
    """The classes."""

    tolerance_classes = fields.List(fields.Nested(ToleranceClassSchema))


@blueprint.route("/tolerance-classes")
@look_up
@query(blueprint, ToleranceClassesQuery)
@blueprint.response(200, ToleranceClassesSchema)
def get_tolerance_classes(arguments: dict[str, Any]) -> Response:
    """List the tolerance classes with the pitches for which they are standardised; a dash of a table is no class."""
    member = arguments.get("member")
    shown = [_shown(one) for one in _entries(arguments) if member in (None, one.tolerance.member)]
    return Response(encode({"tolerance_classes": shown}), mimetype=JSON)


def _entries(arguments: dict[str, Any]) -> tuple[ClassEntry, ...]:
    system = find_system(arguments["system"]) if "system" in arguments else None
    if "thread" not in arguments:
        return tuple(one for one in class_entries() if system in (None, one.system))
    with asked_as("thread"):
        size = parse_thread(arguments["thread"]).size
    if system not in (None, system_of(size)):
        raise Contradiction(f"{size.designation} is {size.system}, not {arguments['system']}", member="system")
    return classes_of(size, system_of(size))


def _shown(entry: ClassEntry) -> dict[str, Any]:
    grades, positions = grades_and_positions(entry.tolerance)
    return {
        "designation": entry.tolerance.designation,
        "system": entry.system.name,
        "standard": _standard(entry),
        "member": entry.tolerance.member,
        "grades": grades,
        "positions": positions,
        "pitches": list(entry.pitches),
        "series": list(entry.series),
        "least_diameter": entry.least_diameter,
        "greatest_diameter": entry.greatest_diameter,
        "unit": entry.system.unit,
        "thread_count": entry.thread_count,
    }


def _standard(entry: ClassEntry) -> str:
    """Threads for galvanizing have standards of their own."""
    tolerance = entry.tolerance
    if isinstance(tolerance, ToleranceClass) and is_hot_dip(tolerance):
        return "ISO 965-4" if tolerance.member == "external" else "ISO 965-5"
    return entry.system.standard
