"""Set-up sheets of /v1/set-points, with `Accept: text/html`: what they say. How they look stands in tests/browser."""

import html
import re
import sys
from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import problem

from boltwright_server import documents

BOLT = "ISO 4014 - M10x60 - 8.8"
WHOLE = {
    "designation": BOLT,
    "wire_diameter": 9.6,
    "head_trim": 0,
    "elongation": 0,
    "aims": {"thread_length": 26, "washer_face_thickness": 0},
    "tools": {"chamfer_circle": 15.2},
    "roller": {"pitch_diameter_spread": 0.002},
}
NUT = {
    "designation": "ISO 4032 - M16 - 8",
    "wire_diameter": 20,
    "forging_loss": 0.02,
    "aims": {"tapping_bore": 13.95, "width_across_flats": 24, "nut_height": 14.8},
    "tools": {
        "chamfer_circle": 22.8,
        "countersink_diameter": 17.3,
        "countersink_angle": 120,
        "pierce_diameter": 13.5,
        "web": 3,
    },
}


def page(client: FlaskClient, body: dict[str, Any]) -> str:
    answer = client.post("/v1/set-points", json=body, headers={"Accept": "text/html"})
    assert (answer.status_code, answer.mimetype) == (200, "text/html"), answer.get_data(as_text=True)
    return answer.get_data(as_text=True)


def test_a_set_up_sheet_holds_the_figures_of_its_station(client: FlaskClient) -> None:
    told = page(client, {**WHOLE, "stage": "cut_off", "rate": 300, "check_interval": 15})
    assert "<h1>Cut-off</h1>" in told
    assert ">77.907</a>" in told
    assert "4500" in told
    assert "from memory" in told
    assert "drawing of the blank" in told
    assert "Missing from the plant" not in told
    heading = page(client, {**WHOLE, "stage": "heading"})
    for text in (">15.730</a>", ">15.798</a>", ">15.865</a>", "micrometer", "drawing of the blank", "Mark read"):
        assert text in heading


def test_a_sheet_says_what_the_plant_has_not_given(client: FlaskClient) -> None:
    told = page(client, {"designation": BOLT, "stage": "cut_off"})
    assert "Missing from the plant" in told
    assert "tools.chamfer_circle" in told


@pytest.mark.parametrize(
    ("stage", "part"),
    [("hot_forging", "drawing of the blank"), ("tapping", "drawing of the part"), ("hardening", "drawing of the part")],
)
def test_the_part_is_drawn_in_its_state(stage: str, part: str, client: FlaskClient) -> None:
    assert part in page(client, {**NUT, "stage": stage})


def test_gauges_of_the_thread_stand_on_the_sheet(client: FlaskClient) -> None:
    rolled = page(client, {"designation": BOLT, "stage": "thread_rolling"})
    assert "GO screw ring gauge" in rolled
    assert "NOT GO screw ring gauge" in rolled


def test_a_sheet_is_of_one_station_that_the_part_passes(client: FlaskClient) -> None:
    html = {"Accept": "text/html"}
    query = {"designation": BOLT}
    assert "stage" in client.get("/v1/set-points", query_string=query, headers=html).get_data(as_text=True)
    assert client.get("/v1/set-points", query_string=query, headers=html).status_code == 422
    assert client.get("/v1/set-points", query_string={**query, "stage": "tapping"}, headers=html).status_code == 422


def pdf(client: FlaskClient, body: dict[str, Any]) -> bytes:
    answer = client.post("/v1/set-points", json=body, headers={"Accept": "application/pdf"})
    assert (answer.status_code, answer.mimetype) == (200, "application/pdf"), answer.get_data(as_text=True)
    return answer.data


@pytest.mark.parametrize(
    "body",
    [
        {**WHOLE, "stage": "heading"},
        {**WHOLE, "stage": "cut_off", "rate": 300, "check_interval": 15},
        {"designation": BOLT, "stage": "cut_off"},
        {"designation": "ISO 4014 - M10x60 - 8.8 - A3L", "stage": "coating"},
        {**NUT, "stage": "hot_forging"},
        {"designation": "3/4-16 UNF-2A", "stage": "thread_rolling"},
    ],
)
def test_the_sheet_as_pdf_is_one_page_with_its_font_in_it(body: dict[str, Any], client: FlaskClient) -> None:
    """ISO 32000-1, 7.7.3.3 (page objects) and 9.9 (embedded font programs)."""
    found = pdf(client, body)
    assert found.startswith(b"%PDF-")
    assert (found.count(b"/Type /Page\n"), b"/FontFile2" in found) == (1, True)
    assert found == pdf(client, body)


def test_the_pdf_says_what_the_page_says(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    written: list[str] = []
    monkeypatch.setattr(documents.pdf, "plain", lambda text: written.append(text) or text)
    pdf(client, {"designation": BOLT, "stage": "heading"})
    told = html.unescape(page(client, {"designation": BOLT, "stage": "heading"}))
    cells = re.findall(r"<td[^>]*>(?:<a[^>]*>)?([^<]+)<|<li[^>]*>([^<]+)</li>", told)
    texts = [one or other for one, other in cells]
    assert len(texts) > 60
    missing = [one for one in texts if not any(one in part for part in written)]
    assert missing == []


def test_without_the_extra_pdf_is_refused_and_never_json_in_silence(
    client: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "fpdf", None)
    body = {"designation": BOLT, "stage": "heading"}
    answer = client.post("/v1/set-points", json=body, headers={"Accept": "application/pdf"})
    assert "documents" in problem(answer, 406, "not_acceptable")["detail"]


def test_each_representation_has_its_own_tag(client: FlaskClient) -> None:
    """RFC 9110, 8.8.3: of a GET; a preference of PDF over HTML is not taken for one of HTML."""
    query = {"designation": "M10-6g", "stage": "thread_rolling"}
    accepted = ("application/json", "text/html", "application/pdf", "text/html;q=0.5, application/pdf")
    found = [client.get("/v1/set-points", query_string=query, headers={"Accept": one}) for one in accepted]
    media = ["application/json", "text/html", "application/pdf", "application/pdf"]
    assert [one.mimetype for one in found] == media
    assert len({one.headers["ETag"] for one in found}) == 3
    whole = client.get("/v1/set-points", query_string={"designation": "M10-6g"}, headers={"Accept": "application/pdf"})
    problem(whole, 422, "missing_member")
