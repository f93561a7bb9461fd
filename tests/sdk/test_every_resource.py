"""The SDK has what the service has: every operation and parameter, and a retry for each call that changes nothing."""

from __future__ import annotations

import inspect
from typing import Any, get_type_hints

import pytest
from flask import Flask

from boltwright import Client
from boltwright.drawing import LimitsToDraw
from boltwright.transport import JUDGEMENTS

#: POSTs that write; they are sent once. None so far.
WRITES: tuple[str, ...] = ()
#: Members that have another name in Python, or stand in another method.
ELSEWHERE = {
    "hardness_conversion": {"from", "to"},  # words of the language; given, wanted
    "capability": {"title", "acceptance_min", "acceptance_max"},  # capability_drawing
    "control_chart": {"title", "unit"},  # control_chart_drawing
    "part_masters_impact": {"change"},  # before, after
    "set_points": {"as", "registers"},  # set_points_registers
}


@pytest.fixture
def document(application: Flask) -> dict[str, Any]:
    found: dict[str, Any] = application.test_client().get("/openapi.json").get_json()
    return found


def operations(document: dict[str, Any]) -> dict[str, tuple[str, dict[str, Any]]]:
    """Return (path, operation) by method and name in the SDK."""
    return {
        f"{verb} {path}": (path, operation)
        for path, item in document["paths"].items()
        for verb, operation in item.items()
        if verb in ("get", "post")
    }


def method_name(path: str) -> str:
    return path.removeprefix("/v1/").removesuffix(".svg").replace("-", "_").replace("/", "_")


def test_every_operation_has_its_method_with_a_docstring(document: dict[str, Any]) -> None:
    for path, _ in operations(document).values():
        method = getattr(Client, method_name(path), None)
        assert method is not None, f"{path} has no method {method_name(path)}"
        assert "Raises:" in (method.__doc__ or ""), f"{method_name(path)} does not say what it raises"


def test_every_parameter_of_an_operation_can_be_given(document: dict[str, Any]) -> None:
    for path, operation in operations(document).values():
        name = method_name(path)
        wanted = _members(operation) or {one["name"] for one in operation.get("parameters", ())}
        given = set(inspect.signature(getattr(Client, name)).parameters)
        if "limits" in given:
            given |= set(get_type_hints(LimitsToDraw))
        assert not wanted - given - ELSEWHERE.get(name, set()), f"{name} lacks parameters"


def _members(operation: dict[str, Any]) -> set[str]:
    schema = operation.get("requestBody", {}).get("content", {}).get("application/json", {}).get("schema", {})
    return set(schema.get("properties", ()))


def test_what_changes_nothing_is_tried_again(document: dict[str, Any]) -> None:
    for name, (path, _) in operations(document).items():
        if name.startswith("post") and path not in WRITES:
            assert path.startswith(JUDGEMENTS), f"add {path} to JUDGEMENTS in sdk/boltwright/transport.py"
