"""POST /v1/control-chart: limits by the factors of ISO 7870-2:2013, run rules as patterns made by hand.

Factors and the public piston ring limits stand in tests/published/iso_7870_2_2013. The wording of the rules is from
memory (ISO 8258:1991, ISO 7870-2:2013).
"""

from typing import Any

import pytest
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
        ({}, "missing_member", "/values"),
    ],
)
def test_what_cannot_be_answered(body: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    assert pointers(problem(client.post("/v1/control-chart", json=body), 422, code)) == [pointer]
