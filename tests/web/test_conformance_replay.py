"""A verdict replays: the order of JSON members changes nothing, and a kept request gives the same bytes."""

from __future__ import annotations

import hashlib
import json
from random import Random
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from random_lots import json_of, random_lot

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


#: What a random lot does not carry: one of every further member.
EVERY_MEMBER = """{
  "designation": "ISO 4014 - M10x60 - 10.9", "lot_size": 60, "risks": true, "fracture_rule": "thread_only",
  "decision_rule": {"rule": "rounded", "ties": "greater"},
  "sampling": {"scheme": "ISO 3269", "second_sample": true},
  "sampling_destructive": {"scheme": "zero-acceptance", "limiting_quality": 0.10, "consumer_risk": 0.5},
  "retest": {"agreed_in": "Order 4711", "first_sample": 1},
  "requirements": {
    "length": {"min": 59.90, "basis": {"document": "drawing \u00e4", "revision": "C"}},
    "hole": {"max": 2.20, "unit": "mm", "group": "surface", "mandatory": false},
    "marking": null
  },
  "dropped": {"marking": {"reason": "too small"}},
  "readings": {
    "hardness_core": {"values": [340, 341.50, 339, 345, 340], "pieces": [0, 0, 1, 2, 3], "repeated": "mean"},
    "length": {
      "values": [59.92, 6e1, 60.0, null], "expanded_uncertainty": 0.0200000000000000000001, "coverage_factor": 2.00,
      "instrument": "caliper 7", "measured_at": "2026-11-25T08:00:00+01:00",
      "decision_rule": {"rule": "guarded", "edition": "2013"}
    },
    "thread_go_gauge": [true, null, true, true],
    "tensile_load": {"values": [61.0, 20, 61], "unit": "kN", "replaced": {"1": "grips slipped"}},
    "fracture_location": ["thread", null, "thread"]
  }
}"""


def replays(client: FlaskClient, text: bytes) -> None:
    """The kept text and the echoed request give the answer again, byte for byte."""
    kept = client.post("/v1/conformance", data=text, content_type="application/json")
    assert kept.status_code == 200, kept.data
    digest = hashlib.sha256(kept.data).hexdigest()
    echoed = json_text_of(kept.data, "request")
    assert client.post("/v1/conformance", data=echoed, content_type="application/json").data == kept.data
    assert hashlib.sha256(echoed).hexdigest() == kept.get_json()["replay"]["request_sha256"]
    for request in (text, echoed):
        stored = b'{"request": %s, "answer_sha256": "%s"}' % (request, digest.encode())
        found = client.post("/v1/conformance/replay", data=stored, content_type="application/json").get_json()
        assert found["same"] is True


def json_text_of(answer: bytes, member: str) -> bytes:
    """Return the last member of that name as it stands in the text: a reader of JSON would lose the digits."""
    start = answer.rindex(b'"%s":' % member.encode()) + len(member) + 3
    _, length = json.JSONDecoder().raw_decode(answer[start:].decode())
    return answer[start:].decode()[:length].encode()


@given(st.integers(0, 2**32 - 1))
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_lot_replays(client: FlaskClient, seed: int) -> None:
    replays(client, json_of(random_lot(Random(seed))))


def test_every_member_replays(client: FlaskClient) -> None:
    replays(client, EVERY_MEMBER.encode())


STREAM = (
    b'{"designation": "ISO 4014 - M10x60 - 8.8", "decision_rule": "guarded", "requirements": {"length": {"min": 59}}}\n'
    b'{"readings": {"length": {"values": [59.95, 60.0], "expanded_uncertainty": 0.02}}}\n'
    b"\n"
    b'{"readings": {"length": {"values": [60.1, null, 70], "expanded_uncertainty": 0.02}}}\n'
)


def sent(client: FlaskClient, path: str, lines: bytes) -> Any:
    return client.post(path, data=lines, content_type="application/x-ndjson")


def test_a_stream_replays(client: FlaskClient) -> None:
    kept = sent(client, "/v1/conformance", STREAM)
    assert kept.get_json()["replay"] == {"request_sha256": hashlib.sha256(STREAM).hexdigest(), "request": None}
    digest = hashlib.sha256(kept.data).hexdigest()
    head = b'{"answer_sha256": "%s"}\n' % digest.encode()
    found = sent(client, "/v1/conformance/replay", head + STREAM).get_json()
    assert (found["same"], found["answer_sha256"]) == (True, digest)
    assert found["answer"]["verdict"] == "reject"
    changed = STREAM.replace(b"59.95", b"59.91")
    assert sent(client, "/v1/conformance/replay", head + changed).get_json()["same"] is False
    assert sent(client, "/v1/conformance/replay", b"{}\n" + STREAM).get_json()["same"] is None


def test_a_stream_without_its_first_line_is_refused(client: FlaskClient) -> None:
    found = sent(client, "/v1/conformance/replay", STREAM)
    assert found.status_code == 422
    assert "designation" in found.get_json()["detail"]
    assert sent(client, "/v1/conformance/replay", b"").status_code == 400


@pytest.mark.parametrize(
    "stored",
    [
        "5",
        "[]",
        "null",
        '{"designation": "M10-6g"}',
        '{"designation": "M10-6g", "readings": 5}',
        '{"designation": "M10-6g", "readings": {"thread_pitch_diameter": 5}}',
        '{"designation": "M10-6g", "readings": {"thread_pitch_diameter": {"values": ["8.9"]}}}',
    ],
)
def test_a_request_that_cannot_be_judged_again_is_refused(client: FlaskClient, stored: str) -> None:
    body = f'{{"request": {stored}}}'
    answer = client.post("/v1/conformance/replay", data=body, content_type="application/json")
    assert answer.status_code == 422, answer.get_data(as_text=True)
    assert answer.mimetype == "application/problem+json"


def test_a_replay_says_which_limits_moved(client: FlaskClient) -> None:
    """The kept answer held 15.70 mm and accepted the piece: both figures stand beside each other."""
    kept = json.loads(judged(client, LOT))
    kept["characteristics"]["width_across_flats"]["limits"]["min"] = 15.70
    kept["characteristics"]["width_across_flats"]["verdict"] = "conforming"
    body = {"request": LOT, "answer": kept, "answer_sha256": "0" * 64, "fingerprint": "an older one"}
    found = client.post("/v1/conformance/replay", json=body).get_json()
    assert (found["same"], found["detail"].endswith("1 limit of this request moved.")) == (False, True)
    assert [(one["characteristic"], one["member"]) for one in found["moved"]] == [
        ("width_across_flats", "limits"),
        ("width_across_flats", "verdict"),
    ]
    limits = found["moved"][0]
    assert (limits["old"]["min"], limits["new"]["min"]) == (15.70, 15.73)


def test_a_replay_of_a_stream_says_so_too(client: FlaskClient) -> None:
    lines = [{"designation": LOT["designation"]}, {"readings": {"length": [59.8]}}]
    stream = "".join(json.dumps(line) + "\n" for line in lines)
    kept = client.post("/v1/conformance", data=stream, content_type="application/x-ndjson").get_json()
    kept["characteristics"]["length"]["limits"]["max"] = 61
    body = json.dumps({"answer": kept}) + "\n" + stream
    found = client.post("/v1/conformance/replay", data=body, content_type="application/x-ndjson").get_json()
    assert [(one["old"]["max"], one["new"]["max"]) for one in found["moved"]] == [(61, 60.60)]


def test_without_the_kept_answer_nothing_is_compared(client: FlaskClient) -> None:
    found = client.post("/v1/conformance/replay", json={"request": LOT, "answer_sha256": "0" * 64}).get_json()
    assert found["moved"] is None
    assert "Send the kept answer" in found["detail"]
    for wrong in ({}, [], {"characteristics": {"length": 3}}):
        refused = client.post("/v1/conformance/replay", json={"request": LOT, "answer": wrong})
        assert (refused.status_code, refused.get_json()["errors"][0]["pointer"]) == (422, "/answer")
