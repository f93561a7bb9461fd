"""GET /v1/gauge-sizes. ISO 1502:1996; numbers in tests/published/iso_1502_1996, here the form and the traps."""

import re

import html5lib
import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

RINGS = {"go_screw_ring", "not_go_screw_ring"}
PLUGS = {"go_screw_plug", "not_go_screw_plug"}


def gauges(client: FlaskClient, designation: str) -> dict[str, dict]:  # type: ignore[type-arg]
    found = client.get("/v1/gauge-sizes", query_string={"designation": designation}).get_json()
    assert found["gauge_standard"] == "ISO 1502:1996"
    return {gauge["id"]: gauge for gauge in found["gauges"]}


def test_a_bolt_is_gauged_with_rings_and_a_nut_with_plugs(client: FlaskClient) -> None:
    bolt, nut = gauges(client, "M10-6g"), gauges(client, "M10-6H")
    assert set(bolt) >= RINGS
    assert not PLUGS & set(bolt)
    assert set(nut) == PLUGS
    assert {gauge["member"] for name, gauge in bolt.items() if name in RINGS} == {"external"}
    assert {gauge["member"] for name, gauge in bolt.items() if "check_plug" in name} == {"gauge"}


def test_a_fit_has_both(client: FlaskClient) -> None:
    assert set(gauges(client, "M10-6H/6g")) >= RINGS | PLUGS


def test_every_gauge_has_limits_and_says_how_it_is_used(client: FlaskClient) -> None:
    for gauge in (*gauges(client, "M10-6g").values(), *gauges(client, "M10-6H").values()):
        assert gauge["name"]
        assert gauge["application"]
        for bounds in gauge["dimensions"].values():
            assert {"min", "max", "wear_limit", "unit", "basis"} <= set(bounds)
            assert bounds["unit"] == "mm"
            assert bounds["min"] is not None or bounds["max"] is not None


def test_a_go_gauge_wears_towards_the_product_and_a_not_go_gauge_inward(client: FlaskClient) -> None:
    """A ring grows and a plug shrinks when it wears."""
    rings, plugs = gauges(client, "M10-6g"), gauges(client, "M10-6H")
    for name in RINGS:
        pitch = rings[name]["dimensions"]["pitch_diameter"]
        assert pitch["wear_limit"] > pitch["max"]
    for name in PLUGS:
        pitch = plugs[name]["dimensions"]["pitch_diameter"]
        assert pitch["wear_limit"] < pitch["min"]


def test_a_part_may_pass_a_permitted_ring_and_measure_outside(client: FlaskClient) -> None:
    """A worn GO ring is larger than d2 max (M10-6g: 8.994), so gauging and measuring are two results."""
    worn = gauges(client, "M10-6g")["go_screw_ring"]["dimensions"]["pitch_diameter"]["wear_limit"]
    limits = client.get("/v1/thread-limits", query_string={"designation": "M10-6g"}).get_json()["limits"]
    assert worn > limits["pitch_diameter"]["max"]
    answer = client.get("/v1/gauge-sizes", query_string={"designation": "M10-6g"}).get_json()
    assert any("two results" in notice for notice in answer["notices"])


def test_what_is_not_held_is_said_and_not_substituted(client: FlaskClient) -> None:
    answer = client.get("/v1/gauge-sizes", query_string={"designation": "M10-6g"}).get_json()
    held_back = {one["id"]: one["reason"] for one in answer["not_covered"]}
    assert {"go_plain_ring", "not_go_plain_snap"} <= set(held_back)
    assert all(held_back.values())


def test_figures_from_memory_say_so(client: FlaskClient) -> None:
    ring = gauges(client, "M10-6g")["not_go_screw_ring"]["dimensions"]
    assert ring["pitch_diameter"]["basis"]["checked"] == "memory"
    assert ring["minor_diameter"]["basis"]["checked"] == "conflict"
    assert "F1" in ring["minor_diameter"]["basis"]["note"]


def test_a_gauge_standard_may_be_named(client: FlaskClient) -> None:
    named = client.get("/v1/gauge-sizes", query_string={"designation": "M10-6g", "standard": "ISO 1502"})
    assert named.get_json()["gauge_standard"] == "ISO 1502:1996"
    other = client.get("/v1/gauge-sizes", query_string={"designation": "M10-6g", "standard": "ISO 1"})
    assert pointers(problem(other, other.status_code, other.get_json(force=True)["code"])) == ["/standard"]


@pytest.mark.parametrize(
    ("text", "status", "code"),
    [
        ("M10", 422, "class_missing"),
        ("M1-6H", 422, "not_standardised"),
        ("M10x1.3-6g", 404, "unknown_size"),
        ("M125x8-8H", 422, "not_covered"),
    ],
)
def test_what_cannot_be_answered(text: str, status: int, code: str, client: FlaskClient) -> None:
    found = problem(client.get("/v1/gauge-sizes", query_string={"designation": text}), status, code)
    assert pointers(found) == ["/designation"]


PAGE = {"Accept": "text/html,application/xhtml+xml,*/*;q=0.8"}


@pytest.mark.parametrize("designation", ["M10-6H/6g", "1/2-13 UNC-2A", "M64-6g"])
def test_a_browser_gets_a_page_with_the_zones_and_every_figure_leads_to_its_basis(
    client: FlaskClient, designation: str
) -> None:
    answer = client.get("/v1/gauge-sizes", query_string={"designation": designation}, headers=PAGE)
    assert answer.content_type == "text/html; charset=utf-8"
    page = answer.get_data(as_text=True)
    html5lib.HTMLParser(strict=True).parse(page)
    assert f"<h1>{designation}: gauges</h1>" in page
    assert "A part can pass" in page
    known = re.findall(r' id="([^"]+)"', page)
    assert len(known) == len(set(known))
    assert set(re.findall(r'href="#([^"]+)"', page)) <= set(known)
    assert page.count('class="figure" href="#basis-') > 10
    assert "explain=true" in page


def test_the_limits_of_the_page_are_those_of_the_json_answer(client: FlaskClient) -> None:
    page = client.get("/v1/gauge-sizes", query_string={"designation": "M10-6H"}, headers=PAGE).get_data(as_text=True)
    body = client.get("/v1/gauge-sizes", query_string={"designation": "M10-6H"}).get_data(as_text=True)
    shown = re.findall(r'"(?:min|max|wear_limit)":([\d.]+)', body)
    assert len(shown) == 13
    for figure in shown:
        assert f">{figure}</a>" in page


def test_the_zones_are_served_as_a_drawing(client: FlaskClient) -> None:
    answer = client.get("/v1/gauge-sizes/drawing.svg", query_string={"designation": "M10-6g"})
    assert answer.content_type == "image/svg+xml; charset=utf-8"
    assert "worn +13" in answer.get_data(as_text=True)
    again = client.get(
        "/v1/gauge-sizes/drawing.svg",
        query_string={"designation": "M10-6g"},
        headers={"If-None-Match": answer.headers["ETag"]},
    )
    assert again.status_code == 304
    other = {"designation": "M10-6g", "standard": "ASME B1.16M"}
    assert "worn +13" not in client.get("/v1/gauge-sizes/drawing.svg", query_string=other).get_data(as_text=True)
    problem(client.get("/v1/gauge-sizes/drawing.svg", query_string={"designation": "M10"}), 422, "class_missing")
    problem(client.get("/v1/gauge-sizes/drawing.svg", query_string={"designation": "M300x8-9g8g"}), 422, "not_covered")
