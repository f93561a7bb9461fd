"""POST /v1/state-limits: members, units, what is told and what is refused. Worked cases stand in tests/worked_cases."""

import json
import random
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

BEFORE = [8.94, 8.926, 8.912, 8.913, 8.927, 8.932, 8.925, 8.907, 8.929, 8.927]
AFTER = [8.948, 8.928, 8.916, 8.913, 8.931, 8.933, 8.929, 8.913, 8.94, 8.931]
PAIRS = {"before": BEFORE, "after": AFTER}
D2 = {"designation": "M10-6g", "characteristic": "thread_pitch_diameter"}


def post(client: FlaskClient, **body: Any) -> dict[str, Any]:
    answer = client.post("/v1/state-limits", json=body)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = json.loads(answer.data, parse_float=Decimal)
    return found


def test_limits_of_a_designation_and_given_ones_agree(client: FlaskClient) -> None:
    """ISO 965-2, M10-6g: d2 8.862 to 8.994 mm."""
    of = post(client, **D2, **PAIRS, state="rolled", final_state="hardened")
    given = post(client, min=8.862, max=8.994, unit="mm", **PAIRS)
    for member in ("min", "max", "exact", "shift", "factor"):
        assert of[member] == given[member]
    assert (of["state"], of["final_state"], of["characteristic"]) == ("rolled", "hardened", "thread_pitch_diameter")


@pytest.mark.parametrize(
    ("unit", "times", "step", "limits"),
    [
        ("um", 1000, None, ["8869", "8978"]),
        ("um", 1000, 0.5, ["8869.0", "8978.0"]),
        ("um", 1000, 5, ["8870", "8975"]),
        ("in", None, None, ["0.3492", "0.3534"]),
    ],
)
def test_limits_in_the_unit_of_the_readings(
    unit: str, times: float | None, step: float | None, limits: list[str], client: FlaskClient
) -> None:
    """Rounded inwards in that unit: 8.868706 mm is 0.349162 in, 8.978494 mm is 0.353484 in."""
    factor = Decimal(times) if times is not None else 1 / Decimal("25.4")
    pairs = {name: [float(Decimal(str(one)) * factor) for one in column] for name, column in PAIRS.items()}
    body = {**D2, **pairs, "unit": unit} | ({} if step is None else {"step": step})
    found = post(client, **body)
    assert [str(found["min"]), str(found["max"])] == limits
    assert found["exact"]["min"] <= found["min"]
    assert found["max"] <= found["exact"]["max"]


def test_one_limit_takes_the_one_sided_factor(client: FlaskClient) -> None:
    pairs = {"before": [280, 290, 300], "after": [275, 286, 295]}
    hardness = post(client, min=250, max=None, unit="HV", **pairs)
    assert (hardness["sides"], hardness["max"]) == (1, None)
    assert hardness["min"] == Decimal(str(hardness["min"])).to_integral_value()


def test_few_pairs_and_a_steep_slope_are_told(client: FlaskClient) -> None:
    few = post(client, min=0, max=100, unit="um", before=[50, 52, 54], after=[51, 53, 55])
    assert any("few" in line for line in few["notices"])
    before = [float(one) for one in range(40, 60)]
    after = [one + 0.3 * (one - 50) for one in before]
    steep = post(client, min=0, max=200, unit="um", before=before, after=after)
    assert steep["slope"] == pytest.approx(Decimal("0.3"), abs=Decimal("1e-9"))
    assert any("depends on the size" in line for line in steep["notices"])


def test_a_slope_within_its_own_errors_is_not_told(client: FlaskClient) -> None:
    """Ten readings of hardness scatter so much that a slope of 0.3 says nothing."""
    pairs = {
        "before": [280, 281, 282, 283, 284, 285, 286, 287, 288, 289],
        "after": [282, 273, 289, 279, 280, 295, 282, 293, 286, 297],
    }
    found = post(client, min=100, max=None, unit="HV", **pairs)
    assert found["slope"] > Decimal("0.2")
    assert found["notices"] == []


def test_pieces_that_all_change_alike(client: FlaskClient) -> None:
    found = post(client, min=0, max=10, unit="mm", before=[5, 5, 5], after=[5.1, 5.1, 5.1])
    assert (found["standard_deviation"], found["slope"]) == (0, None)
    assert (found["min"], found["max"]) == (Decimal("-0.100"), Decimal("9.900"))


@pytest.mark.parametrize(
    ("body", "limits"),
    [
        ({"designation": "M10-6g", "characteristic": "thread_major_diameter"}, ("9.732", "9.968")),
        ({"designation": "M10-6H", "characteristic": "thread_pitch_diameter"}, ("9.074", "9.206")),
        ({"designation": "M10-6H", "characteristic": "thread_minor_diameter"}, ("8.400", "8.676")),
    ],
)
def test_geometry_of_a_coating(body: dict[str, str], limits: tuple[str, str], client: FlaskClient) -> None:
    """ISO 4042: 12 um move the pitch diameter by 48, the crest by 24; ISO 965-2: D2 from 9.026, D1 from 8.376."""
    found = post(client, **body, coating_thickness={"max": {"value": 12, "unit": "um"}})
    assert (str(found["min"]), str(found["max"])) == limits


@pytest.mark.parametrize(
    ("body", "code", "pointer"),
    [
        ({**D2}, "missing_member", "/before"),
        ({**D2, "before": BEFORE}, "missing_member", "/after"),
        ({**D2, "before": BEFORE, "after": AFTER[:9]}, "unequal_columns", "/after"),
        ({**D2, "before": [8.9], "after": [8.9]}, "out_of_range", "/before"),
        ({**D2, **PAIRS, "min": 8}, "contradiction", "/min"),
        ({"designation": "M10-6g", **PAIRS}, "missing_member", "/characteristic"),
        (
            {"designation": "M10-6g", "characteristic": "head_height", **PAIRS},
            "unknown_characteristic",
            "/characteristic",
        ),
        (PAIRS, "missing_member", "/min"),
        ({"min": 8, **PAIRS}, "missing_member", "/unit"),
        ({"min": 9, "max": 8, "unit": "mm", **PAIRS}, "contradiction", "/min"),
        ({**D2, **PAIRS, "unit": "HV"}, "unit_does_not_fit", "/unit"),
        ({**D2, **PAIRS, "step": 0}, "invalid", "/step"),
        ({**D2, **PAIRS, "content": 1}, "invalid", "/content"),
        ({**D2, **PAIRS, "state": "painted"}, "invalid", "/state"),
        ({**D2, **PAIRS, "coating_thickness": {"max": 0.01}}, "contradiction", "/before"),
        ({**D2, "coating_thickness": {"max": 0}}, "invalid", "/coating_thickness/max"),
        ({**D2, "coating_thickness": {"min": 0.02, "max": 0.01}}, "contradiction", "/coating_thickness/min"),
        ({"min": 8, "unit": "mm", "coating_thickness": {"max": 0.01}}, "missing_member", "/designation"),
        (
            {"designation": "M10-6g", "characteristic": "thread_minor_diameter", "coating_thickness": {"max": 0.01}},
            "unknown_characteristic",
            "/characteristic",
        ),
        ({**D2, "before": ["8.9", 8.9], "after": [8.9, 8.9]}, "wrong_type", "/before/0"),
        ({**D2, **PAIRS, "shift": 0.004}, "unknown_member", "/shift"),
    ],
)
def test_what_cannot_be_answered(body: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    assert pointers(problem(client.post("/v1/state-limits", json=body), 422, code)) == [pointer]


COATED = {**D2, "coating_thickness": {"max": {"value": 12, "unit": "um"}}}


@pytest.mark.parametrize(
    ("body", "expressions"),
    [
        ({**D2, **PAIRS}, {"min": "L - m + k*s", "max": "U - m - k*s"}),
        ({"min": 250, "unit": "HV", "before": [270, 280, 290], "after": [268, 277, 287]}, {"min": "L - m + k*s"}),
        (COATED, {"min": "L", "max": "min(U, D - 4*t)"}),
        ({**COATED, "unit": "um"}, {"min": "L", "max": "min(U, D - 4*t)"}),
        ({**COATED, "designation": "M10-6G"}, {"min": "max(L, D + 4*t)", "max": "U"}),
    ],
)
def test_the_derivation_ends_in_the_limits(
    body: dict[str, Any], expressions: dict[str, str], client: FlaskClient
) -> None:
    found = post(client, **body, explain=True)
    steps = {step["answers"]: step for step in found["derivation"]}
    assert {side: step["expression"] for side, step in steps.items()} == expressions
    for side, step in steps.items():
        assert step["rounded"] == found[side]
        assert step["unit"] == found["unit"]
    plain = post(client, **body)
    assert "derivation" not in plain
    assert {**plain, "derivation": found["derivation"]} == found


@pytest.mark.parametrize(
    ("unit", "low", "high", "scatter", "step", "multiple"),
    [
        ("um", 8862, 8994, 3, None, 1),
        ("um", 8862, 8994, 3, 0.5, Fraction(1, 2)),
        ("mm", 8.862, 8.994, 0.003, 0.0005, Fraction(1, 2000)),
        ("in", 0.6773, 0.685, 0.0002, None, Fraction(1, 10_000)),
        ("in", 0.6773, 0.685, 0.0002, 0.00005, Fraction(1, 20_000)),
        ("N", 48_200, 65_000, 170, None, 10),
        ("HV", 250, 320, 1.5, None, 1),
        ("HV", 250, None, 1.5, None, 1),
        ("HV", None, 320, 1.5, 5, 5),
    ],
)
def test_every_rounding_is_inwards_by_less_than_a_step(
    unit: str,
    low: float | None,
    high: float | None,
    scatter: float,
    step: float | None,
    multiple: Fraction | int,
    client: FlaskClient,
) -> None:
    """Common practice: a limit that is rounded outwards passes what it must not."""
    middle = low if high is None else high if low is None else (low + high) / 2
    for seed in range(25):
        chance = random.Random(seed)
        before = [round(chance.gauss(middle or 0, 3 * scatter), 5) for _ in range(12)]
        after = [round(chance.gauss(one + scatter, scatter / 3), 5) for one in before]
        body = {"unit": unit, "before": before, "after": after} | ({} if step is None else {"step": step})
        found = post(client, min=low, max=high, **body)
        for side, sign in (("min", 1), ("max", -1)):
            if found[side] is not None:
                rounded, exact = Fraction(found[side]), Fraction(found["exact"][side])
                assert 0 <= sign * (rounded - exact) < multiple
                assert rounded % multiple == 0
