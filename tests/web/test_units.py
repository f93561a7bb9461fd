"""GET /v1/units: our codes with UCUM and UN/ECE Recommendation 20 codes (common practice for interchange)."""

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
