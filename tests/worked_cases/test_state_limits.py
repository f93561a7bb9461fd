"""Limits by state: paired readings, tolerance factors, zinc; worked cases, printed factors and scipy beside them."""

import json
import math
from decimal import Decimal
from typing import Any

import pytest
from case_files import worked
from flask.testing import FlaskClient
from problem_documents import problem
from scipy import integrate, stats

from boltwright_server.stations.tolerance_factors import one_sided, two_sided

DATA = worked("state_limits")


def share(key: str) -> tuple[float, float]:
    content, confidence = key.split("_")[-2:]
    return float(content) / 100, float(confidence) / 100


@pytest.mark.parametrize("key", DATA["factors"])
def test_factors(key: str) -> None:
    content, confidence = share(key)
    factor = two_sided if key.startswith("two") else one_sided
    for n, k in DATA["factors"][key].items():
        assert factor(int(n), content, confidence) == pytest.approx(float(k), abs=1e-4)


def test_factors_as_a_handbook_prints_them() -> None:
    """Environmental-statistics handbook, tolerance intervals: two decimals, some of them cut and not rounded."""
    for n, k in DATA["printed"].items():
        assert two_sided(int(n), 0.95, 0.95) == pytest.approx(float(k), abs=0.01)


@pytest.mark.parametrize("n", [3, 5, 10, 50, 300, 5000])
@pytest.mark.parametrize(("content", "confidence"), [(0.9, 0.9), (0.99, 0.95), (0.5, 0.5), (0.999, 0.99)])
def test_the_one_sided_factor_is_a_noncentral_t(n: int, content: float, confidence: float) -> None:
    away = stats.norm.ppf(content) * math.sqrt(n)
    wanted = stats.nct.ppf(confidence, n - 1, away) / math.sqrt(n)
    assert one_sided(n, content, confidence) == pytest.approx(wanted, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("n", [2, 5, 12, 60, 400])
@pytest.mark.parametrize(("content", "confidence"), [(0.9, 0.9), (0.9973, 0.95)])
def test_the_two_sided_factor_reaches_its_confidence(n: int, content: float, confidence: float) -> None:
    """Howe's integral over the mean of the sample, by scipy: the other way round than the engine's over its spread."""
    k = two_sided(n, content, confidence)

    def inner(mean: float) -> float:
        low, high = 0.0, abs(mean) + 10
        for _ in range(80):
            half = (low + high) / 2
            held = stats.norm.cdf(mean + half) - stats.norm.cdf(mean - half)
            low, high = (half, high) if held < content else (low, half)
        return float(stats.chi2.sf((n - 1) * (low / k) ** 2, n - 1) * stats.norm.pdf(mean, scale=1 / math.sqrt(n)))

    reached = 2 * integrate.quad(inner, 0, 9 / math.sqrt(n), epsabs=1e-10)[0]
    assert reached == pytest.approx(confidence, abs=1e-7)


def body(case: dict[str, Any]) -> dict[str, Any]:
    low, high = (None if limit is None else float(limit) for limit in case["final_limits"])
    return {
        "min": low,
        "max": high,
        "unit": case["unit"],
        "before": [float(one) for one in case["paired_before"]],
        "after": [float(one) for one in case["paired_after"]],
        "step": float(case["rounding_step"]),
    }


@pytest.mark.parametrize("case", DATA["cases"], ids=[one["name"] for one in DATA["cases"]])
def test_paired_readings(case: dict[str, Any], client: FlaskClient) -> None:
    answer = client.post("/v1/state-limits", json=body(case))
    wanted = case["expected"]
    if wanted["refused"]:
        figures = problem(answer, 422, "nothing_remains")["figures"]
        assert [figures["min"], figures["max"]] == pytest.approx([float(one) for one in wanted["raw"]], abs=2e-6)
        return
    found = json.loads(answer.data, parse_float=Decimal)
    assert (found["n"], found["sides"]) == (wanted["n"], wanted["sided"])
    assert found["shift"] == pytest.approx(wanted["shift"], abs=Decimal("1e-6"))
    assert found["standard_deviation"] == pytest.approx(wanted["s"], abs=Decimal("1e-6"))
    assert found["factor"] == pytest.approx(wanted["k"], abs=Decimal("1e-4"))
    limits = [None if one is None else Decimal(one) for one in wanted["in_process"]]
    assert [found["min"], found["max"]] == limits


@pytest.mark.parametrize("case", DATA["zinc_cases"], ids=[one["name"] for one in DATA["zinc_cases"]])
def test_zinc(case: dict[str, Any], client: FlaskClient) -> None:
    """ISO 4042: the pitch diameter grows by four thicknesses and must not cross the basic profile."""
    asked = {
        "designation": case["name"].partition(",")[0],
        "characteristic": "thread_pitch_diameter",
        "coating_thickness": {"min": float(case["in"]["tmin"]), "max": float(case["in"]["tmax"])},
    }
    answer = client.post("/v1/state-limits", json=asked)
    if case["expected"]["refused"]:
        problem(answer, 422, "nothing_remains")
        return
    found = json.loads(answer.data, parse_float=str)
    assert [found["min"], found["max"]] == case["expected"]["before_zinc"]
