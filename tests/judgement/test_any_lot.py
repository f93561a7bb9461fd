"""What holds for any lot

The rules are few; these hold for whatever readings are sent, and are tried on random lots under every decision
rule, with requirements, sampling plans, named pieces, unmeasured pieces and mixed units.
"""

from random import Random
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from plain_judgement import judge
from random_lots import in_other_units, json_of, moved_inward, off_the_edges, random_lot, with_pieces_in_another_order

SEEDS = st.integers(0, 2**32 - 1)
MANY = settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
BEST_FIRST = {"conforming": 0, "undecided": 1, "nonconforming": 2, "accept": 0, "incomplete": 1, "reject": 2}


def judged(client: FlaskClient, body: dict[str, Any]) -> dict[str, Any]:
    answer = client.post("/v1/conformance", data=json_of(body), content_type="application/json")
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


@MANY
@given(SEEDS)
def test_the_verdict_is_that_of_the_plain_words(client: FlaskClient, seed: int) -> None:
    """The rules written down a second time, reading by reading and in exact fractions, give the same verdicts."""
    body = random_lot(Random(seed))
    found, expected = judged(client, body), judge(body)
    assert found["verdict"] == expected["verdict"]
    assert set(found["missing"]) == expected["missing"]
    assert found["conforms_to_standard"] is expected["conforms_to_standard"]
    assert {one["id"] for one in found["deviations"]} == expected["deviations"]
    assert {one["id"] for one in found["not_looked_at"]} >= expected["not_looked_at"]
    assert bool(found["marking"]) is (expected["verdict"] == "accept" and expected["conforms_to_standard"] is True)
    assert {group: one["nonconforming_pieces"] for group, one in found["sampling"].items()} == expected["groups"]
    for id, one in expected["characteristics"].items():
        assert {name: found["characteristics"][id][name] for name in one} == one, id


@MANY
@given(SEEDS)
def test_a_reading_moved_inward_never_makes_a_verdict_worse(client: FlaskClient, seed: int) -> None:
    """Toward the middle of its limits, or away from its only one: no verdict, of characteristic or lot, gets worse."""
    body = random_lot(Random(seed))
    moved = moved_inward(body, Random(seed + 1))
    assume(moved is not None)
    assert moved is not None
    id, better = moved
    before, after = judged(client, body), judged(client, better)
    for one, other in ((before, after), (before["characteristics"][id], after["characteristics"][id])):
        assert BEST_FIRST[other["verdict"]] <= BEST_FIRST[one["verdict"]]


@MANY
@given(SEEDS)
def test_the_order_of_the_pieces_changes_nothing_but_their_numbers(client: FlaskClient, seed: int) -> None:
    """Verdicts, counts, statistics, margins, reasons are the same to the last digit; only piece numbers move."""
    body = random_lot(Random(seed))
    other, old = with_pieces_in_another_order(body, Random(seed + 1))
    before, after = judged(client, body), judged(client, other)
    for id, one in after["characteristics"].items():
        for name in ("nonconforming_pieces", "outlying_pieces"):
            one[name] = sorted(old[id][piece] for piece in one[name])
    for name in ("characteristics", "verdict", "missing", "sampling"):
        assert after[name] == before[name]
    assert [one["code"] for one in after["reasons"]] == [one["code"] for one in before["reasons"]]


@MANY
@given(SEEDS)
def test_another_unit_changes_no_verdict(client: FlaskClient, seed: int) -> None:
    """Millimetres, micrometres or inches; newtons, kilonewtons or pounds-force; megapascals or ksi."""
    body = off_the_edges(random_lot(Random(seed)))
    before, after = judged(client, body), judged(client, in_other_units(body, Random(seed + 1)))
    assert (after["verdict"], after["missing"], after["sampling"]) == tuple(
        before[name] for name in ("verdict", "missing", "sampling")
    )
    for id, one in after["characteristics"].items():
        for name in ("verdict", "count", "nonconforming_pieces", "undecided_count"):
            assert one[name] == before["characteristics"][id][name], id
        if one["statistics"] is not None and one["statistics"]["cpk"] is not None:
            assert one["statistics"]["cpk"] == pytest.approx(before["characteristics"][id]["statistics"]["cpk"])
