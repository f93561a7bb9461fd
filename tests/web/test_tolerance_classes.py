"""GET /v1/tolerance-classes: which classes exist for which pitches."""

from __future__ import annotations

from typing import Any

from flask.testing import FlaskClient

URL = "/v1/tolerance-classes"


def ask(client: FlaskClient, **query: str) -> dict[str, dict[str, Any]]:
    answer = client.get(URL, query_string=query)
    assert answer.status_code == 200, answer.get_json()
    return {one["designation"]: one for one in answer.get_json()["tolerance_classes"]}


def test_blank_cells_of_the_tables_are_no_classes(client: FlaskClient) -> None:
    """ISO 965-1:2013, Tables 1 to 5: 6H from P 0.3 up, e from P 0.5 up, 8g from P 0.8 up."""
    found = ask(client, system="ISO metric")
    assert min(found["6H"]["pitches"]) == 0.3
    assert min(found["6e"]["pitches"]) == 0.5
    assert min(found["8g"]["pitches"]) == 0.8


def test_m1_2_has_no_6h(client: FlaskClient) -> None:
    assert not {"6H", "7H", "8g"} & set(ask(client, thread="M1.2"))


def test_members(client: FlaskClient) -> None:
    found = ask(client, member="internal")
    assert {"6H", "6G", "6AZ", "2B"} <= set(found)
    assert {one["member"] for one in found.values()} == {"internal"}


def test_grades_and_positions(client: FlaskClient) -> None:
    found = ask(client, thread="M10")
    assert (found["5g6g"]["grades"], found["5g6g"]["positions"]) == (["5", "6"], ["g"])
    assert found["6az"]["standard"] == "ISO 965-4"
    assert ask(client, thread="1/2-13 UNC")["1A"]["series"] == ["UNC"]


def test_refusals(client: FlaskClient) -> None:
    for query, code in (
        ({"thread": "M10.5"}, "unknown_size"),
        ({"thread": "M10", "system": "Unified inch"}, "contradiction"),
        ({"system": "BSW"}, "unknown_name"),
        ({"member": "both"}, "invalid"),
    ):
        assert client.get(URL, query_string=query).get_json()["code"] == code
