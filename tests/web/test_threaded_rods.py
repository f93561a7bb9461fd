"""Threaded rods and studs: what their class requires, and nothing of a product standard that nobody named."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient
from lots import post


def ask(client: FlaskClient, designation: str) -> dict:
    answer = client.get("/v1/specification", query_string={"designation": designation})
    assert answer.status_code == 200, answer.get_json()
    return answer.get_json()


def test_loads_and_thread_are_those_of_the_class_and_the_length_is_as_ordered(client: FlaskClient) -> None:
    """ISO 898-1:2013, Table 4: 67 400 N for M12 in 8.8; ISO 965-1: d of 6g 11.701 to 11.966. No length tolerance."""
    found = ask(client, "threaded rod - M12x1000 - 8.8")
    assert found["characteristics"]["tensile_load"]["min"] == 67400
    assert found["characteristics"]["thread_major_diameter"]["min"] == 11.701
    assert "length" not in found["characteristics"]
    assert any("Length" in one and "as ordered" in one for one in found["not_covered"])


@pytest.mark.parametrize(("length", "applies"), [("29", False), ("30", True)])
def test_a_stud_is_pulled_from_3_d_on(client: FlaskClient, length: str, applies: bool) -> None:
    """ISO 898-1:2013, Table 8 (memory): total length of studs at least 3 d, of bolts 2.5 d; no wedge test on a stud."""
    tests = {one["id"]: one["applies"] for one in ask(client, f"threaded rod - M10x{length} - 8.8")["tests"]}
    assert (tests["tensile"], tests["wedge_tensile"], tests["head_soundness"]) == (applies, False, False)
    bolt = {one["id"]: one["applies"] for one in ask(client, f"ISO 4017 - M10x{length} - 8.8")["tests"]}
    assert bolt["wedge_tensile"] is True


@pytest.mark.parametrize(
    ("designation", "symbols"),
    [
        ("threaded rod - M10x100 - 8.8", ["8.8", "circle in place of 8.8"]),
        ("threaded rod - M4x100 - 8.8", []),
        ("threaded rod - M10x100 - 4.8", []),
        ("inch threaded rod - 3/4-10x6 - ASTM A193 B7", ["B7"]),
    ],
)
def test_the_mark_of_a_stud(client: FlaskClient, designation: str, symbols: list[str]) -> None:
    """ISO 898-1:2013, clause 10: studs from 5.6 and from 5 mm on, class or symbol; ASTM A193: the grade."""
    assert [one["symbol"] for one in ask(client, designation)["marking"]] == symbols


def test_an_inch_stud_has_the_strength_of_its_grade(client: FlaskClient) -> None:
    """ASTM A193 B7 to 2 1/2 in: 125 ksi; 3/4-10 UNC has 0.334 in2."""
    found = ask(client, "inch threaded rod - 3/4-10x6 - ASTM A193 B7")
    assert found["characteristics"]["tensile_strength"]["min"] == 125
    assert found["characteristics"]["tensile_load"]["min"] == 41750
    assert found["item"]["tolerance_class"] == "2A"


def test_a_length_of_the_order_is_judged(client: FlaskClient) -> None:
    wanted = {
        "designation": "threaded rod - M12x1000 - 8.8",
        "requirements": {"length": {"min": 998, "max": 1002, "unit": "mm", "basis": {"document": "order"}}},
        "readings": {"length": [1002.5]},
    }
    answer = post(client, wanted).get_json()
    assert answer["characteristics"]["length"]["verdict"] == "nonconforming"


@pytest.mark.parametrize(
    ("description", "designation"),
    [
        ("Threaded rod M12x1000 8.8", "threaded rod - M12x1000 - 8.8"),
        ("Gewindestange M10 x 1000 A2-70", "threaded rod - M10x1000 - A2-70"),
        ("Gewindestange DIN 976 M10x1000 8.8", None),
        ("stud bolt M20x120 8.8", None),
    ],
)
def test_a_rod_among_part_masters_needs_no_standard(
    client: FlaskClient, description: str, designation: str | None
) -> None:
    """A standard that is named and not held is told; a stud may have two threads and is not taken for a rod."""
    wanted = {"part_masters": [{"part_number": "1", "description": description}]}
    found = client.post("/v1/part-masters/validation", json=wanted).get_json()["part_masters"][0]
    assert (found["designation"], found["status"] == "valid") == (designation, designation is not None)
