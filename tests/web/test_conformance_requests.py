"""POST /v1/conformance: a bad request is a client's mistake with a clear answer, never a 5xx."""

import json
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lots import BOLT, bolts, post, request
from problem_documents import pointers, problem

GOOD = json.dumps(request())


@pytest.mark.parametrize(
    ("body", "code"),
    [
        ("", "not_json"),
        ("{", "not_json"),
        ("hello", "not_json"),
        ("[]", "wrong_type"),
        ("7", "wrong_type"),
        ("null", "wrong_type"),
        (GOOD + "x", "not_json"),
        (GOOD.encode("utf-16"), "not_json"),
        (b"\xff\xfe", "not_json"),
        ("[" * 100_000, "wrong_type"),
        ('{"designation": ' + '{"a":' * 50_000, "not_json"),
    ],
)
def test_what_is_no_json_object_is_refused(body: str | bytes, code: str, client: FlaskClient) -> None:
    answer = post(client, body)
    problem(answer, 400 if code == "not_json" else 422, code)
    assert len(answer.get_data()) < 5000


@pytest.mark.parametrize("text", ["NaN", "Infinity", "-Infinity", "1e999", "0x10", "1_000", "+1", "01", ".5", "5."])
def test_what_is_no_json_number_is_refused(text: str, client: FlaskClient) -> None:
    body = f'{{"designation": "{BOLT}", "readings": {{"length": [60, {text}]}}}}'
    answer = post(client, body)
    assert answer.status_code in (400, 422)
    found = answer.get_json(force=True)
    assert found["code"] in ("not_json", "wrong_type", "out_of_range")
    assert found["status"] == answer.status_code


@pytest.mark.parametrize("value", ["60", True, False, [60], {"value": 60}, ""])
def test_a_reading_that_is_no_number_is_pointed_at(value: Any, client: FlaskClient) -> None:
    found = problem(post(client, request({"length": [60, 60.1, value]})), 422, "wrong_type")
    assert pointers(found) == ["/readings/length/2"]
    found = problem(post(client, request({"length": {"values": [value]}})), 422, "wrong_type")
    assert pointers(found) == ["/readings/length/values/0"]


@pytest.mark.parametrize("column", [60, "60", None, True, {"value": [60]}, {"values": 60}, {"values": None}])
def test_a_column_that_is_none_is_pointed_at(column: Any, client: FlaskClient) -> None:
    answer = post(client, request({"length": column}))
    assert answer.status_code == 422
    assert answer.get_json(force=True)["errors"][0]["pointer"].startswith("/readings/length")


@pytest.mark.parametrize(("reading", "why"), [(-60, "below zero"), (1e300, "lose digits")])
def test_a_reading_that_cannot_be_is_pointed_at_as_it_was_sent(reading: float, why: str, client: FlaskClient) -> None:
    for column, place in (([60, 0, reading], "2"), ({"values": [60, 0, reading]}, "values/2")):
        found = problem(post(client, request({"length": column})), 422, "out_of_range")
        assert pointers(found) == [f"/readings/length/{place}"]
        assert why in found["detail"]


def test_a_whole_number_that_would_lose_digits_is_refused(client: FlaskClient) -> None:
    for number, status in ((2**53, 200), (2**53 + 2, 422)):
        body = f'{{"designation": "{BOLT}", "readings": {{"tensile_load": [{number}]}}}}'
        assert post(client, body).status_code == status
    problem(post(client, body), 422, "out_of_range")


def test_the_media_type_is_checked_first(client: FlaskClient) -> None:
    for content_type in ("text/plain", "application/xml", "application/x-www-form-urlencoded", ""):
        answer = client.post("/v1/conformance", data=GOOD, content_type=content_type)
        problem(answer, 415, "unsupported_media_type")
    answer = client.post("/v1/conformance", data=GOOD, content_type="application/json; charset=utf-8")
    assert answer.status_code == 200


@pytest.mark.parametrize("method", ["GET", "PUT", "DELETE", "PATCH"])
def test_only_post_judges(method: str, client: FlaskClient) -> None:
    answer = client.open("/v1/conformance", method=method)
    problem(answer, 405, "method_not_allowed")
    assert "POST" in answer.headers["Allow"]


@pytest.mark.parametrize(
    ("members", "code", "pointer"),
    [
        ({"designation": 7}, "wrong_type", "/designation"),
        ({"designation": None}, "invalid", "/designation"),
        ({"designation": ""}, "invalid", "/designation"),
        ({"designation": "M10" * 3_000_000}, "invalid", "/designation"),
        ({"lot_size": 0}, "invalid", "/lot_size"),
        ({"lot_size": -1}, "invalid", "/lot_size"),
        ({"lot_size": 12000.5}, "wrong_type", "/lot_size"),
        ({"lot_size": "12000"}, "wrong_type", "/lot_size"),
        ({"lot_size": True}, "wrong_type", "/lot_size"),
        ({"lot_size": 10**30}, "wrong_type", "/lot_size"),
        ({"lotsize": 12000}, "unknown_member", "/lotsize"),
        ({"readings": []}, "wrong_type", "/readings"),
        ({"readings": "all good"}, "wrong_type", "/readings"),
        ({"sampling": "ISO 2859-1"}, "wrong_type", "/sampling"),
        ({"requirements": []}, "wrong_type", "/requirements"),
    ],
)
def test_a_wrong_member_is_pointed_at(members: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    answer = post(client, {**request(), **members})
    found = answer.get_json(force=True)
    assert answer.status_code == 422, found
    assert pointer in pointers(found)
    assert len(answer.get_data()) < 5000
    assert found["code"] in (code, "invalid", "wrong_type")


@pytest.mark.parametrize(
    ("designation", "status", "code"),
    [
        ("ISO 4014 - M13x60 - 8.8", 404, "unknown_size"),
        ("ISO 4014 - M10x1.3x60 - 8.8", 404, "unknown_size"),
        ("ISO 4014 - M10x60 - 8.7", 404, "unknown_property_class"),
        ("ISO 4015 - M10x60 - 8.8", 404, "unknown_standard"),
        ("ISO 4014 - M10x-60 - 8.8", 422, "not_understood"),
        ("M1-6H", 422, "not_standardised"),
        ("hello", 422, "not_understood"),
    ],
)
def test_a_designation_that_names_nothing(designation: str, status: int, code: str, client: FlaskClient) -> None:
    found = problem(post(client, request(designation=designation)), status, code)
    assert pointers(found) == ["/designation"]


def test_a_member_beside_the_values_that_is_unknown_is_pointed_at(client: FlaskClient) -> None:
    body = request({"length": {"values": [60], "uncertainty": 0.1}})
    assert pointers(problem(post(client, body), 422, "unknown_member")) == ["/readings/length/uncertainty"]


@pytest.mark.parametrize("text", ["a/b", "a~b", "ä", "a" * 500, "\u0000"])
def test_pointers_are_escaped_and_short(text: str, client: FlaskClient) -> None:
    answer = post(client, request({text: [1]}))
    found = problem(answer, 422, "unknown_characteristic")
    assert pointers(found) == ["/readings/" + text.replace("~", "~0").replace("/", "~1")]


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=20), inner, max_size=4),
    max_leaves=12,
)
MEMBERS = st.sampled_from(
    ["designation", "readings", "lot_size", "decision_rule", "fracture_rule", "sampling", "requirements", "dropped"]
)


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.dictionaries(MEMBERS, JSON, max_size=3))
def test_whatever_a_member_holds_is_never_a_fault_of_the_service(client: FlaskClient, members: dict[str, Any]) -> None:
    answer = post(client, {**request(), **members})
    assert answer.status_code in (200, 400, 404, 422), answer.get_data(as_text=True)


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from([*bolts(), "hardness_surface", "proof_load_set", "elongation"]), JSON)
def test_whatever_a_column_holds_is_never_a_fault_of_the_service(client: FlaskClient, id: str, column: Any) -> None:
    answer = post(client, request({id: column}))
    assert answer.status_code in (200, 400, 422), answer.get_data(as_text=True)
