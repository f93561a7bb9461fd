"""GET /v1/specification: everything required of one designation, and what is not covered."""

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

SCREW = "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 "
GROUPS = {"dimension", "thread", "mechanical", "surface", "marking"}
OF_A_BOLT = {
    "width_across_flats",
    "width_across_corners",
    "head_height",
    "wrenching_height",
    "washer_face_diameter",
    "washer_face_thickness",
    "body_diameter",
    "length",
    "fillet_radius",
    "thread_major_diameter",
    "thread_pitch_diameter",
    "thread_minor_diameter",
    "thread_go_gauge",
    "thread_not_go_gauge",
    "tensile_load",
    "tensile_strength",
    "proof_load_set",
    "elongation",
    "hardness_core",
    "hardness_surface",
    "decarburization_depth",
    "fracture_location",
    "marking",
    "surface_discontinuities",
}
OF_A_NUT = {
    "width_across_flats",
    "width_across_corners",
    "nut_height",
    "nut_wrenching_height",
    "nut_proof_load",
    "hardness_core",
    "thread_go_gauge",
    "thread_not_go_gauge",
    "marking",
}


def ask(client: FlaskClient, designation: str) -> dict:  # type: ignore[type-arg]
    answer = client.get("/v1/specification", query_string={"designation": designation})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict = answer.get_json()  # type: ignore[type-arg]
    return found


@pytest.fixture
def bolt(client: FlaskClient) -> dict:  # type: ignore[type-arg]
    return ask(client, "ISO 4014 - M10x60 - 8.8")


def test_a_bolt_has_every_member_of_the_contract(bolt: dict) -> None:  # type: ignore[type-arg]
    assert bolt["designation"] == "ISO 4014 - M10x60 - 8.8"
    assert set(bolt) >= {"item", "characteristics", "gauges", "tests", "marking", "not_covered", "cautions"}
    assert set(bolt["characteristics"]) >= OF_A_BOLT
    assert "thread_length" not in bolt["characteristics"], "b is a reference dimension and not judged"
    assert bolt["reference_dimensions"]["thread_length"]["nominal"] == 26
    assert {gauge["id"] for gauge in bolt["gauges"]} >= {"go_screw_ring", "not_go_screw_ring"}
    assert bolt["marking"][0]["symbol"] == "8.8"


def test_every_characteristic_says_how_it_is_handled(bolt: dict) -> None:  # type: ignore[type-arg]
    for one in bolt["characteristics"].values():
        assert one["kind"] in ("measured", "attribute", "category")
        assert one["group"] in GROUPS
        assert one["instrument"]
        assert isinstance(one["destructive"], bool)
        assert isinstance(one["mandatory"], bool)
        assert one["basis"]
        if one["kind"] == "measured":
            assert one["min"] is not None or one["max"] is not None or one.get("over_core")
        else:
            assert one["allowed"]


def test_hardness_has_a_window_for_each_scale(bolt: dict) -> None:  # type: ignore[type-arg]
    scales = bolt["characteristics"]["hardness_core"]["scales"]
    assert {scale: (one["min"], one["max"]) for scale, one in scales.items()} == {
        "HV": (250, 320),
        "HBW": (238, 304),
        "HRC": (22, 32),
    }


def test_the_surface_may_be_30_hv_harder_than_the_core(bolt: dict) -> None:  # type: ignore[type-arg]
    surface = bolt["characteristics"]["hardness_surface"]
    assert surface["over_core"]["max"] == 30
    assert surface["max"] is None, "class 8.8 has no cap of its own"


def test_the_break_lies_in_thread_or_shank(client: FlaskClient, bolt: dict) -> None:  # type: ignore[type-arg]
    """ISO 898-1, clause 9.1; a fully threaded screw has no shank to break in."""
    assert bolt["characteristics"]["fracture_location"]["allowed"] == ["thread", "shank"]
    screw = ask(client, "ISO 4017 - M10x60 - 8.8")["characteristics"]
    assert screw["fracture_location"]["allowed"] == ["thread"]


def test_a_bolt_too_short_to_be_pulled_has_no_tensile_characteristic(client: FlaskClient) -> None:
    """ISO 898-1:2013, clause 9.1: l >= 2.5 d; hardness decides."""
    short = ask(client, "ISO 4017 - M10x20 - 8.8")["characteristics"]
    assert not {"tensile_load", "fracture_location"} & set(short)
    assert short["hardness_core"]["mandatory"]


def test_a_nut(client: FlaskClient) -> None:
    found = ask(client, "ISO 4032 - M10 - 8")
    assert set(found["characteristics"]) >= OF_A_NUT
    proof = found["characteristics"]["nut_proof_load"]
    assert (proof["kind"], proof["min"], proof["allowed"]) == ("attribute", 50500, [True])
    assert {gauge["id"] for gauge in found["gauges"]} == {"go_screw_plug", "not_go_screw_plug"}


def test_a_thread_alone(client: FlaskClient) -> None:
    found = ask(client, "M10-6g")
    assert set(found["characteristics"]) == {
        "thread_major_diameter",
        "thread_pitch_diameter",
        "thread_minor_diameter",
        "thread_go_gauge",
        "thread_not_go_gauge",
    }
    assert found["marking"] == []


def test_what_is_not_covered_is_listed(bolt: dict) -> None:  # type: ignore[type-arg]
    said = " ".join(bolt["not_covered"])
    for word in ("Form and position", "ISO 6157-1", "Chemical composition", "go_plain_ring"):
        assert word in said


@pytest.mark.parametrize(
    ("designation", "warned"),
    [
        ("ISO 4014 - M10x60 - 8.8", False),
        ("ISO 4014 - M10x60 - 10.9", True),
        ("ISO 4014 - M10x60 - 12.9", True),
        ("ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 8", False),
        ("ASME B18.3 socket head cap screw - 1/2-13x2 - ASTM A574", True),
    ],
)
def test_hard_fasteners_carry_the_caution_of_hydrogen(designation: str, warned: bool, client: FlaskClient) -> None:
    cautions = ask(client, designation)["cautions"]
    assert any("embrittlement" in caution for caution in cautions) is warned
    assert any("do not replace" in caution for caution in cautions)


def test_what_is_said_of_other_grades_is_left_out(client: FlaskClient) -> None:
    """SAE J429: grade 7 left the standard, bolts of grade 2 beyond 6 in are grade 1; grade 5 is bound by neither."""
    of_grade = {grade: " ".join(ask(client, f"{SCREW}{grade}")["notices"]) for grade in ("2", "5", "7")}
    assert "longer than 6 in" in of_grade["2"]
    assert "Grade 7" in of_grade["7"]
    assert "rade 7" not in of_grade["5"]
    assert "6 in" not in of_grade["5"]


def test_inch_products_are_not_inspected_by_a_standard_of_metric_ones(client: FlaskClient) -> None:
    """ISO 6157 is of metric fasteners; which standard inch ones follow no source that was seen says."""
    found = ask(client, f"{SCREW}5")
    assert "6157" not in str(found)
    assert any("surface discontinuities" in line and "not held" in line for line in found["not_covered"])


def test_small_products_need_no_marking(client: FlaskClient) -> None:
    """ISO 898-1:2013, clause 10: from 5 mm."""
    assert ask(client, "ISO 4014 - M4x20 - 8.8")["marking"] == []
    assert "marking" not in ask(client, "ISO 4014 - M4x20 - 8.8")["characteristics"]
    assert ask(client, "ISO 4014 - M5x25 - 8.8")["marking"]


def test_a_length_that_is_not_preferred_is_a_notice(client: FlaskClient) -> None:
    found = ask(client, "ISO 4014 - M10x61 - 8.8")
    assert found["item"]["length"] == 61
    assert any("ISO 888" in notice for notice in found["notices"])


def test_a_class_that_the_product_standard_does_not_list_is_a_notice(client: FlaskClient) -> None:
    found = ask(client, "ISO 4014 - M10x60 - 12.9")
    assert any("does not list class 12.9" in notice for notice in found["notices"])


@pytest.mark.parametrize(
    ("text", "status", "code"),
    [
        ("ISO 4014 - M10x60", 422, "class_missing"),
        ("ISO 4014 - M10 - 8.8", 422, "length_missing"),
        ("ISO 4014 - M10x60 - 8.7", 404, "unknown_property_class"),
        ("ISO 4014 - M10x60 - 8", 422, "contradiction"),
        ("ISO 4014 - M13x60 - 8.8", 404, "unknown_size"),
        ("ISO 99 - M10x60 - 8.8", 404, "unknown_standard"),
        ("ISO 4014 - M10x-60 - 8.8", 422, "not_understood"),
        ("ISO 4014 - M10x0 - 8.8", 422, "out_of_range"),
        ("M10", 422, "class_missing"),
        ("M1-6H", 422, "not_standardised"),
        ("ISO 4014 - M20x100 - 9.8", 422, "not_standardised"),
        ("hello", 422, "not_understood"),
    ],
)
def test_what_cannot_be_answered(text: str, status: int, code: str, client: FlaskClient) -> None:
    found = problem(client.get("/v1/specification", query_string={"designation": text}), status, code)
    assert len(pointers(found)) == 1


def test_a_part_that_no_test_fits_says_so(client: FlaskClient) -> None:
    """M20x30 A2-70: shorter than 2.5 d, thicker than the M16 of the breaking torques (ISO 3506-1:2009, Table 4)."""
    found = client.get("/v1/specification", query_string={"designation": "ISO 4017 - M20x40 - A2-70"}).get_json()
    decided_by = [
        id for id, one in found["characteristics"].items() if one["group"] == "mechanical" and one["mandatory"]
    ]
    assert decided_by == ["strength_as_agreed"]
    assert any("No mechanical test" in notice for notice in found["notices"])
    other = client.get("/v1/specification", query_string={"designation": "ISO 4017 - M20x60 - A2-70"}).get_json()
    assert other["characteristics"]["tensile_load"]["min"] == 171500
    assert not any("No mechanical test" in notice for notice in other["notices"])
    assert "strength_as_agreed" not in other["characteristics"]


@pytest.mark.parametrize(
    ("designation", "id", "limits"),
    [
        ("ISO 7089 - 10 - 200 HV", "hardness_core", (200, 300)),
        ("ISO 7089 - 10 - 200 HV", "outer_diameter", (19.48, 20.0)),
        ("ISO 4026 - M6x20 - 45H", "hardness_core", (450, 560)),
        ("ISO 4762 - M10x60 - 12.9", "socket_width_across_flats", (8.025, 8.115)),
        ("ISO 4035 - M10 - 05", "nut_height", (4.7, 5.0)),
        ("ISO 4033 - M10 - 9", "nut_height", (8.94, 9.3)),
        ("ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5", "width_across_flats", (0.736, 0.75)),
        ("ASME B18.2.2 hex nut - 1/2-13 - SAE J995 5", "nut_height", (0.427, 0.448)),
    ],
)
def test_other_families(client: FlaskClient, designation: str, id: str, limits: tuple[float, float]) -> None:
    """Cells of the product standards as printed; hardness classes of washers and set screws from memory."""
    found = ask(client, designation)
    assert found["designation"] == designation
    assert (found["characteristics"][id]["min"], found["characteristics"][id]["max"]) == limits


def test_a_washer_has_no_thread_no_gauges_and_no_marking(client: FlaskClient) -> None:
    found = ask(client, "ISO 7089 - 10 - 200 HV")
    assert (found["item"]["kind"], found["item"]["tolerance_class"]) == ("washer", None)
    assert not [id for id in found["characteristics"] if id.startswith("thread_")]
    assert (found["gauges"], found["gauge_standard"], found["marking"]) == ([], None, [])
    assert not [line for line in found["not_covered"] if line.startswith("Gauge")]
    assert found["package_marking"]["symbol"] == "ISO 7089 - 10 - 200 HV"


def test_nuts_are_judged_by_the_style_of_their_standard(client: FlaskClient) -> None:
    """ISO 898-2:2012, Table 1: class 9 is a class of style 2 only, 05 of thin nuts only."""
    assert ask(client, "ISO 4033 - M10 - 9")["loads"]["proof_load"]["min"] > 0
    for designation in ("ISO 4032 - M10 - 9", "ISO 4033 - M10 - 05", "ISO 4035 - M10 - 8"):
        problem(client.get("/v1/specification", query_string={"designation": designation}), 422, "not_standardised")


def test_a_knurled_head_may_be_measured_instead_of_a_plain_one(client: FlaskClient) -> None:
    """ISO 4762:2004, M10: plain to 16.00, knurled to 16.27; neither alone is mandatory."""
    found = ask(client, "ISO 4762 - M10x60 - 8.8")["characteristics"]
    assert (found["head_diameter"]["max"], found["head_diameter_knurled"]["max"]) == (16.0, 16.27)
    assert not found["head_diameter"]["mandatory"]
    assert not found["head_diameter_knurled"]["mandatory"]


def test_a_head_of_reduced_loadability_has_no_load_of_the_full_class(client: FlaskClient) -> None:
    """ISO 10642: the head breaks first; its ultimate loads are not held, hardness is that of the class."""
    found = ask(client, "ISO 10642 - M8x50 - 10.9")
    assert "tensile_load" not in found["characteristics"]
    assert found["characteristics"]["hardness_core"]["mandatory"]
    assert any("reduced head" in line for line in found["not_covered"])


def test_mass_is_nominal_and_no_characteristic(client: FlaskClient) -> None:
    found = ask(client, "ISO 4014 - M10x60 - 8.8")
    assert found["mass_per_1000"]["nominal"] == 44.9
    assert (found["mass_per_1000"]["min"], found["mass_per_1000"]["basis"]["method"]) == (None, "common practice")
    assert "mass_per_1000" not in found["characteristics"]


@pytest.mark.parametrize(("asked", "told"), [("10.9", True), ("010.9", False), ("A2-70", True)])
def test_a_class_that_a_reduced_head_lists_with_its_zero(client: FlaskClient, asked: str, told: bool) -> None:
    """ISO 7380-1:2011 lists 08.8, 010.9 and 012.9 (memory); the trade leaves the zero out."""
    found = client.get("/v1/specification", query_string={"designation": f"ISO 7380-1 - M10x30 - {asked}"}).get_json()
    lists = [notice for notice in found["notices"] if "list" in notice and "7380" in notice and "class" in notice]
    zero = [notice for notice in found["notices"] if "lists it as 010.9" in notice]
    assert (bool(zero), bool(lists)) == ((told, False) if asked == "10.9" else (False, told))


def test_a_later_edition_than_the_one_the_figures_are_from_is_named(client: FlaskClient) -> None:
    """ISO 7040:2025 and ISO 898-2:2022 are in public catalogues; ISO 4762:2004 is the one in force."""
    found = ask(client, "ISO 7040 - M10 - 8")["editions"]
    assert [(one["standard"], one["used"], one["in_force"]["edition"]) for one in found] == [
        ("ISO 7040", "2012", "2025"),
        ("ISO 898-2", "2012", "2022"),
    ]
    assert found[0]["in_force"]["checked"] == "two reproductions"
    assert ask(client, "ISO 4762 - M10x50 - 12.9")["editions"] == []


def test_an_edition_that_is_not_held_is_refused_and_no_figure_passed_off_as_its_own(client: FlaskClient) -> None:
    answer = client.get("/v1/specification", query_string={"designation": "ISO 7040:2025 - M10 - 8"})
    found = problem(answer, 404, "unknown_standard")
    assert found["nearest"] == ["ISO 7040:2012"]
    assert "later than what is held" in found["detail"]
    assert "two public catalogues" in found["detail"]
