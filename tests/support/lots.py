"""Requests to judge, built from a lot in which everything conforms. The readings are invented."""

from __future__ import annotations

from typing import Any

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

BOLT = "ISO 4014 - M10x60 - 8.8"
NUT = "ISO 4032 - M10 - 8"

#: One conforming reading of each mandatory characteristic of `BOLT`.
_BOLT_READINGS: dict[str, Any] = {
    "width_across_flats": 15.9,
    "width_across_corners": 17.9,
    "head_height": 6.4,
    "body_diameter": 9.9,
    "length": 60.1,
    "thread_go_gauge": True,
    "thread_not_go_gauge": True,
    "hardness_core": 280,
    "tensile_load": 48000,
    "fracture_location": "thread",
    "marking": True,
}
_NUT_READINGS: dict[str, Any] = {
    "width_across_flats": 15.9,
    "width_across_corners": 17.9,
    "nut_height": 8.2,
    "thread_go_gauge": True,
    "thread_not_go_gauge": True,
    "hardness_core": 250,
    "nut_proof_load": True,
    "marking": True,
}


def bolts(count: int = 5, **columns: Any) -> dict[str, Any]:
    """Return readings of a conforming lot of bolts, with `columns` in place of some; None leaves a column out."""
    return _readings(_BOLT_READINGS, count, columns)


def nuts(count: int = 5, **columns: Any) -> dict[str, Any]:
    """Return readings of a conforming lot of nuts."""
    return _readings(_NUT_READINGS, count, columns)


def _readings(one: dict[str, Any], count: int, columns: dict[str, Any]) -> dict[str, Any]:
    readings = {id: [value] * count for id, value in one.items()}
    return {id: column for id, column in {**readings, **columns}.items() if column is not None}


def request(readings: dict[str, Any] | None = None, designation: str = BOLT, **members: Any) -> dict[str, Any]:
    """Return a request for a conforming lot of bolts, or with the readings given."""
    return {"designation": designation, "readings": bolts() if readings is None else readings, **members}


def post(client: FlaskClient, body: Any) -> TestResponse:
    """Send a request; a text goes as it is written."""
    if isinstance(body, str | bytes):
        return client.post("/v1/conformance", data=body, content_type="application/json")
    return client.post("/v1/conformance", json=body)


def judged(client: FlaskClient, readings: dict[str, Any] | None = None, **members: Any) -> dict[str, Any]:
    """Judge a lot and return the answer."""
    answer = post(client, request(readings, **members))
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def characteristic(client: FlaskClient, id: str, column: Any, **members: Any) -> dict[str, Any]:
    """Judge one column alone and return what was found of it."""
    found: dict[str, Any] = judged(client, {id: column}, **members)["characteristics"][id]
    return found
