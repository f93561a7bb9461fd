"""POST /v1/piece-decision: exact edges, a state that shows tampering, what is refused."""

import json
from base64 import urlsafe_b64decode, urlsafe_b64encode
from decimal import Decimal
from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

STATION = {"min": 8.869, "max": 8.979, "resolution": 0.011}
READING = [{"number": 1, "value": 8.92}]


def post(client: FlaskClient, **body: Any) -> dict[str, Any]:
    answer = client.post("/v1/piece-decision", json={"station": STATION, "readings": READING, **body})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = json.loads(answer.data, parse_float=Decimal)
    return found


def values(*readings: float | None, first: int = 1) -> list[dict[str, Any]]:
    return [{"number": number, "value": value} for number, value in enumerate(readings, first)]


def words(found: dict[str, Any]) -> list[str]:
    return [one["decision"] for one in found["decisions"]]


def test_ten_steps_are_enough_and_no_double_decides_it(client: FlaskClient) -> None:
    """(8.979 - 8.869) / 0.011 is 10, in doubles a little less."""
    assert 8.979 - 8.869 < 10 * 0.011 + 1e-15
    found = post(client)
    assert words(found) == ["measure_next"]
    assert found["sigma_assumed"] is True


def test_edges_belong_to_the_better_zone(client: FlaskClient) -> None:
    """Green is 0.2 to 0.4 of 0.1 to 0.5."""
    station = {"min": 0.1, "max": 0.5, "resolution": 0.01}
    found = post(client, station=station, readings=values(0.2, 0.4, 0.3, 0.2, 0.4, 0.5, 0.3, 0.1, 0.3, 0.401))
    assert words(found)[4:] == ["continue", "measure_next", "continue", "measure_next", "continue", "measure_next"]


def test_a_target_off_the_middle_moves_the_warning_lines(client: FlaskClient) -> None:
    station = {"min": 0, "max": 4, "resolution": 0.1, "target": 1}
    assert words(post(client, station=station, readings=values(0.5, 2.5, 1, 1, 1)))[-1] == "continue"
    assert post(client, station=station, readings=values(2.6))["decisions"][0]["reason"].startswith("yellow")


def test_an_adjustment_is_cut_towards_zero_to_the_step(client: FlaskClient) -> None:
    station = {"min": 0, "max": 1, "resolution": 0.01, "standard_deviation": 0.1, "step": 0.04}
    readings = values(*[0.5] * 5, 0.8, 0.8, 0.7, 0.7, 0.7, 0.71)
    last = post(client, station=station, readings=readings)["decisions"][-1]
    assert (last["decision"], last["amount"]) == ("adjust", Decimal("-0.2"))


def test_a_lost_state_is_a_set_up(client: FlaskClient) -> None:
    run = post(client, readings=values(*[8.92] * 5))
    assert words(post(client, state=run["state"], readings=values(8.92, first=6))) == ["continue"]
    assert words(post(client, readings=values(8.92, first=6))) == ["measure_next"]


def test_what_is_refused_changes_nothing(client: FlaskClient) -> None:
    run = post(client, readings=values(*[8.92] * 5))
    late = [{"number": 5, "value": 8.93}, {"number": 5, "value": None}, {"number": 2, "value": 8.92}]
    found = post(client, state=run["state"], readings=late)
    assert words(found) == ["refused"] * 3
    assert found["state"] == run["state"]
    again = post(client, state=run["state"], readings=[{"number": 5, "value": 8.920}])["decisions"][0]
    assert (again["decision"], again["repeat"]) == ("continue", True)


@pytest.mark.parametrize("turned", ["run", "confirm"])
def test_an_altered_state_is_refused(turned: str, client: FlaskClient) -> None:
    coded, _, digest = post(client)["state"].partition(".")
    members = json.loads(urlsafe_b64decode(coded))
    members[0] = turned
    altered = urlsafe_b64encode(json.dumps(members, separators=(",", ":")).encode()).decode()
    for state in (f"{altered}.{digest}", f"{coded}.{digest[:-1]}0", coded, "", "é", f"{coded}.{digest}\n"):
        answer = client.post("/v1/piece-decision", json={"station": STATION, "readings": READING, "state": state})
        assert pointers(problem(answer, 422, "state_not_of_this_station")) == ["/state"]


@pytest.mark.parametrize("member", ["min", "max", "resolution", "standard_deviation", "target", "step"])
def test_a_state_of_other_limits_is_refused(member: str, client: FlaskClient) -> None:
    station = {**STATION, "resolution": 0.001, "standard_deviation": 0.01, "target": 8.92, "step": 0.002}
    state = post(client, station=station)["state"]
    other = {**station, member: station[member] + 0.001}
    answer = client.post(
        "/v1/piece-decision", json={"station": other, "readings": values(8.92, first=2), "state": state}
    )
    problem(answer, 422, "state_not_of_this_station")
    same = {**station, "max": 8.97900}
    assert words(post(client, station=same, readings=values(8.92, first=2), state=state)) == ["measure_next"]


@pytest.mark.parametrize(
    ("station", "code", "pointer"),
    [
        ({"max": None}, "two_limits_needed", "/station/max"),
        ({"min": None}, "two_limits_needed", "/station/min"),
        ({"resolution": 0.0111}, "resolution_too_coarse", "/station/resolution"),
        ({"resolution": 0}, "out_of_range", "/station/resolution"),
        ({"target": 8.98}, "out_of_range", "/station/target"),
        ({"min": 9}, "contradiction", "/station/min"),
        ({"standard_deviation": 0}, "out_of_range", "/station/standard_deviation"),
        ({"standard_deviation": 0.01, "step": 0.02}, "contradiction", "/station/step"),
        ({"standard_deviation": 0.01}, "contradiction", "/station/step"),
        ({"sigma": 0.01}, "unknown_member", "/station/sigma"),
        ({"min": "8.869"}, "wrong_type", "/station/min"),
    ],
)
def test_a_station_that_cannot_be(station: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    answer = client.post("/v1/piece-decision", json={"station": {**STATION, **station}, "readings": READING})
    assert pointers(problem(answer, 422, code)) == [pointer]


@pytest.mark.parametrize(
    ("readings", "code", "pointer"),
    [
        (None, "missing_member", "/readings"),
        ([], "no_readings", "/readings"),
        ({}, "wrong_type", "/readings"),
        ([8.92], "wrong_type", "/readings/0"),
        ([{"number": 1}], "missing_member", "/readings/0/value"),
        ([{"number": 0, "value": 1}], "out_of_range", "/readings/0/number"),
        ([{"number": 1.5, "value": 1}], "wrong_type", "/readings/0/number"),
        ([{"number": True, "value": 1}], "wrong_type", "/readings/0/number"),
        ([{"number": 1, "value": "8.92"}], "wrong_type", "/readings/0/value"),
        ([{"number": 1, "value": True}], "wrong_type", "/readings/0/value"),
        ([{"number": 1, "value": 1, "unit": "mm"}], "unknown_member", "/readings/0/unit"),
    ],
)
def test_readings_that_cannot_be(readings: Any, code: str, pointer: str, client: FlaskClient) -> None:
    body = {"station": STATION} | ({} if readings is None else {"readings": readings})
    assert pointers(problem(client.post("/v1/piece-decision", json=body), 422, code)) == [pointer]
