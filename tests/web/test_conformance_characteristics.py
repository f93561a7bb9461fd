"""POST /v1/conformance: gauging, fracture, hardness, proof loads, requirements. One test a sentence of the contract.

ISO 898-1:2013 and ISO 898-2:2012; ISO 1502:1996 for gauging.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import BOLT, NUT, bolts, characteristic, judged, nuts, post, request
from problem_documents import pointers, problem

# Gauging


@pytest.mark.parametrize("id", ["thread_go_gauge", "thread_not_go_gauge"])
def test_true_means_that_the_requirement_is_met(id: str, client: FlaskClient) -> None:
    assert characteristic(client, id, [True])["verdict"] == "conforming"
    found = characteristic(client, id, [True, False])
    assert (found["verdict"], found["nonconforming_pieces"], found["limits"]) == ("nonconforming", [1], None)


def test_a_part_may_pass_the_ring_and_fail_measurement_and_the_other_way_round(client: FlaskClient) -> None:
    """Two separate results: a worn permitted ring lets 9.000 mm pass, d2 max is 8.994 mm."""
    found = judged(client, bolts(thread_pitch_diameter=[9.0] + [8.95] * 4))
    assert found["characteristics"]["thread_go_gauge"]["verdict"] == "conforming"
    assert found["characteristics"]["thread_pitch_diameter"]["verdict"] == "nonconforming"
    found = judged(client, bolts(thread_pitch_diameter=[8.95] * 5, thread_go_gauge=[False] + [True] * 4))
    assert found["characteristics"]["thread_go_gauge"]["verdict"] == "nonconforming"
    assert found["characteristics"]["thread_pitch_diameter"]["verdict"] == "conforming"
    assert found["verdict"] == "reject"


@pytest.mark.parametrize("value", [0, 1, "true", "GO", 1.0, []])
def test_gauge_results_are_true_or_false_and_nothing_like_it(value: Any, client: FlaskClient) -> None:
    found = problem(post(client, request({"thread_go_gauge": [True, value]})), 422, "wrong_type")
    assert pointers(found) == ["/readings/thread_go_gauge/1"]


# Fracture


def tension(client: FlaskClient, loads: list[float], where: list[str | None] | None, **members: Any) -> dict[str, Any]:
    readings = bolts(tensile_load=loads, fracture_location=where)
    return judged(client, readings, **members)


@pytest.mark.parametrize(("where", "verdict"), [("thread", "accept"), ("shank", "accept")])
def test_a_break_in_thread_or_shank_counts(where: str, verdict: str, client: FlaskClient) -> None:
    assert tension(client, [48000], [where])["verdict"] == verdict


@pytest.mark.parametrize("where", ["head_junction", "head"])
def test_a_break_at_the_head_fails_whatever_the_load_was(where: str, client: FlaskClient) -> None:
    found = tension(client, [60000], [where])
    assert found["verdict"] == "reject"
    assert found["characteristics"]["tensile_load"]["verdict"] == "conforming"
    assert found["characteristics"]["fracture_location"]["verdict"] == "nonconforming"
    reason = next(one for one in found["reasons"] if one["characteristic"] == "fracture_location")
    assert "in the free thread or in the shank" in reason["detail"]
    assert "ISO 898-1:2013" in reason["detail"]


def test_a_tensile_reading_counts_only_with_its_fracture_location(client: FlaskClient) -> None:
    found = tension(client, [48000, 48000], ["thread", None])
    load = found["characteristics"]["tensile_load"]
    assert (found["verdict"], load["verdict"], load["undecided_count"]) == ("incomplete", "undecided", 1)
    assert any("fracture location" in notice for notice in found["notices"])
    assert tension(client, [48000], None)["characteristics"]["tensile_load"]["verdict"] == "undecided"


def test_a_load_that_is_too_low_fails_even_without_its_location(client: FlaskClient) -> None:
    assert tension(client, [40000], None)["characteristics"]["tensile_load"]["verdict"] == "nonconforming"


def test_locations_belong_to_loads_by_their_pieces(client: FlaskClient) -> None:
    loads = {"values": [48000, 48000], "pieces": [10, 11]}
    here = {"values": ["thread", "shank"], "pieces": [11, 10]}
    elsewhere = {"values": ["thread", "shank"], "pieces": [11, 12]}
    assert judged(client, bolts(tensile_load=loads, fracture_location=here))["verdict"] == "accept"
    found = judged(client, bolts(tensile_load=loads, fracture_location=elsewhere))
    assert found["characteristics"]["tensile_load"]["undecided_count"] == 1


def test_a_purchaser_may_accept_breaks_in_the_thread_only(client: FlaskClient) -> None:
    found = tension(client, [48000], ["shank"], fracture_rule="thread_only")
    assert (found["verdict"], found["fracture_rule"]) == ("reject", "thread_only")
    basis = found["characteristics"]["fracture_location"]["basis"]
    assert basis["method"] == "common practice"
    assert tension(client, [48000], ["thread"], fracture_rule="thread_only")["verdict"] == "accept"
    assert tension(client, [48000], ["shank"])["fracture_rule"] == "standard"


@pytest.mark.parametrize("word", ["Thread", "middle", "", "head junction"])
def test_fracture_locations_are_four_words(word: str, client: FlaskClient) -> None:
    body = request({"fracture_location": ["thread", word]})
    found = problem(post(client, body), 422, "invalid")
    assert pointers(found) == ["/readings/fracture_location/1"]
    assert "thread, shank, head_junction, head" in found["detail"]


# Hardness


@pytest.mark.parametrize(
    ("unit", "inside", "outside"),
    [("HV", [250, 320], [249, 321]), ("HRC", [22, 32], [21.9, 32.1])],
)
def test_core_hardness_is_judged_on_the_limits_of_its_own_scale(
    unit: str, inside: list[float], outside: list[float], client: FlaskClient
) -> None:
    assert characteristic(client, "hardness_core", {"values": inside, "unit": unit})["verdict"] == "conforming"
    found = characteristic(client, "hardness_core", {"values": outside, "unit": unit})
    assert found["nonconforming_pieces"] == [0, 1]
    assert found["limits"]["unit"] == unit


def test_vickers_is_the_scale_where_none_is_named(client: FlaskClient) -> None:
    assert characteristic(client, "hardness_core", [280])["limits"]["unit"] == "HV"


def test_a_scale_without_limits_for_the_class_is_refused_and_never_converted(client: FlaskClient) -> None:
    body = request({"hardness_core": {"values": [95], "unit": "HRB"}})
    found = problem(post(client, body), 422, "unit_does_not_fit")
    assert "HV" in found["detail"]
    soft = request({"hardness_core": {"values": [80], "unit": "HRB"}}, designation="ISO 4014 - M10x60 - 4.6")
    assert post(client, soft).status_code == 200


def test_disputed_brinell_decides_nothing_unless_the_edition_is_named(client: FlaskClient) -> None:
    """Classes 8.8 to 12.9: printed tables give 238, a recalled 2013 gives 245 HBW."""
    readings = bolts(hardness_core={"values": [240] * 5, "unit": "HBW"})
    found = judged(client, readings)
    assert found["characteristics"]["hardness_core"]["verdict"] == "undecided"
    assert found["verdict"] == "incomplete"
    assert any("edition" in notice for notice in found["notices"])
    for edition, verdict in (("2009", "conforming"), ("2013", "nonconforming")):
        column = {"values": [240] * 5, "unit": "HBW", "edition": edition}
        assert characteristic(client, "hardness_core", column)["verdict"] == verdict
    body = request({"hardness_core": {"values": [240], "unit": "HBW", "edition": "1875"}})
    assert "2009" in problem(post(client, body), 422, "not_understood")["detail"]


def test_undisputed_brinell_is_judged(client: FlaskClient) -> None:
    column = {"values": [120], "unit": "HBW"}
    found = characteristic(client, "hardness_core", column, designation="ISO 4014 - M10x60 - 4.6")
    assert found["verdict"] == "conforming"


def surface(client: FlaskClient, core: Any, surface: Any, name: str = "10.9") -> dict[str, Any]:
    readings = {"hardness_core": core, "hardness_surface": surface}
    found: dict[str, Any] = judged(client, readings, designation=f"ISO 4014 - M10x60 - {name}")["characteristics"][
        "hardness_surface"
    ]
    return found


def test_the_surface_is_limited_by_the_core_of_the_same_piece(client: FlaskClient) -> None:
    """Not more than 30 HV above the core: piece 0 may have 360, piece 1 370."""
    found = surface(client, [330, 340], [360, 370])
    assert found["verdict"] == "conforming"
    found = surface(client, [330, 340], [361, 360])
    assert found["nonconforming_pieces"] == [0]


def test_the_surface_is_limited_by_the_cap_of_the_class(client: FlaskClient) -> None:
    assert surface(client, [375], [390])["verdict"] == "conforming"
    assert surface(client, [375], [391])["verdict"] == "nonconforming"
    assert surface(client, [420], [436], "12.9")["verdict"] == "nonconforming"
    assert surface(client, [300], [330], "8.8")["verdict"] == "conforming"
    assert surface(client, [300], [331], "8.8")["verdict"] == "nonconforming"


def test_without_the_core_of_the_piece_the_surface_is_undecided(client: FlaskClient) -> None:
    found = surface(client, [330, None], [350, 350])
    assert (found["verdict"], found["undecided_count"]) == ("undecided", 1)
    alone = judged(client, {"hardness_surface": [350]}, designation="ISO 4014 - M10x60 - 10.9")
    assert alone["characteristics"]["hardness_surface"]["verdict"] == "undecided"
    above_cap = judged(client, {"hardness_surface": [400]}, designation="ISO 4014 - M10x60 - 10.9")
    assert above_cap["characteristics"]["hardness_surface"]["verdict"] == "nonconforming"


def test_cores_are_found_by_piece_number_and_on_the_same_scale_only(client: FlaskClient) -> None:
    core = {"values": [330, 360], "pieces": [5, 3]}
    assert surface(client, core, {"values": [385], "pieces": [3]})["verdict"] == "conforming"
    assert surface(client, core, {"values": [385], "pieces": [5]})["verdict"] == "nonconforming"
    rockwell = {"values": [34], "unit": "HRC"}
    assert surface(client, rockwell, [350])["verdict"] == "undecided"


# Proof loads


def test_the_set_after_the_proof_load_is_signed(client: FlaskClient) -> None:
    """ISO 898-1:2013, clause 9.6: not more than 12.5 um to either side."""
    found = characteristic(client, "proof_load_set", [12.5, -12.5, 0])
    assert (found["verdict"], found["limits"]["min"], found["limits"]["max"]) == ("conforming", -12.5, 12.5)
    assert characteristic(client, "proof_load_set", [12.6, -12.6])["nonconforming_pieces"] == [0, 1]


def test_a_nut_has_held_its_proof_load_or_not(client: FlaskClient) -> None:
    assert judged(client, nuts(), designation=NUT)["verdict"] == "accept"
    found = judged(client, nuts(nut_proof_load=[True, False]), designation=NUT)
    one = found["characteristics"]["nut_proof_load"]
    assert (found["verdict"], one["nonconforming_pieces"]) == ("reject", [1])
    assert one["limits"]["min"] == 50500, "the load under which it was held"
    problem(post(client, request(nuts(nut_proof_load=[50500] * 5), designation=NUT)), 422, "wrong_type")


# What is not judged


@pytest.mark.parametrize("id", ["colour", "nut_height", "thread_length", "impact_energy", "Length", ""])
def test_what_is_unknown_or_does_not_apply_is_refused(id: str, client: FlaskClient) -> None:
    found = problem(post(client, request({id: [1.0]})), 422, "unknown_characteristic")
    assert pointers(found) == [f"/readings/{id}"]


def test_a_near_miss_names_what_was_meant(client: FlaskClient) -> None:
    found = problem(post(client, request({"width_acros_flats": [15.9]})), 422, "unknown_characteristic")
    assert "width_across_flats" in found["nearest"]


@pytest.mark.parametrize("text", ["ISO 4014 - M10x61 - 8.8", "ISO 4014 - M10x60 - 12.9"])
def test_a_length_or_class_that_is_not_listed_is_a_notice(text: str, client: FlaskClient) -> None:
    found = judged(client, {"width_across_flats": [15.9]}, designation=text)
    assert found["notices"]
    assert found["characteristics"]["width_across_flats"]["verdict"] == "conforming"


# Requirements of the purchaser

ORDER = {"document": "Order 4711", "revision": "B"}


def test_a_requirement_tightens_or_replaces_a_limit(client: FlaskClient) -> None:
    tighter = {"width_across_flats": {"min": 15.85, "basis": ORDER}}
    found = characteristic(client, "width_across_flats", [15.84], requirements=tighter)
    assert found["verdict"] == "nonconforming"
    assert (found["limits"]["min"], found["limits"]["max"]) == (15.85, 16.0), "the other side is the standard's"
    assert (found["basis"]["standard"], found["basis"]["edition"]) == ("Order 4711", "B")
    assert found["basis"]["note"].endswith("max of ISO 4014:2011, Tables 1 and 2")


def test_a_requirement_may_leave_a_single_value(client: FlaskClient) -> None:
    """A maximum of 15.73 on the standard's minimum of 15.73; below it nothing could conform."""
    only = {"width_across_flats": {"max": 15.73}}
    assert characteristic(client, "width_across_flats", [15.73], requirements=only)["verdict"] == "conforming"
    body = request({"width_across_flats": [15.73]}, requirements={"width_across_flats": {"max": 15.72}})
    found = problem(post(client, body), 422, "contradiction")
    assert "15.73 mm of ISO 4014:2011, which stays unless you state it too" in found["detail"]


def test_a_looser_requirement_is_used_and_said(client: FlaskClient) -> None:
    looser = {"width_across_flats": {"max": 16.1}}
    found = judged(client, {"width_across_flats": [16.05]}, requirements=looser)
    assert found["characteristics"]["width_across_flats"]["verdict"] == "conforming"
    assert any("looser" in notice for notice in found["notices"])


def test_a_requirement_may_open_a_side(client: FlaskClient) -> None:
    found = characteristic(client, "hardness_core", [400], requirements={"hardness_core": {"max": None}})
    assert (found["verdict"], found["limits"]["max"]) == ("conforming", None)


def test_a_requirement_in_another_unit_is_exact(client: FlaskClient) -> None:
    """2.36 in = 59.944 mm; a reading that names no unit stays in that of the standard, mm."""
    inches = {"length": {"min": 2.36, "max": 2.37, "unit": "in"}}
    assert characteristic(client, "length", [59.944], requirements=inches)["verdict"] == "conforming"
    assert characteristic(client, "length", [59.943], requirements=inches)["verdict"] == "nonconforming"
    in_inches = {"values": [2.36], "unit": "in"}
    assert characteristic(client, "length", in_inches, requirements=inches)["verdict"] == "conforming"


def test_the_side_that_is_kept_stays_exact_in_the_other_unit(client: FlaskClient) -> None:
    """16.00 mm has no finite decimal in inches; a reading of 16.00 mm conforms all the same."""
    found = judged(
        client, {"width_across_flats": [16.0]}, requirements={"width_across_flats": {"min": 0.625, "unit": "in"}}
    )
    assert found["characteristics"]["width_across_flats"]["verdict"] == "conforming"
    assert not any("looser" in notice for notice in found["notices"])
    over = {"width_across_flats": {"max": 0.63, "unit": "in"}}
    assert characteristic(client, "width_across_flats", [15.73], requirements=over)["verdict"] == "conforming"
    assert characteristic(client, "width_across_flats", [15.7299], requirements=over)["verdict"] == "nonconforming"


def test_a_hardness_may_be_required_on_any_scale_that_has_limits(client: FlaskClient) -> None:
    rockwell = {"hardness_core": {"min": 25, "unit": "HRC"}}
    column = {"values": [24, 26], "unit": "HRC"}
    found = characteristic(client, "hardness_core", column, requirements=rockwell)
    assert (found["nonconforming_pieces"], found["limits"]["max"]) == ([0], 32)
    other = request({"hardness_core": {"values": [280], "unit": "HV"}}, requirements=rockwell)
    problem(post(client, other), 422, "unit_does_not_fit")


def test_a_requirement_settles_a_disputed_scale_only_with_both_sides(client: FlaskClient) -> None:
    column = {"values": [240], "unit": "HBW"}
    both = {"hardness_core": {"min": 238, "max": 304, "unit": "HBW"}}
    assert characteristic(client, "hardness_core", column, requirements=both)["verdict"] == "conforming"
    one = request({"hardness_core": column}, requirements={"hardness_core": {"min": 238, "unit": "HBW"}})
    assert pointers(problem(post(client, one), 422, "not_understood")) == ["/requirements/hardness_core"]


def test_an_added_test_that_destroys_has_pieces_of_its_own(client: FlaskClient) -> None:
    added = {"impact_energy": {"min": 27, "unit": "J"}}
    readings = bolts(impact_energy=[30, 31], tensile_load=[48000] * 2, fracture_location=["thread"] * 2)
    assert judged(client, readings, requirements=added)["verdict"] == "accept"


def test_a_requirement_adds_a_characteristic(client: FlaskClient) -> None:
    added = {"hole_diameter": {"min": 2.0, "max": 2.2, "unit": "mm", "group": "dimension", "basis": ORDER}}
    found = judged(client, bolts(), requirements=added)
    assert found["missing"] == ["hole_diameter"], "what is added is mandatory"
    assert judged(client, bolts(hole_diameter=[2.1] * 5), requirements=added)["verdict"] == "accept"
    assert judged(client, bolts(hole_diameter=[2.3] * 5), requirements=added)["verdict"] == "reject"


def test_a_requirement_may_make_mandatory_what_was_not(client: FlaskClient) -> None:
    found = judged(client, bolts(), requirements={"wrenching_height": {"mandatory": True}})
    assert (found["verdict"], found["missing"]) == ("incomplete", ["wrenching_height"])
    assert judged(client, bolts(marking=None), requirements={"marking": {"mandatory": False}})["verdict"] == "accept"


def test_null_drops_a_characteristic_with_its_reason(client: FlaskClient) -> None:
    reason = {"marking": {"reason": "too small for a stamp"}}
    found = judged(client, bolts(marking=None), requirements={"marking": None}, dropped=reason)
    assert (found["verdict"], found["missing"]) == ("accept", [])
    assert found["dropped"] == reason
    body = request(bolts(), requirements={"marking": None}, dropped=reason)
    problem(post(client, body), 422, "unknown_characteristic")


@pytest.mark.parametrize(
    ("members", "code", "pointer"),
    [
        ({"requirements": {"length": {"min": 61, "max": 60}}}, "contradiction", "/requirements/length"),
        ({"requirements": {"length": {"min": "60"}}}, "wrong_type", "/requirements/length/min"),
        ({"requirements": {"length": {"min": True}}}, "wrong_type", "/requirements/length/min"),
        ({"requirements": {"length": {"least": 60}}}, "unknown_member", "/requirements/length/least"),
        ({"requirements": {"length": 60}}, "wrong_type", "/requirements/length"),
        ({"requirements": {"length": {"min": 60, "unit": "N"}}}, "unit_does_not_fit", "/requirements/length/unit"),
        ({"requirements": {"depth": {"min": 60}}}, "not_understood", "/requirements/depth/unit"),
        ({"requirements": {"depth": {"unit": "mm"}}}, "not_understood", "/requirements/depth"),
        ({"requirements": {"length": {"group": "colour"}}}, "invalid", "/requirements/length/group"),
        ({"requirements": {"marking": {"min": 1}}}, "not_understood", "/requirements/marking"),
        ({"requirements": {"colour": None}, "dropped": {"colour": {"reason": "x"}}}, "unknown_characteristic", None),
        ({"dropped": {"length": {"reason": "x"}}}, "invalid", "/dropped/length"),
        ({"fracture_rule": "anywhere"}, "invalid", "/fracture_rule"),
    ],
)
def test_a_requirement_that_cannot_hold_is_refused(
    members: dict[str, Any], code: str, pointer: str | None, client: FlaskClient
) -> None:
    found = problem(post(client, request(bolts(), designation=BOLT, **members)), 422, code)
    if pointer is not None:
        assert pointers(found) == [pointer]
