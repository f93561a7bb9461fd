"""Unified threads over HTTP: limits, fits, specification, and what is not for them."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient


def ask(client: FlaskClient, path: str, **query: str) -> tuple[int, dict[str, Any]]:
    answer = client.get(path, query_string=query)
    return answer.status_code, answer.get_json()


def test_limits(client: FlaskClient) -> None:
    status, found = ask(client, "/v1/thread-limits", designation="1/2-13 UNC-2A")
    assert status == 200
    assert found["designation"] == "1/2-13 UNC-2A"
    assert (found["system"], found["series"], found["member"]) == ("Unified inch", "UNC", "external")
    assert (found["unit"], found["threads_per_inch"], found["pitch"]) == ("in", 13, 0.07692308)
    limits = {id: (one["min"], one["max"]) for id, one in found["limits"].items()}
    assert limits == {
        "major_diameter": (0.4876, 0.4985),
        "pitch_diameter": (0.4435, 0.4485),
        "minor_diameter": (None, 0.4152),
        "root_diameter": (None, 0.4069),
    }
    assert found["stress_areas"]["nominal"]["min"] == 0.1419
    assert found["stress_areas"]["high_strength"]["unit"] == "in2"
    assert found["reference"]["allowance"]["max"] == 0.0015


def test_limits_print_four_decimals(client: FlaskClient) -> None:
    text = client.get("/v1/thread-limits", query_string={"designation": "1/2-13 UNC-2B"}).get_data(as_text=True)
    assert '"min":0.4500,"max":0.4565' in text
    assert '"min":0.4170,"max":0.4340' in text


def test_shown_in_mm(client: FlaskClient) -> None:
    _, found = ask(client, "/v1/thread-limits", designation="1/2-13 UNC-2A", unit="mm")
    assert found["limits"]["major_diameter"]["max"] == 12.6619
    assert found["stress_areas"]["nominal"]["unit"] == "in2"


def test_a_fit(client: FlaskClient) -> None:
    _, found = ask(client, "/v1/thread-limits", designation="1/2-13 UNC-2B/2A")
    assert found["designation"] == "1/2-13 UNC-2B/2A"
    assert found["threads_per_inch"] == 13
    assert found["external"]["limits"]["pitch_diameter"]["max"] == 0.4485
    assert found["internal"]["limits"]["major_diameter"]["max"] is None


def test_a_class_is_asked_for_in_the_words_of_the_system(client: FlaskClient) -> None:
    status, found = ask(client, "/v1/thread-limits", designation="1/2-13")
    assert (status, found["code"]) == (422, "class_missing")
    assert "1/2-13 UNC-2A for a bolt or 1/2-13 UNC-2B for a nut" in found["detail"]


@pytest.mark.parametrize(
    ("designation", "status", "code"),
    [
        ("1/2-12 UNC-2A", 404, "unknown_size"),
        ("1/2-99-2A", 404, "unknown_size"),
        ("#10-24 UNC-1A", 422, "not_standardised"),
        ("1/4-20 UNRC-2B", 422, "contradiction"),
        ("1/2-13 UNC-2Z", 422, "not_understood"),
        ("4-36 UNS-2A", 422, "not_understood"),
    ],
)
def test_refusals(client: FlaskClient, designation: str, status: int, code: str) -> None:
    found = ask(client, "/v1/thread-limits", designation=designation)
    assert (found[0], found[1]["code"]) == (status, code)
    assert found[1]["errors"][0]["pointer"] == "/designation"


def test_the_specification_of_a_thread(client: FlaskClient) -> None:
    _, found = ask(client, "/v1/specification", designation="#8-32 UNC-2B")
    assert found["item"]["standard"] == "ASME B1.1"
    assert found["characteristics"]["thread_pitch_diameter"]["unit"] == "in"
    assert found["characteristics"]["thread_go_gauge"]["basis"]["standard"] == "ASME B1.2"
    assert found["gauge_standard"] == "ASME B1.2-1983"


def test_metric_products_refuse_an_inch_size(client: FlaskClient) -> None:
    status, found = ask(client, "/v1/product-dimensions", standard="ISO 4032", size="1/2-13")
    assert (status, found["errors"][0]["pointer"]) == (422, "/size")
    status, found = ask(client, "/v1/mechanical-minimums", thread="1/2-13", property_class="8.8")
    assert (status, found["errors"][0]["pointer"]) == (422, "/thread")
