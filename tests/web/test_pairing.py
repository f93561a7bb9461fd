"""GET /v1/pairing. ISO 898-2:2012, Table 2; ISO 3506-2:2009; pairing of SAE and ASTM grades (memory)."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem


def ask(client: FlaskClient, bolt: str) -> dict[str, Any]:
    answer = client.get("/v1/pairing", query_string={"bolt": bolt})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def holding(found: dict[str, Any]) -> list[tuple[str, int | str | None]]:
    return [(nut["nut"], nut["style"] if nut["form"] is None else nut["form"]) for nut in found["nuts"] if nut["holds"]]


def test_a_class_and_every_higher_one_hold_in_the_styles_of_the_size(client: FlaskClient) -> None:
    found = ask(client, "ISO 4014 - M10x60 - 8.8")
    assert found["bolt"] == "ISO 4014 - M10x60 - 8.8"
    assert holding(found) == [("8", 1), ("9", 2), ("10", 1), ("10", 2), ("12", 1), ("12", 2)]
    first = found["nuts"][0]
    assert first["proof_load"]["min"] == 50500
    assert first["basis"]["clause"] == "Table 2"
    assert first["warnings"] == []


@pytest.mark.parametrize("bolt", ["M10-8.8", "M10 8.8", "M10-6g - 8.8", "m10 class 8.8", "M10x1.5 - 8,8"])
def test_thread_and_class_in_many_ways(bolt: str, client: FlaskClient) -> None:
    assert ask(client, bolt)["bolt"] == "M10 - 8.8" if "6g" not in bolt else ask(client, bolt)["thread"] == "M10"


def test_thin_nuts_hold_nothing(client: FlaskClient) -> None:
    thin = [nut for nut in ask(client, "M10 - 4.6")["nuts"] if nut["style"] == 0]
    assert {nut["nut"] for nut in thin} == {"04", "05"}
    assert not any(nut["holds"] for nut in thin)


def test_a_galvanized_bolt_says_which_threads_may_mate(client: FlaskClient) -> None:
    """ISO 10684:2004: 6az with H or G, never with AZ or AX; M8 and M10 carry reduced loads."""
    found = ask(client, "ISO 4014 - M10x60 - 8.8U - tZn")
    may = {(one["external"], one["internal"]): one["may_mate"] for one in found["threads"]}
    assert may[("az", "H")] is True
    assert may[("az", "AZ")] is False
    assert any("reduced loads" in notice for notice in found["notices"])
    assert ask(client, "M10 - 8.8")["threads"] == []


def test_stainless_nuts_of_the_same_steel(client: FlaskClient) -> None:
    found = ask(client, "M10 - A2-70")
    assert holding(found) == [("A2-70", 1), ("A2-80", 1)]
    assert any("gall" in notice for notice in found["notices"])


@pytest.mark.parametrize(
    ("bolt", "nuts"),
    [
        ("1/2-13 - SAE J429 5", [("SAE J995 5", "hex"), ("SAE J995 8", "hex")]),
        ("1/2-13 - SAE J429 8", [("SAE J995 8", "hex")]),
        (
            "7/8-9 - ASTM F3125 A490",
            [(f"ASTM {name}", "heavy_hex") for name in ("A194 2H", "A194 7", "A563 DH", "A563 DH3")],
        ),
    ],
)
def test_inch_grades(bolt: str, nuts: list[tuple[str, str]], client: FlaskClient) -> None:
    assert holding(ask(client, bolt)) == nuts


def test_without_a_table_the_stresses_decide_and_a_notice_says_so(client: FlaskClient) -> None:
    found = ask(client, "3/4-10 - ASTM A449")
    assert "no pairing table" in found["notices"][0]
    assert all(nut["basis"]["method"] == "computed" for nut in found["nuts"])


def test_below_the_sizes_of_the_nut_standard_there_is_a_notice(client: FlaskClient) -> None:
    found = ask(client, "M3 - 8.8")
    assert found["nuts"] == []
    assert "no nut class for M3" in found["notices"][0]


@pytest.mark.parametrize(
    ("bolt", "status", "code"),
    [
        ("M10", 422, "not_understood"),
        ("M10 - 8.7", 404, "unknown_property_class"),
        ("M10 - 8", 422, "contradiction"),
        ("ISO 4032 - M10 - 8", 422, "contradiction"),
        ("ISO 4014 - M10x60", 422, "class_missing"),
        ("M12 - ASTM F568M 8.8", 422, "not_covered"),
        ("M10 - SAE J429 5", 422, "contradiction"),
        ("M18 - 9.8", 422, "not_standardised"),
    ],
)
def test_what_is_no_bolt_is_refused(bolt: str, status: int, code: str, client: FlaskClient) -> None:
    answer = problem(client.get("/v1/pairing", query_string={"bolt": bolt}), status, code)
    assert pointers(answer)
