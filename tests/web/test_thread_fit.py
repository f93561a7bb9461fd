"""GET /v1/thread-fit: clearances follow from the limits; what cannot be mated is refused."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

URL = "/v1/thread-fit"


def ask(client: FlaskClient, external: str, internal: str, **more: str) -> dict[str, Any]:
    answer = client.get(URL, query_string={"external": external, "internal": internal, **more})
    assert answer.status_code == 200, answer.get_json()
    return answer.get_json()


def test_m10_6h_6g(client: FlaskClient) -> None:
    """ISO 965-2: M10 6g d2 8.862 to 8.994, 6H D2 9.026 to 9.206; the least clearance is the deviation g, 32 um."""
    found = ask(client, "M10-6g", "M10-6H")
    pitch = found["clearances"]["pitch_diameter"]
    assert (pitch["min"], pitch["max"]) == (0.032, 0.344)
    assert found["clearances"]["major_diameter"]["max"] is None
    assert found["clearances"]["minor_diameter"]["min"] == 0.032
    assert found["designation"] == "M10-6H/6g"
    assert found["overlap"]["min"] == pytest.approx((9.732 - 8.676) / 2)
    assert found["engagement"]["normal"]["min"] == 5


@pytest.mark.parametrize(("external", "internal"), [("M10-4h", "M10-5H"), ("M6-6h", "M6-6H")])
def test_h_on_h_may_touch(client: FlaskClient, external: str, internal: str) -> None:
    assert ask(client, external, internal)["clearances"]["pitch_diameter"]["min"] == 0


def test_unified(client: FlaskClient) -> None:
    """ASME B1.1: 1/2-13 UNC 2A d2 0.4435 max, 2B D2 0.4500 min, 0.4565 max."""
    found = ask(client, "1/2-13 UNC-2A", "1/2-13 UNC-2B")
    pitch = found["clearances"]["pitch_diameter"]
    assert (pitch["min"], pitch["unit"]) == (0.0015, "in")


def test_galvanized_threads_say_what_is_left(client: FlaskClient) -> None:
    found = ask(client, "M12-6az", "M12-6H")
    assert found["clearances"]["pitch_diameter"]["min"] == 0.335
    assert any("galvanizing" in notice for notice in found["notices"])
    assert ask(client, "M12-6g", "M12-6H")["notices"] == []


@pytest.mark.parametrize(
    ("external", "internal", "status", "code", "pointer"),
    [
        ("M12-6az", "M12-6AZ", 422, "contradiction", "/internal"),
        ("M12-6az", "M12-6AX", 422, "contradiction", "/internal"),
        ("M10-6g", "M12-6H", 422, "contradiction", "/internal"),
        ("M10-6g", "M10x1-6H", 422, "contradiction", "/internal"),
        ("M10-6g", "1/2-13 UNC-2B", 422, "contradiction", "/internal"),
        ("M10-6g-LH", "M10-6H", 422, "contradiction", "/internal"),
        ("M10-6H", "M10-6H", 422, "contradiction", "/external"),
        ("M10-6g", "M10-6g", 422, "contradiction", "/internal"),
        ("M10-6H/6g", "M10-6H", 422, "contradiction", "/external"),
        ("M10", "M10-6H", 422, "class_missing", "/external"),
        ("M10-6g", "M10.1-6H", 404, "unknown_size", "/internal"),
        ("M10-6?", "M10-6H", 422, "not_understood", "/external"),
    ],
)
def test_refusals(client: FlaskClient, external: str, internal: str, status: int, code: str, pointer: str) -> None:
    answer = client.get(URL, query_string={"external": external, "internal": internal})
    problem = answer.get_json()
    assert (answer.status_code, problem["code"], problem["errors"][0]["pointer"]) == (status, code, pointer)
