"""Questions about control charts and capability."""

from __future__ import annotations

import csv
from functools import cache

import numpy as np

from boltwright_server.process import capability
from boltwright_server.process.subgroups import factor

from ..check import PUBLISHED, Cells, Check
from ..comparison import Answer, Within

_LIMITS = (73.95, 74.05)


def control_chart_factors(row: Cells, check: Check) -> Answer:
    """The factors for a subgroup size; single cells of the print are off by one in the last digit."""
    margin = check.allowed_difference
    assert margin is not None
    return {name: Within.of(factor(name, int(row["n"])), margin) for name in check.expected}


def piston_rings(row: Cells, check: Check) -> Answer:
    """Means, limits and indices of the public data set of forged piston rings."""
    margin = check.allowed_difference
    assert margin is not None
    return {"value": Within.of(_results()[row["quantity"]], margin)}


@cache
def _results() -> dict[str, float]:
    groups = _subgroups()
    n, values = groups.shape[1], groups.ravel()
    middle = float(values.mean())
    spread, deviation = float(np.ptp(groups, axis=1).mean()), float(groups.std(axis=1, ddof=1).mean())
    found = capability(values, *_LIMITS, subgroup_size=n)
    assert found.cp is not None
    assert found.cpk is not None
    assert found.pp is not None
    assert found.ppk is not None
    by_deviation = deviation / factor("c4", n)
    nearest = min(_LIMITS[1] - middle, middle - _LIMITS[0])
    return {
        "xbarbar": found.mean,
        "Rbar": spread,
        "sbar": deviation,
        "UCLx_R": middle + factor("A2", n) * spread,
        "LCLx_R": middle - factor("A2", n) * spread,
        "UCL_R": factor("D4", n) * spread,
        "UCLx_s": middle + factor("A3", n) * deviation,
        "LCLx_s": middle - factor("A3", n) * deviation,
        "UCL_s": factor("B4", n) * deviation,
        "sigma_R": found.standard_deviation_within or 0.0,
        "sigma_s": by_deviation,
        "s_total": found.standard_deviation_overall or 0.0,
        "Cp_R": found.cp.value,
        "Cpk_R": found.cpk.value,
        "Cp_s": (_LIMITS[1] - _LIMITS[0]) / (6 * by_deviation),
        "Cpk_s": nearest / (3 * by_deviation),
        "Cp_total": found.pp.value,
        "Cpk_total": found.ppk.value,
    }


def _subgroups() -> np.ndarray:
    with (PUBLISHED / "iso_7870_2_2013" / "piston_rings.csv").open(encoding="utf-8", newline="") as file:
        return np.array([[float(row[f"x{at}"]) for at in range(1, 6)] for row in csv.DictReader(file)])


QUESTIONS = {"control_chart_factors": control_chart_factors, "piston_rings": piston_rings}
