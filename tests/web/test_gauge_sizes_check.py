"""POST /v1/gauge-sizes/check and the gauge standards of GET /v1/gauge-sizes."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

RING: dict[str, Any] = {
    "designation": "M10-6g",
    "gauge": "go_screw_ring",
    "measured": {"value": 9.001, "unit": "mm"},
}


def check(client: FlaskClient, body: Any) -> dict[str, Any]:
    answer = client.post("/v1/gauge-sizes/check", json=body)
    assert answer.status_code == 200, answer.get_json()
    return answer.get_json()


def test_one_gauge(client: FlaskClient) -> None:
    found = check(client, RING)
    assert found["designation"] == "M10-6g"
    assert found["gauge_standard"] == "ISO 1502:1996"
    assert (found["status"], found["within_new_limits"]) == ("fit_for_use", False)
    assert (found["measured"], found["remaining_wear"], found["passes_outside"]) == (9.001, 0.006, 0.007)
    assert found["limits"]["wear_limit"] == 9.007
    assert found["limits"]["zone"]["product_limit"] == "d2 max"
    assert found["basis"]["checked"] == "memory"
    assert any("uncertainty" in notice for notice in found["notices"])
    assert found["fingerprint"]


def test_a_list_is_answered_in_its_order(client: FlaskClient) -> None:
    inch = {**RING, "designation": "1/2-13 UNC-2A", "measured": {"value": 0.4486, "unit": "in"}}
    metric = {**RING, "standard": "ASME B1.16M", "measured": {"value": 8.99, "unit": "mm"}}
    found = check(client, {"gauges": [RING, inch, metric]})["gauges"]
    assert [one["gauge_standard"] for one in found] == ["ISO 1502:1996", "ASME B1.2-1983", "ASME B1.16M-1984"]
    assert [one["status"] for one in found] == ["fit_for_use", "worn", "fit_for_use"]


@pytest.mark.parametrize(
    ("change", "status", "code", "pointer"),
    [
        ({"designation": "M10"}, 422, "class_missing", "/designation"),
        ({"designation": "M11.3-6g"}, 404, "unknown_size", "/designation"),
        ({"gauge": "go_screw_plug"}, 404, "unknown_gauge", "/gauge"),
        ({"gauge": "go_plain_ring"}, 422, "not_covered", "/gauge"),
        ({"dimension": "width"}, 404, "unknown_gauge", "/dimension"),
        ({"standard": "ASME B1.2"}, 422, "contradiction", "/standard"),
        ({"standard": "ISO 1"}, 422, "invalid", "/standard"),
        ({"measured": {"value": "9", "unit": "mm"}}, 422, "wrong_type", "/measured/value"),
        ({"measured": {"value": True, "unit": "mm"}}, 422, "wrong_type", "/measured/value"),
        ({"measured": {"value": 9}}, 422, "missing_member", "/measured/unit"),
        ({"measured": {"value": 8, "unit": "mm"}}, 422, "out_of_range", "/measured/value"),
        ({"measured": {"value": 9, "unit": "HV"}}, 422, "unit_does_not_fit", "/measured/unit"),
        ({"measured": {"value": 9, "unit": "mm", "u": 1}}, 422, "unknown_member", "/measured/u"),
        ({"colour": "red"}, 422, "unknown_member", "/colour"),
    ],
)
def test_what_is_wrong_is_pointed_at(
    client: FlaskClient, change: dict[str, Any], status: int, code: str, pointer: str
) -> None:
    for body, before in (({**RING, **change}, ""), ({"gauges": [RING, {**RING, **change}]}, "/gauges/1")):
        answer = client.post("/v1/gauge-sizes/check", json=body)
        problem = answer.get_json()
        assert (answer.status_code, problem["code"], problem["errors"][0]["pointer"]) == (
            status,
            code,
            before + pointer,
        )


@pytest.mark.parametrize("body", [[], [RING], 5, {"gauges": []}, {"gauges": RING}, {"gauges": [5]}, {}])
def test_another_shape_is_refused(client: FlaskClient, body: Any) -> None:
    answer = client.post("/v1/gauge-sizes/check", json=body)
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"


def test_a_long_list_is_refused(client: FlaskClient) -> None:
    assert client.post("/v1/gauge-sizes/check", json={"gauges": [RING] * 1001}).status_code == 422


@pytest.mark.parametrize(
    ("designation", "standard", "cited", "ids"),
    [
        ("M10-6H", None, "ISO 1502:1996", ["go_screw_plug", "not_go_screw_plug"]),
        ("M10-6H", "ASME B1.16M", "ASME B1.16M-1984", ["go_screw_plug", "not_go_screw_plug"]),
        (
            "1/2-13 UNC-2B",
            None,
            "ASME B1.2-1983",
            ["go_screw_plug", "not_go_screw_plug", "go_plain_plug", "not_go_plain_plug"],
        ),
        (
            "1/2-13 UNC-2A",
            "ASME B1.2",
            "ASME B1.2-1983",
            [
                "go_screw_ring",
                "not_go_screw_ring",
                "setting_plug_for_go_screw_ring",
                "setting_plug_for_not_go_screw_ring",
                "go_plain_ring",
                "not_go_plain_snap",
            ],
        ),
    ],
)
def test_gauge_sizes_by_standard(
    client: FlaskClient, designation: str, standard: str | None, cited: str, ids: list[str]
) -> None:
    query = {"designation": designation} | ({} if standard is None else {"standard": standard})
    found = client.get("/v1/gauge-sizes", query_string=query).get_json()
    assert found["gauge_standard"] == cited
    assert [gauge["id"] for gauge in found["gauges"]] == ids
    for gauge in found["gauges"]:
        for dimension in gauge["dimensions"].values():
            assert dimension["basis"]["checked"]


@pytest.mark.parametrize(("value", "unit"), [(-1, "mm"), (0, "mm"), (0.3540, "mm"), (9.001, "in"), (90.01, "mm")])
def test_a_size_that_no_such_gauge_can_have_is_refused(client: FlaskClient, value: float, unit: str) -> None:
    """A value in another unit than it says is no worn gauge."""
    body = {**RING, "measured": {"value": value, "unit": unit}}
    found = problem(client.post("/v1/gauge-sizes/check", json=body), 422, "out_of_range")
    assert pointers(found) == ["/measured/value"]
    assert "about 8.9950 mm: check value and unit" in found["detail"]


@pytest.mark.parametrize("body", ["[" * 100_000, '{"a":' * 50_000, '{"gauges": ' + "[" * 5_000 + "]" * 5_000 + "}"])
def test_a_body_that_is_nested_too_deeply_is_refused(client: FlaskClient, body: str) -> None:
    answer = client.post("/v1/gauge-sizes/check", data=body, content_type="application/json")
    assert problem(answer, 400, "not_json")["detail"] == "arrays or objects are nested too deeply"
