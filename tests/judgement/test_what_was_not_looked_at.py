"""What a verdict did not look at

A verdict says how many pieces it rests on and by which plan, what nobody measured, and where the purchaser asks for
less than the standard. Class mark and package text go with a lot that conforms to its standard, and with no other.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import BOLT, bolts, judged, nuts, post, request
from problem_documents import pointers, problem

ORDER = {"document": "order 7731", "revision": "B"}
INCH = "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5"


def sentences(found: dict[str, Any]) -> str:
    return "\n".join([*(reason["detail"] for reason in found["reasons"]), *found["notices"]])


def not_looked_at(found: dict[str, Any]) -> dict[str, str]:
    return {one["id"]: one["why"] for one in found["not_looked_at"]}


def test_an_accept_says_on_how_many_pieces_and_by_which_plan(client: FlaskClient) -> None:
    """One bolt of 20 000, no plan named; 125 bolts of 2000 by ISO 2859-1, the tensile test by none."""
    one = judged(client, bolts(1), lot_size=20000)
    assert (one["verdict"], one["reasons"][-1]["code"]) == ("accept", "pieces_judged")
    assert "mechanical 1 piece, thread 1 piece, dimension 1 piece" in one["reasons"][-1]["detail"]
    assert "no sampling plan was named" in one["reasons"][-1]["detail"]
    plan = {"scheme": "ISO 2859-1", "aql": 1.0}
    many = judged(client, bolts(125), lot_size=2000, sampling=plan)["reasons"][-1]["detail"]
    assert "mechanical 125 pieces (no sampling plan was named)" in many
    assert "dimension 125 pieces, marking 125 pieces (ISO 2859-1:1999, Table 2-A" in many


def test_pieces_that_were_not_all_measured_are_counted_as_they_were(client: FlaskClient) -> None:
    """Five bolts, the head of three: dimension 3 to 5 pieces."""
    found = judged(client, bolts(head_height=[6.4, None, 6.4, None, 6.4]))
    assert "dimension 3 to 5 pieces" in found["reasons"][-1]["detail"]


def test_what_is_not_mandatory_and_not_measured_is_named(client: FlaskClient) -> None:
    """Discontinuities, decarburization, thread diameters: told, until somebody measures them."""
    found = not_looked_at(judged(client))
    assert {"surface_discontinuities", "decarburization_depth", "thread_pitch_diameter", "proof_load_set"} <= set(found)
    assert "required by the standard" in found["decarburization_depth"]
    measured = not_looked_at(judged(client, bolts(surface_discontinuities=[True] * 5)))
    assert "surface_discontinuities" not in measured
    inch = judged(client, {"length": [1.99]}, designation=INCH)
    assert "thread_pitch_diameter" in not_looked_at(inch)


def test_what_the_purchaser_drops_is_named_with_the_reason(client: FlaskClient) -> None:
    """Hardness was tested by the mill: the verdict says that it was not looked at, and the lot has no class."""
    dropped = {"hardness_core": {"reason": "tested by the mill"}}
    found = judged(client, bolts(hardness_core=None), requirements={"hardness_core": None}, dropped=dropped)
    assert not_looked_at(found)["hardness_core"] == "dropped by the purchaser: tested by the mill"
    assert (found["verdict"], found["conforms_to_standard"]) == ("accept", False)
    assert [(one["id"], one["used_limit"]) for one in found["deviations"]] == [("hardness_core", None)]
    assert (found["marking"], found["package_marking"]) == ([], None)


@pytest.mark.parametrize(
    ("dropped", "code"),
    [
        ({}, "missing_member"),
        ({"marking": {}}, "missing_member"),
        ({"marking": {"reason": " "}}, "invalid"),
        ({"marking": ""}, "invalid"),
    ],
)
def test_a_drop_needs_a_reason(client: FlaskClient, dropped: dict[str, Any], code: str) -> None:
    """No reason, or an empty one: refused, in verdicts and in specifications."""
    body = request(bolts(marking=None), requirements={"marking": None}, dropped=dropped)
    assert pointers(problem(post(client, body), 422, code)) == ["/dropped/marking/reason"]
    del body["readings"]
    assert pointers(problem(client.post("/v1/specification", json=body), 422, code)) == ["/dropped/marking/reason"]


def test_without_the_place_of_the_break_the_load_decides_alone(client: FlaskClient) -> None:
    """The purchaser drops it, or does not make it mandatory: 48 000 N conform, and the answer says so."""
    for requirement in (None, {"mandatory": False, "basis": ORDER}):
        dropped = {} if requirement else {"fracture_location": {"reason": "not recorded by the testing house"}}
        requirements = {"fracture_location": requirement}
        found = judged(client, bolts(fracture_location=None), requirements=requirements, dropped=dropped)
        assert (found["verdict"], found["conforms_to_standard"]) == ("accept", False)
        assert found["characteristics"]["tensile_load"]["verdict"] == "conforming"
        assert "the load decides alone" in sentences(found)
        assert "fracture_location" in not_looked_at(found)


def test_what_was_given_up_is_no_longer_awaited(client: FlaskClient) -> None:
    """Null while the lot is incomplete; a mandatory characteristic that nobody will look at leaves no class."""
    dropped = {"requirements": {"marking": None}, "dropped": {"marking": {"reason": "unmarked by agreement"}}}
    begun = judged(client, bolts(marking=None, length=None), **dropped)
    assert (begun["verdict"], begun["conforms_to_standard"]) == ("incomplete", None)
    found = judged(client, bolts(marking=None), **dropped)
    assert (found["verdict"], found["conforms_to_standard"]) == ("accept", False)
    assert "not all that its standard asks for was judged" in found["reasons"][0]["detail"]
    # Made not mandatory, and looked at all the same: nothing is missing to the standard.
    looked_at = judged(client, requirements={"marking": {"mandatory": False}})
    assert (looked_at["verdict"], looked_at["conforms_to_standard"]) == ("accept", True)


def test_an_accept_names_what_it_takes_from_memory(client: FlaskClient) -> None:
    """Each characteristic whose limits were not seen in print stands in one sentence, and no other."""
    for readings in (bolts(), bolts(surface_discontinuities=[True] * 5)):
        found = judged(client, readings)
        doubted = {id for id, one in found["characteristics"].items() if one["basis"]["checked"] == "memory"}
        (told,) = (one["detail"] for one in found["reasons"] if one["code"] == "limits_in_doubt")
        assert "fracture_location" in doubted
        named = told.removeprefix("The verdict rests on limits in doubt: ").removesuffix(" (from memory).")
        assert {one.replace(" ", "_") for one in named.split(", ")} == doubted
    rejected = judged(client, bolts(length=[70] * 5))
    assert "limits_in_doubt" not in [one["code"] for one in rejected["reasons"]]


def test_a_break_that_was_looked_at_counts_though_it_is_not_mandatory(client: FlaskClient) -> None:
    """A head that came off rejects, whatever the order says of looking."""
    readings = bolts(fracture_location=["head", None, None, None, None])
    found = judged(client, readings, requirements={"fracture_location": {"mandatory": False}})
    assert found["verdict"] == "reject"


def test_a_lot_by_deviation_carries_no_mark_of_its_class(client: FlaskClient) -> None:
    """45 kN are agreed, 45.5 kN read, 46.4 kN asked for by the standard: accepted, and it does not conform to 8.8."""
    required = {"tensile_load": {"min": 45, "unit": "kN", "basis": ORDER}}
    found = judged(client, bolts(tensile_load=[45500] * 5), requirements=required)
    assert (found["verdict"], found["conforms_to_standard"]) == ("accept", False)
    one = found["deviations"][0]
    assert (one["id"], one["standard_limit"]["min"], one["used_limit"]["min"]) == ("tensile_load", 46400, 45)
    assert one["basis"] == {
        "standard": "order 7731",
        "edition": "B",
        "clause": "requirement of the request",
        "method": "tabulated",
        "checked": "stated by the purchaser",
    }
    assert found["reasons"][0]["code"] == "accepted_by_deviation"
    assert "no class mark" in found["reasons"][0]["detail"]
    assert (found["marking"], found["package_marking"]) == ([], None)
    plain = judged(client)
    assert (plain["conforms_to_standard"], plain["deviations"]) == (True, [])
    assert (plain["marking"][0]["symbol"], plain["package_marking"]["symbol"]) == ("8.8", BOLT)


def test_a_looser_limit_that_nobody_needed_leaves_the_class(client: FlaskClient) -> None:
    """45 kN are agreed, 48 kN read: the deviation is named, the lot conforms to its standard all the same."""
    found = judged(client, requirements={"tensile_load": {"min": 45, "unit": "kN"}})
    assert (found["verdict"], found["conforms_to_standard"]) == ("accept", True)
    assert ([one["id"] for one in found["deviations"]], len(found["marking"])) == (["tensile_load"], 1)


def test_a_tighter_limit_is_no_deviation(client: FlaskClient) -> None:
    """15.85 mm at most, 15.9 mm read: rejected by the order, and conforming to ISO 4014."""
    found = judged(client, requirements={"width_across_flats": {"max": 15.85, "unit": "mm"}})
    assert (found["verdict"], found["conforms_to_standard"], found["deviations"]) == ("reject", True, [])


@pytest.mark.parametrize(
    ("designation", "id", "looser", "reading"),
    [
        (INCH, "width_across_flats", {"max": 19.3, "unit": "mm"}, {"values": [0.755], "unit": "in"}),
        ("ISO 4032 - M10 - 8", "hardness_core", {"max": 38, "unit": "HRC"}, {"values": [37], "unit": "HRC"}),
        ("ISO 4017 - M10x40 - 8.8 - Fe/Zn8", "coating_thickness_mean", {"max": 15}, [14]),
    ],
)
def test_a_deviation_is_one_in_any_unit_on_any_scale(
    client: FlaskClient, designation: str, id: str, looser: dict[str, Any], reading: Any
) -> None:
    """0.755 in where 0.750 in hold and 19.3 mm are agreed; 37 HRC where 30 HRC hold; 14 um where 10 um hold."""
    found = judged(client, {id: reading}, designation=designation, requirements={id: looser})
    assert [one["id"] for one in found["deviations"]] == [id]
    assert found["characteristics"][id]["verdict"] == "conforming"
    assert found["conforms_to_standard"] is False


def test_a_specification_with_looser_limits_withholds_the_class(client: FlaskClient) -> None:
    """Marks and package text of 8.8 are not shown where less is to be tested; tighter limits keep them."""

    def specified(minimum: int) -> dict[str, Any]:
        body = {"designation": BOLT, "requirements": {"tensile_load": {"min": minimum}}}
        found: dict[str, Any] = client.post("/v1/specification", json=body).get_json()
        return found

    assert (specified(45000)["marking"], specified(45000)["package_marking"]) == ([], None)
    assert [one["id"] for one in specified(45000)["deviations"]] == ["tensile_load"]
    assert specified(47000)["package_marking"]["symbol"] == BOLT


def test_a_purchaser_may_ask_for_an_attribute(client: FlaskClient) -> None:
    """Salt spray 240 h: missing, met, failed; and no attribute where the standard measures."""
    required = {"salt_spray_240_h": {"kind": "attribute", "group": "surface", "mandatory": True, "basis": ORDER}}
    assert judged(client, requirements=required)["missing"] == ["salt_spray_240_h"]
    for met, verdict in ((True, "accept"), (False, "reject")):
        column = {"values": [met], "pieces": [0]}
        found = judged(client, bolts(salt_spray_240_h=column), requirements=required)
        assert (found["verdict"], found["conforms_to_standard"]) == (verdict, True)
        assert found["characteristics"]["salt_spray_240_h"]["basis"]["checked"] == "stated by the purchaser"
    measured = request(requirements={"length": {"kind": "attribute"}})
    problem(post(client, measured), 422, "contradiction")
    limited = request(requirements={"salt_spray": {"kind": "attribute", "min": 240}})
    problem(post(client, limited), 422, "not_understood")


def test_pieces_count_from_1_in_sentences_and_from_0_in_members(client: FlaskClient) -> None:
    """The fifth bolt is too wide: `nonconforming_pieces` is [4], the sentence says piece 5."""
    found = judged(client, bolts(width_across_flats=[15.9] * 4 + [16.2]))
    assert found["characteristics"]["width_across_flats"]["nonconforming_pieces"] == [4]
    assert "(piece 5)" in sentences(found)


def test_doubt_goes_with_the_figure_into_every_sentence(client: FlaskClient) -> None:
    """The proof load of a fine nut and its limits of hardness are from memory (ISO 898-2:2012, Tables 5 and 7)."""
    readings = nuts(hardness_core=[400] * 5, nut_proof_load=[True] * 4 + [False], width_across_flats=None)
    found = judged(client, {**readings}, designation="ISO 8673 - M10x1.25 - 8")
    about = [one for one in found["reasons"] if one["characteristic"] in ("hardness_core", "nut_proof_load")]
    assert len(about) == 2
    assert all("from memory)" in one["detail"] for one in about)


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        ({"width_across_flats": [1590.0]}, "1590 mm would conform as 15.9 mm, with the decimal point two places away"),
        ({"tensile_load": [48.0], "fracture_location": ["thread"]}, "48 N would conform as 48 kN"),
        ({"width_across_flats": [0.6250]}, "0.625 mm would conform as 0.625 in"),
        ({"width_across_flats": {"values": [15.9], "unit": "in"}}, "15.9 in would conform as 15.9 mm"),
        ({"width_across_flats": [16.2]}, None),
    ],
)
def test_a_slip_of_unit_or_decimal_point_is_pointed_at(
    client: FlaskClient, readings: dict[str, Any], said: str | None
) -> None:
    """15.9 mm written without its point, 48 kN sent as N, inches sent as mm: rejected all the same, with a hint."""
    found = judged(client, readings)
    assert found["verdict"] == "reject"
    hints = [one for one in found["notices"] if "would conform as" in one]
    assert [said in one for one in hints] == ([] if said is None else [True])
