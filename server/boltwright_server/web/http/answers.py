"""What an answer holds is declared once, as a typed class: it encodes and documents itself; the SDK is held against it.

A member without a default is always there (`required` in the OpenAPI document); one with the default UNSET is left out
where there is nothing to say. What an engine found goes over by the names of its members: `shown`. Answers are open: a
client must ignore members that it does not know.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Annotated, Any, TypeVar

import msgspec
from flask import Response
from flask_smorest import Blueprint
from msgspec import Meta, Struct

from ...quantities import CHECKED_WORDS, STATED
from ...standards.fingerprint import fingerprint
from .caching import JSON

#: Decimals leave as JSON numbers with the digits of their standard: 16.00 stays 16.00.
ENCODER = msgspec.json.Encoder(decimal_format="number")
_REFERENCE = "#/components/schemas/{name}"
_FINGERPRINT = {
    "type": "string",
    "description": "Over all tables and engines: same fingerprint and request, same bytes.",
}
T = TypeVar("T", bound=Struct)
_DECLARED: dict[str, type[Answer]] = {}


class Answer(Struct, kw_only=True):
    """The whole body of a 200 answer; `fingerprint` is added where it is sent."""


class BasisAnswer(Struct, omit_defaults=True):
    """Where a limit comes from."""

    standard: Annotated[str, Meta(examples=["ISO 965-1"])]
    edition: Annotated[str, Meta(examples=["2013"])]
    clause: Annotated[str, Meta(examples=["Tables 1 and 5"])]
    method: Annotated[str, Meta(extra_json_schema={"enum": ["tabulated", "computed", "common practice"]})]
    checked: Annotated[
        str,
        Meta(
            description="How the figure was checked. `original`: read in the standard itself. "
            "`memory` was not seen in print. `conflict`: sources disagree.",
            extra_json_schema={"enum": [*CHECKED_WORDS, STATED]},
        ),
    ]
    note: str | None = None


class BoundsAnswer(Struct):
    """Least and greatest permissible value; `null` is an open side."""

    symbol: Annotated[str, Meta(examples=["d2"])]
    min: Decimal | None
    max: Decimal | None
    nominal: Decimal | None
    unit: Annotated[str, Meta(examples=["mm"])]
    basis: BasisAnswer


def described(text: str, *examples: Any) -> Meta:
    """Return what the OpenAPI document says of a member."""
    return Meta(description=text, examples=list(examples) or None)


def answers(bp: Blueprint, *kinds: type[Answer], **more: Any) -> Callable[[Any], Any]:
    """Return the decorator that documents the 200 answer of a view by its class, or by the classes that it may have."""
    for kind in kinds:
        known = _DECLARED.setdefault(kind.__name__, kind)
        if known is not kind:
            raise TypeError(f"two answers are called {kind.__name__}: {known.__module__}, {kind.__module__}")
    references = [{"$ref": _REFERENCE.format(name=kind.__name__)} for kind in kinds]
    documented: Callable[[Any], Any] = bp.response(
        200, references[0] if len(kinds) == 1 else {"anyOf": references}, **more
    )
    return documented


def answer_schemas() -> Mapping[str, dict[str, Any]]:
    """Return the OpenAPI schemas of all declared answers and of their parts, by name."""
    found: dict[str, dict[str, Any]]
    _, found = msgspec.json.schema_components(list(_DECLARED.values()), ref_template=_REFERENCE)
    for name in _DECLARED:
        found[name]["properties"]["fingerprint"] = _FINGERPRINT
        found[name].setdefault("required", []).append("fingerprint")
    return {name: _with_numbers(schema) for name, schema in found.items()}


def _with_numbers(schema: Any) -> Any:
    """Decimals are JSON numbers on this wire, not texts as the library supposes; defaults of answers say nothing."""
    if isinstance(schema, list):
        return [_with_numbers(one) for one in schema]
    if not isinstance(schema, dict):
        return schema
    if schema.get("format") == "decimal":
        schema = {**{name: value for name, value in schema.items() if name != "format"}, "type": "number"}
    if schema.get("items") is False:  # a pair; the generator of the document knows no schema that is `false`
        schema = {name: value for name, value in schema.items() if name != "items"}
    members = {name: _with_numbers(one) for name, one in schema.get("properties", {}).items()}
    said = {name: _with_numbers(one) for name, one in schema.items() if name not in ("title", "default", "properties")}
    return {**said, "properties": members} if members else said


def shown(kind: type[T], source: object, **members: Any) -> T:
    """Return `source` as an answer shows it: the members of `kind` by their names, parts likewise.

    `members` are those that `source` has not, or not in that form.
    """
    taken = {
        name: getattr(source, name) for name in kind.__struct_fields__ if name not in members and hasattr(source, name)
    }
    return msgspec.convert({**taken, **members}, kind, from_attributes=True)


def body_of(answer: Struct) -> bytes:
    """Return the JSON of an answer, or of the last line of several, its fingerprint last."""
    return b'%s,"fingerprint":"%s"}' % (ENCODER.encode(answer)[:-1], fingerprint().encode())


def sent(answer: Answer, headers: Mapping[str, str] | None = None) -> Response:
    """Return the response that carries an answer."""
    return Response(body_of(answer), mimetype=JSON, headers=headers)
