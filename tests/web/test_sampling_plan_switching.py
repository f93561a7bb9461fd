"""POST /v1/sampling-plan/switching: the rules of ISO 2859-1:1999, clauses 9.3 and 9.4, one test each.

Lot 2 000, level II, AQL 1.0: K, n 125, Ac 3 normal, 2 tightened; n 50, Ac 2 reduced (Tables 2-A to 2-C). How the
switching score is counted is from memory; its threshold of 30 is not.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

REDUCE = {"production_steady": True, "authority_agrees": True}


def run(
    client: FlaskClient, found: list[int], lot_size: int = 2000, aql: float = 1.0, **members: Any
) -> dict[str, Any]:
    lots = [{"lot_size": lot_size, "nonconforming": bad} for bad in found]
    answer = client.post("/v1/sampling-plan/switching", json={"aql": aql, "lots": lots, **members})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    shown: dict[str, Any] = answer.get_json()
    return shown


def after(client: FlaskClient, found: list[int], **members: Any) -> list[str]:
    return [step["next_severity"] for step in run(client, found, **members)["steps"]]


def test_inspection_starts_normal(client: FlaskClient) -> None:
    first = run(client, [3])["steps"][0]
    assert first == {
        "severity": "normal",
        "code_letter": "K",
        "sample_size": 125,
        "acceptance_number": 3,
        "accepted": True,
        "switching_score": 0,
        "next_severity": "normal",
        "discontinue": False,
    }


@pytest.mark.parametrize(
    ("found", "severity"),
    [
        ([4, 4], "tightened"),
        ([4, 0, 0, 0, 4], "tightened"),
        ([4, 0, 0, 0, 0, 4], "normal"),
        ([0, 4, 0, 0, 0, 4], "tightened"),
        ([4], "normal"),
    ],
)
def test_two_of_five_refused_tighten(found: list[int], severity: str, client: FlaskClient) -> None:
    assert after(client, found)[-1] == severity


def test_tightened_inspection_has_its_own_acceptance_number(client: FlaskClient) -> None:
    step = run(client, [4, 4, 3])["steps"][2]
    assert (step["severity"], step["acceptance_number"], step["accepted"]) == ("tightened", 2, False)


def test_five_accepted_in_succession_relax(client: FlaskClient) -> None:
    assert after(client, [4, 4, 0, 0, 0, 0, 0])[-2:] == ["tightened", "normal"]
    assert after(client, [4, 4, 0, 0, 3, 0, 0, 0, 0])[-1] == "tightened", "one refused begins the count anew"
    assert after(client, [4, 4, 0, 0, 3, 0, 0, 0, 0, 0])[-1] == "normal"


def test_the_lots_before_a_switch_do_not_count_after_it(client: FlaskClient) -> None:
    assert after(client, [4, 4, 0, 0, 0, 0, 0, 4])[-1] == "normal"


def test_five_refused_on_tightened_inspection_end_it(client: FlaskClient) -> None:
    found = run(client, [4, 4, 3, 0, 3, 3, 0, 3, 3, 0, 0])
    assert [step["discontinue"] for step in found["steps"]] == [False] * 8 + [True]
    assert any("2 further lot(s) are not judged" in notice for notice in found["notices"])
    assert run(client, [0] * 5, start="tightened")["next_severity"] == "normal"


def test_a_score_of_30_reduces_where_both_agree(client: FlaskClient) -> None:
    """Ac 3: three a lot that would pass with AQL 0.65 (Ac 2)."""
    found = run(client, [2] * 10, **REDUCE)
    assert [step["switching_score"] for step in found["steps"]] == [3, 6, 9, 12, 15, 18, 21, 24, 27, 0]
    assert found["next_severity"] == "reduced"
    for one in REDUCE:
        assert run(client, [2] * 10, **{**REDUCE, one: False})["next_severity"] == "normal"
    assert run(client, [2] * 9, **REDUCE)["next_severity"] == "normal"


def test_a_lot_that_the_tighter_aql_would_refuse_sets_the_score_back(client: FlaskClient) -> None:
    scores = [step["switching_score"] for step in run(client, [2, 2, 3, 2])["steps"]]
    assert scores == [3, 6, 0, 3]


def test_acceptance_numbers_of_0_and_1_earn_two(client: FlaskClient) -> None:
    """Lot 200, level II: G, n 32; Ac 0 for AQL 0.40 and Ac 1 for AQL 1.5."""
    for aql, acceptance in ((0.4, 0), (1.5, 1)):
        found = run(client, [acceptance] * 2 + [acceptance + 1], lot_size=200, aql=aql)["steps"]
        assert [step["acceptance_number"] for step in found] == [acceptance] * 3
        assert [step["switching_score"] for step in found] == [2, 4, 0]


def test_the_tighter_aql_is_asked_on_the_sample_that_was_taken(client: FlaskClient) -> None:
    """R, AQL 1.0: the arrow leads to Q, n 1250, Ac 21; Q with AQL 0.65 has Ac 14: 15 found set the score back."""
    first = run(client, [15], lot_size=600_000, level="III")["steps"][0]
    assert (first["code_letter"], first["sample_size"], first["acceptance_number"]) == ("R", 1250, 21)
    assert (first["accepted"], first["switching_score"]) == (True, 0)
    assert run(client, [14], lot_size=600_000, level="III")["steps"][0]["switching_score"] == 3


def test_reduced_inspection_ends_with_one_refused_lot(client: FlaskClient) -> None:
    found = run(client, [2, 2, 3], start="reduced", **REDUCE)["steps"]
    assert [(step["sample_size"], step["acceptance_number"]) for step in found] == [(50, 2)] * 3
    assert [step["next_severity"] for step in found] == ["reduced", "reduced", "normal"]


def test_reduced_inspection_ends_when_production_is_not_steady(client: FlaskClient) -> None:
    assert run(client, [0], start="reduced", authority_agrees=True)["next_severity"] == "normal"


@pytest.mark.parametrize(
    ("body", "code", "pointer"),
    [
        ({"lots": []}, "invalid", "/lots"),
        ({"lots": [{"lot_size": 1, "nonconforming": 0}]}, "invalid", "/lots/0/lot_size"),
        ({"lots": [{"lot_size": 2000, "nonconforming": -1}]}, "invalid", "/lots/0/nonconforming"),
        ({"lots": [{"lot_size": 2000, "nonconforming": 126}]}, "out_of_range", "/lots/0/nonconforming"),
        ({"lots": [{"lot_size": 2000, "nonconforming": True}]}, "wrong_type", "/lots/0/nonconforming"),
        ({"lots": [{"lot_size": 2000}]}, "missing_member", "/lots/0/nonconforming"),
        ({"lots": [{"lot_size": 2000, "nonconforming": 0}], "aql": 1.1}, "invalid", "/aql"),
        ({"lots": [{"lot_size": 2000, "nonconforming": 0}], "start": "strict"}, "invalid", "/start"),
        ({"lots": [{"lot_size": 2000, "nonconforming": 0}], "level": "IV"}, "invalid", "/level"),
        ({}, "missing_member", "/lots"),
    ],
)
def test_what_cannot_be_answered(body: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    answer = client.post("/v1/sampling-plan/switching", json={"aql": 1.0, **body})
    assert pointers(problem(answer, 422, code)) == [pointer]
