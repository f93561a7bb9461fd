"""A verdict replays: the order of JSON members changes nothing, and a kept request gives the same bytes."""

from __future__ import annotations

import hashlib
import json
from typing import Any

from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

LOT: dict[str, Any] = {
    "designation": "ISO 4014 - M10x60 - 8.8",
    "readings": {
        "width_across_flats": [15.81, 16.01],
        "length": {"values": [59.8, 60.1], "unit": "mm"},
        "thread_go_gauge": [True, False],
        "body_diameter": [9.9, None],
        "tensile_load": [49200, 48800],
        "fracture_location": ["thread", "head_junction"],
    },
    "requirements": {
        "length": {"min": 59.9, "max": 61},
        "width_of_slot": {"min": 1, "unit": "mm"},
        "depth_of_slot": {"max": 2, "unit": "mm"},
        "marking": None,
        "hardness_core": None,
    },
    "dropped": {"marking": {"reason": "agreed"}, "hardness_core": {"reason": "agreed"}},
}


def judged(client: FlaskClient, lot: dict[str, Any]) -> bytes:
    answer = client.post("/v1/conformance", json=lot)
    assert answer.status_code == 200
    return bytes(answer.data)


@given(st.data())
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_order_of_members_changes_nothing(client: FlaskClient, data: st.DataObject) -> None:
    shuffled = {
        name: dict(data.draw(st.permutations(list(inner.items())))) if isinstance(inner, dict) else inner
        for name, inner in data.draw(st.permutations(list(LOT.items())))
    }
    assert judged(client, shuffled) == judged(client, LOT)


def test_characteristics_come_in_the_order_of_the_specification(client: FlaskClient) -> None:
    order = ["width_across_flats", "body_diameter", "length", "thread_go_gauge", "tensile_load", "fracture_location"]
    assert list(json.loads(judged(client, LOT))["characteristics"]) == order


def test_a_kept_request_gives_the_same_bytes(client: FlaskClient) -> None:
    kept = judged(client, LOT)
    stored = {"request": json.loads(kept)["replay"]["request"], "answer_sha256": hashlib.sha256(kept).hexdigest()}
    replayed = client.post("/v1/conformance/replay", json=stored).get_json()
    assert replayed["same"] is True
    assert replayed["answer_sha256"] == stored["answer_sha256"]
    stored["request"]["readings"]["length"]["values"][0] = 59.9
    assert client.post("/v1/conformance/replay", json=stored).get_json()["same"] is False


def test_the_stated_digit_of_a_requirement_survives_the_echo(client: FlaskClient) -> None:
    """A limit of 59.90 mm is stated to 0.01: 59.86 does not round up to it (ASTM E29, rounding method)."""
    body = (
        '{"designation": "ISO 4014 - M10x60 - 8.8", "decision_rule": "rounded", '
        '"requirements": {"length": {"min": 59.90, "max": 60.10}}, "readings": {"length": [59.86]}}'
    )
    kept = client.post("/v1/conformance", data=body, content_type="application/json").data
    assert json.loads(kept)["characteristics"]["length"]["verdict"] == "nonconforming"
    echoed = kept[kept.index(b'"request":{') + len(b'"request":') :]
    assert b"59.90" in echoed
    stored = f'{{"request": {body}, "answer_sha256": "{hashlib.sha256(kept).hexdigest()}"}}'
    replayed = client.post("/v1/conformance/replay", data=stored, content_type="application/json").get_json()
    assert replayed["same"] is True
