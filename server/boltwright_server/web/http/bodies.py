"""Request bodies: media type first, then typed decoding, then the envelope by marshmallow.

Long columns of numbers are decoded straight into typed lists: a string, a boolean among numbers, NaN or Infinity is
refused where it stands.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import msgspec
from flask import Request
from marshmallow import RAISE, Schema, ValidationError, fields

from ...quantities.keeper import remembered
from .problems import Path as Path
from .problems import Problem, problem_from_messages
from .problems import problem as problem
from .request_streams import whole_text

_PATH = re.compile(r"at `\$((?:\[\d+\]|\.[^`]*)*)`")
#: Fractions become Decimals, so that a limit keeps the digits that were written.
ANYTHING = msgspec.json.Decoder(float_hook=Decimal)


def json_body(request: Request) -> bytes:
    """Return the raw JSON body.

    Raises:
        Problem: unsupported_media_type, or not_json where there is no body.
    """
    if request.mimetype != "application/json":
        given = request.mimetype or "none"
        raise Problem("unsupported_media_type", f"Content-Type is {given[:60]}; send application/json")
    body = whole_text()
    if not body:
        raise Problem("not_json", "The body is empty; send a JSON object")
    return body


def load(schema: type[Schema], members: Mapping[str, Any], path: Path) -> dict[str, Any]:
    """Return the members as the schema loads them; unknown ones are refused.

    Raises:
        Problem: pointing at each member below `path`.
    """
    try:
        loaded: dict[str, Any] = _schema(schema).load(dict(members), unknown=RAISE)
    except ValidationError as error:
        raise problem_from_messages(error.messages, path) from None
    return loaded


@remembered()
def _schema(kind: type[Schema]) -> Schema:
    return naming_members(kind())


def naming_members(schema: Schema) -> Schema:
    """Let the refusal of an unknown member name those that the schema knows, at every level."""
    known = ", ".join(field.data_key or name for name, field in schema.fields.items())
    schema.error_messages["unknown"] = f"Unknown member; known: {known or 'none'}."
    for field in schema.fields.values():
        if isinstance(field, fields.Nested):
            naming_members(field.schema)
    return schema


def decoded(decoder: Any, raw: bytes | msgspec.Raw, path: Path, expected: str = "a JSON object") -> Any:
    """Return what a typed decoder reads.

    Raises:
        Problem: wrong_type with the pointer of the element, or not_json.
    """
    try:
        return decoder.decode(raw)
    except msgspec.ValidationError as error:
        found = _PATH.search(str(error))
        pointer = (*path, *(re.findall(r"\[(\d+)\]", found[1]) if found else []))
        detail = f"{'/'.join(pointer) or 'the body'}: {str(error).split(' - at')[0]}; send {expected}"
        raise problem("wrong_type", detail, pointer) from None
    except RecursionError:
        raise problem("not_json", "arrays or objects are nested too deeply", path) from None
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        raise problem("not_json", f"not JSON: {error}; NaN and Infinity are no JSON numbers", path) from None
