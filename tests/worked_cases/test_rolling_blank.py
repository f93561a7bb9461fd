"""The blank before thread rolling of 27 threads, asked through HTTP, and against an integration of the profile."""

import json
import math
from decimal import Decimal
from typing import Any

import pytest
from case_files import worked
from flask.testing import FlaskClient
from problem_documents import problem
from scipy import integrate

CASES = worked("rolling_blank")["cases"]
MM_PER_INCH = Decimal("25.4")


def threads(designation: str) -> str:
    return designation.replace(" 2A", "-2A")


def step_of(case: dict[str, Any]) -> tuple[Decimal, float]:
    """Return what one unit of the answer is in mm, and how near it has to be."""
    return (MM_PER_INCH, 1e-4) if "UN" in case["thread"] else (Decimal(1), 1e-6)


def ask(client: FlaskClient, case: dict[str, Any], **roller: Any) -> Any:
    body = {"designation": threads(case["thread"]), "elongation": 0, "roller": roller}
    return client.post("/v1/set-points", json=body)


def blank(answer: Any) -> dict[str, Any]:
    stations = json.loads(answer.data, parse_float=Decimal)["stations"]
    found: dict[str, Any] = next(one for one in stations if one["id"] == "thread_rolling")["set_points"]
    return found["rolling_blank_diameter"]  # type: ignore[no-any-return]


@pytest.mark.parametrize("case", CASES, ids=[one["thread"] for one in CASES])
def test_the_blank_and_its_window(case: dict[str, Any], client: FlaskClient) -> None:
    unit, near = step_of(case)
    found = blank(ask(client, case, pitch_diameter_spread=0))
    low, high = case["window_d2_exactly_at_aim"]
    exact = {side: float(found["exact"][side] * unit) for side in ("min", "target", "max")}
    assert exact == pytest.approx({"min": float(low), "target": float(case["blank"]), "max": float(high)}, abs=near)
    assert found["min"] >= found["exact"]["min"]
    assert found["max"] <= found["exact"]["max"]
    quantum = Decimal("0.001") if unit == 1 else Decimal("0.0001")
    assert found["min"] - found["exact"]["min"] < quantum
    assert found["exact"]["max"] - found["max"] < quantum


@pytest.mark.parametrize("case", CASES, ids=[one["thread"] for one in CASES])
def test_the_window_for_the_spread_of_the_roller(case: dict[str, Any], client: FlaskClient) -> None:
    unit, near = step_of(case)
    for spread, window in case["window_for_roller_spread_s_k3"].items():
        answer = ask(client, case, pitch_diameter_spread={"value": float(spread), "unit": "mm"})
        if window is None:
            figures = problem(answer, 422, "nothing_remains")["figures"]
            assert figures["min"] > figures["max"]
            continue
        exact = blank(answer)["exact"] if answer.status_code == 200 else answer.get_json()["figures"]
        found = [float(Decimal(str(exact[side])) * unit) for side in ("min", "max")]
        assert found == pytest.approx([float(side) for side in window], abs=near)


@pytest.mark.parametrize("case", CASES[:6], ids=[one["thread"] for one in CASES[:6]])
def test_the_largest_spread_that_leaves_a_window(case: dict[str, Any], client: FlaskClient) -> None:
    """A step of a nanometre, so that the rounding inwards does not decide."""
    largest = float(case["largest_s_with_a_window_k3"])
    body = {"designation": case["thread"], "elongation": 0, "step": 1e-6}
    for spread, status in ((largest - 2e-6, 200), (largest + 2e-6, 422)):
        answer = client.post("/v1/set-points", json={**body, "roller": {"pitch_diameter_spread": round(spread, 7)}})
        assert answer.status_code == status, (spread, answer.get_data(as_text=True)[:300])


@pytest.mark.parametrize("case", CASES[:20:3], ids=[one["thread"] for one in CASES[:20:3]])
def test_another_root_radius(case: dict[str, Any], client: FlaskClient) -> None:
    """ISO 898-1: 0.125 P is the least root radius of classes from 8.8 on."""
    radius = float(case["P"]) / 8
    found = blank(ask(client, case, pitch_diameter_spread=0, root_radius=radius))
    assert float(found["exact"]["target"]) == pytest.approx(float(case["blank_if_root_radius_0.125P"]), abs=2e-6)


def by_quadrature(d: float, d2: float, pitch: float) -> float:
    """Return the blank from the axial profile alone: crest flat, flanks, arc of H/6; r^2 integrated along the axis."""
    H = math.sqrt(3) / 2 * pitch
    R, sharp = H / 6, d2 / 2 - H / 2

    def radius(z: float) -> float:
        """z from the middle of the root."""
        flank = sharp + abs(z) * math.sqrt(3)
        if abs(z) < math.sqrt(3) / 2 * R:
            return sharp + 2 * R - math.sqrt(R * R - z * z)
        return min(flank, d / 2)

    crest = (d / 2 - sharp) / math.sqrt(3)
    points = [math.sqrt(3) / 2 * R, crest]
    half, _ = integrate.quad(lambda z: (2 * radius(z)) ** 2, 0, pitch / 2, points=points, epsabs=1e-13)
    return math.sqrt(2 * half / pitch)


@pytest.mark.parametrize("designation", ["M5-6g", "M10x1-6g", "M14x1.5-6e", "M18-6g", "M27x2-4h", "M36-6g", "M42x3-6g"])
def test_further_threads_by_integration_of_the_profile(designation: str, client: FlaskClient) -> None:
    limits = client.get("/v1/thread-limits", query_string={"designation": designation}).get_json()
    d, d2 = (
        (limits["limits"][name]["min"] + limits["limits"][name]["max"]) / 2
        for name in ("major_diameter", "pitch_diameter")
    )
    answer = client.post("/v1/set-points", json={"designation": designation, "elongation": 0})
    assert float(blank(answer)["exact"]["target"]) == pytest.approx(by_quadrature(d, d2, limits["pitch"]), abs=1e-6)


def test_elongation_asks_for_a_thicker_blank(client: FlaskClient) -> None:
    """0.5 % of the threaded length is 0.022 mm at M10 (volume is constant)."""
    plain, long = (
        client.post("/v1/set-points", json={"designation": "M10-6g", "elongation": part}) for part in (0, 0.005)
    )
    for side in ("min", "target", "max"):
        ratio = blank(long)["exact"][side] / blank(plain)["exact"][side]
        assert float(ratio) == pytest.approx(math.sqrt(1.005), rel=1e-12)
