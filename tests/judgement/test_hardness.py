"""Hardness

Each scale has limits of its own and is judged on them; conversion between scales never decides acceptance. The surface
may be at most 30 HV harder than the core of the same piece, and not harder than the cap of its class (ISO 898-1:2013,
Table 3).
"""

import json
from typing import Any

import numpy as np
from flask.testing import FlaskClient
from lots import BOLT, bolts, characteristic, judged, nuts

from boltwright_server.conformance import Column, Judgement, Request, judge
from boltwright_server.conformance.rules import SIMPLE


def hardness(property_class: str = "8.8", **columns: tuple[list[float], str]) -> Judgement:
    readings = tuple(Column(id, np.array(values), unit) for id, (values, unit) in columns.items())
    return judge(Request(BOLT.replace("8.8", property_class), readings, SIMPLE))


def test_each_scale_is_judged_on_its_own_limits() -> None:
    """Class 8.8: 250 HV to 320 HV, 22 HRC to 32 HRC."""
    assert hardness(hardness_core=([250, 320], "HV")).characteristics["hardness_core"].verdict == "conforming"
    assert hardness(hardness_core=([22, 32], "HRC")).characteristics["hardness_core"].verdict == "conforming"
    assert hardness(hardness_core=([33], "HRC")).characteristics["hardness_core"].verdict == "nonconforming"


def test_where_the_sources_disagree_nothing_is_decided_unasked() -> None:
    """Brinell limits of classes 8.8 to 12.9 differ by edition: name the edition to be judged on that scale."""
    assert hardness(hardness_core=([240], "HBW")).characteristics["hardness_core"].verdict == "undecided"


def test_the_surface_may_be_a_little_harder_than_the_core_of_the_same_piece() -> None:
    """Core 330 HV: the surface may have 360 HV, not 361 HV."""
    found = hardness("10.9", hardness_core=([330, 330], "HV"), hardness_surface=([360, 361], "HV"))
    assert found.characteristics["hardness_surface"].nonconforming_pieces == (1,)


def test_the_cap_of_the_class_holds_beside_it() -> None:
    """Class 10.9, core 375 HV: 390 HV at the surface, not 391 HV."""
    found = hardness("10.9", hardness_core=([375, 375], "HV"), hardness_surface=([390, 391], "HV"))
    assert found.characteristics["hardness_surface"].nonconforming_pieces == (1,)


def test_without_the_core_the_surface_is_undecided() -> None:
    """There is nothing to add the 30 HV to."""
    found = hardness("10.9", hardness_surface=([350], "HV"))
    assert found.characteristics["hardness_surface"].verdict == "undecided"


def test_a_rise_over_the_core_is_judged_by_the_rule(client: FlaskClient) -> None:
    """Core 330 HV: 360.4 HV rounds to a rise of 30 HV; with u = 5 HV a rise of 21 HV is proved, one of 38 HV is not
    disproved, one of 39 HV is.
    """
    core = {"values": [330] * 5, "expanded_uncertainty": 0}

    def bad_and_undecided(rule: Any, *surface: float) -> tuple[list[int], int]:
        column = {"values": list(surface), "expanded_uncertainty": 10}
        readings = {"hardness_core": {**core, "values": [330] * len(surface)}, "hardness_surface": column}
        one = judged(client, readings, designation="ISO 4014 - M10x60 - 10.9", decision_rule=rule)
        found = one["characteristics"]["hardness_surface"]
        return found["nonconforming_pieces"], found["undecided_count"]

    assert bad_and_undecided("simple", 360, 360.4) == ([1], 0)
    assert bad_and_undecided("rounded", 360, 360.4, 360.5, 360.6) == ([3], 0)
    assert bad_and_undecided("guarded", 350, 368.25) == ([], 1)
    assert bad_and_undecided({"rule": "rounded", "ties": "greater"}, 360.4, 360.5) == ([1], 0)
    assert bad_and_undecided("guarded", 351.75, 351.76, 368.25, 368.26) == ([3], 2)


def test_the_softest_reading_of_the_core_counts(client: FlaskClient) -> None:
    """Core 340 HV and 330 HV on one piece: 361 HV at the surface is 31 HV above the softer of the two."""
    core = {"values": [340, 330], "pieces": [0, 0], "repeated": "each"}
    readings = {"hardness_core": core, "hardness_surface": {"values": [361], "pieces": [0]}}
    found = judged(client, readings, designation="ISO 4014 - M10x60 - 10.9")["characteristics"]["hardness_surface"]
    assert found["verdict"] == "nonconforming"


def test_the_reason_says_whether_the_core_or_the_uncertainty_is_at_fault(client: FlaskClient) -> None:
    """Without the core there is nothing to add to; with it, 355 HV over 330 HV is not proved with u = 5 HV."""

    def reason(**columns: Any) -> str:
        body = {"hardness_surface": {"values": [355], "expanded_uncertainty": 10}, **columns}
        found = judged(client, body, designation="ISO 4014 - M10x60 - 10.9", decision_rule="guarded")["reasons"]
        return next(one["detail"] for one in found if one["code"] == "undecided")

    assert "the core of the same piece was not measured" in reason()
    assert "prove 30 HV at most" in reason(hardness_core={"values": [330], "expanded_uncertainty": 0})


def test_single_readings_that_spread_show_incomplete_hardening(client: FlaskClient) -> None:
    """Readings of one piece that differ by more than 30 HV are said aloud (ISO 898-1:2013, clause 9.9, from memory);
    each of them is judged on its own.
    """

    def notices(*values: float, id: str = "hardness_core", **beside: Any) -> list[str]:
        column = {"values": list(values), "pieces": [7] * len(values), "repeated": "each", **beside}
        return [one for one in judged(client, {id: column})["notices"] if "differ by" in one]

    assert notices(260, 290, 275) == []
    assert ["piece 8 differ by 31 HV, more than 30" in one for one in notices(260, 291, 275)] == [True]
    assert notices(22, 60, unit="HRC") == notices(60, 100, id="length") == []


def test_hardness_single_readings_each_count(client: FlaskClient) -> None:
    """260, 249 and 280 HV on one piece of class 8.8, 250 HV at least: the piece does not conform."""
    column = {"values": [260, 249, 280], "pieces": [4, 4, 4], "repeated": "each"}
    assert characteristic(client, "hardness_core", column)["nonconforming_pieces"] == [4]


NUT = "ISO 4032 - M10 - 8"


def nut(client: FlaskClient, hardness: Any, proof: Any = (True,) * 5, **members: Any) -> dict[str, Any]:
    readings = nuts(hardness_core=hardness, nut_proof_load=None if proof is None else list(proof))
    return judged(client, readings, designation=NUT, **members)


def test_a_nut_that_is_not_quenched_may_be_soft_while_its_proof_load_holds(client: FlaskClient) -> None:
    """M10, class 8: 190 HV where 200 HV are guidance (ISO 898-2:2012, clause 9.2); accepted, with a notice.

    In HRC there is a maximum only.
    """
    found = nut(client, [190, 250, 250, 250, 250])
    assert (found["verdict"], found["conforms_to_standard"]) == ("accept", True)
    one = found["characteristics"]["hardness_core"]
    assert (one["verdict"], one["nonconforming_pieces"]) == ("conforming", [])
    assert any("(piece 1)" in said and "clause 9.2" in said for said in found["notices"])
    assert nut(client, {"values": [5] * 5, "unit": "HRC"})["verdict"] == "accept"


def test_the_greatest_hardness_of_such_a_nut_rejects(client: FlaskClient) -> None:
    """303 HV where 302 HV are allowed, whatever the proof load does."""
    found = nut(client, [190, 303, 250, 250, 250])
    assert (found["verdict"], found["characteristics"]["hardness_core"]["nonconforming_pieces"]) == ("reject", [1])


def test_the_least_hardness_binds_where_the_proof_load_does_not_hold(client: FlaskClient) -> None:
    """190 HV and one nut that strips: both fail. Not tried: nothing is decided. Dropped: the hardness decides."""
    stripped = nut(client, [190] + [250] * 4, (True, True, True, True, False))
    assert stripped["characteristics"]["hardness_core"]["nonconforming_pieces"] == [0]
    assert stripped["sampling"]["mechanical"]["nonconforming_pieces"] == 2
    untried = nut(client, [190] + [250] * 4, None)
    assert (untried["verdict"], untried["characteristics"]["hardness_core"]["undecided_count"]) == ("incomplete", 1)
    gone = {"requirements": {"nut_proof_load": None}, "dropped": {"nut_proof_load": {"reason": "no mandrel"}}}
    assert nut(client, [190] + [250] * 4, None, **gone)["verdict"] == "reject"


def test_a_minimum_that_the_purchaser_states_binds(client: FlaskClient) -> None:
    """220 HV by the order, 210 HV read, the proof load holds: rejected."""
    required = {"hardness_core": {"min": 220, "unit": "HV"}}
    assert nut(client, [210] * 5, requirements=required)["verdict"] == "reject"


def test_the_least_hardness_of_quenched_nuts_and_of_bolts_binds(client: FlaskClient) -> None:
    """Class 10, 272 HV; bolts of 8.8, 250 HV, where the answer adds that the tensile test outranks it (from memory)."""
    for designation, soft in (("ISO 4032 - M10 - 10", 271), ("ISO 8673 - M10x1.25 - 8", 249)):
        readings = nuts(hardness_core=[soft] * 5)
        assert judged(client, readings, designation=designation)["verdict"] == "reject"
    found = judged(client, bolts(hardness_core=[249] * 5))
    assert found["verdict"] == "reject"
    assert any("clause 9.9, from memory" in said for said in found["notices"])


def test_a_soft_nut_is_the_same_in_blocks_and_under_a_guard_band(client: FlaskClient) -> None:
    """The proof load comes in a later block; 201 HV with u = 2 HV is not proved, and need not be."""
    column = {"values": [201] * 5, "expanded_uncertainty": 4, "decision_rule": "guarded"}
    assert nut(client, column)["verdict"] == "accept"
    assert nut(client, column, None)["characteristics"]["hardness_core"]["verdict"] == "undecided"
    readings = nuts(1, hardness_core=[190])
    proof = {"nut_proof_load": readings.pop("nut_proof_load")}
    lines = [{"designation": NUT}, {"readings": readings}, {"readings": proof}]
    body = "\n".join(json.dumps(line) for line in lines)
    found = client.post("/v1/conformance", data=body, content_type="application/x-ndjson").get_json()
    assert (found["verdict"], found["characteristics"]["hardness_core"]["outlying_pieces"]) == ("accept", None)
