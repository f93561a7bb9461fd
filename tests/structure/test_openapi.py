"""The OpenAPI document is valid and describes every operation, as it is and not as it was."""

from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator
from openapi_spec_validator import validate

from boltwright_server.web.http.answers import answer_schemas

VERBS = {"GET", "POST", "PUT", "PATCH", "DELETE"}


@pytest.fixture
def document(client: FlaskClient) -> dict[str, Any]:
    found: dict[str, Any] = client.get("/openapi.json").get_json()
    return found


def operations(document: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {
        f"{verb.upper()} {path}": operation
        for path, item in document["paths"].items()
        for verb, operation in item.items()
        if verb.upper() in VERBS
    }


def test_the_document_is_openapi_3_1(document: dict[str, Any]) -> None:
    assert document["openapi"].startswith("3.1")
    validate(document)


def test_every_operation_below_v1_is_described(document: dict[str, Any], application: Flask) -> None:
    served = {
        f"{verb} {rule.rule.replace('<', '{').replace('>', '}')}"
        for rule in application.url_map.iter_rules()
        if rule.rule.startswith("/v1/")
        for verb in (rule.methods or set()) & VERBS
    }
    assert served == set(operations(document))


def test_every_operation_says_what_it_does_and_how_it_fails(document: dict[str, Any]) -> None:
    for name, operation in operations(document).items():
        assert operation.get("summary"), name
        assert operation.get("tags"), name
        assert "default" in operation["responses"], f"{name} describes no problem document"
        for parameter in operation.get("parameters", ()):
            assert parameter.get("description") or parameter["schema"].get("enum"), f"{name}: {parameter['name']}"


def _references(schema: dict[str, Any]) -> list[str]:
    return [one.get("$ref", "").rsplit("/", 1)[-1] for one in schema.get("anyOf", [schema])]


def test_every_json_answer_is_of_a_declared_class(document: dict[str, Any]) -> None:
    declared = set(answer_schemas())
    answered = 0
    for name, operation in operations(document).items():
        content = operation["responses"].get("200", {}).get("content", {})
        if "application/json" in content:
            assert set(_references(content["application/json"]["schema"])) <= declared, name
            answered += 1
    assert answered > 30


def test_every_schema_of_an_answer_says_what_is_always_there_and_is_open() -> None:
    for name, schema in answer_schemas().items():
        assert schema["required"], name
        assert set(schema["required"]) <= set(schema["properties"]), name
        assert schema.get("additionalProperties") is not False, f"{name} is closed to members to come"


def test_the_body_of_a_request_is_closed(document: dict[str, Any]) -> None:
    for name, operation in operations(document).items():
        content = operation.get("requestBody", {}).get("content", {})
        if "application/json" in content:
            schema = content["application/json"]["schema"]
            for one in schema.get("oneOf", [schema]):
                assert one.get("additionalProperties", True) is False, name


def test_every_answer_below_v1_has_a_fingerprint(document: dict[str, Any]) -> None:
    schemas = document["components"]["schemas"]
    for name, operation in operations(document).items():
        content = operation["responses"].get("200", {}).get("content", {})
        for reference in _references(content["application/json"]["schema"]) if "application/json" in content else ():
            assert "fingerprint" in schemas[reference]["required"], name


#: Requests beside the examples of the document itself, whose answers have members that not every answer has.
MORE: tuple[tuple[str, dict[str, str]], ...] = (
    ("/v1/thread-limits", {"designation": "M10-6H/6g", "explain": "true"}),
    ("/v1/thread-limits", {"designation": "1/2-13 UNC-2A", "explain": "true"}),
    ("/v1/gauge-sizes", {"designation": "1/2-13 UNC-2A", "explain": "true"}),
    ("/v1/gauge-sizes", {"designation": "M10-6g"}),
    ("/v1/coating-limits", {"designation": "ISO 4014 - M10x60 - 8.8U - tZn"}),
    ("/v1/coating-limits", {"designation": "1/4-20 UNC-2A", "coating": "Fe/Zn8", "property_class": "ASTM A574"}),
    ("/v1/thread-fit", {"external": "M12-6az", "internal": "M12-6H"}),
    ("/v1/threads", {"system": "Unified inch", "limit": "500"}),
    ("/v1/tolerance-classes", {"thread": "1/2-13"}),
    ("/v1/specification", {"designation": "ISO 4032 - M12 - 8Z - tZn"}),
    ("/v1/specification", {"designation": "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 8 - Fe/Zn8"}),
)

#: Bodies of requests that are judged or reckoned; some without unit, some with a characteristic's limits.
POSTED: tuple[tuple[str, dict[str, Any]], ...] = (
    ("/v1/histogram", {"values": [15.8, 15.9, 15.85], "min": 15.73, "max": 16}),
    ("/v1/histogram", {"values": [15.8], "designation": "ISO 4032 - M10 - 8", "characteristic": "width_across_flats"}),
    ("/v1/capability", {"values": [15.8, 15.9, 15.85, 15.86], "min": 15.73, "max": 16, "subgroup_size": 2}),
    ("/v1/control-chart", {"values": [15.8, 15.9, 15.85, 15.86] * 5, "subgroup_size": 4}),
    ("/v1/narrow-limits", {"values": [15.8, 15.9, 15.85], "min": 15.73, "max": 16}),
    ("/v1/trend", {"values": [15.8, 15.81, 15.83, 15.84], "max": 16}),
    ("/v1/set-points", {"designation": "ISO 4014 - M10x60 - 8.8", "rate": 300, "check_interval": 15, "explain": True}),
    ("/v1/set-points", {"designation": "ISO 4032 - M12 - 8Z - tZn"}),
    ("/v1/state-limits", {"min": 8.8, "max": 9, "unit": "mm", "before": [8.9, 8.91, 8.92], "after": [8.9, 8.92, 8.92]}),
    (
        "/v1/state-limits",
        {"designation": "M10-6g", "characteristic": "thread_pitch_diameter", "coating_thickness": {"max": 0.01}},
    ),
    (
        "/v1/piece-decision",
        {"station": {"min": 0, "max": 1, "resolution": 0.1}, "readings": [{"number": 1, "value": None}]},
    ),
    ("/v1/conformance", {"designation": "ISO 4032 - M10 - 8", "readings": {"width_across_flats": [15.8, 16.1]}}),
    ("/v1/part-masters/validation", {"part_masters": [{"part_number": "A", "description": "NUT HEX M16 CL10"}, {}]}),
    (
        "/v1/gauge-sizes/check",
        {"designation": "M10-6g", "gauge": "go_screw_ring", "measured": {"value": 9.001, "unit": "mm"}},
    ),
)


def _examples(document: dict[str, Any]) -> list[tuple[str, dict[str, str]]]:
    found = []
    for path, item in document["paths"].items():
        parameters = item.get("get", {}).get("parameters", ())
        required = {one["name"]: one["schema"].get("example") for one in parameters if one.get("required")}
        if "get" in item and path.startswith("/v1/") and None not in required.values():
            found.append((path, required))
    return found


def test_an_answer_is_as_the_document_describes_it(document: dict[str, Any], client: FlaskClient) -> None:
    """No member that is not described, no null where none is."""
    checked, wrong = 0, []
    for path, query in (*_examples(document), *MORE):
        answer = client.get(path, query_string=query)
        if _schema(document, path, "get") is None or answer.status_code != 200:
            continue
        wrong += _errors(document, path, "get", answer.get_json())
        checked += 1
    assert not wrong, "\n".join(wrong)
    assert checked > len(MORE) + 8


@pytest.mark.parametrize(("path", "body"), POSTED)
def test_an_answer_to_a_body_is_as_the_document_describes_it(
    document: dict[str, Any], client: FlaskClient, path: str, body: dict[str, Any]
) -> None:
    answer = client.post(path, json=body)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    assert not _errors(document, path, "post", answer.get_json())


def _schema(document: dict[str, Any], path: str, verb: str) -> dict[str, Any] | None:
    content = document["paths"][path][verb]["responses"]["200"].get("content", {})
    found: dict[str, Any] | None = content.get("application/json", {}).get("schema")
    return found


def _errors(document: dict[str, Any], path: str, verb: str, answer: Any) -> list[str]:
    whole = {**(_schema(document, path, verb) or {}), "components": document["components"]}
    errors = Draft202012Validator(whole).iter_errors(answer)
    return [f"{path}: {error.json_path} {error.message[:200]}" for error in errors]
