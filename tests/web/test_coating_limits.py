"""GET /v1/coating-limits, and the coating of a product in /v1/specification and /v1/conformance."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient


def ask(client: FlaskClient, **query: str) -> dict[str, Any]:
    answer = client.get("/v1/coating-limits", query_string=query)
    assert answer.status_code == 200, answer.get_json()
    return answer.get_json()


def refused(client: FlaskClient, **query: str) -> tuple[int, str, str]:
    answer = client.get("/v1/coating-limits", query_string=query)
    problem = answer.get_json()
    return answer.status_code, problem["code"], problem["errors"][0]["pointer"]


def test_room_without_a_coating(client: FlaskClient) -> None:
    found = ask(client, designation="M10-6g")
    assert found["coating"] is None
    assert found["fit"] is None
    assert {name: one["max"] for name, one in found["largest_nominal_thickness"].items()} == {
        "local": 8,
        "length_up_to_5_d": 8,
        "length_up_to_10_d": 5,
        "length_up_to_15_d": 5,
    }


def test_the_length_chooses_the_group(client: FlaskClient) -> None:
    verdicts = {
        length: ask(client, designation="M10-6g", coating="Fe/Zn8", length=length)["fit"]["fits"]
        for length in ("50", "50,1", "100", "150.5")
    }
    assert verdicts == {"50": True, "50,1": False, "100": False, "150.5": None}


def test_gauges_go_with_the_state(client: FlaskClient) -> None:
    before, after = ask(client, designation="M10-6g", coating="Zn8")["states"]
    assert (before["go_gauge"], before["not_go_gauge"]) == ("M10-6g", "M10-6g")
    assert (after["go_gauge"], after["not_go_gauge"]) == ("M10-6h", "M10-6g")
    assert after["limits"]["pitch_diameter"]["max"] == 9.026
    assert after["limits"]["pitch_diameter"]["min"] is None
    assert client.get("/v1/gauge-sizes", query_string={"designation": after["go_gauge"]}).status_code == 200


def test_a_galvanized_nut_is_tapped_after_it(client: FlaskClient) -> None:
    found = ask(client, designation="ISO 4032 - M12 - 8Z - tZn")
    assert [one["state"] for one in found["states"]] == ["tapped after galvanizing"]
    assert {one["external"]: one["may_mate"] for one in found["pairings"]} == {"az": False, "g": True, "h": True}


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        ({"designation": "M10-6g", "coating": "zinc"}, (422, "not_understood", "/coating")),
        ({"designation": "M10-6g", "coating": "Zn7"}, (404, "unknown_coating", "/coating")),
        ({"designation": "M10-6g", "coating": "flZn-500h"}, (404, "unknown_coating", "/coating")),
        ({"designation": "M10", "coating": "tZn"}, (422, "class_missing", "/designation")),
        ({"designation": "M10-6g", "length": "0"}, (422, "out_of_range", "/length")),
        ({"designation": "M10-6g", "length": "long"}, (422, "wrong_type", "/length")),
        ({"designation": "M10-6g", "property_class": "8"}, (422, "contradiction", "/property_class")),
        ({"designation": "M10-6g", "property_class": "99"}, (404, "unknown_property_class", "/property_class")),
        ({"designation": "ISO 4014 - M10x60 - 8.8 - tZn", "coating": "Zn8"}, (422, "contradiction", "/coating")),
        ({"designation": "ISO 4014 - M10x60 - 8.8U"}, (422, "contradiction", "/designation")),
        ({"designation": "ISO 4014 - M10x60 - 8.8 - tZn", "length": "80"}, (422, "contradiction", "/length")),
        ({"designation": "M10-6AZ/6az"}, (422, "contradiction", "/designation")),
        ({"designation": "1/2-13 UNC-2A", "coating": "tZn"}, (422, "not_covered", "/coating")),
        ({"designation": "ISO 7089 - 10 - 200 HV"}, (422, "not_covered", "/designation")),
    ],
)
def test_refusals_name_the_member(client: FlaskClient, query: dict[str, str], expected: tuple[int, str, str]) -> None:
    assert refused(client, **query) == expected


def specification(client: FlaskClient, designation: str) -> dict[str, Any]:
    return client.get("/v1/specification", query_string={"designation": designation}).get_json()


def test_a_coating_flows_into_the_specification(client: FlaskClient) -> None:
    """ISO 10684:2004: 8.8U is cut 6az and has the reduced loads of M10."""
    plain = specification(client, "ISO 4014 - M10x60 - 8.8")
    coated = specification(client, "ISO 4014 - M10x60 - 8.8U - tZn")
    assert plain["coating"] is None
    assert coated["item"]["tolerance_class"] == "6az"
    assert coated["loads"]["tensile_load"]["min"] == 42900 < plain["loads"]["tensile_load"]["min"]
    assert coated["characteristics"]["thread_pitch_diameter"]["max"] == 8.696
    assert "before coating" in coated["characteristics"]["thread_pitch_diameter"]["basis"]["note"]
    assert coated["characteristics"]["coating_thickness"]["min"] == 40
    assert coated["marking"][0]["symbol"] == "8.8U"
    assert any("never mate" in caution for caution in coated["cautions"])
    assert any("tZn" in line for line in coated["not_covered"])


def test_from_m12_up_the_full_loads_hold(client: FlaskClient) -> None:
    coated = specification(client, "ISO 4014 - M12x60 - 8.8U - tZn")
    assert coated["loads"]["tensile_load"]["min"] == 67400


@pytest.mark.parametrize(("property_class", "warned"), [("8.8", False), ("10.9", True), ("12.9", True)])
def test_hard_bolts_carry_the_caution(client: FlaskClient, property_class: str, warned: bool) -> None:
    coated = specification(client, f"ISO 4014 - M10x60 - {property_class} - Fe/Zn5")
    assert any("Hydrogen embrittlement" in caution for caution in coated["cautions"]) is warned


def test_a_coated_lot_without_thickness_is_incomplete(client: FlaskClient) -> None:
    body = {"designation": "ISO 4014 - M10x60 - 8.8 - Fe/Zn5", "readings": {"coating_thickness": [4.9, 6.0]}}
    judged = client.post("/v1/conformance", json=body).get_json()
    assert judged["characteristics"]["coating_thickness"]["verdict"] == "nonconforming"
    body = {"designation": "ISO 4014 - M10x60 - 8.8 - Fe/Zn5", "readings": {"length": [60.0]}}
    judged = client.post("/v1/conformance", json=body).get_json()
    assert "coating_thickness" in judged["missing"]


def test_an_inch_bolt_has_room_for_a_quarter_of_its_allowance(client: FlaskClient) -> None:
    """ASTM F1941: 1/4-20 UNC-2A has 0.0011 in, that is 6.98 um on a flank: Fe/Zn5 fits, Fe/Zn8 does not."""
    found = {name: ask(client, designation="1/4-20 UNC-2A", coating=name) for name in ("Fe/Zn5", "Fe/Zn8")}
    assert {name: one["fit"]["fits"] for name, one in found.items()} == {"Fe/Zn5": True, "Fe/Zn8": False}
    assert "takes 0.00126 in" in found["Fe/Zn8"]["fit"]["detail"]
    before, after = found["Fe/Zn5"]["states"]
    assert before["limits"]["pitch_diameter"]["max"] == 0.2164
    assert after["limits"]["pitch_diameter"] | {"basis": None} == {
        "symbol": "d2",
        "min": None,
        "max": 0.2175,
        "nominal": None,
        "unit": "in",
        "basis": None,
    }


@pytest.mark.parametrize("designation", ["1/4-20 UNC-3A", "1/4-20 UNC-2B"])
def test_a_thread_without_allowance_has_no_room(client: FlaskClient, designation: str) -> None:
    found = ask(client, designation=designation, coating="Fe/Zn3")
    assert found["largest_thickness"]["local"]["max"] == 0
    assert found["fit"]["fits"] is False
    assert found["states"][1]["go_gauge"] == designation


def test_a_coated_inch_bolt_has_a_specification(client: FlaskClient) -> None:
    name = "ASME B18.2.1 hex cap screw - 1/2-13x2 - ASTM A574 - Fe/Zn8"
    found = specification(client, name)
    assert found["designation"] == name
    assert found["coating"]["states"][1]["go_gauge"] == "1/2-13 UNC-3A"
    assert found["coating"]["hydrogen_embrittlement"]["unit"] == "HRC"
    assert any("specified up to 45 HRC" in caution for caution in found["cautions"])
    assert "before coating" in found["characteristics"]["thread_pitch_diameter"]["basis"]["note"]
    assert found["characteristics"]["coating_thickness"]["min"] == 8


def test_a_stated_length_of_engagement_goes_into_the_gauges(client: FlaskClient) -> None:
    found = ask(client, designation="1/2-24 UNS-2A-LE 1.5", coating="Fe/Zn3")
    assert [one["go_gauge"] for one in found["states"]] == ["1/2-24 UNS-2A-LE 1.5", "1/2-24 UNS-3A-LE 1.5"]
    for one in found["states"]:
        assert client.get("/v1/gauge-sizes", query_string={"designation": one["go_gauge"]}).status_code == 200
