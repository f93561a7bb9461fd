"""POST /v1/narrow-limits: target zone the middle half of the tolerance, warning zones the outer quarters.

Zones, qualification by five pieces and the actions are common practice. Limits here 0 to 4, so target 1 to 3.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

SET_UP = [2, 2, 2, 2, 2]


def actions(client: FlaskClient, values: list[float], **body: Any) -> list[str]:
    members = body or {"min": 0, "max": 4}
    answer = client.post("/v1/narrow-limits", json={"values": values, **members})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found = answer.get_json()
    assert found["action"] == found["steps"][-1]["action"]
    return [step["action"] for step in found["steps"]]


def test_five_pieces_in_the_target_zone_qualify(client: FlaskClient) -> None:
    assert actions(client, SET_UP) == ["measure_next"] * 4 + ["continue"]


def test_one_warning_starts_the_count_again(client: FlaskClient) -> None:
    assert actions(client, [2, 2, 2, 2, 0.5, 2, 2, 2, 2, 2])[-2:] == ["measure_next", "continue"]


@pytest.mark.parametrize(("values", "last"), [([0.5, 0.5], "adjust"), ([0.5, 3.5], "adjust"), ([5], "adjust")])
def test_a_set_up_that_cannot_hold_is_adjusted(values: list[float], last: str, client: FlaskClient) -> None:
    assert actions(client, values)[-1] == last


@pytest.mark.parametrize(
    ("values", "last"),
    [
        ([2], "continue"),
        ([3.5], "measure_next"),
        ([3.5, 2], "continue"),
        ([3.5, 3.5], "adjust"),
        ([3.5, 0.5], "stop_spread_too_large"),
        ([4.1], "stop_adjust_and_sort"),
        ([3.5, 4.1], "stop_adjust_and_sort"),
    ],
)
def test_a_run_goes_on_or_stops(values: list[float], last: str, client: FlaskClient) -> None:
    assert actions(client, [*SET_UP, *values])[-1] == last


def test_a_reading_on_an_edge_belongs_to_the_better_zone(client: FlaskClient) -> None:
    assert actions(client, [*SET_UP, 3, 1]) == ["measure_next"] * 4 + ["continue"] * 3
    assert actions(client, [*SET_UP, 4])[-1] == "measure_next"
    tenths = {"min": 0.1, "max": 0.5}  # target 0.2 to 0.4, exact although no double holds it
    assert actions(client, [0.3] * 5 + [0.4, 0.2], **tenths)[-1] == "continue"


def test_one_limit_needs_a_target(client: FlaskClient) -> None:
    assert actions(client, [*SET_UP, 1.0], min=0, target=2)[-1] == "continue"
    assert actions(client, [*SET_UP, 0.9], min=0, target=2)[-1] == "measure_next"
    answer = client.post("/v1/narrow-limits", json={"values": SET_UP, "min": 0})
    assert pointers(problem(answer, 422, "missing_member")) == ["/target"]


def test_the_limits_of_a_characteristic_make_the_zones(client: FlaskClient) -> None:
    """ISO 965-2:1998, Table 1, M10: d2 8.862 to 8.994 mm, so that the target zone is 8.895 to 8.961."""
    of = {"designation": "M10-6g", "characteristic": "thread_pitch_diameter"}
    found = client.post("/v1/narrow-limits", json={"values": [8.895, 8.961, 8.9615], **of}).get_json()
    assert found["zones"] == {"min": 8.862, "warning_low": 8.895, "warning_high": 8.961, "max": 8.994}
    assert [step["zone"] for step in found["steps"]] == ["target", "target", "warning_high"]


def test_chances_on_request(client: FlaskClient) -> None:
    """Common practice: a centred process of Cp 1 stops falsely at 2.0 % of the checks."""
    body = {"values": SET_UP, "min": 0, "max": 4}
    assert "chances" not in client.post("/v1/narrow-limits", json=body).get_json()
    process = {"process_mean": 2, "process_standard_deviation": 4 / 6}
    found = client.post("/v1/narrow-limits", json={**body, **process}).get_json()["chances"]
    assert found["stop"] == pytest.approx(0.020, abs=0.0005)


@pytest.mark.parametrize(
    ("body", "code", "pointer"),
    [
        ({"values": SET_UP}, "missing_member", "/min"),
        ({"values": SET_UP, "min": 4, "max": 0}, "contradiction", "/min"),
        ({"values": [], "min": 0, "max": 4}, "no_readings", "/values"),
        ({"values": ["2"], "min": 0, "max": 4}, "wrong_type", "/values/0"),
        ({"values": SET_UP, "min": 0, "max": 4, "process_mean": 1}, "missing_member", "/process_standard_deviation"),
        ({"min": 0, "max": 4}, "missing_member", "/values"),
    ],
)
def test_what_cannot_be_answered(body: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    assert pointers(problem(client.post("/v1/narrow-limits", json=body), 422, code)) == [pointer]
