"""Slips of the pen: of the names that a refusal offers, the first is the one that a person would have meant.

Common practice: which slip a person makes (a key beside the right one, two that changed places, one too many or too
few, a sign left out) is nobody's standard; the expected names stand in the standards that the service holds.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient

BOLT, NUT = "ISO 4014 - M10x60 - ", "ISO 4032 - M10 - "
CAP_SCREW = "ASME B18.2.1 hex cap screw - 1/2-13x2 - "
CLASSES = {
    BOLT + "8.7": "8.8",
    BOLT + "88": "8.8",
    BOLT + "18.8": "8.8",
    BOLT + "10.8": "10.9",
    BOLT + "109": "10.9",
    BOLT + "12,8": "12.9",
    BOLT + "5.5": "5.6",
    BOLT + "9.9": "9.8",
    BOLT + "A2-07": "A2-70",
    BOLT + "A2-7": "A2-70",
    BOLT + "A2 70": "A2-70",
    BOLT + "A2-71": "A2-70",
    BOLT + "A4-81": "A4-80",
    BOLT + "A4-90": "A4-80",
    NUT + "88": "8",
    NUT + "O8": "8",
    NUT + "11": "10",
    CAP_SCREW + "SAE J429 6": "SAE J429 5",
    CAP_SCREW + "SAE J429 55": "SAE J429 5",
    CAP_SCREW + "SAE J492 5": "SAE J429 5",
    "ASME B18.2.2 hex nut - 1/2-13 - SAE J959 5": "SAE J995 5",
    "ISO 7089 - 10 - 20 HV": "200 HV",
    "ISO 7089 - 10 - 2000 HV": "200 HV",
    "ISO 7089 - 10 - 200 HB": "200 HV",
}
STANDARDS = {
    "ISO 4104 - M10x60 - 8.8": "ISO 4014",
    "ISO 4041 - M10x60 - 8.8": "ISO 4014",
    "ISO 4013 - M10x60 - 8.8": "ISO 4014",
    "ISO 40014 - M10x60 - 8.8": "ISO 4014",
    "IS 4014 - M10x60 - 8.8": "ISO 4014",
    "ISO 4726 - M10x60 - 8.8": "ISO 4762",
    "ISO 7830 - M10x20 - 10.9": "ISO 7380-1",
    "ISO 7308-1 - M10x20 - 10.9": "ISO 7380-1",
    "ISO 4302 - M10 - 8": "ISO 4032",
    "ISO 7098 - 10 - 200 HV": "ISO 7089",
    "ASME B18.2.1 hex cap scrwe - 1/2-13x2 - SAE J429 5": "ASME B18.2.1 hex cap screw",
    "ASME B18.1.2 hex cap screw - 1/2-13x2 - SAE J429 5": "ASME B18.2.1 hex cap screw",
}
SIZES = {
    "ISO 8673 - M10x1.24 - 8": "M10x1.25",
    "ISO 4014 - M1Ox60 - 8.8": "M10",
    "ISO 4014 - N10x60 - 8.8": "M10",
    "ASME B18.2.1 hex cap screw - 1/2-31x2 - SAE J429 5": "1/2-13 UNC",
}
COATINGS = {
    BOLT + "8.8 - tZm": "tZn",
    BOLT + "8.8 - flZn480": "flZn-480h",
}


@pytest.mark.parametrize(("designation", "meant"), [*CLASSES.items(), *STANDARDS.items(), *SIZES.items(),
                                                    *COATINGS.items()])  # fmt: skip
def test_a_designation(designation: str, meant: str, client: FlaskClient) -> None:
    assert first(client.get("/v1/specification", query_string={"designation": designation})) == meant


@pytest.mark.parametrize(
    ("path", "query", "meant"),
    [
        ("mechanical-minimums", {"thread": "M10", "property_class": "8.7"}, "8.8"),
        ("mechanical-minimums", {"thread": "1/2-13", "grade": "ASTM A354 DB"}, "ASTM A354 BD"),
        ("mechanical-minimums", {"thread": "M10", "property_class": "11", "member": "internal"}, "10"),
        ("thread-limits", {"designation": "M10-6i"}, "6g"),
        ("thread-limits", {"designation": "1/2-31 UNC-2A"}, "1/2-13 UNC"),
        ("coating-limits", {"designation": "M10-6g", "coating": "tZm"}, "tZn"),
        ("coating-limits", {"designation": "M10-6g", "coating": "flZn-408h"}, "flZn-480h"),
        ("products", {"standard": "ISO 4104"}, "ISO 4014"),
        ("threads", {"system": "ISO metrc"}, "ISO metric"),
        ("threads", {"series": "corse"}, "coarse"),
    ],
)
def test_a_query(path: str, query: dict[str, str], meant: str, client: FlaskClient) -> None:
    assert first(client.get(f"/v1/{path}", query_string=query)) == meant


@pytest.mark.parametrize(
    ("given", "meant"),
    [
        ("widht_across_flats", "width_across_flats"),
        ("lenght", "length"),
        ("head_heigth", "head_height"),
        ("thread_go_guage", "thread_go_gauge"),
        ("go_gauge", "thread_go_gauge"),
        ("tensile", "tensile_load"),
        ("hardness", "hardness_core"),
        ("washer_face", "washer_face_diameter"),
        ("s", "width_across_flats"),
        ("e", "width_across_corners"),
        ("k", "head_height"),
    ],
)
def test_a_characteristic(given: str, meant: str, client: FlaskClient) -> None:
    lot = {"designation": BOLT + "8.8", "readings": {given: [1]}}
    assert first(client.post("/v1/conformance", json=lot)) == meant


def test_a_gauge(client: FlaskClient) -> None:
    gauge = {"designation": "M10-6g", "gauge": "go_screw_rng", "measured": {"value": 9.0, "unit": "mm"}}
    assert first(client.post("/v1/gauge-sizes/check", json=gauge)) == "go_screw_ring"


def test_an_unknown_member_is_told_the_known_ones(client: FlaskClient) -> None:
    found = client.get("/v1/thread-limits", query_string={"designaton": "M10-6g"}).json
    assert {error["pointer"]: error["code"] for error in found["errors"]}["/designaton"] == "unknown_member"
    assert "known: designation, unit, explain." in found["detail"]
    lot = {"designation": BOLT + "8.8", "readings": {"length": {"values": [60], "uncertainty": 1}}}
    assert "expanded_uncertainty" in client.post("/v1/conformance", json=lot).json["detail"]


def test_a_decimal_comma_in_a_class(client: FlaskClient) -> None:
    answer = client.get("/v1/specification", query_string={"designation": "ISO 4014 - M10x60 - 8,8"})
    assert answer.json["designation"] == "ISO 4014 - M10x60 - 8.8"


def first(answer: Any) -> str | None:
    assert answer.status_code in (404, 422)
    names = answer.json.get("nearest")
    return names[0] if names else None
