"""POST /v1/histogram: classes that no reading divides, and their picture. Readings are invented."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from drawn import Drawing
from flask.testing import FlaskClient
from problem_documents import pointers, problem

SVG = {"Accept": "image/svg+xml"}
VALUES = [15.84, 15.86, 15.85, 15.87, 15.85, 15.86, 15.84, 15.85, 15.86, 15.85, 15.90]


def ask(client: FlaskClient, **body: Any) -> dict[str, Any]:
    answer = client.post("/v1/histogram", json={"values": VALUES, **body})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def test_every_reading_is_counted_and_none_lies_on_an_edge(client: FlaskClient) -> None:
    found = ask(client)
    counted, _ = np.histogram(VALUES, found["edges"])
    assert found["counts"] == counted.tolist()
    assert sum(found["counts"]) == found["count"] == len(VALUES)
    assert found["step"] == pytest.approx(0.01)
    nearest = min(abs(edge - value) for edge in found["edges"] for value in VALUES)
    assert nearest == pytest.approx(0.005)


def test_a_gauge_that_reads_in_steps_of_two_hundredths(client: FlaskClient) -> None:
    """Classes of an odd number of hundredths would hold now one and now two readings: a comb that no process makes."""
    found = ask(client, values=[10.02, 10.04, 10.08, 10.06, 10.04])
    assert found["step"] == pytest.approx(0.02)
    width = found["edges"][1] - found["edges"][0]
    assert width / 0.02 == pytest.approx(round(width / 0.02))


def test_computed_values_without_a_step(client: FlaskClient) -> None:
    values = [0.1 + 1 / 3, 0.2 + 1 / 7, 0.3 + 1 / 9]
    found = ask(client, values=values)
    assert (found["step"], sum(found["counts"])) == (0, 3)


def test_one_reading_and_no_limits(client: FlaskClient) -> None:
    found = ask(client, values=[16.0])
    assert found["counts"] == [1]
    assert (found["limits"]["min"], found["limits"]["max"]) == (None, None)


def test_the_picture_says_the_limits_as_they_are_stated(client: FlaskClient) -> None:
    """ISO 4014:2011: s of M10 is 15.73 to 16.00 mm; readings may be in micrometres."""
    of = {"designation": "ISO 4014 - M10x60 - 8.8", "characteristic": "width_across_flats"}
    answer = client.post("/v1/histogram", json={"values": VALUES, **of}, headers=SVG)
    assert answer.content_type.startswith("image/svg+xml")
    assert "Accept" in answer.headers["Vary"]
    said = Drawing(answer.get_data(as_text=True)).lettering()
    assert "ISO 4014 - M10x60 - 8.8: width across flats" in said
    assert "limits: 15.73 to 16.00 mm" in said
    small = {"values": [1000 * value for value in VALUES], "unit": "um", **of}
    said = Drawing(client.post("/v1/histogram", json=small, headers=SVG).get_data(as_text=True)).lettering()
    assert "limits: 15\u202f730 to 16\u202f000 µm" in said


def test_acceptance_limits_are_drawn_and_repeated(client: FlaskClient) -> None:
    body = {"min": 15.73, "max": 16, "acceptance_min": 15.7465, "acceptance_max": 15.9835, "unit": "mm"}
    assert ask(client, **body)["acceptance_limits"] == {"min": 15.7465, "max": 15.9835, "unit": "mm"}
    answer = client.post("/v1/histogram", json={"values": VALUES, **body}, headers=SVG)
    assert "acceptance limits: 15.7465 to 15.9835 mm" in Drawing(answer.get_data(as_text=True)).lettering()


def test_limits_in_another_unit_than_the_readings(client: FlaskClient) -> None:
    """1 in = 25.4 mm."""
    answer = client.post(
        "/v1/histogram", json={"values": VALUES, "unit": "mm", "min": 0.62, "limits_unit": "in"}, headers=SVG
    )
    assert "limits: at least 15.748 mm" in Drawing(answer.get_data(as_text=True)).lettering()


def test_a_title_is_text_whatever_it_holds(client: FlaskClient) -> None:
    answer = client.post("/v1/histogram", json={"values": VALUES, "title": '<script>&"]]>'}, headers=SVG)
    assert '<script>&"]]>' in Drawing(answer.get_data(as_text=True)).lettering()


@pytest.mark.parametrize(
    ("body", "code", "pointer"),
    [
        ({"values": []}, "no_readings", "/values"),
        ({"values": [1, None]}, "wrong_type", "/values/1"),
        ({"values": [1, 1e31]}, "out_of_range", "/values/1"),
        ({"min": 2, "max": 1}, "contradiction", "/min"),
        ({"min": 2, "limits_unit": "mm"}, "missing_member", "/unit"),
        ({"min": 2, "limits_unit": "mm", "unit": "N"}, "unit_does_not_fit", "/limits_unit"),
        ({"title": "two\nlines"}, "invalid", "/title"),
        ({"title": "bell \a"}, "invalid", "/title"),
        ({"title": "x" * 101}, "invalid", "/title"),
        ({"classes": 5}, "unknown_member", "/classes"),
    ],
)
def test_what_cannot_be_answered(body: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    assert pointers(problem(client.post("/v1/histogram", json={"values": VALUES, **body}), 422, code)) == [pointer]
