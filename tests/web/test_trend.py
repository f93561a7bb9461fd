"""POST /v1/trend: least squares against numpy's, Student's t against printed quantiles (two-sided 95 %)."""

from typing import Any

import numpy as np
import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

#: Invented: a dimension that grows as a die wears.
VALUES = [8.931, 8.933, 8.934, 8.937, 8.938, 8.941, 8.943, 8.944]
#: t for 6 degrees of freedom, 97.5 %: 2.447 in any handbook table.
T_6 = 2.447


def ask(client: FlaskClient, **body: Any) -> dict[str, Any]:
    answer = client.post("/v1/trend", json={"values": VALUES, "min": 8.862, "max": 8.994, **body})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def test_the_line_is_that_of_least_squares(client: FlaskClient) -> None:
    found = ask(client)
    slope, level = np.polyfit(np.arange(8), VALUES, 1)
    assert found["slope"] == pytest.approx(slope)
    assert found["limit"] == 8.994, "the limit that the values run towards"
    assert found["pieces_until_limit"] == pytest.approx((8.994 - level) / slope - 7, rel=1e-6)


def test_the_interval_of_the_slope_is_students(client: FlaskClient) -> None:
    found = ask(client)
    residuals = np.polyfit(np.arange(8), VALUES, 1, full=True)[1]
    error = np.sqrt(residuals[0] / 6 / np.sum((np.arange(8) - 3.5) ** 2))
    low, high = found["slope_interval"]
    assert (high - low) / 2 == pytest.approx(T_6 * error, rel=1e-3)
    assert found["significant"] is True


def test_the_prediction_lies_in_its_interval(client: FlaskClient) -> None:
    found = ask(client)
    low, high = found["pieces_until_limit_interval"]
    assert low < found["pieces_until_limit"] < high


def test_falling_values_run_towards_the_lower_limit(client: FlaskClient) -> None:
    assert ask(client, values=VALUES[::-1])["limit"] == 8.862


def test_a_drift_that_is_not_significant_predicts_nothing(client: FlaskClient) -> None:
    found = ask(client, values=[8.931, 8.929, 8.933, 8.930, 8.932, 8.930, 8.931, 8.931])
    assert found["significant"] is False
    assert found["pieces_until_limit"] is None
    assert found["notices"]


def test_the_limits_of_a_characteristic_count(client: FlaskClient) -> None:
    """ISO 965-2:1998, Table 1, M10: d2 8.862 to 8.994; the readings are in micrometres."""
    of = {"designation": "M10-6g", "characteristic": "thread_pitch_diameter", "unit": "um"}
    answer = client.post("/v1/trend", json={"values": [round(1000 * value) for value in VALUES], **of})
    found = answer.get_json()
    assert found["limit"] == 8994
    assert found["pieces_until_limit"] == pytest.approx(ask(client)["pieces_until_limit"])
    assert found["pieces_until_risk"] < found["pieces_until_limit_interval"][0]


@pytest.mark.parametrize(
    ("body", "code", "pointer"),
    [
        ({"values": [1, 2]}, "out_of_range", "/values"),
        ({"values": [1, 2, "3"]}, "wrong_type", "/values/2"),
        ({"confidence_level": 2}, "invalid", "/confidence_level"),
        ({"max": "9"}, "wrong_type", "/max"),
    ],
)
def test_what_cannot_be_answered(body: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    answer = client.post("/v1/trend", json={"values": VALUES, "min": 8.862, "max": 8.994, **body})
    assert pointers(problem(answer, 422, code)) == [pointer]
