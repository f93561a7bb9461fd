"""Each result of the SDK fits the answer that the service declares: its fields are there, of a type that it reads.

Held against the OpenAPI document, whose schemas are the service's own classes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import MISSING, fields, is_dataclass
from decimal import Decimal
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

import pytest

from boltwright import Client
from boltwright.decoding import HERE
from boltwright.look_ups.gauge_sizes_check import GaugeCondition, GaugeConditions
from boltwright.stations.set_points import RegisterImage, SetPoints
from boltwright_server.web.app import create_app

from .test_every_resource import method_name, operations

#: Members that an answer always has and a result leaves to `raw`, by the class of the SDK.
LEFT_TO_RAW: dict[str, set[str]] = {
    "DecisionRule": {"operator"},  # follows from the rule
    "ProductDimensions": {"thread_end"},
    "Specification": {"coating"},  # the method coating_limits has it typed
}
#: Operations whose answers are read as one class each, in the order of the document.
SEVERAL: dict[str, tuple[type, ...]] = {
    "post /v1/gauge-sizes/check": (GaugeCondition, GaugeConditions),
    "post /v1/set-points": (SetPoints, RegisterImage),
}
_TYPES: dict[Any, set[str]] = {
    str: {"string"},
    bool: {"boolean"},
    int: {"integer"},
    float: {"number", "integer"},
    Decimal: {"number", "integer"},
}


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    found: dict[str, Any] = create_app().test_client().get("/openapi.json").get_json()
    return found


def results(document: dict[str, Any]) -> Iterator[tuple[str, Any, dict[str, Any]]]:
    """Yield (operation, class of the result, schema of its answer)."""
    for name, (path, operation) in operations(document).items():
        content = operation["responses"]["200"].get("content", {})
        if "application/json" in content:
            kind = get_type_hints(getattr(Client, method_name(path)))["return"]
            yield name, kind, content["application/json"]["schema"]


class Held:
    """A result held against a schema; `wrong` and `lacking` are what was found."""

    def __init__(self, schemas: dict[str, Any]) -> None:
        self.schemas = schemas
        self.wrong: list[str] = []
        self.lacking: dict[str, set[str]] = {}
        #: Members of a class, and those that one of its answers has; a class may serve answers that are not alike.
        self.members: dict[str, set[str]] = {}
        self.found: dict[str, set[str]] = {}
        self._seen: set[tuple[Any, str]] = set()

    def hold(self, kind: Any, schema: dict[str, Any], path: str) -> None:
        """Hold a type against a schema, and what is within them."""
        options = list(self._options(schema))
        if kind is Any:
            return
        kinds = get_args(kind) if get_origin(kind) in (Union, UnionType) else (kind,)
        if any(one.get("type") == "null" for one in options) and NoneType not in kinds:
            self.wrong.append(f"{path}: may be null, {kind} may not")
        kinds = tuple(one for one in kinds if one is not NoneType)
        if Any in kinds:
            return
        options = [one for one in options if one.get("type") != "null"]
        if all(map(is_dataclass, kinds)):
            self._result(kinds[0], options, path)
            return
        for option in options:
            if not any(self._fits(one, option, path) for one in kinds):
                self.wrong.append(f"{path}: {str(option)[:60]} is not read as {kind}")

    def _options(self, schema: dict[str, Any]) -> Iterator[dict[str, Any]]:
        """Yield the schemas that a value may have, without references and unions."""
        if "$ref" in schema:
            yield from self._options(self.schemas[schema["$ref"].rsplit("/", 1)[1]])
        elif "anyOf" in schema:
            for one in schema["anyOf"]:
                yield from self._options(one)
        else:
            yield schema

    def _fits(self, kind: Any, option: dict[str, Any], path: str) -> bool:
        origin = get_origin(kind)
        if not option.get("type"):  # anything
            return False
        if origin is Literal:
            return bool(option["type"] == "string")
        if origin is tuple:
            for one in option.get("prefixItems") or [option.get("items", {})]:
                self.hold(get_args(kind)[0], one, f"{path}[]")
            return bool(option["type"] == "array")
        if isinstance(origin, type) and issubclass(origin, Mapping):
            inner = [*option.get("properties", {}).values(), option.get("additionalProperties", {})]
            for one in inner:
                if isinstance(one, dict) and one:
                    self.hold(get_args(kind)[1], one, f"{path}{{}}")
            return bool(option["type"] == "object")
        return option["type"] in _TYPES.get(kind, ())

    def _result(self, kind: Any, options: list[dict[str, Any]], path: str, whole: bool = True) -> None:
        """Hold a dataclass against the schemas of the objects that it is read from, `whole` or as a part of another."""
        key = (kind, str(sorted(one.get("title", str(one)) for one in options)))
        if key in self._seen:
            return
        self._seen.add(key)
        types = get_type_hints(kind)
        members: set[str] = set()
        within: set[str] = set()
        for one in fields(kind):
            member = one.metadata.get("member", one.name)
            if one.name == "body":
                continue
            if member == HERE:
                self._result(types[one.name], options, path, whole=False)
                within |= {inner.metadata.get("member", inner.name) for inner in fields(types[one.name])}
                continue
            members.add(member)
            self._member(types[one.name], member, options, path, one.default is one.default_factory is MISSING)
            self.found.setdefault(kind.__name__, set()).update(
                {member} if any(member in option.get("properties", ()) for option in options) else ()
            )
        self.members.setdefault(kind.__name__, set()).update(members)
        for option in options:
            lacking = set(option.get("required", ())) - members - within
            if lacking and whole:
                self.lacking.setdefault(kind.__name__, set()).update(lacking)

    def _member(self, kind: Any, member: str, options: list[dict[str, Any]], path: str, needed: bool) -> None:
        held = [one["properties"][member] for one in options if member in one.get("properties", ())]
        if needed and not all(member in one.get("required", ()) for one in options):
            self.wrong.append(f"{path}: {member} may be missing, and has no default")
        for one in held:
            self.hold(kind, one, f"{path}.{member}")


@pytest.fixture(scope="module")
def held(document: dict[str, Any]) -> Held:
    found = Held(document["components"]["schemas"])
    for name, kind, schema in results(document):
        kinds = SEVERAL.get(name, (kind,))
        for one, option in zip(kinds, schema["anyOf"] if len(kinds) > 1 else [schema], strict=True):
            found.hold(one, option, name)
    return found


def test_every_field_of_a_result_has_a_type_that_fits_its_answer(held: Held) -> None:
    assert not held.wrong, "\n".join(held.wrong)


def test_every_field_of_a_result_is_in_an_answer(held: Held) -> None:
    parts = {name: members - held.found[name] - {"fingerprint"} for name, members in held.members.items()}
    assert not {name: left for name, left in parts.items() if left}


def test_a_member_that_a_result_lacks_is_left_out_on_purpose(held: Held) -> None:
    assert held.lacking == LEFT_TO_RAW


def test_every_json_answer_is_held(document: dict[str, Any]) -> None:
    assert len(list(results(document))) > 30
