"""What every problem document must say, asked of an answer."""

from __future__ import annotations

from typing import Any

from werkzeug.test import TestResponse

MEDIA_TYPE = "application/problem+json"


def problem(answer: TestResponse, status: int, code: str) -> dict[str, Any]:
    """Return the document of an answer that must be this problem, whole as RFC 9457 and the contract ask."""
    found: dict[str, Any] = answer.get_json(force=True)
    assert (answer.status_code, found.get("code")) == (status, code), found
    assert answer.mimetype == MEDIA_TYPE
    assert found["status"] == status
    assert found["type"] == f"/docs/problems/{code}"
    assert found["title"]
    assert found["detail"]
    assert found["instance"] == answer.request.path[:200]
    assert isinstance(found["errors"], list)
    for error in found["errors"]:
        assert {"pointer", "code", "detail"} <= set(error) <= {"pointer", "code", "detail", "position", "expected"}
        assert error["pointer"] == "" or error["pointer"].startswith("/")
    if status == 404:
        assert "nearest" in found
    return found


def pointers(document: dict[str, Any]) -> list[str]:
    return [error["pointer"] for error in document["errors"]]
