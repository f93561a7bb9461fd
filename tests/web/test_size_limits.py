"""GET /v1/size-limits. ISO 4759-1:2000 and ISO 286-1:2010; the rules against the tables stand in the unit tests."""

from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem


def ask(client: FlaskClient, **query: str) -> dict[str, Any]:
    answer = client.get("/v1/size-limits", query_string=query)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


@pytest.mark.parametrize(
    ("query", "limits"),
    [
        ({"nominal": "17", "feature": "width_across_flats", "grade": "A"}, (16.73, 17)),
        ({"nominal": "17", "feature": "width_across_corners", "grade": "A"}, (18.9, None)),
        ({"nominal": "10", "feature": "head_height", "grade": "C"}, (9.25, 10.75)),
        ({"nominal": "8.4", "feature": "nut_height", "grade": "A", "diameter": "10"}, (8.04, 8.4)),
        ({"nominal": "20", "feature": "outer_diameter", "grade": "A", "thickness": "2"}, (19.48, 20)),
        ({"nominal": "20", "tolerance_class": "h14"}, (19.48, 20)),
        ({"nominal": "20,0", "tolerance_class": "D12"}, (20.065, 20.275)),
    ],
)
def test_limits(client: FlaskClient, query: dict[str, str], limits: tuple[float | None, float | None]) -> None:
    """Grade C k of M16 and m of M10 as printed in ISO 4016 and ISO 4032; the rest by ISO 286-2 tables."""
    found = ask(client, **query)["limits"]
    assert (found["min"], found["max"]) == limits


def test_the_rule_is_told(client: FlaskClient) -> None:
    basis = ask(client, nominal="21", feature="washer_face_diameter", grade="A")["limits"]["basis"]
    assert (basis["standard"], basis["method"], basis["clause"]) == ("ISO 4759-1", "computed", "dw min = 0.95 s min")


def test_shown_in_another_unit(client: FlaskClient) -> None:
    assert ask(client, nominal="17", tolerance_class="h13", unit="um")["limits"]["min"] == 16730


@pytest.mark.parametrize(
    ("query", "status", "code", "pointer"),
    [
        ({}, 422, "missing_member", "/nominal"),
        ({"nominal": "17"}, 422, "missing_member", "/feature"),
        ({"nominal": "17", "feature": "head_height"}, 422, "missing_member", "/grade"),
        ({"nominal": "17", "feature": "colour", "grade": "A"}, 422, "invalid", "/feature"),
        ({"nominal": "8", "feature": "nut_height", "grade": "A"}, 422, "not_understood", "/diameter"),
        ({"nominal": "17", "tolerance_class": "h13", "grade": "A"}, 422, "contradiction", "/grade"),
        ({"nominal": "17", "tolerance_class": "m6"}, 422, "not_understood", "/tolerance_class"),
        ({"nominal": "wide", "tolerance_class": "h13"}, 422, "wrong_type", "/nominal"),
        ({"nominal": "0", "tolerance_class": "h13"}, 422, "out_of_range", "/nominal"),
    ],
)
def test_what_cannot_be_answered(
    client: FlaskClient, query: dict[str, str], status: int, code: str, pointer: str
) -> None:
    assert pointers(problem(client.get("/v1/size-limits", query_string=query), status, code)) == [pointer]


def test_no_size_over_500_mm(client: FlaskClient) -> None:
    problem(client.get("/v1/size-limits?nominal=501&tolerance_class=h13"), 422, "not_covered")


@pytest.mark.parametrize(
    ("query", "member"),
    [
        ({"nominal": "34073", "feature": "wrenching_height", "grade": "B"}, "nominal"),
        ({"nominal": "17", "feature": "thickness", "grade": "B"}, "nominal"),
        ({"nominal": "6", "feature": "head_height", "grade": "A", "thickness": "2"}, "thickness"),
    ],
)
def test_a_refusal_points_at_the_parameter(query: dict[str, str], member: str, client: FlaskClient) -> None:
    found = client.get("/v1/size-limits", query_string=query).json
    assert [error["pointer"] for error in found["errors"]] == [f"/{member}"]
