"""Members of JSON objects, each named once: of a name that stands twice the last value would win in silence."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

import msgspec
from marshmallow import Schema

from .bodies import ANYTHING, Path, decoded, load, problem
from .problems import Problem

_OBJECT = msgspec.json.Decoder(dict[str, msgspec.Raw])
#: Bytes up to which colons are counted; a longer text is read in one pass.
_SHORT = 4096


class _Name:
    """A name as it stands in the text: two of them are never equal, so that a mapping keeps both."""

    __slots__ = ("text",)

    def __init__(self, _: type, text: str) -> None:
        self.text = text


_WRITTEN = msgspec.json.Decoder(dict[_Name, msgspec.Raw], dec_hook=_Name)


def members_of(raw: bytes | msgspec.Raw, path: Path, expected: str = "a JSON object") -> dict[str, msgspec.Raw]:
    """Return the members of an object as they were written.

    Raises:
        Problem: no object, or repeated_member, which names the member and its places.
    """
    if memoryview(raw).nbytes <= _SHORT:
        plain: dict[str, msgspec.Raw] = decoded(_OBJECT, raw, path, expected)
        # Colons that stand neither in a value nor behind a name that was kept: none, unless a name stands twice.
        colons = bytes(raw).count(b":") - len(plain)
        for value in plain.values() if colons else ():
            colons -= bytes(value).count(b":")
        if not colons:
            return plain
    written = decoded(_WRITTEN, raw, path, expected)
    found = {name.text: value for name, value in written.items()}
    if len(found) < len(written):
        raise _repeated([name.text for name in written], path)
    return found


class _Pairs(NamedTuple):
    """The members of an object in the order of the text."""

    pairs: list[tuple[str, Any]]


def anything(raw: bytes | msgspec.Raw, path: Path) -> Any:
    """Return any JSON value, its fractions as Decimals; no object within names a member twice.

    Raises:
        Problem: not JSON, or repeated_member.
    """
    value = decoded(ANYTHING, raw, path)
    if isinstance(value, dict | list) and value:
        _check_objects(bytes(raw), path)
    return value


def _check_objects(text: bytes, path: Path) -> None:
    try:
        whole = json.loads(text, object_pairs_hook=_Pairs, parse_int=str, parse_float=str)
    except RecursionError:
        raise problem("not_json", "arrays or objects are nested too deeply", path) from None
    for node, at in _objects_of(whole, path):
        if len(dict(node.pairs)) < len(node.pairs):
            raise _repeated([name for name, _ in node.pairs], at)


def _objects_of(whole: Any, path: Path) -> Iterator[tuple[_Pairs, Path]]:
    """Yield every object, with its path."""
    waiting: list[tuple[Any, Path]] = [(whole, path)]
    while waiting:
        node, at = waiting.pop()
        if isinstance(node, _Pairs):
            yield node, at
        inner = node.pairs if isinstance(node, _Pairs) else enumerate(node)
        waiting += [(one, (*at, str(name))) for name, one in inner if isinstance(one, _Pairs | list)]


def load_body(
    body: bytes, schema: type[Schema], columns: Mapping[str, Any], optional: Path = ()
) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return the members that `schema` loads and the columns that their typed decoders read.

    Raises:
        Problem: not JSON, or a member that is missing, unknown or of the wrong kind; `errors` points at it.
    """
    envelope = members_of(body, ())
    found = {}
    for name, decoder in columns.items():
        if name in envelope:
            found[name] = decoded(decoder, envelope.pop(name), (name,), "an array of JSON numbers")
        elif name not in optional:
            raise problem("missing_member", f"{name} is missing", (name,))
    plain = {name: anything(raw, (name,)) for name, raw in envelope.items()}
    return load(schema, plain, ()), found


def every_member(line: bytes, row: dict[str, Any]) -> dict[str, Any]:
    """Return a row with what the mapping `row` of its JSON lost: the other value of a name that stands twice.

    It stands under the name with a blank behind it, which means the same member. An object within that names a
    member twice becomes its text, which is no figure.
    """
    colons = line.count(b":")
    if colons == len(row) or (colons == _colons(row) and b"\\" not in line):
        return row
    written: dict[_Name, msgspec.Raw] = _WRITTEN.decode(line)
    whole: dict[str, Any] = {}
    for name, raw in written.items():
        value = _value(raw)
        if value != whole.setdefault(name.text, value):
            whole[f"{name.text} "] = value
    return whole


def _colons(row: dict[str, Any]) -> int:
    """Return how many colons the JSON of a row has that is written without an escape."""
    colons = 0
    waiting: list[Any] = [row]
    while waiting:
        value = waiting.pop()
        if isinstance(value, str):
            colons += value.count(":")
        elif isinstance(value, dict):
            colons += len(value)
            waiting += [*value, *value.values()]
        elif isinstance(value, list):
            waiting += value
    return colons


def _value(raw: msgspec.Raw) -> Any:
    try:
        return anything(raw, ())
    except Problem:
        return bytes(raw).decode("utf-8", "replace")


def _repeated(names: list[str], path: Path) -> Problem:
    twice = next(name for name, times in Counter(names).items() if times > 1)
    places = [str(at) for at, name in enumerate(names, 1) if name == twice]
    within = "/".join(path) or "the body"
    detail = (
        f"{twice[:60]} stands {len(places)} times in {within}, as members {', '.join(places[:-1])} and {places[-1]}; "
        "which one counts is not to be guessed: send it once"
    )
    return problem("repeated_member", detail, (*path, twice))
