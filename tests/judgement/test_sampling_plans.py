"""Sampling plans

A plan says how many pieces of a lot are looked at and how many may fail. It is computed from the size of the lot; the
groups that leave the pieces whole follow `sampling`, the mechanical group `sampling_destructive`. Fewer readings than
the plan asks for decide nothing, unless they already reject.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import bolts, judged

AQL_1 = {"scheme": "ISO 2859-1", "aql": 1.0}


def lot(client: FlaskClient, pieces: int, bad: int, lot_size: int, **plan: Any) -> dict[str, Any]:
    """Judge a lot with so many heads too high; everything else conforms."""
    readings = bolts(pieces, head_height=[7.0] * bad + [6.4] * (pieces - bad))
    return judged(client, readings, lot_size=lot_size, **plan)


def test_the_acceptance_number_is_the_last_that_accepts(client: FlaskClient) -> None:
    """ISO 2859-1:1999, lot of 2000, level II, AQL 1.0: 125 pieces, of which 3 may fail; 4 reject."""
    accepted = lot(client, 125, 3, 2000, sampling=AQL_1)
    assert (accepted["verdict"], accepted["reasons"][0]["code"]) == ("accept", "within_acceptance_number")
    assert lot(client, 125, 4, 2000, sampling=AQL_1)["verdict"] == "reject"


def test_an_arrow_changes_the_sample_and_the_acceptance_number(client: FlaskClient) -> None:
    """Lot of 200, AQL 1.0: letter G has an arrow down to H, 50 pieces, 1 may fail; not 32 pieces and 1."""
    found = lot(client, 50, 1, 200, sampling=AQL_1)
    assert (found["verdict"], found["sampling"]["dimension"]["sample_size"]) == ("accept", 50)
    assert lot(client, 32, 0, 200, sampling=AQL_1)["verdict"] == "incomplete"


def test_a_sample_that_is_too_small_decides_nothing(client: FlaskClient) -> None:
    """124 of 125 pieces, none of them bad: incomplete, and each characteristic says how many are there."""
    found = lot(client, 124, 0, 2000, sampling=AQL_1)
    assert found["verdict"] == "incomplete"
    assert {reason["code"] for reason in found["reasons"]} == {"sample_too_small"}
    assert "124 of 125 pieces" in found["reasons"][0]["detail"]


def test_what_already_rejects_needs_no_further_pieces(client: FlaskClient) -> None:
    """Four bad ones among the first ten of 125."""
    assert lot(client, 10, 4, 2000, sampling=AQL_1)["verdict"] == "reject"


def test_a_sample_larger_than_its_plan_is_said(client: FlaskClient) -> None:
    """200 pieces where the plan takes 125: the acceptance number stays that of 125, and a notice says so."""
    found = lot(client, 200, 4, 2000, sampling=AQL_1)
    assert found["verdict"] == "reject"
    assert any("200 pieces were read where the plan takes 125" in notice for notice in found["notices"])


def test_the_plan_of_the_measured_groups_is_not_that_of_the_tests(client: FlaskClient) -> None:
    """AQL 1.0 lets 3 heads of 125 fail and no bolt: one that breaks too early rejects."""
    weak = bolts(125, tensile_load=[46000] + [48000] * 4, fracture_location=["thread"] * 5)
    assert judged(client, weak, lot_size=2000, sampling=AQL_1)["verdict"] == "reject"


def test_the_tests_follow_a_plan_of_their_own(client: FlaskClient) -> None:
    """ISO 3269:2019, Table 1, category 1, lot of 12 000: three bolts are pulled; two are too few."""
    plan = {"sampling_destructive": {"scheme": "ISO 3269"}, "lot_size": 12000}
    for count, verdict in ((2, "incomplete"), (3, "accept")):
        pulled = bolts(3, tensile_load=[48000] * count, fracture_location=["thread"] * count)
        assert judged(client, pulled, **plan)["verdict"] == verdict


def test_each_group_counts_its_own_pieces(client: FlaskClient) -> None:
    """Lot of 60 by ISO 3269:2019: 5 pieces; no head may fail, one marking may."""
    plan = {"sampling": {"scheme": "ISO 3269"}, "lot_size": 60}
    assert judged(client, bolts(marking=[False] + [True] * 4), **plan)["verdict"] == "accept"
    assert judged(client, bolts(marking=[False] * 2 + [True] * 3), **plan)["verdict"] == "reject"
    assert lot(client, 5, 1, **plan)["verdict"] == "reject"


@pytest.mark.parametrize(("lot_size", "sample"), [(100, 45), (1000, 57), (10**9, 59)])
def test_a_plan_that_accepts_on_none_is_computed_for_its_lot(lot_size: int, sample: int, client: FlaskClient) -> None:
    """A lot with 5 % bad pieces is accepted with 5 % at most: 45 of 100, 57 of 1000, 59 of a lot without end; counted
    as C(55, 5) / C(100, 5) = 0.046, and for the last as 0.95 to the power of 59 = 0.049.
    """
    plan = {"scheme": "zero-acceptance", "limiting_quality": 0.05, "consumer_risk": 0.05}
    found = lot(client, sample, 0, lot_size, sampling=plan)
    assert (found["verdict"], found["sampling"]["dimension"]["sample_size"]) == ("accept", sample)
    assert lot(client, sample, 1, lot_size, sampling=plan)["verdict"] == "reject"


def test_a_lot_smaller_than_its_sample_is_looked_at_whole(client: FlaskClient) -> None:
    """Lot of 10, AQL 1.0: 13 pieces by the arrow, so all ten."""
    assert lot(client, 10, 0, 10, sampling=AQL_1)["verdict"] == "accept"


def test_without_a_plan_one_reading_each_is_enough(client: FlaskClient) -> None:
    """The acceptance number is 0; the size of the lot alone changes nothing."""
    assert lot(client, 1, 0, 12000)["verdict"] == "accept"
    assert lot(client, 50, 1, 12000)["verdict"] == "reject"
