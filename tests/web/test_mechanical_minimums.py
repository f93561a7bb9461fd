"""GET /v1/mechanical-minimums. ISO 898-1:2013 and ISO 898-2:2012; loads in tests/published, here the form."""

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem


def ask(client: FlaskClient, **query: str) -> dict:  # type: ignore[type-arg]
    answer = client.get("/v1/mechanical-minimums", query_string=query)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict = answer.get_json()  # type: ignore[type-arg]
    return found


def test_a_bolt(client: FlaskClient) -> None:
    """M10 8.8: 46 400 N and 33 700 N (printed, not the product 33 600), 250 to 320 HV."""
    found = ask(client, thread="M10", property_class="8.8")
    assert found["member"] == "external"
    assert found["loads"]["tensile_load"]["min"] == 46400
    assert found["loads"]["proof_load"]["min"] == 33700
    assert found["stress_area"]["nominal"] == 58.0
    assert found["loads"]["tensile_load"]["basis"]["method"] == "tabulated"
    properties = found["properties"]
    assert (properties["hardness_vickers"]["min"], properties["hardness_vickers"]["max"]) == (250, 320)
    assert (properties["tensile_strength"]["min"], properties["yield_strength"]["min"]) == (800, 640)
    assert set(properties) >= {
        "tensile_strength",
        "yield_strength",
        "proof_stress",
        "elongation",
        "reduction_of_area",
        "hardness_vickers",
        "hardness_brinell",
        "hardness_rockwell_c",
        "surface_hardness_vickers",
        "impact_energy",
        "tempering_temperature",
    }
    assert found["tests"]


def test_a_soft_bolt_has_rockwell_b_and_no_surface_rule(client: FlaskClient) -> None:
    properties = ask(client, thread="M10", property_class="4.6")["properties"]
    assert "hardness_rockwell_b" in properties
    assert not {"hardness_rockwell_c", "surface_hardness_vickers", "impact_energy"} & set(properties)


def test_a_fine_thread_is_computed_and_marked_so(client: FlaskClient) -> None:
    """M10x1.25 8.8: 61.2 mm2 x 800 MPa = 48 960 N, three digits 49 000 N; the printed cell was not seen."""
    load = ask(client, thread="M10x1.25", property_class="8.8")["loads"]["tensile_load"]
    assert load["min"] == 49000
    assert load["basis"]["method"] == "computed"
    assert "not seen" in load["basis"]["note"]


def test_a_nut(client: FlaskClient) -> None:
    found = ask(client, thread="M10", property_class="8")
    assert found["member"] == "internal"
    assert found["loads"]["proof_load"]["min"] == 50500
    assert "tensile_load" not in found["loads"]


@pytest.mark.parametrize(("thread", "strength"), [("M16", 800), ("M18", 830)])
def test_class_8_8_splits_at_16_mm(thread: str, strength: int, client: FlaskClient) -> None:
    assert ask(client, thread=thread, property_class="8.8")["properties"]["tensile_strength"]["min"] == strength


def test_the_underlined_class_is_another_product(client: FlaskClient) -> None:
    """12.9 is tempered at 425 Celsius, the underlined 12.9 at 380."""
    plain = ask(client, thread="M10", property_class="12.9")["properties"]["tempering_temperature"]["min"]
    underlined = ask(client, thread="M10", property_class="12.9U")["properties"]["tempering_temperature"]["min"]
    assert (plain, underlined) == (425, 380)


def test_disputed_brinell_is_shown_by_edition(client: FlaskClient) -> None:
    found = ask(client, thread="M10", property_class="8.8")
    assert found["properties"]["hardness_brinell"]["basis"]["checked"] == "conflict"
    editions = found["disputed"]["HBW"]
    assert (editions["2009"]["min"], editions["2013"]["min"]) == (238, 245)
    assert ask(client, thread="M10", property_class="4.6")["disputed"] == {}


def test_below_m3_hardness_decides(client: FlaskClient) -> None:
    found = ask(client, thread="M2", property_class="8.8")
    assert not {"tensile_load", "proof_load"} & set(found["loads"])
    assert any("hardness decides" in notice for notice in found["notices"])


@pytest.mark.parametrize(
    ("query", "status", "code", "pointer"),
    [
        ({"thread": "M10", "property_class": "8.7"}, 404, "unknown_property_class", "/property_class"),
        ({"thread": "M10"}, 422, "class_missing", "/property_class"),
        ({"thread": "M10-6g", "property_class": "8.8"}, 422, "not_understood", "/thread"),
        ({"thread": "M10", "property_class": "8.8", "member": "internal"}, 422, "contradiction", "/member"),
        ({"thread": "M10", "property_class": "8", "member": "bolt"}, 422, "invalid", "/member"),
        ({"thread": "M42", "property_class": "8.8"}, 422, "not_standardised", "/thread"),
        ({"thread": "M18", "property_class": "9.8"}, 422, "not_standardised", "/property_class"),
        ({"thread": "M4", "property_class": "8"}, 422, "not_standardised", "/property_class"),
        ({"thread": "M10x1.3", "property_class": "8.8"}, 404, "unknown_size", "/thread"),
        ({"thread": "M10", "property_class": "8", "style": "7"}, 422, "invalid", "/style"),
        ({"thread": "M10", "property_class": "8", "style": "one"}, 422, "wrong_type", "/style"),
    ],
)
def test_what_cannot_be_answered(
    query: dict[str, str], status: int, code: str, pointer: str, client: FlaskClient
) -> None:
    found = problem(client.get("/v1/mechanical-minimums", query_string=query), status, code)
    assert pointers(found) == [pointer]


def test_class_8_7_names_the_nearest(client: FlaskClient) -> None:
    query = {"thread": "M10", "property_class": "8.7"}
    found = problem(client.get("/v1/mechanical-minimums", query_string=query), 404, "unknown_property_class")
    assert "8.8" in found["nearest"]
