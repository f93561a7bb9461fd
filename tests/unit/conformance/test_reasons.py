"""Reasons in order of weight, as the person who answers for the lot reads them; each with its clause."""

from typing import Any

from flask.testing import FlaskClient
from lots import bolts, judged, nuts

NUT = "ISO 4032 - M10 - 8"


def sentences(client: FlaskClient, readings: dict[str, Any], **members: Any) -> list[str]:
    return [reason["detail"] for reason in judged(client, readings, **members)["reasons"]]


def codes(client: FlaskClient, readings: dict[str, Any], **members: Any) -> list[str]:
    return [reason["code"] for reason in judged(client, readings, **members)["reasons"]]


def test_a_dimension_that_is_out(client: FlaskClient) -> None:
    assert sentences(client, bolts(width_across_flats=[16.02, 15.9, 15.72, 15.9, 15.9])) == [
        "Group dimension: 2 pieces do not conform, more than the acceptance number 0 "
        "(no sampling plan was named, so none may fail).",
        "Width across flats: 2 of 5 pieces do not conform (pieces 1, 3). Required: 15.73 to 16.00 mm; "
        "read: 15.72 to 16.02 mm (ISO 4014:2011, Tables 1 and 2).",
    ]


def test_results_of_gauges_and_of_eyes_say_what_was_required(client: FlaskClient) -> None:
    found = sentences(client, bolts(thread_go_gauge=[False] + [True] * 4, fracture_location=["head"] + ["shank"] * 4))
    assert "Required: the GO gauge passes over the whole thread (ISO 1502:1996" in found[3]
    assert "Required: a break in the free thread or in the shank (ISO 898-1:2013, clause 9.1, from memory)" in found[2]
    assert not any("true" in one for one in found)
    nut = sentences(client, nuts(nut_proof_load=[True, False, True, True, True]), designation=NUT)
    assert "Required: the nut holds its proof load of 50500 N and comes off again (ISO 898-2:2012, Table 4)." in nut[1]


def test_what_carries_the_load_comes_before_what_only_measures(client: FlaskClient) -> None:
    wrong = bolts(
        head_height=[7.0] * 5, marking=[False] * 5, thread_go_gauge=[False] * 5, tensile_load=[40000] * 5, length=None
    )
    found = judged(client, wrong)["reasons"]
    assert [reason["group"] for reason in found[:4]] == ["mechanical", "thread", "dimension", "marking"]
    assert [reason["characteristic"] for reason in found[4:8]] == [
        "tensile_load",
        "thread_go_gauge",
        "head_height",
        "marking",
    ]
    assert (found[8]["code"], found[8]["characteristic"]) == ("missing", "length")


def test_what_was_not_proved_comes_before_what_was_not_measured(client: FlaskClient) -> None:
    column = {"values": [15.995] * 5, "expanded_uncertainty": 0.01, "decision_rule": "guarded"}
    found = sentences(client, bolts(width_across_flats=column, marking=None))
    assert found[0].startswith(
        "Width across flats: 5 of 5 pieces undecided, because the stated uncertainty proves conformity only from "
        "15.73825 to 15.99175 mm"
    )
    assert found[1] == "Marking: mandatory, and no reading was given (ISO 898-1:2013, Clause 10, marking)."


def test_an_optional_reading_that_is_undecided_does_not_hide_the_verdict(client: FlaskClient) -> None:
    column = {"values": [14.631] * 5, "expanded_uncertainty": 0.01, "decision_rule": "guarded"}
    readings = bolts(washer_face_diameter=column)
    assert codes(client, readings) == ["all_conforming", "undecided", "limits_in_doubt", "pieces_judged"]
    assert "only from 14.63825 mm" in sentences(client, readings)[1]


def test_failures_within_the_acceptance_number_are_named(client: FlaskClient) -> None:
    found = sentences(
        client,
        bolts(125, head_height=[7.0] + [6.4] * 124),
        lot_size=2000,
        sampling={"scheme": "ISO 2859-1", "aql": 1.0},
    )
    assert found[0] == (
        "Group dimension: 1 piece does not conform, not more than the acceptance number 3 (ISO 2859-1:1999, Table 2-A)."
    )
    assert found[1].startswith("Head height: 1 of 125 pieces does not conform (piece 1).")


def test_many_pieces_are_counted_not_listed(client: FlaskClient) -> None:
    found = sentences(client, bolts(20, head_height=[7.0] * 20))
    assert "20 of 20 pieces do not conform (pieces 1, 2, 3, 4, 5 and 15 more)" in found[1]


def test_a_drawing_is_cited_with_its_revision(client: FlaskClient) -> None:
    required = {"width_across_flats": {"max": 15.85, "basis": {"document": "drawing 17", "revision": "C"}}}
    found = sentences(client, bolts(), requirements=required)
    assert found[1].endswith("Required: 15.73 to 15.85 mm; read: 15.9 mm (drawing 17, revision C).")


def test_a_coarse_measurement_is_said_to_be_one(client: FlaskClient) -> None:
    column = {"values": [15.9] * 5, "expanded_uncertainty": 0.2, "decision_rule": "guarded"}
    assert "uncertainty is too large against the tolerance" in sentences(client, bolts(width_across_flats=column))[0]


def test_every_column_without_uncertainty_is_named(client: FlaskClient) -> None:
    body = {"designation": "ISO 4014 - M10x60 - 8.8", "decision_rule": "guarded", "readings": bolts()}
    found = client.post("/v1/conformance", json=body).get_json()
    measured = [id for id, column in bolts().items() if isinstance(column[0], int | float) and column[0] is not True]
    assert {error["pointer"] for error in found["errors"]} == {
        f"/readings/{id}/expanded_uncertainty" for id in measured
    }
    assert all(id in found["detail"] for id in measured)
