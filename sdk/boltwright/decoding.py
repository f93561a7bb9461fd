"""From the JSON of an answer to frozen results, by the types of their fields.

A result is a dataclass whose fields carry the names of the JSON members. Members that it does not have are ignored, so
that a newer service does not break an older client; a field with a default may be missing. `member` in the metadata of
a field names the JSON member where it differs. Numbers arrive as decimals
with their stated digits (`parse_float=Decimal`) and become floats where the field says float.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import MISSING, Field, dataclass, field, fields
from decimal import Decimal
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, NamedTuple, TypeVar, Union, get_args, get_origin, get_type_hints

from .errors import UnexpectedAnswer

T = TypeVar("T")
#: As `member` in a field's metadata: its members stand in the object itself, not in one of their own.
HERE = "."
#: The member of a field that no answer sets.
_NEVER = ""
Decoder = Callable[[Any, str], Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """Root of the results. `fingerprint` names tables and engine: same fingerprint and request, same bytes."""

    fingerprint: str = ""
    #: The answer as it came. Empty on a result inside another one.
    body: bytes = field(default=b"", repr=False, compare=False)

    @property
    def raw(self) -> dict[str, Any]:
        """The JSON object as it came, members unknown to this version included, with plain floats; a fresh copy."""
        found: dict[str, Any] = json.loads(self.body or b"{}")
        return found

    @property
    def sha256(self) -> str:
        """Digest of the answer's bytes, to be kept beside a verdict that is to be replayed."""
        return hashlib.sha256(self.body).hexdigest()


def decode(kind: type[T], body: bytes) -> T:
    """Return the result of `kind` that an answer holds.

    Raises:
        UnexpectedAnswer: it is no JSON, or a member is missing or of another type; the message names it.
    """
    try:
        node = json.loads(body, parse_float=Decimal)
    except (ValueError, RecursionError) as error:
        raise UnexpectedAnswer(f"the answer is not JSON ({error}); does base_url lead to the service?") from None
    hashable: Any = kind
    found: T = _decoder(hashable)(node, "answer")
    if isinstance(found, Result):
        object.__setattr__(found, "body", body)
    return found


def check_numbers(numbers: Sequence[object], first_row: int, count: int | None) -> None:
    """Refuse rows that are not those that were sent.

    Raises:
        UnexpectedAnswer: one is missing, another one, or too many.
    """
    for number, found in enumerate(numbers, first_row):
        if found != number:
            raise UnexpectedAnswer(f"the answer holds row {str(found)[:20]} where row {number} is expected")
    if count is not None and len(numbers) != count:
        raise UnexpectedAnswer(f"the answer holds {len(numbers)} rows, {count} were sent: it is not whole")


def plain(node: Any) -> Any:
    """Return JSON with floats in place of decimals."""
    if isinstance(node, Mapping):
        return {name: plain(inner) for name, inner in node.items()}
    if isinstance(node, list):
        return [plain(inner) for inner in node]
    return float(node) if isinstance(node, Decimal) else node


@cache
def _decoder(kind: Any) -> Decoder:
    origin, inner = get_origin(kind), get_args(kind)
    if kind is Any:
        return lambda node, _: plain(node)
    if origin is Literal:  # a newer service may have further words
        return _scalar(str)
    if origin in (Union, UnionType):
        return _optional(kind)
    if origin is tuple:
        return _items(_decoder(inner[0]))
    if origin is not None and issubclass(origin, Mapping):
        return _members(_decoder(inner[1]))
    if kind in _SCALARS:
        return _scalar(kind)
    return _object(kind)


_SCALARS: dict[type, tuple[type, ...]] = {
    str: (str,),
    bool: (bool,),
    int: (int,),
    float: (int, Decimal),
    Decimal: (int, Decimal),
}


def _scalar(kind: type) -> Decoder:
    allowed = _SCALARS[kind]

    def read(node: Any, path: str) -> Any:
        # Its own type, not a base: true is no number.
        if type(node) not in allowed:
            raise _unexpected(path, kind.__name__, node)
        return kind(node)

    return read


def _optional(kind: Any) -> Decoder:
    *others, last = [_decoder(one) for one in get_args(kind) if one is not NoneType]

    def read(node: Any, path: str) -> Any:
        if node is None:
            return None
        for decoder in others:
            try:
                return decoder(node, path)
            except UnexpectedAnswer:
                continue
        return last(node, path)

    return read


def _items(decoder: Decoder) -> Decoder:
    def read(node: Any, path: str) -> Any:
        if not isinstance(node, list):
            raise _unexpected(path, "array", node)
        return tuple(decoder(inner, f"{path}/{at}") for at, inner in enumerate(node))

    return read


def _members(decoder: Decoder) -> Decoder:
    def read(node: Any, path: str) -> Any:
        return {name: decoder(inner, f"{path}/{name}") for name, inner in _mapping(node, path).items()}

    return read


class _Field(NamedTuple):
    """How a field of a dataclass is read and set; a value whose type is `taken` stays as it is."""

    member: str
    taken: tuple[type, ...]
    decoder: Decoder
    set: Callable[[Any, Any], None]
    #: What a missing member comes to; None where it must be there.
    default: Callable[[], Any] | None


@cache
def _plan(kind: Any) -> tuple[_Field, ...]:
    types = get_type_hints(kind)
    return tuple(
        _Field(
            _NEVER if one.name == "body" else one.metadata.get("member", one.name),
            _taken(types[one.name]),
            _decoder(types[one.name]),
            getattr(kind, one.name).__set__,
            _default(one),
        )
        for one in fields(kind)
    )


def _default(one: Field[Any]) -> Callable[[], Any] | None:
    if one.default is not MISSING:
        return lambda: one.default
    return None if one.default_factory is MISSING else one.default_factory


def _taken(kind: Any) -> tuple[type, ...]:
    """Return the types that a decoder would give back as they are; a float is a decimal before."""
    if get_origin(kind) in (Union, UnionType):
        return tuple(taken for one in get_args(kind) for taken in _taken(one))
    return (kind,) if kind in (str, bool, int, Decimal, NoneType) else ()


def _object(kind: Any) -> Decoder:
    """Return what reads a dataclass with slots: its fields are set past `__init__`, which takes as long again."""
    checked = hasattr(kind, "__post_init__")
    plan: tuple[_Field, ...] = ()

    def read(node: Any, path: str) -> Any:
        nonlocal plan
        if not isinstance(node, dict):
            raise _unexpected(path, "object", node)
        plan = plan or _plan(kind)
        found = kind.__new__(kind)
        for member, taken, decoder, set_field, default in plan:
            if member in node:
                value = node[member]
                set_field(found, value if type(value) in taken else decoder(value, f"{path}/{member}"))
            elif member == HERE:
                set_field(found, decoder(node, path))
            elif default is not None:
                set_field(found, default())
            else:
                raise UnexpectedAnswer(f"{path} lacks {member}; is the service another version?")
        if checked:
            found.__post_init__()
        return found

    return read


def _mapping(node: Any, path: str) -> Mapping[str, Any]:
    if not isinstance(node, dict):
        raise _unexpected(path, "object", node)
    return node


def _unexpected(path: str, wanted: str, node: Any) -> UnexpectedAnswer:
    return UnexpectedAnswer(f"{path} is {str(node)[:40]!r}, not of type {wanted}; is the service another version?")
