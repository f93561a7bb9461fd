"""POST /v1/specification: the specification as a purchaser's requirements change it."""

from typing import Any

from flask.testing import FlaskClient
from lots import BOLT, bolts, judged
from problem_documents import pointers, problem

ORDER = {"document": "Order 4711", "revision": "B"}


def ask(client: FlaskClient, **body: Any) -> dict[str, Any]:
    answer = client.post("/v1/specification", json={"designation": BOLT, **body})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def test_without_requirements_it_is_the_specification(client: FlaskClient) -> None:
    found = ask(client)
    plain = client.get("/v1/specification", query_string={"designation": BOLT}).get_json()
    assert found["characteristics"] == plain["characteristics"]


def test_a_requirement_takes_the_place_of_a_limit_with_its_document(client: FlaskClient) -> None:
    found = ask(client, requirements={"width_across_flats": {"min": 15.85, "basis": ORDER}})["characteristics"]
    one = found["width_across_flats"]
    assert (one["min"], one["max"]) == (15.85, 16.0)
    assert (one["basis"]["standard"], one["basis"]["edition"]) == ("Order 4711", "B")
    assert found["length"]["basis"]["standard"] == "ISO 4759-1"


def test_what_is_looser_is_said_and_what_is_dropped_is_listed(client: FlaskClient) -> None:
    found = ask(
        client,
        requirements={"width_across_flats": {"max": 16.1}, "marking": None},
        dropped={"marking": {"reason": "by agreement"}},
    )
    assert any("looser" in notice for notice in found["notices"])
    assert "marking" not in found["characteristics"]
    assert found["dropped"] == {"marking": {"reason": "by agreement"}}


def test_a_fracture_rule_shows_in_what_is_allowed(client: FlaskClient) -> None:
    found = ask(client, fracture_rule="thread_only")["characteristics"]["fracture_location"]
    assert found["allowed"] == ["thread"]


def test_the_lot_is_judged_by_what_is_shown(client: FlaskClient) -> None:
    requirements = {"head_height": {"min": 6.3, "max": 6.5}, "hole_diameter": {"max": 2, "unit": "mm"}}
    shown = ask(client, requirements=requirements)["characteristics"]
    found = judged(client, bolts(hole_diameter=[1.9] * 5), requirements=requirements)["characteristics"]
    for id in requirements:
        assert (found[id]["limits"]["min"], found[id]["limits"]["max"]) == (shown[id]["min"], shown[id]["max"])


def test_what_cannot_be_answered(client: FlaskClient) -> None:
    wrong = {"designation": BOLT, "requirements": {"length": {"min": 70}}}
    assert pointers(problem(client.post("/v1/specification", json=wrong), 422, "contradiction")) == [
        "/requirements/length"
    ]
    answer = client.post("/v1/specification", json={"designation": "M10x1.3-6g"})
    assert pointers(problem(answer, 404, "unknown_size")) == ["/designation"]
