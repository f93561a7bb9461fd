"""Questions about control charts and capability."""

from __future__ import annotations

import csv
from fractions import Fraction
from functools import cache

import numpy as np

from boltwright_server.statistics import RULE_SETS, capability, control_chart
from boltwright_server.statistics.narrow_limits import chances, decide, zones
from boltwright_server.statistics.run_rules import RULES, Chart
from boltwright_server.statistics.subgroups import factor

from ..check import PUBLISHED, Cells, Check
from ..comparison import Answer, Rounded, Within

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
    found = capability(values, *_LIMITS, subgroup_size=n)
    by_range, by_deviation = (
        control_chart(values, kind, n, RULE_SETS["ISO 7870-2"])
        for kind in ("mean_and_range", "mean_and_standard_deviation")
    )
    assert by_range.in_control
    assert by_deviation.in_control
    (means, ranges), (means_s, deviations) = by_range.charts, by_deviation.charts
    sigma_s = deviations.centre / factor("c4", n)
    indices = {"Cp_R": found.cp, "Cpk_R": found.cpk, "Cp_total": found.pp, "Cpk_total": found.ppk}
    return {
        "xbarbar": found.mean,
        "Rbar": ranges.centre,
        "sbar": deviations.centre,
        "UCLx_R": means.upper,
        "LCLx_R": means.lower,
        "UCL_R": ranges.upper,
        "UCLx_s": means_s.upper,
        "LCLx_s": means_s.lower,
        "UCL_s": deviations.upper,
        "sigma_R": found.standard_deviation_within or 0.0,
        "sigma_s": sigma_s,
        "s_total": found.standard_deviation_overall or 0.0,
        "Cp_s": (_LIMITS[1] - _LIMITS[0]) / (6 * sigma_s),
        "Cpk_s": min(_LIMITS[1] - found.mean, found.mean - _LIMITS[0]) / (3 * sigma_s),
        **{name: index.value for name, index in indices.items() if index is not None},
    }


def _subgroups() -> np.ndarray:
    with (PUBLISHED / "iso_7870_2_2013" / "piston_rings.csv").open(encoding="utf-8", newline="") as file:
        return np.array([[float(row[f"x{at}"]) for at in range(1, 6)] for row in csv.DictReader(file)])


def run_rule(row: Cells, check: Check) -> Answer:
    """Where a run rule fires on points in standard deviations, and the sets that have the rule."""
    points = np.array([float(text) for text in row["points"].split()])
    fired = RULES[row["rule"]].fires(Chart("mean", points, 0.0, -3.0, 3.0, 1.0))
    sets = [name for name, rules in RULE_SETS.items() if row["rule"] in rules]
    return {"fires_at": " ".join(map(str, np.flatnonzero(fired))) or "none", "sets": " ".join(sets)}


def narrow_limits(row: Cells, check: Check) -> Answer:
    """What to do after each piece of a tolerance of 0 to 8, from a set-up that is not qualified."""
    steps = decide([Fraction(text) for text in row["readings"].split()], zones(Fraction(0), Fraction(8), None))
    return {"actions": " ".join(step.action for step in steps)}


def narrow_limit_chances(row: Cells, check: Check) -> Answer:
    """Chance of the target zone and of a stop for a centred process of that capability, in percent."""
    found = chances(zones(Fraction(-3), Fraction(3), None), 0.0, 1.0 / float(row["Cp"]))
    return {"target_zone_percent": Rounded(100 * found.target_zone), "stop_percent": Rounded(100 * found.stop)}


QUESTIONS = {
    "narrow_limits": narrow_limits,
    "narrow_limit_chances": narrow_limit_chances,
    "run_rule": run_rule,
    "control_chart_factors": control_chart_factors,
    "piston_rings": piston_rings,
}
