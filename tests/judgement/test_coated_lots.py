"""Coated products

A coating has a least local thickness and limits of its batch average; the thread is gauged before the coating and as
delivered, with two gauges; hard parts that were electroplated need a measure against hydrogen embrittlement.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import bolts, judged

GALVANIZED, ZINC = "ISO 4014 - M10x60 - 8.8U - tZn", "ISO 4014 - M10x60 - 8.8 - Fe/Zn8"
HARD, HARD_INCH = "ISO 4014 - M10x60 - 12.9 - Fe/Zn8", "ASME B18.2.1 hex cap screw - 1/2-13x2 - ASTM A574 - Fe/Zn8"
LOCAL, MEAN, MEASURE = "coating_thickness", "coating_thickness_mean", "hydrogen_embrittlement_measure"


def lot(client: FlaskClient, designation: str, thickness: Any, **columns: Any) -> dict[str, Any]:
    after = {"thread_go_gauge_after_coating": [True] * 5, LOCAL: thickness, **columns}
    return judged(client, bolts(tensile_load=[48000] * 5, **after), designation=designation)


@pytest.mark.parametrize("thickness", [42, 45, 49])
def test_a_galvanized_lot_is_thick_enough_at_each_place_and_on_average(client: FlaskClient, thickness: float) -> None:
    """ISO 10684:2004: 40 um at each place and 50 um on the average of the batch; 42, 45 and 49 um everywhere fail."""
    found = lot(client, GALVANIZED, [thickness] * 5)
    assert {id: found["characteristics"][id]["verdict"] for id in (LOCAL, MEAN)} == {
        LOCAL: "conforming",
        MEAN: "nonconforming",
    }
    assert (found["verdict"], found["sampling"]["surface"]["nonconforming_pieces"]) == ("reject", 0)
    assert "the lot does not conform. Required: at least 50 um" in found["reasons"][0]["detail"]
    assert lot(client, GALVANIZED, [thickness, 50, 50, 50, 100 - thickness])["verdict"] == "accept"


def test_the_batch_average_of_an_electroplated_lot_has_two_limits(client: FlaskClient) -> None:
    """ISO 4042:1999, Table 1: nominal 8 um is 7 to 10 um on average; 14 um everywhere fail."""
    verdicts = [lot(client, ZINC, [thickness] * 5)["verdict"] for thickness in (8, 10, 10.001, 14)]
    assert verdicts == ["accept", "accept", "reject", "reject"]


def test_no_acceptance_number_forgives_an_average(client: FlaskClient) -> None:
    """A plan that accepts one bad piece in five does not accept a batch that is too thin."""
    after = {"thread_go_gauge_after_coating": [True] * 5, LOCAL: [45] * 5, "surface_discontinuities": [True] * 5}
    plan = {"lot_size": 20, "sampling": {"scheme": "ISO 2859-1", "aql": 10}}
    found = judged(client, bolts(tensile_load=[48000] * 5, **after), designation=GALVANIZED, **plan)
    assert (found["sampling"]["surface"]["acceptance_number"], found["verdict"]) == (1, "reject")


def test_a_batch_average_that_is_given_is_judged_as_given(client: FlaskClient) -> None:
    """53 um by weighing, 43 um at the places that were read; one figure beside five pieces."""
    found = lot(client, GALVANIZED, [43] * 5, **{MEAN: [53]})
    assert (found["verdict"], found["characteristics"][MEAN]["count"]) == ("accept", 1)
    assert lot(client, GALVANIZED, [55] * 5, **{MEAN: [49]})["verdict"] == "reject"


def test_the_mean_is_that_of_all_places_in_any_unit_and_in_blocks(client: FlaskClient) -> None:
    """0.049 and 0.051 mm are 50 um on average, as one column and as two blocks."""
    column = {"values": [0.049, 0.051], "unit": "mm"}
    whole = judged(client, {LOCAL: column}, designation=GALVANIZED)["characteristics"][MEAN]
    lines = [f'{{"designation": "{GALVANIZED}"}}']
    lines += [f'{{"readings": {{"{LOCAL}": {{"values": [{value}], "unit": "mm"}}}}}}' for value in column["values"]]
    blocks = client.post("/v1/conformance", data="\n".join(lines), content_type="application/x-ndjson").get_json()
    assert whole == blocks["characteristics"][MEAN]
    assert (whole["verdict"], whole["statistics"]["mean"], whole["statistics"]["unit"]) == ("conforming", 0.05, "mm")


def test_the_average_carries_the_uncertainty_of_the_places(client: FlaskClient) -> None:
    """50.5 um with u = 1 um does not prove 50 um, 51.65 um does (ISO 14253-1:2017: 1.65 u)."""
    for thickness, verdict in ((50.5, "undecided"), (51.65, "conforming")):
        column = {"values": [thickness], "expanded_uncertainty": 2, "decision_rule": "guarded"}
        assert judged(client, {LOCAL: column}, designation=GALVANIZED)["characteristics"][MEAN]["verdict"] == verdict


def test_a_coated_thread_is_gauged_before_and_after(client: FlaskClient) -> None:
    """It passes bare and not with its zinc: two columns, two gauges, and each has to be there."""
    found = lot(client, ZINC, [8] * 5, thread_go_gauge_after_coating=[True, False, True, True, True])
    assert found["verdict"] == "reject"
    assert found["characteristics"]["thread_go_gauge"]["verdict"] == "conforming"
    assert found["characteristics"]["thread_go_gauge_after_coating"]["nonconforming_pieces"] == [1]
    states = {id: one["state"] for id, one in found["characteristics"].items()}
    assert (states["thread_go_gauge"], states["length"]) == ("before_coating", "before_coating")
    assert (states["thread_go_gauge_after_coating"], states["hardness_core"]) == ("as_delivered", "as_delivered")
    assert lot(client, ZINC, [8] * 5, thread_go_gauge_after_coating=None)["missing"] == [
        "thread_go_gauge_after_coating"
    ]


@pytest.mark.parametrize("designation", ["ISO 4029 - M8x16 - 45H - Fe/Zn5", "ISO 4026 - M6x10 - 45H - Fe/Zn8"])
def test_a_set_screw_above_390_hv_needs_the_measure_too(client: FlaskClient, designation: str) -> None:
    """45H: 450 to 560 HV (ISO 898-5:2012, Table 1). The clause exempts it from baking, and the answer says so."""
    found = client.get("/v1/specification", query_string={"designation": designation}).json
    measure = found["characteristics"][MEASURE]
    assert measure["mandatory"] is True
    assert "not under tensile stress" in measure["basis"]["note"]
    assert MEASURE in judged(client, {LOCAL: [9]}, designation=designation)["missing"]


def test_a_coated_lot_is_told_in_plain_words_how_its_thread_is_gauged(client: FlaskClient) -> None:
    """No name of a member of the answer, which an inspector has never seen."""
    found = lot(client, ZINC, [8] * 5)
    (told,) = (one for one in found["notices"] if "before coating" in one)
    assert told.endswith("gauge the finished thread by the gauges listed for the coated thread.")
    assert "member" not in "".join(found["notices"])


@pytest.mark.parametrize("designation", [HARD, HARD_INCH])
def test_hard_and_electroplated_needs_a_measure_against_hydrogen(client: FlaskClient, designation: str) -> None:
    """Up to 435 HV and up to 45 HRC: above 390 HV (ISO 4042:2018, 4.4) and 39 HRC (ASTM F1941-2015)."""
    assert MEASURE in judged(client, {LOCAL: [9]}, designation=designation)["missing"]
    found = judged(client, {LOCAL: [9] * 5, MEASURE: [False]}, designation=designation)
    assert (found["verdict"], found["characteristics"][MEASURE]["verdict"]) == ("reject", "nonconforming")
    softer = designation.replace("12.9", "10.9").replace("ASTM A574", "SAE J429 8")
    assert MEASURE not in judged(client, {LOCAL: [9]}, designation=softer)["missing"]


def test_a_grade_that_may_not_be_plated_is_refused(client: FlaskClient) -> None:
    """ASTM F3125: A490 is neither electroplated nor hot dip galvanized; zinc flake brings in no hydrogen."""

    def asked(coating: str) -> tuple[int, str]:
        name = f"ASME B18.2.6 heavy hex structural bolt - 3/4-10x3 - ASTM F3125 A490 - {coating}"
        answer = client.get("/v1/specification", query_string={"designation": name})
        return answer.status_code, answer.get_json().get("code", "")

    assert asked("Fe/Zn8") == (422, "not_standardised")
    assert asked("flZn-480h") == (200, "")
    query = {"designation": "3/4-10 UNC-2A", "property_class": "ASTM F3125 A490", "coating": "Fe/Zn8"}
    assert client.get("/v1/coating-limits", query_string=query).get_json()["code"] == "not_standardised"
