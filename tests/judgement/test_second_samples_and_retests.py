"""Second samples, retests and replaced tests

One failure may be made up for by a second sample only where the plan or the purchaser says so, and only by pieces that
all conform. A test that went wrong is no failure of its piece: it is set aside with its reason and stays on record. A
break under the head is never made up for.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import bolts, judged, post, request
from problem_documents import pointers, problem

SECOND = {"scheme": "ISO 3269", "second_sample": True}
AGREED = {"agreed_in": "Order 4711, 7.2", "first_sample": 2}


def heads(*heights: float) -> dict[str, Any]:
    return bolts(len(heights), head_height=list(heights))


def pulled(*loads: float, where: str = "thread") -> dict[str, Any]:
    return bolts(tensile_load=list(loads), fracture_location=[where] + ["thread"] * (len(loads) - 1))


def codes(found: dict[str, Any]) -> list[str]:
    return [reason["code"] for reason in found["reasons"]]


def test_one_failure_in_the_first_sample_asks_for_a_second(client: FlaskClient) -> None:
    """ISO 3269:2019, Table 1, main dimensions, lot of 60: 5 pieces, one of them bad; 5 more have to be taken."""
    found = judged(client, heads(7.0, 6.4, 6.4, 6.4, 6.4), lot_size=60, sampling=SECOND)
    assert (found["verdict"], codes(found)[0]) == ("incomplete", "second_sample_needed")
    assert found["sampling"]["dimension"]["second_sample"]["sample_size"] == 5


def test_a_second_sample_without_failure_accepts(client: FlaskClient) -> None:
    """Nine good pieces and the bad one of the first five: accepted, and the bad one stays named."""
    found = judged(client, heads(7.0, *[6.4] * 9), lot_size=60, sampling=SECOND)
    assert (found["verdict"], codes(found)[:2]) == ("accept", ["second_sample_passed", "nonconforming"])
    assert found["characteristics"]["head_height"]["nonconforming_pieces"] == [0]


@pytest.mark.parametrize("bad", [(0, 9), (0, 1), (5,), (9,)])
def test_a_second_failure_rejects(bad: tuple[int, ...], client: FlaskClient) -> None:
    """Two in the first sample, one in each, or one in the second alone: rejected."""
    heights = [7.0 if piece in bad else 6.4 for piece in range(10)]
    assert judged(client, heads(*heights), lot_size=60, sampling=SECOND)["verdict"] == "reject"


def test_tests_that_destroy_have_a_second_sample_only_where_it_is_asked_for(client: FlaskClient) -> None:
    """Category 1, lot of 60, 1 + 5 bolts: one of two texts allows the second sample; unasked, a weak bolt rejects."""
    for plan, verdict in (({"scheme": "ISO 3269"}, "reject"), (SECOND, "accept")):
        found = judged(client, pulled(46000, *[48000] * 5), lot_size=60, sampling_destructive=plan)
        assert found["verdict"] == verdict
    assert judged(client, pulled(46000), lot_size=60, sampling_destructive=SECOND)["verdict"] == "incomplete"


def test_without_being_asked_for_there_is_no_second_sample(client: FlaskClient) -> None:
    """The acceptance number is 0: one bad piece rejects, whatever follows it."""
    found = judged(client, heads(7.0, *[6.4] * 9), lot_size=60, sampling={"scheme": "ISO 3269"})
    assert found["verdict"] == "reject"


def test_a_retest_is_twice_the_first_sample(client: FlaskClient) -> None:
    """Two pulled, one too weak: four more, all of which conform (common practice; ISO 898-1 holds no retest plan)."""
    assert judged(client, pulled(46000, 48000), retest=AGREED)["verdict"] == "incomplete"
    assert judged(client, pulled(46000, *[48000] * 4), retest=AGREED)["verdict"] == "incomplete"
    assert judged(client, pulled(46000, *[48000] * 5), retest=AGREED)["verdict"] == "accept"
    assert judged(client, pulled(46000, *[48000] * 4, 46000), retest=AGREED)["verdict"] == "reject"


def test_a_retest_needs_an_agreement(client: FlaskClient) -> None:
    """Without it the one weak bolt rejects; with it, the reason names the document."""
    assert judged(client, pulled(46000, *[48000] * 5))["verdict"] == "reject"
    found = judged(client, pulled(46000, *[48000] * 5), retest=AGREED)
    assert "Order 4711, 7.2" in found["reasons"][0]["detail"]


def test_a_break_under_the_head_is_never_made_up_for(client: FlaskClient) -> None:
    """Five good breaks after it change nothing (common practice)."""
    found = judged(client, pulled(*[48000] * 6, where="head_junction"), retest=AGREED)
    assert found["verdict"] == "reject"


def test_a_test_that_went_wrong_is_set_aside_with_its_reason(client: FlaskClient) -> None:
    """The grips slipped at 30 000 N: the reading does not count, for or against, and is said aloud."""
    column = {"values": [48000, 30000, 48000], "replaced": {"1": "grips slipped"}}
    found = judged(client, bolts(tensile_load=column, fracture_location=["thread", None, "thread"]))
    assert (found["verdict"], found["characteristics"]["tensile_load"]["count"]) == ("accept", 2)
    assert any("piece 2 set aside, grips slipped" in notice for notice in found["notices"])


def test_a_replaced_test_is_missing_until_another_piece_was_tested(client: FlaskClient) -> None:
    """The plan takes three pieces: two remain and the lot is incomplete; a fourth piece completes it."""
    plan = {"sampling_destructive": {"scheme": "ISO 3269"}, "lot_size": 12000}
    short = {"values": [48000, 30000, 48000], "replaced": {"1": "grips slipped"}}
    whole = {**short, "values": [48000, 30000, 48000, 48000]}
    for column, where, verdict in (
        (short, ["thread", None, "thread"], "incomplete"),
        (whole, ["thread", None, "thread", "thread"], "accept"),
    ):
        assert judged(client, bolts(tensile_load=column, fracture_location=where), **plan)["verdict"] == verdict


def test_neither_a_break_under_the_head_nor_a_measurement_is_replaced(client: FlaskClient) -> None:
    """A head that came off is a failure whatever is said of the test; what destroys no piece is measured again."""
    broken = {"values": [48000] * 2, "replaced": {"0": "misaligned"}}
    body = request(bolts(tensile_load=broken, fracture_location=["head", "thread"]))
    problem(post(client, body), 422, "contradiction")
    problem(post(client, request({"length": {"values": [60], "replaced": {"0": "misread"}}})), 422, "contradiction")


def test_a_set_in_doubt_may_be_tested_again_with_more_load(client: FlaskClient) -> None:
    """13 um after the proof load: a notice says that one repetition with 3 % more is allowed (ISO 898-1:2013, clause
    9.6); the first test, sent as replaced, then counts for nothing.
    """
    found = judged(client, bolts(proof_load_set=[13, 0, 0, 0, 0]))
    assert found["verdict"] == "reject"
    assert any("3 % more load" in notice for notice in found["notices"])
    again = {"values": [13, 0, 0, 0, 0, 4], "replaced": {"0": "bent, repeated with 3 % more load as piece 5"}}
    pulled = {"tensile_load": [None] + [48000] * 5, "fracture_location": [None] + ["thread"] * 5}
    assert judged(client, bolts(proof_load_set=again, **pulled))["verdict"] == "accept"


def test_in_a_dispute_vickers_decides(client: FlaskClient) -> None:
    """21 HRC on class 8.8, 22 HRC at least: nonconforming, and a notice names the referee (ISO 898-1, from memory)."""
    found = judged(client, bolts(hardness_core={"values": [21] * 5, "unit": "HRC"}))
    assert any("Vickers hardness on a section decides" in notice for notice in found["notices"])
    found = judged(client, bolts(hardness_core=[240] * 5))
    assert not any("Vickers" in notice for notice in found["notices"])


@pytest.mark.parametrize(
    ("members", "code", "pointer"),
    [
        ({"retest": {"agreed_in": "Order 4711"}}, "missing_member", "/retest/first_sample"),
        ({"retest": {"first_sample": 2}}, "missing_member", "/retest/agreed_in"),
        ({"sampling": {**SECOND, "second_sample": 1}}, "wrong_type", "/sampling/second_sample"),
        ({"sampling": {**SECOND, "edition": "2000"}}, "invalid", "/sampling/second_sample"),
        ({"sampling": {**SECOND, "scheme": "ISO 2859-1", "aql": 1}}, "unknown_member", "/sampling/second_sample"),
    ],
)
def test_what_was_agreed_has_to_be_said(members: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    """The document of the agreement, where the retest begins, and a plan that has a second sample."""
    assert pointers(problem(post(client, request(lot_size=60, **members)), 422, code)) == [pointer]
