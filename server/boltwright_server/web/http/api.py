"""The OpenAPI layer: flask-smorest, with problem documents in place of its own errors."""

from __future__ import annotations

from typing import Any

from flask import Flask, Response
from flask_smorest import Api, Blueprint
from werkzeug.exceptions import HTTPException

from .answers import answer_schemas
from .problem_response import from_http_exception
from .problems import MEDIA_TYPE

OPENAPI_VERSION = "3.1.0"


class ProblemApi(Api):  # type: ignore[misc]
    """An Api whose every error is a problem document, in the answers and in the OpenAPI document."""

    def handle_http_exception(self, error: HTTPException) -> Response:
        """Answer with a problem document."""
        return from_http_exception(error)

    def _register_responses(self) -> None:
        """Document errors as they are sent; the base class would document another form."""
        self.spec.components.response("DEFAULT_ERROR", _problem_response("A problem document (RFC 9457)"))
        for status, description in (("UNPROCESSABLE_ENTITY", "The request cannot be answered"),):
            self.spec.components.response(status, _problem_response(description))


def _problem_response(description: str) -> dict[str, Any]:
    return {
        "description": description,
        "content": {MEDIA_TYPE: {"schema": {"$ref": "#/components/schemas/Problem"}}},
    }


PROBLEM_SCHEMA = {
    "type": "object",
    "description": "RFC 9457 problem details.",
    "required": ["type", "title", "status", "code", "detail", "errors"],
    "properties": {
        "type": {"type": "string", "description": "Address of the page that explains the problem."},
        "title": {"type": "string"},
        "status": {"type": "integer"},
        "code": {"type": "string"},
        "detail": {"type": "string"},
        "instance": {"type": "string"},
        "errors": {
            "type": "array",
            "items": {
                "type": "object",
                "properties": {
                    "pointer": {"type": "string", "description": "RFC 6901 pointer into the request."},
                    "code": {"type": "string"},
                    "detail": {"type": "string"},
                    "position": {
                        "type": "integer",
                        "description": "Index of the character where reading a text stopped, or of the part refused.",
                    },
                    "expected": {
                        "type": "array",
                        "items": {"type": "string"},
                        "description": "What would be right there.",
                    },
                },
            },
        },
        "nearest": {"type": "array", "items": {"type": "string"}},
    },
}


def new_api(app: Flask) -> ProblemApi:
    """Return the API of an application, with /openapi.json."""
    app.config.update(
        API_TITLE="Boltwright",
        API_VERSION="v1",
        OPENAPI_VERSION=OPENAPI_VERSION,
        OPENAPI_URL_PREFIX="/",
        OPENAPI_JSON_PATH="openapi.json",
        API_SPEC_OPTIONS={
            "info": {
                "description": "Limits of threaded fasteners from cited standards, and judgement of readings against "
                "them. The figures support, and do not replace, the current edition of the standard."
            },
            "servers": [{"url": "/"}],
        },
    )
    api = ProblemApi(app)
    api.spec.components.schema("Problem", PROBLEM_SCHEMA)
    for name, schema in answer_schemas().items():
        api.spec.components.schema(name, schema)
    return api


def blueprint(name: str, description: str) -> Blueprint:
    """Return the blueprint of one resource below /v1."""
    return Blueprint(name, name, url_prefix="/v1", description=description)
