"""POST /v1/conformance: the answer, the columns, the verdict on the lot. One test a sentence of the contract.

The decision rules stand in test_conformance_rules.py, single characteristics in test_conformance_characteristics.py,
bad requests in test_conformance_requests.py.
"""

import json
from statistics import mean, stdev
from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import BOLT, NUT, bolts, characteristic, judged, nuts, post, request
from problem_documents import pointers, problem

MANDATORY = [
    "width_across_flats",
    "width_across_corners",
    "head_height",
    "body_diameter",
    "length",
    "thread_go_gauge",
    "thread_not_go_gauge",
    "hardness_core",
    "tensile_load",
    "fracture_location",
    "marking",
]


# The answer


def test_a_lot_in_which_everything_conforms_is_accepted(client: FlaskClient) -> None:
    found = judged(client)
    assert (found["designation"], found["verdict"], found["missing"]) == (BOLT, "accept", [])
    assert {one["verdict"] for one in found["characteristics"].values()} == {"conforming"}
    assert [reason["code"] for reason in found["reasons"]] == ["all_conforming", "limits_in_doubt", "pieces_judged"]
    assert judged(client, nuts(), designation=NUT)["verdict"] == "accept"


def test_the_answer_has_every_member(client: FlaskClient) -> None:
    found = judged(client)
    assert set(found) >= {
        "verdict",
        "characteristics",
        "missing",
        "sampling",
        "decision_rule",
        "reasons",
        "notices",
        "fingerprint",
    }
    one = found["characteristics"]["width_across_flats"]
    assert set(one) >= {
        "verdict",
        "limits",
        "acceptance_limits",
        "count",
        "nonconforming_count",
        "undecided_count",
        "nonconforming_pieces",
        "nonconforming_pieces_truncated",
        "statistics",
        "basis",
    }
    assert (one["limits"]["min"], one["limits"]["max"], one["limits"]["unit"]) == (15.73, 16.0, "mm")
    assert one["basis"]["standard"] == "ISO 4014"


def test_pieces_are_counted_from_0_and_listed_up_to_a_cap(client: FlaskClient) -> None:
    column = [15.9] * 1000
    for piece in (0, 7, 999):
        column[piece] = 16.5
    found = characteristic(client, "width_across_flats", column)
    assert (found["count"], found["nonconforming_count"]) == (1000, 3)
    assert found["nonconforming_pieces"] == [0, 7, 999]
    assert found["nonconforming_pieces_truncated"] is False
    found = characteristic(client, "width_across_flats", [16.5] * 1000)
    assert (found["nonconforming_count"], found["nonconforming_pieces_truncated"]) == (1000, True)
    assert found["nonconforming_pieces"] == list(range(len(found["nonconforming_pieces"])))


def test_statistics_are_those_of_the_readings(client: FlaskClient) -> None:
    values = [15.81, 15.84, 15.9, 15.88, 15.86]
    found = characteristic(client, "width_across_flats", values)["statistics"]
    assert found["mean"] == pytest.approx(mean(values))
    assert found["standard_deviation"] == pytest.approx(stdev(values))
    assert (found["min"], found["max"]) == (15.81, 15.9)
    assert found["cp"] == pytest.approx((16.00 - 15.73) / (6 * stdev(values)))
    assert found["cpk"] == pytest.approx(min(16.00 - mean(values), mean(values) - 15.73) / (3 * stdev(values)))


@pytest.mark.parametrize(
    ("id", "values", "low", "high"),
    [
        ("width_across_flats", [15.95, 15.96, 15.99], 15.73, 16.00),
        ("width_across_corners", [17.8, 17.9, 18.0], 17.77, None),
        ("bearing_face_inner_diameter", [10.9, 11.0, 11.3], None, 11.2),
    ],
)
def test_capability_goes_by_the_nearer_limit(
    id: str, values: list[float], low: float | None, high: float | None, client: FlaskClient
) -> None:
    found = characteristic(client, id, values)["statistics"]
    distances = ([] if low is None else [mean(values) - low]) + ([] if high is None else [high - mean(values)])
    assert found["cpk"] == pytest.approx(min(distances) / (3 * stdev(values)))


def test_statistics_are_null_where_they_make_no_sense(client: FlaskClient) -> None:
    one = characteristic(client, "width_across_flats", [15.9])["statistics"]
    assert (one["standard_deviation"], one["cp"], one["cpk"]) == (None, None, None)
    same = characteristic(client, "width_across_flats", [15.9, 15.9])["statistics"]
    assert (same["standard_deviation"], same["cp"], same["cpk"]) == (0, None, None)
    one_sided = characteristic(client, "width_across_corners", [17.8, 17.9, 18.0])["statistics"]
    assert one_sided["cp"] is None
    assert one_sided["cpk"] is not None
    assert characteristic(client, "thread_go_gauge", [True, True])["statistics"] is None


def test_the_order_of_the_pieces_changes_no_figure(client: FlaskClient) -> None:
    values = [15.81, 15.84, 15.9, 15.88, 15.86, 15.73, 16.0, 15.999]
    there = characteristic(client, "width_across_flats", values)
    back = characteristic(client, "width_across_flats", values[::-1])
    assert there["statistics"] == back["statistics"]


def test_the_resolved_rule_names_its_edition(client: FlaskClient) -> None:
    assert judged(client)["decision_rule"]["rule"] == "simple"
    guarded = judged(client, {"length": {"values": [60], "expanded_uncertainty": 0}}, decision_rule="guarded")
    rule = guarded["decision_rule"]
    assert (rule["rule"], rule["standard"], rule["edition"]) == ("guarded", "ISO 14253-1", "2017")


def test_reasons_name_the_requirement_and_its_clause(client: FlaskClient) -> None:
    found = judged(client, bolts(head_height=[6.4, 6.4, 6.6, 6.4, 6.4]))
    assert found["verdict"] == "reject"
    reason = next(one for one in found["reasons"] if one["characteristic"] == "head_height")
    assert reason["code"] == "nonconforming"
    assert "6.58" in reason["detail"]
    assert "ISO 4014:2011" in reason["detail"]
    assert reason["basis"]["clause"]


def test_the_same_request_has_the_same_bytes(client: FlaskClient) -> None:
    assert post(client, request()).get_data() == post(client, request()).get_data()


# Columns


def test_null_is_not_measured_on_that_piece(client: FlaskClient) -> None:
    found = characteristic(client, "length", [60.1, None, 70, None])
    assert (found["count"], found["nonconforming_pieces"]) == (2, [2])
    gauge = characteristic(client, "thread_go_gauge", [None, False, True])
    assert (gauge["count"], gauge["nonconforming_pieces"]) == (2, [1])


def test_non_destructive_columns_have_equal_lengths(client: FlaskClient) -> None:
    found = problem(post(client, request(bolts(length=[60.1] * 4))), 422, "unequal_columns")
    assert found["detail"].startswith("non-destructive columns")
    assert "length 4" in found["detail"]
    assert pointers(found) == ["/readings"]
    assert judged(client, bolts(length=[60.1] * 4 + [None]))["verdict"] == "accept"


def test_named_pieces_free_a_column_from_the_length_of_the_others(client: FlaskClient) -> None:
    found = judged(client, bolts(head_height={"values": [7.0, 6.4, 7.0], "pieces": [0, 1, 4]}))
    assert found["characteristics"]["head_height"]["nonconforming_pieces"] == [0, 4]


def test_destructive_columns_are_their_own_pieces_and_equal_among_themselves(client: FlaskClient) -> None:
    two = bolts(tensile_load=[48000] * 2, fracture_location=["thread"] * 2)
    assert judged(client, two)["verdict"] == "accept"
    uneven = bolts(tensile_load=[48000] * 2, fracture_location=["thread"] * 3)
    detail = problem(post(client, request(uneven)), 422, "unequal_columns")["detail"]
    assert detail.startswith("destructive columns")


def test_pieces_must_fit_their_values(client: FlaskClient) -> None:
    for pieces, code in (([0], "unequal_columns"), ([0, 0], "not_understood"), ([0, -1], "not_understood")):
        body = request({"length": {"values": [60, 60], "pieces": pieces}})
        assert pointers(problem(post(client, body), 422, code)) == ["/readings/length/pieces"]


def test_no_reading_at_all_is_refused_or_incomplete(client: FlaskClient) -> None:
    problem(post(client, request({})), 422, "no_readings")
    assert pointers(problem(post(client, {"designation": BOLT}), 422, "missing_member")) == ["/readings"]
    for column in ([], [None, None]):
        found = judged(client, {"length": column})
        assert found["verdict"] == "incomplete"
        assert set(found["missing"]) == set(MANDATORY)
        assert found["characteristics"]["length"]["count"] == 0


# The verdict on a characteristic and on the lot


def test_nonconforming_outweighs_undecided_outweighs_conforming(client: FlaskClient) -> None:
    rule = {"decision_rule": "guarded"}
    for values, verdict in (
        ([15.9, 15.995, 16.1], "nonconforming"),
        ([15.9, 15.995], "undecided"),
        ([15.9, 15.9], "conforming"),
    ):
        column = {"values": values, "expanded_uncertainty": 0.01}
        assert characteristic(client, "width_across_flats", column, **rule)["verdict"] == verdict


@pytest.mark.parametrize("id", MANDATORY)
def test_a_mandatory_characteristic_without_readings_leaves_the_lot_incomplete(id: str, client: FlaskClient) -> None:
    found = judged(client, bolts(**{id: None}))
    assert found["verdict"] == "incomplete"
    assert id in found["missing"]
    assert any(reason["code"] == "missing" and reason["characteristic"] == id for reason in found["reasons"])


def test_an_optional_characteristic_may_be_left_out_but_not_fail(client: FlaskClient) -> None:
    assert "wrenching_height" not in judged(client)["missing"]
    assert judged(client, bolts(wrenching_height=[4.5] * 5))["verdict"] == "accept"
    assert judged(client, bolts(wrenching_height=[4.5] * 4 + [4.0]))["verdict"] == "reject"


def test_an_undecided_mandatory_characteristic_leaves_the_lot_incomplete(client: FlaskClient) -> None:
    close = {"values": [15.9] * 4 + [15.995], "expanded_uncertainty": 0.01, "decision_rule": "guarded"}
    found = judged(client, bolts(width_across_flats=close))
    assert found["verdict"] == "incomplete"
    assert found["missing"] == []
    assert found["characteristics"]["width_across_flats"]["undecided_count"] == 1
    assert any(reason["code"] == "undecided" for reason in found["reasons"])


def test_rejection_outweighs_what_is_missing(client: FlaskClient) -> None:
    found = judged(client, {"width_across_flats": [17.0]})
    assert found["verdict"] == "reject"
    assert found["missing"]


def test_a_piece_with_several_nonconformities_counts_once_in_its_group(client: FlaskClient) -> None:
    wrong = bolts(head_height=[7.0] + [6.4] * 4, body_diameter=[11.0] + [9.9] * 4, marking=[False] + [True] * 4)
    sampling = judged(client, wrong)["sampling"]
    assert sampling["dimension"]["nonconforming_pieces"] == 1
    assert sampling["marking"]["nonconforming_pieces"] == 1
    other = bolts(head_height=[7.0] + [6.4] * 4, body_diameter=[9.9] * 4 + [11.0])
    assert judged(client, other)["sampling"]["dimension"]["nonconforming_pieces"] == 2


def test_destructive_pieces_are_other_pieces_than_measured_ones(client: FlaskClient) -> None:
    wrong = bolts(hardness_core=[200] + [280] * 4, tensile_load=[40000] + [48000] * 4)
    assert judged(client, wrong)["sampling"]["mechanical"]["nonconforming_pieces"] == 2


def test_without_a_plan_the_acceptance_number_is_0_in_every_group(client: FlaskClient) -> None:
    sampling = judged(client)["sampling"]
    assert set(sampling) == {"dimension", "thread", "mechanical", "surface", "marking"}
    assert {one["acceptance_number"] for one in sampling.values()} == {0}


@pytest.mark.parametrize(
    ("column", "value", "group"),
    [
        ("head_height", 7.0, "dimension"),
        ("thread_go_gauge", False, "thread"),
        ("hardness_core", 200, "mechanical"),
        ("marking", False, "marking"),
    ],
)
def test_one_nonconforming_piece_rejects_in_any_group(column: str, value: Any, group: str, client: FlaskClient) -> None:
    readings = bolts()
    readings[column] = [*readings[column][:-1], value]
    found = judged(client, readings)
    assert found["verdict"] == "reject"
    first = found["reasons"][0]
    assert (first["code"], first["group"]) == ("acceptance_number_exceeded", group)


def test_a_plan_for_the_lot_gives_the_acceptance_number_of_the_measured_groups_only(client: FlaskClient) -> None:
    """ISO 2859-1, lot 2 000, level II, AQL 1.0: n 125, Ac 3, Re 4."""
    plan = {"scheme": "ISO 2859-1", "aql": 1.0}
    for wrong, verdict in ((3, "accept"), (4, "reject")):
        readings = bolts(125, head_height=[7.0] * wrong + [6.4] * (125 - wrong))
        found = judged(client, readings, sampling=plan, lot_size=2000)
        assert found["verdict"] == verdict
        assert (found["sampling"]["dimension"]["acceptance_number"], found["sampling"]["dimension"]["sample_size"]) == (
            3,
            125,
        )
        assert found["sampling"]["mechanical"]["acceptance_number"] == 0
    one_soft = bolts(125, hardness_core=[200] + [280] * 124)
    assert judged(client, one_soft, sampling=plan, lot_size=2000)["verdict"] == "reject"


def test_a_sample_that_is_too_small_leaves_the_lot_incomplete(client: FlaskClient) -> None:
    found = judged(client, bolts(124), sampling={"scheme": "ISO 2859-1", "aql": 1.0}, lot_size=2000)
    assert found["verdict"] == "incomplete"
    assert "head_height" in found["missing"]
    assert "tensile_load" not in found["missing"], "the destructive group has no plan"
    reason = next(one for one in found["reasons"] if one["characteristic"] == "head_height")
    assert "124 of 125" in reason["detail"]


def test_a_plan_needs_the_size_of_the_lot(client: FlaskClient) -> None:
    for member in ("sampling", "sampling_destructive"):
        body = request(**{member: {"scheme": "ISO 2859-1", "aql": 1.0}})
        assert pointers(problem(post(client, body), 422, "missing_member")) == ["/lot_size"]


def test_what_a_plan_refuses_is_pointed_at_where_it_stands(client: FlaskClient) -> None:
    plan = {"scheme": "ISO 2859-1", "aql": 1.0}
    for members, code, pointer in (
        ({"lot_size": 1, "sampling": plan}, "out_of_range", "/lot_size"),
        ({"lot_size": 2000, "sampling": {**plan, "aql": 1.1}}, "invalid", "/sampling/aql"),
        ({"lot_size": 2000, "sampling_destructive": {**plan, "level": "IV"}}, "invalid", "/sampling_destructive/level"),
    ):
        assert pointers(problem(post(client, request(**members)), 422, code)) == [pointer]


def test_the_size_of_the_lot_alone_is_recorded(client: FlaskClient) -> None:
    found = judged(client, lot_size=12000)
    assert (found["lot_size"], found["verdict"]) == (12000, "accept")
    assert found["sampling"]["dimension"]["sample_size"] is None


def test_the_answer_of_the_contract_is_json_of_the_contract(client: FlaskClient) -> None:
    """The example of the contract, judged as it stands: incomplete, and everything in its place."""
    body = {
        "designation": BOLT,
        "lot_size": 12000,
        "decision_rule": "simple",
        "readings": {
            "width_across_flats": {"values": [15.81, 15.84], "expanded_uncertainty": 0.02},
            "length": [59.8, 60.1],
            "thread_go_gauge": [True, True],
            "tensile_load": {"values": [49200, 48800], "unit": "N"},
            "fracture_location": ["thread", "shank"],
        },
    }
    found = json.loads(post(client, json.dumps(body)).get_data())
    assert found["verdict"] == "incomplete"
    assert found["characteristics"]["tensile_load"]["verdict"] == "conforming"
    assert set(found["missing"]) == set(MANDATORY) - set(body["readings"])
