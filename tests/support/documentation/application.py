"""Asks the application without a server between."""

from __future__ import annotations

from functools import cache

from flask.testing import FlaskClient

from boltwright_server.web.app import create_app

from .curl import Asked


@cache
def _client() -> FlaskClient:
    return create_app().test_client()


def ask(asked: Asked) -> bytes:
    """Return the body of the answer."""
    kind = asked.headers.get("Content-Type")
    return (
        _client()
        .open(
            asked.path,
            method=asked.method,
            query_string=asked.query,
            headers=asked.headers,
            data=asked.body,
            content_type=kind,
        )
        .data
    )
