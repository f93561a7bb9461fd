"""Every problem type of the service in one table, and the problem documents made from it.

RFC 9457 (`application/problem+json`) with `errors`: [{pointer, code, detail, position?, expected?}]; pointers are
RFC 6901.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from http import HTTPStatus
from typing import Any

import msgspec

from ...quantities import Refusal


@dataclass(frozen=True, slots=True)
class ProblemType:
    """A kind of problem: its HTTP status, its title and what a client does about it."""

    status: int
    title: str
    remedy: str


PROBLEM_TYPES: dict[str, ProblemType] = {
    # 400, 404, 405, 406, 408, 413, 414, 415: the request as such
    "bad_request": ProblemType(400, "Request cannot be read", "Mend the request line, the headers or the JSON text."),
    "not_json": ProblemType(400, "Body is not JSON", "Send one JSON document in UTF-8; NaN and Infinity are no JSON."),
    "body_not_whole": ProblemType(
        400, "Body is not whole", "Send it again: `detail` says what was expected and what came."
    ),
    "not_found": ProblemType(404, "No such resource", "Look the path up in /openapi.json."),
    "method_not_allowed": ProblemType(405, "Method not allowed", "Use a method that the Allow header names."),
    "not_acceptable": ProblemType(406, "No such representation", "Accept a media type that the operation documents."),
    "request_timeout": ProblemType(
        408, "Request came too slowly", "Send it without pauses; `detail` says what was waited for and how long."
    ),
    "content_too_large": ProblemType(413, "Content too large", "Send fewer pieces in one request."),
    "inflates_too_much": ProblemType(
        413, "Compressed body becomes too large", "Send it uncompressed, or in parts; `detail` names the limit."
    ),
    "too_many_rows": ProblemType(413, "Too many rows", "Send the rows in parts; `detail` names the limit."),
    "answer_too_large": ProblemType(413, "Answer becomes too large", "Send the rows in parts, each with `first_row`."),
    "takes_too_long": ProblemType(413, "Rows take too long", "Send the rows in parts; `detail` names the limit."),
    "uri_too_long": ProblemType(414, "Request line too long", "A designation has at most 200 characters."),
    "unsupported_media_type": ProblemType(415, "Unsupported media type", "Send Content-Type: application/json."),
    # 404: names
    "unknown_name": ProblemType(404, "Unknown name", "Use one of the names in `nearest`."),
    "former_standard": ProblemType(
        404, "Former standard", "Name the ISO standard if the drawing means it; `detail` says which dimensions differ."
    ),
    "unknown_size": ProblemType(404, "Unknown size", "Use a listed size; `nearest` holds the closest."),
    "unknown_gauge": ProblemType(404, "Unknown gauge", "Use an id that /v1/gauge-sizes lists for the designation."),
    "unknown_standard": ProblemType(404, "Unknown standard", "Use a standard that /v1/standards lists."),
    "unknown_property_class": ProblemType(404, "Unknown property class", "Use a class in `nearest`."),
    "unknown_coating": ProblemType(404, "Unknown coating", "Use a designation such as tZn, Fe/Zn8, flZn-480h or A3L."),
    "unknown_tolerance_class": ProblemType(404, "Unknown tolerance class", "Use a grade and position of ISO 965-1."),
    # 422: readable, but no answer is possible
    "not_understood": ProblemType(422, "Not understood", "`detail` says where reading stopped and what was expected."),
    "too_long": ProblemType(422, "Text too long", "Shorten the text to the length that `detail` names."),
    "not_standardised": ProblemType(
        422, "Not standardised", "The standard gives no value for this combination; none is extrapolated."
    ),
    "not_covered": ProblemType(422, "Not covered", "The service holds no value that it may publish; use the standard."),
    "contradiction": ProblemType(422, "Members contradict each other", "Mend one of the members that `errors` names."),
    "missing_member": ProblemType(422, "A member is missing", "Add the member that `errors` points to."),
    "unknown_member": ProblemType(422, "Unknown member", "Remove or rename the member that `errors` points to."),
    "repeated_member": ProblemType(
        422, "A member stands twice", "Send each member once; which of two values counts is not to be guessed."
    ),
    "wrong_type": ProblemType(
        422,
        "Wrong type",
        "Numbers are JSON numbers, gauge results true or false; nothing is converted silently.",
    ),
    "out_of_range": ProblemType(422, "Value out of range", "Use a value within the range that `detail` names."),
    "length_missing": ProblemType(422, "Length missing", "Bolts and screws need a nominal length, as M10x60."),
    "no_length": ProblemType(422, "No length here", "Nuts have no length."),
    "class_missing": ProblemType(422, "Class missing", "Name a tolerance class or a property class."),
    "unknown_characteristic": ProblemType(
        422, "Characteristic does not apply", "Use an id that /v1/specification lists for the designation."
    ),
    "unknown_unit": ProblemType(422, "Unknown unit", "Use a unit code that /v1/units lists."),
    "unit_does_not_fit": ProblemType(422, "Unit does not fit", "Use a unit of the kind that `detail` names."),
    "unequal_columns": ProblemType(
        422, "Columns of unequal length", "Index = piece: use null where none was measured."
    ),
    "uncertainty_missing": ProblemType(
        422, "Uncertainty missing", "A guarded rule needs expanded_uncertainty on each measured column."
    ),
    "bad_cursor": ProblemType(422, "Cursor of another list", "Send `next` of the page before, with the same filters."),
    "no_known_column": ProblemType(
        422, "No known column", "Name a column part_number, description or designation, or map titles with `columns`."
    ),
    "unknown_title": ProblemType(422, "Title not in the file", "Map titles that the file has; `detail` lists them."),
    "nothing_remains": ProblemType(
        422,
        "Nothing of the tolerance remains",
        "`figures` holds the exact limits: narrow shift, spread or coating, or choose another class.",
    ),
    "recipe_not_allowed": ProblemType(
        422, "Recipe not allowed", "Mend the recipe: `detail` names the limit of the standard that it breaks."
    ),
    "plant_figures_missing": ProblemType(
        422, "Figures of the plant are missing", "Add the members that `needs` names; none is assumed."
    ),
    "resolution_too_coarse": ProblemType(
        422, "Gauge too coarse", "Use a gauge with at least ten steps between the limits."
    ),
    "two_limits_needed": ProblemType(422, "Two limits needed", "Pieces are decided on between min and max."),
    "state_not_of_this_station": ProblemType(
        422, "State of another station", "Send the state of the last answer for these limits as it came, or none."
    ),
    "no_readings": ProblemType(422, "No readings", "Send at least one column of readings."),
    "invalid": ProblemType(422, "Invalid member", "`errors` names the member and what would be right."),
    # 5xx: the service
    "internal_error": ProblemType(500, "Fault of the service", "Report it with the request; nothing was changed."),
    "no_temporary_space": ProblemType(
        503, "No temporary space", "Try again when other long requests are done, or send the rows in parts."
    ),
    "not_ready": ProblemType(503, "Not ready", "Try again after a moment."),
}
MEDIA_TYPE = "application/problem+json"
#: Names of members from the outermost inwards.
Path = tuple[str, ...]
_ENCODER = msgspec.json.Encoder(decimal_format="number")


@dataclass(frozen=True, slots=True)
class MemberError:
    """One entry of `errors`; `position` and `expected` where a text was read, as in `Refusal`."""

    pointer: str
    code: str
    detail: str
    position: int | None = None
    expected: tuple[str, ...] = ()

    def members(self) -> dict[str, Any]:
        """Return the entry as it stands in the document."""
        body: dict[str, Any] = {"pointer": self.pointer, "code": self.code, "detail": self.detail}
        if self.position is not None:
            body["position"] = self.position
        if self.expected:
            body["expected"] = list(self.expected)
        return body


class Problem(Exception):
    """An answer that is a problem document."""

    def __init__(
        self,
        code: str,
        detail: str,
        errors: Sequence[MemberError] = (),
        nearest: Sequence[str] = (),
        more: Mapping[str, object] | None = None,
    ) -> None:
        super().__init__(detail)
        self.code = code
        self.detail = detail
        self.errors = tuple(errors)
        self.nearest = tuple(nearest)
        self.more = dict(more or {})

    @classmethod
    def from_refusal(cls, refusal: Refusal) -> Problem:
        """Turn what an engine said into a problem; the member becomes a pointer."""
        pointers = [f"/{member}" if member else "" for member in (refusal.member, *refusal.also)]
        code = refusal.code if refusal.code in PROBLEM_TYPES else "invalid"
        errors = [MemberError(at, refusal.code, refusal.detail, refusal.position, refusal.expected) for at in pointers]
        return cls(code, refusal.detail, errors, refusal.nearest, refusal.more)

    @property
    def status(self) -> int:
        """The HTTP status of its type."""
        return PROBLEM_TYPES[self.code].status


def pointer_to(*members: str) -> str:
    """Return the RFC 6901 pointer to nested members."""
    return "".join(f"/{member.replace('~', '~0').replace('/', '~1')}" for member in members)


def problem(code: str, detail: str, path: Path) -> Problem:
    """Return a problem with one error at `path`."""
    return Problem(code, detail, [MemberError(pointer_to(*path), code, detail)])


def document(problem: Problem, instance: str) -> bytes:
    """Return the problem document as bytes."""
    kind = PROBLEM_TYPES[problem.code]
    body: dict[str, Any] = {
        "type": f"/docs/problems/{problem.code}",
        "title": kind.title,
        "status": kind.status,
        "code": problem.code,
        "detail": problem.detail,
        "instance": instance,
        "errors": [error.members() for error in problem.errors],
    }
    if problem.nearest or kind.status == HTTPStatus.NOT_FOUND:
        body["nearest"] = list(problem.nearest)
    return _ENCODER.encode({**problem.more, **body})


def problem_from_messages(messages: Any, path: tuple[str, ...]) -> Problem:
    """Flatten marshmallow's messages into errors with pointers below `path`."""
    errors: list[MemberError] = []
    _flatten(messages, path, errors)
    first = errors[0]
    code = first.code if len({error.code for error in errors}) == 1 else "invalid"
    return Problem(code, "; ".join(f"{error.pointer[1:] or 'body'}: {error.detail}" for error in errors[:5]), errors)


def _flatten(node: Any, path: tuple[str, ...], errors: list[MemberError]) -> None:
    if isinstance(node, dict):
        # Unknown members come in the order of a set.
        for name, inner in sorted(node.items(), key=lambda item: _unknown_name(*item)):
            _flatten(inner, path if name == "_schema" else (*path, str(name)), errors)
        return
    messages = [str(message) for message in (node if isinstance(node, list) else [node])]
    errors.extend(MemberError(pointer_to(*path), _code_of(message), message) for message in messages)


def _unknown_name(name: Any, inner: Any) -> str:
    unknown = isinstance(inner, list) and any(str(message).startswith("Unknown") for message in inner)
    return str(name) if unknown else ""


def _code_of(message: str) -> str:
    if message.startswith("Missing"):
        return "missing_member"
    if message.startswith("Unknown"):
        return "unknown_member"
    if message.startswith("Not a valid"):
        return "wrong_type"
    return "invalid"
