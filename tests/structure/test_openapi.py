"""The OpenAPI document is valid and describes every operation, as it is and not as it was."""

from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from openapi_spec_validator import validate

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


def test_every_answer_below_v1_has_a_fingerprint(document: dict[str, Any]) -> None:
    schemas = document["components"]["schemas"]
    for name, operation in operations(document).items():
        content = operation["responses"].get("200", {}).get("content", {})
        reference = content.get("application/json", {}).get("schema", {}).get("$ref", "")
        if reference:
            assert "fingerprint" in schemas[reference.rsplit("/", 1)[1]]["properties"], name
