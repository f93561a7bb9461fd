"""GET /v1/equivalents.

Figures: ISO 898-1:2013, Tables 4 and 5 (M12 8.8: 67 400 N); SAE J429, load tables (1/2-13 grade 5: 17 000 lbf, proof
12 100); ISO 4014, ISO 4032, ISO 4033, ISO 7089 to 7093; ASME B18.2.1
(1/2: F 0.750 in).
"""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import problem

BOLT = "ISO 4014 - M12x60 - 8.8"
CAP_SCREW = "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5"


def ask(client: FlaskClient, designation: str, limit: int = 30) -> dict[str, dict[str, Any]]:
    answer = client.get("/v1/equivalents", query_string={"designation": designation, "limit": limit})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: list[dict[str, Any]] = answer.get_json()["alternatives"]
    assert all(one["interchange"] == "not interchangeable without review" for one in found)
    assert [one["distance"] for one in found] == sorted(one["distance"] for one in found)
    return {one["designation"]: one for one in found}


def difference(one: dict[str, Any], id: str) -> dict[str, Any]:
    found: dict[str, Any] = next(each for each in one["differences"] if each["id"] == id)
    return found


def test_a_screw_threaded_to_the_head_differs_in_nothing_of_the_head(client: FlaskClient) -> None:
    """ISO 4017 shares head, thread and strength with ISO 4014."""
    one = ask(client, BOLT)["ISO 4017 - M12x60 - 8.8"]
    assert one["same_thread"]
    ids = {each["id"] for each in one["differences"]}
    assert ids & {"width_across_flats", "head_height", "thread", "tensile_load", "marking"} == set()
    assert difference(one, "body_diameter")["direction"] == "only asked"


def test_the_next_classes_beside_a_class(client: FlaskClient) -> None:
    found = ask(client, BOLT)
    assert {"ISO 4014 - M12x60 - 9.8", "ISO 4014 - M12x60 - 5.6"} <= set(found)
    assert "ISO 4014 - M12x60 - A2-70" not in found
    weaker = difference(found["ISO 4014 - M12x60 - 5.6"], "tensile_load")
    assert (weaker["asked"]["min"], weaker["other"]["min"]) == (67400, 42200)
    assert (weaker["direction"], weaker["meets"]) == ("weaker", False)
    assert weaker["other"]["basis"]["standard"] == "ISO 898-1"


def test_an_inch_neighbour_of_8_8_is_grade_5_and_a449(client: FlaskClient) -> None:
    found = ask(client, BOLT)
    near = [name for name in found if name.startswith("ASME B18.2.1") and "1/2-13" in name]
    assert {name.rpartition(" - ")[2] for name in near} == {"SAE J429 5", "ASTM A449"}
    one = found["ASME B18.2.1 hex cap screw - 1/2-13x2-1/4 - SAE J429 5"]
    assert not one["same_thread"]
    assert difference(one, "thread")["asked_text"] == "M12"
    load = difference(one, "tensile_load")
    assert (load["other"]["min"], load["other"]["unit"]) == (17000, "lbf")
    assert load["converted"]["min"] == pytest.approx(75620, abs=1)
    assert (load["direction"], load["meets"]) == ("stronger", True)
    flats = difference(one, "width_across_flats")
    assert (flats["other"]["max"], flats["converted"]["max"]) == (0.75, pytest.approx(19.05))
    assert (flats["direction"], flats["meets"]) == ("larger", False)
    assert {"thread", "width_across_flats"} <= set(one["not_met"])


def test_grade_5_and_a449_differ_in_the_rounding_of_the_proof_load(client: FlaskClient) -> None:
    """85 and 120 ksi both: 0.1419 in2 bears 12 061.5 and 17 028 lbf, which SAE J429 prints as 12 100 and 17 000."""
    one = ask(client, CAP_SCREW)["ASME B18.2.1 hex cap screw - 1/2-13x2 - ASTM A449"]
    proof = difference(one, "proof_load")
    assert (proof["asked"]["min"], proof["other"]["min"]) == (12100, 12061.5)
    assert (proof["direction"], proof["meets"]) == ("weaker", False)
    assert "tensile_strength" not in {each["id"] for each in one["differences"]}
    assert difference(one, "marking")["asked_text"] == "three radial lines, 120 degrees apart"


def test_a_metric_neighbour_of_an_inch_screw(client: FlaskClient) -> None:
    found = ask(client, CAP_SCREW)
    one = found["ISO 4014 - M12x50 - 8.8"]
    assert difference(one, "tensile_load")["direction"] == "weaker"
    assert difference(one, "length")["asked"]["unit"] == "in"


def test_the_other_system_has_room_among_few_answers(client: FlaskClient) -> None:
    found = ask(client, BOLT, limit=4)
    assert len(found) == 4
    assert sum("ASME" in name for name in found) == 2


def test_nuts(client: FlaskClient) -> None:
    """m max of ISO 4032 and ISO 4033 at M12: 10.80 and 12.00."""
    found = ask(client, "ISO 4032 - M12 - 8")
    height = difference(found["ISO 4033 - M12 - 9"], "nut_height")
    assert (height["asked"]["max"], height["other"]["max"]) == (10.8, 12.0)
    assert (height["direction"], height["meets"]) == ("larger", False)
    assert not any(name.startswith("ISO 4035") for name in found), "a thin nut is no regular nut"
    thin = ("ISO 4035", "ISO 8675", "DIN 439-2", "ASME B18.2.2")
    assert all(name.startswith(thin) for name in ask(client, "ISO 4035 - M12 - 04"))


def test_washers(client: FlaskClient) -> None:
    """Outer diameter of size 10: ISO 7089 20, ISO 7092 18, ISO 7093-1 30."""
    found = ask(client, "ISO 7089 - 10 - 200 HV")
    outer = {
        name: [each for each in one["differences"] if each["id"] == "outer_diameter"] for name, one in found.items()
    }
    assert outer["ISO 7090 - 10 - 200 HV"] == []
    assert outer["ISO 7092 - 10 - 200 HV"][0]["other"]["max"] == 18
    assert outer["ISO 7093-1 - 10 - 200 HV"][0]["direction"] == "larger"


def test_a_coating_stays_where_it_can(client: FlaskClient) -> None:
    found = ask(client, "ISO 4014 - M12x60 - 8.8 - tZn")
    assert "ISO 4017 - M12x60 - 8.8 - tZn" in found
    inch = next(one for name, one in found.items() if "ASME" in name)
    assert (difference(inch, "coating")["asked_text"], difference(inch, "coating")["other_text"]) == ("tZn", None)


def test_a_product_alone_of_its_function_has_no_alternative(client: FlaskClient) -> None:
    answer = client.get("/v1/equivalents", query_string={"designation": "ISO 4026 - M6x12 - 45H"}).get_json()
    assert answer["alternatives"] == []
    assert "no other product" in answer["notices"][0]


@pytest.mark.parametrize(
    ("query", "status", "code"),
    [
        ({}, 422, "missing_member"),
        ({"designation": BOLT, "limit": 31}, 422, "invalid"),
        ({"designation": "DIN 961 - M10x1.25x40 - 8.8"}, 404, "former_standard"),
        ({"designation": "ISO 4014 - M12x60"}, 422, "class_missing"),
        ({"designation": "M10-6g"}, 422, "not_understood"),
    ],
)
def test_what_names_no_product_is_refused(client: FlaskClient, query: dict[str, Any], status: int, code: str) -> None:
    problem(client.get("/v1/equivalents", query_string=query), status, code)
