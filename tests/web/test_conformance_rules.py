"""POST /v1/conformance: decision rules, uncertainty and units. One test a sentence of the contract.

ISO 14253-1:2013 and :2017, ASTM E29; the worked values stand in tests/published/iso_14253_1_2017 and astm_e29, the
exactness at every edge in tests/unit/conformance.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import bolts, characteristic, judged, post, request
from problem_documents import pointers, problem

FLATS = "width_across_flats"  # 15.73 to 16.00


def flats(client: FlaskClient, value: float, U: float | None = None, rule: Any = None, **beside: Any) -> str:
    """Return the verdict on one width across flats."""
    column = {"values": [value], **beside}
    if U is not None:
        column["expanded_uncertainty"] = U
    members = {} if rule is None else {"decision_rule": rule}
    verdict: str = characteristic(client, FLATS, column, **members)["verdict"]
    return verdict


def test_simple_is_the_default_and_compares_with_the_limit_itself(client: FlaskClient) -> None:
    assert flats(client, 16.0) == flats(client, 15.73) == "conforming"
    assert flats(client, 16.001) == flats(client, 15.729) == "nonconforming"
    assert flats(client, 16.0, U=0.5) == "conforming", "uncertainty alone guards nothing"


def test_guarded_is_the_edition_of_2017(client: FlaskClient) -> None:
    """u = 0.005: conforming up to 15.99175, nonconforming above 16.00825."""
    for rule in ("guarded", {"rule": "guarded"}, {"rule": "guarded", "edition": "2017"}):
        assert flats(client, 15.99175, 0.01, rule) == "conforming"
        assert flats(client, 15.99176, 0.01, rule) == "undecided"
        assert flats(client, 16.00825, 0.01, rule) == "undecided"
        assert flats(client, 16.00826, 0.01, rule) == "nonconforming"


def test_guarded_2013_takes_2_u_for_both(client: FlaskClient) -> None:
    rule = {"rule": "guarded", "edition": "2013"}
    assert flats(client, 15.99, 0.01, rule) == "conforming"
    assert flats(client, 15.991, 0.01, rule) == "undecided"
    assert flats(client, 16.01, 0.01, rule) == "undecided"
    assert flats(client, 16.011, 0.01, rule) == "nonconforming"


def test_a_small_tolerance_takes_the_two_sided_factor(client: FlaskClient) -> None:
    """T = 4 u: g = 1.796 u, so only the middle 0.408 u can be proved; T < 3.92 u: nothing can."""
    limits = {"requirements": {FLATS: {"min": 0, "max": 0.02}}, "decision_rule": "guarded"}

    def verdict(value: float, U: float) -> dict[str, Any]:
        return characteristic(client, FLATS, {"values": [value], "expanded_uncertainty": U}, **limits)

    assert verdict(0.010, 0.01)["verdict"] == "conforming"
    assert verdict(0.0111, 0.01)["verdict"] == "undecided"
    nothing = verdict(0.010, 0.011)
    assert nothing["verdict"] == "undecided"
    assert (nothing["acceptance_limits"]["min"], nothing["acceptance_limits"]["max"]) == (None, None)
    assert nothing["acceptance_limits"]["attainable"] is False


def test_acceptance_limits_are_not_rounded(client: FlaskClient) -> None:
    column = {"values": [15.9], "expanded_uncertainty": 0.0123}
    found = characteristic(client, FLATS, column, decision_rule="guarded")["acceptance_limits"]
    assert (found["min"], found["max"]) == pytest.approx((15.73 + 0.0101475, 16.00 - 0.0101475), abs=1e-12)


def test_u_is_the_expanded_uncertainty_over_its_factor(client: FlaskClient) -> None:
    assert flats(client, 15.99175, 0.015, "guarded", coverage_factor=3) == "conforming"
    assert flats(client, 15.99176, 0.015, "guarded", coverage_factor=3) == "undecided"


def test_an_uncertainty_of_0_is_allowed_and_a_negative_one_is_not(client: FlaskClient) -> None:
    assert flats(client, 16.0, 0, "guarded") == "conforming"
    for beside in ({"expanded_uncertainty": -0.01}, {"expanded_uncertainty": 0.01, "coverage_factor": 0}):
        body = request({FLATS: {"values": [15.9], **beside}})
        found = problem(post(client, body), 422, "invalid")
        assert pointers(found)[0].startswith(f"/readings/{FLATS}/")


def test_a_measured_column_needs_its_uncertainty_under_a_guarded_rule(client: FlaskClient) -> None:
    found = problem(post(client, request({FLATS: [15.9]}, decision_rule="guarded")), 422, "uncertainty_missing")
    assert pointers(found) == [f"/readings/{FLATS}/expanded_uncertainty"]


def test_attributes_and_categories_need_none(client: FlaskClient) -> None:
    readings = {"thread_go_gauge": [True], "fracture_location": ["thread"], "marking": [True]}
    found = judged(client, readings, decision_rule="guarded")["characteristics"]
    assert {one["verdict"] for one in found.values()} == {"conforming"}


def test_absolute_compares_as_read(client: FlaskClient) -> None:
    assert flats(client, 16.004, rule="absolute") == "nonconforming"
    assert flats(client, 16.0, rule="absolute") == "conforming"


def test_rounded_goes_once_half_to_even_to_the_last_stated_digit(client: FlaskClient) -> None:
    """16.00 mm to 0.01: 16.005 is a tie and goes to the even 16.00; 15.73 is odd, so 15.725 goes to 15.72."""
    assert flats(client, 16.004, rule="rounded") == flats(client, 16.005, rule="rounded") == "conforming"
    assert flats(client, 16.0051, rule="rounded") == "nonconforming"
    assert flats(client, 15.7251, rule="rounded") == "conforming"
    assert flats(client, 15.725, rule="rounded") == "nonconforming"


def test_rounded_loads_and_hardness_go_to_their_own_digits(client: FlaskClient) -> None:
    """46 400 N to 100 N, 250 HV to 1 HV."""

    def verdict(id: str, value: float) -> str:
        readings = {id: [value]} | ({"fracture_location": ["thread"]} if id == "tensile_load" else {})
        found: str = judged(client, readings, decision_rule="rounded")["characteristics"][id]["verdict"]
        return found

    assert verdict("tensile_load", 46350) == "conforming"
    assert verdict("tensile_load", 46349) == "nonconforming"
    assert verdict("hardness_core", 249.5) == "conforming"
    assert verdict("hardness_core", 249.4) == "nonconforming"
    assert verdict("hardness_core", 320.5) == "conforming"
    assert verdict("hardness_core", 320.6) == "nonconforming"


def test_a_column_may_carry_a_rule_of_its_own(client: FlaskClient) -> None:
    own = {"values": [15.995] * 5, "expanded_uncertainty": 0.01, "decision_rule": "guarded"}
    found = judged(client, bolts(width_across_flats=own))["characteristics"]
    assert found[FLATS]["decision_rule"]["rule"] == "guarded"
    assert found["length"]["decision_rule"]["rule"] == "simple"
    assert found[FLATS]["verdict"] == "undecided"


@pytest.mark.parametrize(
    ("rule", "code"),
    [
        ("strict", "invalid"),
        ({"rule": "guarded", "edition": "2015"}, "invalid"),
        ({"rule": "simple", "edition": "2017"}, "invalid"),
        ({"edition": "2017"}, "missing_member"),
        ({"rule": "guarded", "k": 2}, "unknown_member"),
        (7, "wrong_type"),
        (["guarded"], "wrong_type"),
    ],
)
def test_an_unknown_rule_is_refused(rule: Any, code: str, client: FlaskClient) -> None:
    found = problem(post(client, request({FLATS: [15.9]}, decision_rule=rule)), 422, code)
    assert all(pointer.startswith("/decision_rule") for pointer in pointers(found))
    own = request({FLATS: {"values": [15.9], "decision_rule": rule}})
    found = problem(post(client, own), 422, code)
    assert all(pointer.startswith(f"/readings/{FLATS}/decision_rule") for pointer in pointers(found))


# Units


@pytest.mark.parametrize(
    ("unit", "inside", "outside"),
    [("mm", 16.0, 16.0001), ("um", 16000, 16001), ("in", 0.62992, 0.62993)],
)
def test_a_column_is_judged_in_its_own_unit(unit: str, inside: float, outside: float, client: FlaskClient) -> None:
    """16 mm = 0.629 921 259 ... in exactly."""
    assert flats(client, inside, unit=unit) == "conforming"
    assert flats(client, outside, unit=unit) == "nonconforming"


def test_the_uncertainty_is_in_the_unit_of_the_column(client: FlaskClient) -> None:
    assert flats(client, 15991.75, 10, "guarded", unit="um") == "conforming"
    assert flats(client, 15991.76, 10, "guarded", unit="um") == "undecided"


def test_statistics_and_acceptance_limits_are_in_the_unit_of_the_column(client: FlaskClient) -> None:
    found = characteristic(client, FLATS, {"values": [15900, 15910], "unit": "um"})
    same = characteristic(client, FLATS, {"values": [15.9, 15.91]})
    assert found["statistics"]["cp"] == pytest.approx(same["statistics"]["cp"])
    assert found["statistics"]["cpk"] == pytest.approx(same["statistics"]["cpk"])
    assert found["margin"] == pytest.approx(90)
    assert (found["statistics"]["unit"], found["statistics"]["max"]) == ("um", 15910)
    assert (found["acceptance_limits"]["unit"], found["acceptance_limits"]["max"]) == ("um", 16000)
    assert (found["limits"]["unit"], found["limits"]["max"]) == ("mm", 16.0), "the stored limit stays what it is"


@pytest.mark.parametrize(("id", "unit"), [(FLATS, "N"), ("tensile_load", "MPa"), ("length", "deg"), (FLATS, "HV")])
def test_a_unit_that_does_not_fit_is_refused(id: str, unit: str, client: FlaskClient) -> None:
    body = request({id: {"values": [15.9], "unit": unit}})
    assert pointers(problem(post(client, body), 422, "unit_does_not_fit")) == [f"/readings/{id}/unit"]


def test_an_unknown_unit_is_refused(client: FlaskClient) -> None:
    body = request({FLATS: {"values": [15.9], "unit": "inch"}})
    assert pointers(problem(post(client, body), 422, "invalid")) == [f"/readings/{FLATS}/unit"]


def test_a_reading_just_beside_a_limit_is_never_swallowed_by_a_double(client: FlaskClient) -> None:
    """16.00 mm is 16 000 um; the doubles next to 0.1 + 0.2 are not what was written."""
    assert flats(client, 15.999999999999998) == "conforming"
    assert flats(client, 16.000000000000004) == "nonconforming"
