"""GET /v1/sampling-plan. Plans and risks in tests/published/iso_2859_1_1999 and iso_3269; here the contract's form.

The zero-acceptance sample is checked by counting combinations, one lot after the other.
"""

from math import ceil, comb

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem


def ask(client: FlaskClient, **query: str | int) -> dict:  # type: ignore[type-arg]
    answer = client.get("/v1/sampling-plan", query_string=query)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict = answer.get_json()  # type: ignore[type-arg]
    return found


def test_a_plan_by_aql(client: FlaskClient) -> None:
    """ISO 2859-1:1999: lot 2 000, II, AQL 1.0: K, n 125, Ac 3, Re 4; P(accept) at the AQL 0.9633."""
    found = ask(client, scheme="ISO 2859-1", lot_size=2000, aql="1.0")
    assert (found["code_letter"], found["sample_size"]) == ("K", 125)
    assert (found["acceptance_number"], found["rejection_number"]) == (3, 4)
    assert found["producer_risk"]["at"] == 0.01
    assert found["producer_risk"]["value"] == pytest.approx(1 - binomial(125, 3, 0.01), abs=1e-9)
    assert binomial(125, 3, found["consumer_risk"]["at"]) == pytest.approx(found["consumer_risk"]["value"], abs=1e-6)
    assert found["operating_characteristic"]


def binomial(n: int, acceptance: int, p: float) -> float:
    return sum(comb(n, k) * p**k * (1 - p) ** (n - k) for k in range(acceptance + 1))


def test_points_are_given_where_they_are_asked_for(client: FlaskClient) -> None:
    found = ask(client, scheme="ISO 2859-1", lot_size=2000, aql="1.0", fractions="0.01,0.05")
    points = {one["fraction_nonconforming"]: one["acceptance_probability"] for one in found["operating_characteristic"]}
    assert points == pytest.approx({0.01: binomial(125, 3, 0.01), 0.05: binomial(125, 3, 0.05)}, abs=1e-9)


def test_a_small_lot_is_its_own_sample(client: FlaskClient) -> None:
    found = ask(client, scheme="ISO 2859-1", lot_size=10, aql="1.0")
    assert found["sample_size"] == 10
    assert any("whole lot" in notice for notice in found["notices"])


def accepted(lot: int, bad: int, n: int) -> float:
    return comb(lot - bad, n) / comb(lot, n)


@pytest.mark.parametrize("lot", [1, 2, 10, 57, 100, 500, 1200])
@pytest.mark.parametrize(("quality", "risk"), [("0.01", "0.1"), ("0.05", "0.05"), ("0.2", "0.5")])
def test_the_smallest_sample_that_keeps_the_risk(lot: int, quality: str, risk: str, client: FlaskClient) -> None:
    found = ask(client, scheme="zero-acceptance", lot_size=lot, limiting_quality=quality, consumer_risk=risk)
    bad, n = ceil(round(lot * float(quality), 9)), found["sample_size"]
    assert (found["acceptance_number"], found["rejection_number"]) == (0, 1)
    assert accepted(lot, bad, n) <= float(risk) + 1e-12
    assert n == 1 or accepted(lot, bad, n - 1) > float(risk)
    assert found["consumer_risk"]["value"] == pytest.approx(accepted(lot, bad, n), abs=1e-12)


def test_a_plan_of_fasteners_follows_lot_and_group(client: FlaskClient) -> None:
    """ISO 3269:2019, Table 1: lot 12 000, main dimensions: 15 pieces, a second sample after one nonconforming piece."""
    found = ask(client, scheme="ISO 3269", lot_size=12000, group="dimension")
    assert (found["edition"], found["sample_size"], found["acceptance_number"]) == ("2019", 15, 0)
    assert found["second_sample"]["sample_size"] == 15
    assert ask(client, scheme="ISO 3269", lot_size=12000, group="mechanical")["sample_size"] == 3
    both = ask(client, scheme="ISO 3269", lot_size=12000, group="mechanical", second_sample="true")
    assert both["second_sample"]["sample_size"] == 15
    assert any("Two texts differ" in notice for notice in both["notices"])
    for more in ({"group": "marking"}, {"category": 1}, {"edition": "2000", "aql": "1.0", "acceptance_number": 2}):
        plan = ask(client, scheme="ISO 3269", lot_size=12000, **more)
        assert plan["rejection_number"] == plan["acceptance_number"] + 1


@pytest.mark.parametrize(
    ("query", "code", "pointer"),
    [
        ({"scheme": "ISO 2859", "lot_size": 100, "aql": "1.0"}, "invalid", "/scheme"),
        ({"scheme": "ISO 2859-1", "lot_size": 100}, "missing_member", "/aql"),
        ({"scheme": "ISO 2859-1", "lot_size": 100, "aql": "1.1"}, None, "/aql"),
        ({"scheme": "ISO 2859-1", "lot_size": 100, "aql": "one"}, "wrong_type", "/aql"),
        ({"scheme": "ISO 2859-1", "lot_size": 0, "aql": "1.0"}, "invalid", "/lot_size"),
        ({"scheme": "ISO 2859-1", "lot_size": 1, "aql": "1.0"}, "out_of_range", "/lot_size"),
        ({"scheme": "ISO 2859-1", "lot_size": "many", "aql": "1.0"}, "wrong_type", "/lot_size"),
        ({"scheme": "ISO 2859-1", "lot_size": 100, "aql": "1.0", "level": "IV"}, None, "/level"),
        ({"scheme": "ISO 2859-1", "lot_size": 100, "aql": "1.0", "severity": "strict"}, None, "/severity"),
        ({"scheme": "ISO 2859-1", "lot_size": 100, "aql": "1.0", "consumer_risk": "0.1"}, "unknown_member", None),
        ({"scheme": "ISO 2859-1", "lot_size": 100, "aql": "1.0", "fractions": "2"}, "out_of_range", "/fractions"),
        ({"scheme": "zero-acceptance", "lot_size": 100}, "missing_member", "/limiting_quality"),
        (
            {"scheme": "zero-acceptance", "lot_size": 100, "limiting_quality": "1.5", "consumer_risk": "0.1"},
            "out_of_range",
            "/limiting_quality",
        ),
        ({"scheme": "ISO 3269", "lot_size": 100}, "missing_member", "/group"),
        ({"scheme": "ISO 3269", "lot_size": 100, "group": "colour"}, None, "/group"),
    ],
)
def test_what_cannot_be_answered(
    query: dict[str, str | int], code: str | None, pointer: str | None, client: FlaskClient
) -> None:
    answer = client.get("/v1/sampling-plan", query_string=query)
    assert answer.status_code in (404, 422)
    found = problem(answer, answer.status_code, code or answer.get_json(force=True)["code"])
    assert pointer is None or pointers(found) == [pointer]


def two_samples(n: int, second: int, p: float) -> float:
    """None in the first of two samples, or one in it and none in the second; by single terms."""
    return (1 - p) ** n + n * p * (1 - p) ** (n - 1) * (1 - p) ** second


@pytest.mark.parametrize(
    ("group", "n", "one_of", "two_of"), [("dimension", 15, 0.463, 0.633), ("mechanical", 3, 0.857, 0.920)]
)
def test_the_curve_is_that_of_the_plan_asked_for(
    group: str, n: int, one_of: float, two_of: float, client: FlaskClient
) -> None:
    """ISO 3269:2019, Table 1: 15 + 15 pieces accept 0.633 of lots with 5 %, the first sample alone 0.463; so 3 + 15."""
    plan: dict[str, str | int] = {"scheme": "ISO 3269", "lot_size": 12000, "group": group, "fractions": "0.05"}
    one = ask(client, **plan, second_sample="false")
    two = ask(client, **plan, second_sample="true")
    points = [found["operating_characteristic"][0] for found in (one, two)]
    assert [point["acceptance_probability"] for point in points] == pytest.approx([0.95**n, two_samples(n, 15, 0.05)])
    assert [round(point["acceptance_probability"], 3) for point in points] == [one_of, two_of]
    assert two["consumer_risk"]["at"] > one["consumer_risk"]["at"]
    # Drawn from a lot this large the binomial and the hypergeometric probabilities hardly differ.
    assert points[1]["finite_lot_acceptance_probability"] == pytest.approx(two_samples(n, 15, 0.05), abs=1e-3)
    assert points[1]["average_outgoing_fraction"] < 0.05 * points[1]["acceptance_probability"]


def test_the_curve_of_two_samples_of_a_small_lot_counts_its_pieces(client: FlaskClient) -> None:
    """A lot of 60 with 3 bad ones, 5 + 5 pieces: every way to draw them, counted."""
    plan: dict[str, str | int] = {"scheme": "ISO 3269", "lot_size": 60, "group": "dimension", "fractions": "0.05"}
    found = ask(client, **plan, second_sample="true")["operating_characteristic"][0]
    ways = comb(57, 5) / comb(60, 5) + 3 * comb(57, 4) / comb(60, 5) * comb(53, 5) / comb(55, 5)
    assert found["finite_lot_acceptance_probability"] == pytest.approx(ways)
