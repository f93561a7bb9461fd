"""GET /v1/units: our codes with UCUM and UN/ECE Recommendation 20 codes (common practice for interchange)."""

import pytest
from flask.testing import FlaskClient


def test_every_unit_of_the_design_is_listed(client: FlaskClient) -> None:
    units = {one["code"]: one for one in client.get("/v1/units").get_json()["units"]}
    lengths, forces, others = (
        ("mm", "um", "in", "mm2", "in2"),
        ("N", "kN", "lbf", "MPa", "ksi", "N.m"),
        ("min", "g", "deg"),
    )
    assert {*lengths, *forces, *others, "HV", "HRC", "HRB", "HBW", "Cel"} <= set(units)
    assert (units["mm"]["ucum"], units["mm"]["unece_rec_20"]) == ("mm", "MMT")
    assert (units["lbf"]["ucum"], units["lbf"]["unece_rec_20"]) == ("[lbf_av]", "C78")
    assert units["HV"]["ucum"] is None
    assert all(one["measures"] for one in units.values())


@pytest.mark.parametrize(
    ("path", "query"),
    [
        ("thread-limits", {"designation": "M10-6g"}),
        ("product-dimensions", {"standard": "ISO 4014", "size": "M10", "length": "60"}),
        ("size-limits", {"nominal": "10", "tolerance_class": "h13"}),
    ],
)
def test_a_unit_of_another_kind_is_what_is_refused(path: str, query: dict[str, str], client: FlaskClient) -> None:
    found = client.get(f"/v1/{path}", query_string={**query, "unit": "deg"}).json
    assert found["detail"] == "unit deg is an angle; this value is a length: use mm, um, in"
    assert found["errors"][0]["pointer"] == "/unit"
