"""Set-up sheets of /v1/set-points, with `Accept: text/html`: what they say. How they look stands in tests/browser."""

from typing import Any

import pytest
from flask.testing import FlaskClient

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
