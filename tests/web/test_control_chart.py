"""POST /v1/control-chart: limits by the factors of ISO 7870-2:2013, run rules as patterns made by hand.

Factors and the public piston ring limits stand in tests/published/iso_7870_2_2013. The wording of the rules is from
memory (ISO 8258:1991, ISO 7870-2:2013).
"""

from typing import Any

import numpy as np
import pytest
from drawn import Drawing
from flask.testing import FlaskClient
from problem_documents import pointers, problem

#: Individuals with a mean of 0 and a moving range that makes sigma about 1.
QUIET = [0.5, -0.5] * 20


def ask(client: FlaskClient, **body: Any) -> dict[str, Any]:
    answer = client.post("/v1/control-chart", json=body)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def test_means_and_ranges(client: FlaskClient) -> None:
    """Subgroups of 3: A2 1.023, D4 2.574."""
    found = ask(client, values=[1, 2, 3, 2, 3, 4, 3, 4, 5], subgroup_size=3, rules=["outside_limits"])
    mean, spread = found["charts"]
    assert (mean["centre_line"], spread["centre_line"]) == (3, 2)
    assert mean["upper_control_limit"] == pytest.approx(3 + 1.02333 * 2, abs=1e-4)
    assert spread["upper_control_limit"] == pytest.approx(2.57459 * 2, abs=1e-4)
    assert spread["lower_control_limit"] == 0
    assert mean["points"] == [2, 3, 4]


def test_individuals_stand_2_66_moving_ranges_apart(client: FlaskClient) -> None:
    chart = ask(client, values=[10.0, 11.0, 10.0, 11.0], chart="individuals")["charts"][0]
    assert chart["upper_control_limit"] == pytest.approx(10.5 + 2.660, abs=2e-3)


def test_a_quiet_process_is_in_control(client: FlaskClient) -> None:
    found = ask(client, values=QUIET, chart="individuals", rules=["outside_limits"])
    assert (found["in_control"], found["signals"]) == (True, [])


@pytest.mark.parametrize(
    ("rule", "pattern"),
    [
        ("outside_limits", [4.0]),
        ("nine_same_side", [0.2] * 9),
        ("seven_same_side", [0.2] * 7),
        ("six_trend", [0.1, 0.2, 0.3, 0.4, 0.5, 0.6]),
        ("seven_trend", [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7]),
        ("two_of_three_beyond_two_sigma", [2.4, 0.1, 2.4]),
        ("four_of_five_beyond_one_sigma", [1.4, 1.4, 0.1, 1.4, 1.4]),
    ],
)
def test_a_rule_fires_at_the_last_point_of_its_pattern(rule: str, pattern: list[float], client: FlaskClient) -> None:
    before = 0.9 if "trend" in rule else -0.3  # so that the point before is no part of the pattern
    values = [*QUIET, before, *pattern, -0.3, *QUIET]
    found = ask(client, values=values, chart="individuals", rules=[rule])
    signal = next(one for one in found["signals"] if one["chart"] == "individuals")
    assert (signal["rule"], signal["points"][-1]) == (rule, len(QUIET) + len(pattern))
    shorter = [*QUIET, before, *pattern[1:], -0.3, *QUIET]
    assert ask(client, values=shorter, chart="individuals", rules=[rule])["signals"] == []


@pytest.mark.parametrize(
    ("rule", "pattern"),
    [
        ("fourteen_alternating", [0.7, 0.1] * 7),
        ("fifteen_within_one_sigma", [0.3, -0.2, 0.1] * 5),
        ("eight_outside_one_sigma", [1.3, -1.4, 1.5, -1.3, -1.6, 1.4, 1.3, -1.5]),
    ],
)
def test_a_longer_pattern_fires_at_its_last_point(rule: str, pattern: list[float], client: FlaskClient) -> None:
    """With mean 0 and standard deviation 1 given, so that the zones stand where the rule says."""
    given = {"given_mean": 0, "given_standard_deviation": 1}
    ahead = [0.6, 1.2, 1.2] if rule == "fifteen_within_one_sigma" else [0.2, 0.7, 0.7]  # no part of the pattern
    found = ask(client, values=[*ahead, *pattern], chart="individuals", rules=[rule], **given)
    assert [(one["rule"], one["points"]) for one in found["signals"]] == [(rule, [len(ahead) + len(pattern) - 1])]
    assert ask(client, values=[*ahead, *pattern[:-1]], chart="individuals", rules=[rule], **given)["signals"] == []


def test_eight_points_on_one_side_alone_are_no_mixture(client: FlaskClient) -> None:
    """Eight points beyond one standard deviation make a signal only where both sides have some."""
    given = {"given_mean": 0, "given_standard_deviation": 1, "rules": ["eight_outside_one_sigma"]}
    for side in (1, -1):
        assert ask(client, values=[1.3 * side] * 8, chart="individuals", **given)["signals"] == []


#: Chance of a false signal at a point of a process in control; computed from the normal distribution and from orders.
FALSE_ALARMS = {
    "outside_limits": 0.0027,
    "seven_same_side": 2 / 2**7,
    "nine_same_side": 2 / 2**9,
    "six_trend": 2 / 720,
    "seven_trend": 2 / 5040,
}


@pytest.mark.parametrize("rule", FALSE_ALARMS)
def test_false_alarms_are_as_rare_as_the_rule_makes_them(rule: str, client: FlaskClient) -> None:
    values = np.random.default_rng(12).normal(0, 1, 200_000).round(6).tolist()
    given = {"given_mean": 0, "given_standard_deviation": 1}
    found = ask(client, values=values, chart="individuals", rules=[rule], **given)
    fired = next(len(one["points"]) for one in found["signals"] if one["chart"] == "individuals")
    assert fired / 200_000 == pytest.approx(FALSE_ALARMS[rule], rel=0.12)


def test_limits_from_given_values(client: FlaskClient) -> None:
    """ISO 7870-2, pre-specified values, n = 4: A 1.5, d2 2.059, D2 4.698; c4 0.9213, B6 2.088 (handbook tables)."""
    values = [10.0, 10.2, 9.9, 10.1] * 3
    given = {"subgroup_size": 4, "given_mean": 10, "given_standard_deviation": 0.2}
    mean, spread = ask(client, values=values, **given)["charts"]
    assert (mean["lower_control_limit"], mean["upper_control_limit"]) == pytest.approx((9.7, 10.3))
    assert spread["centre_line"] == pytest.approx(0.2 * 2.059, abs=2e-4)
    assert spread["upper_control_limit"] == pytest.approx(0.2 * 4.698, abs=2e-4)
    _, spread = ask(client, values=values, chart="mean_and_standard_deviation", **given)["charts"]
    assert spread["centre_line"] == pytest.approx(0.2 * 0.9213, abs=2e-4)
    assert spread["upper_control_limit"] == pytest.approx(0.2 * 2.088, abs=2e-4)


def test_rules_are_switched_one_by_one_and_their_wording_is_from_memory(client: FlaskClient) -> None:
    found = ask(client, values=QUIET, chart="individuals", rules=["six_trend", "six_trend"])
    assert found["rules"] == ["six_trend"]
    assert [(one["standard"], one["checked"]) for one in found["rules_basis"]] == [("ISO 8258", "memory")]
    assert ask(client, values=QUIET, chart="individuals", rules=[])["rules_basis"] == []


def test_few_points_make_provisional_limits(client: FlaskClient) -> None:
    assert any("provisional" in one for one in ask(client, values=QUIET[:10], chart="individuals")["notices"])
    assert not any("provisional" in one for one in ask(client, values=QUIET, chart="individuals")["notices"])


def test_the_drawing(client: FlaskClient) -> None:
    body = {"values": [*QUIET, 9.0], "chart": "individuals", "title": "Pitch diameter", "unit": "um"}
    answer = client.post("/v1/control-chart", json=body, headers={"Accept": "image/svg+xml"})
    assert answer.content_type.startswith("image/svg+xml")
    drawn = Drawing(answer.get_data(as_text=True))
    assert (drawn.clashes(), drawn.outside()) == ([], [])
    assert "Single values, µm" in drawn.lettering()
    assert "a point outside the control limits (single values): 41" in drawn.lettering()


def test_a_set_of_rules_is_named_by_its_standard(client: FlaskClient) -> None:
    found = ask(client, values=QUIET, chart="individuals", rule_set="ISO 8258")
    assert len(found["rules"]) == 8
    assert "fourteen_alternating" in [signal["rule"] for signal in found["signals"]]


@pytest.mark.parametrize(
    ("body", "code", "pointer"),
    [
        ({"values": [1, 2]}, "out_of_range", "/values"),
        ({"values": QUIET, "subgroup_size": 1}, "out_of_range", "/subgroup_size"),
        ({"values": QUIET, "subgroup_size": 26}, "invalid", "/subgroup_size"),
        ({"values": QUIET, "chart": "pie"}, "invalid", "/chart"),
        ({"values": QUIET, "rules": ["luck"]}, "invalid", "/rules/0"),
        ({"values": QUIET, "rule_set": "mine"}, "invalid", "/rule_set"),
        ({"values": [1, "2"]}, "wrong_type", "/values/1"),
        ({"values": QUIET, "given_mean": 1}, "missing_member", "/given_standard_deviation"),
        (
            {"values": QUIET, "given_mean": 1, "given_standard_deviation": 0},
            "contradiction",
            "/given_standard_deviation",
        ),
        ({}, "missing_member", "/values"),
    ],
)
def test_what_cannot_be_answered(body: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    assert pointers(problem(client.post("/v1/control-chart", json=body), 422, code)) == [pointer]
