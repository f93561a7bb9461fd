"""Proof load, carbon loss, and limits of a drawing

After the proof load of a bolt its length has changed by 12.5 um at most, either way. A nut has held its load or not.
The depth of complete decarburization and the height that is left without it are two characteristics.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import NUT, characteristic, judged, nuts, post, request
from problem_documents import pointers, problem


@pytest.mark.parametrize(
    ("reading", "unit", "verdict"),
    [
        (12.5, "um", "conforming"),
        (-12.5, "um", "conforming"),
        (12.6, "um", "nonconforming"),
        (0.0125, "mm", "conforming"),
        (-0.0126, "mm", "nonconforming"),
        (0.000492, "in", "conforming"),
        (0.000493, "in", "nonconforming"),
    ],
)
def test_the_set_after_the_proof_load(reading: float, unit: str, verdict: str, client: FlaskClient) -> None:
    """ISO 898-1:2013, clause 9.6: 12.5 um to either side, in any unit; 12.5 um = 0.000 492 1 in."""
    assert characteristic(client, "proof_load_set", {"values": [reading], "unit": unit})["verdict"] == verdict


def test_a_nut_holds_its_proof_load_or_does_not(client: FlaskClient) -> None:
    """ISO 898-2:2012: `true` is held and removable; the answer names the load, 50 500 N for M10 of class 8."""
    found = judged(client, nuts(nut_proof_load=[True, False]), designation=NUT)
    assert found["verdict"] == "reject"
    assert found["characteristics"]["nut_proof_load"]["limits"]["min"] == 50500
    assert any("holds its proof load of 50500 N" in reason["detail"] for reason in found["reasons"])


@pytest.mark.parametrize(
    ("property_class", "height"),
    [("8.8", "0.460"), ("10.9", "0.613"), ("12.9", "0.690")],
)
def test_complete_decarburization_and_what_is_left_of_the_height(
    property_class: str, height: str, client: FlaskClient
) -> None:
    """ISO 898-1:2013, Table 3: 0.015 mm at most; P = 1.5 mm has H1 = 0.920 mm, of which 1/2, 2/3, 3/4 are left."""
    about = {"designation": f"ISO 4014 - M10x60 - {property_class}"}
    least = float(height)
    for id, inside, outside in (
        ("decarburization_depth", 0.015, 0.016),
        ("non_decarburized_height", least, least - 0.001),
    ):
        assert characteristic(client, id, [inside], **about)["verdict"] == "conforming"
        assert characteristic(client, id, [outside], **about)["verdict"] == "nonconforming"


def test_a_drawing_may_have_limits_below_zero(client: FlaskClient) -> None:
    """A position of -0.10 mm to 0.10 mm is read as -0.05 mm; a length is never below zero, nor a gap
    whose minimum is 0.
    """
    added: dict[str, Any] = {"position": {"min": -0.10, "max": 0.10, "unit": "mm"}}
    assert characteristic(client, "position", [-0.05, -0.11], requirements=added)["nonconforming_pieces"] == [1]
    gap: dict[str, Any] = {"gap": {"min": 0, "max": 0.10, "unit": "mm"}}
    for id, members in (("length", {}), ("gap", {"requirements": gap})):
        body = request({id: [-0.05]}, **members)
        assert pointers(problem(post(client, body), 422, "out_of_range")) == [f"/readings/{id}/0"]


def test_the_side_that_a_drawing_keeps_is_rounded_to_its_own_digit(client: FlaskClient) -> None:
    """A maximum of 0.63 in leaves the minimum at 15.73 mm, stated to 0.01 mm: 15.726 mm rounds up to it."""
    members: dict[str, Any] = {
        "requirements": {"width_across_flats": {"max": 0.63, "unit": "in"}},
        "decision_rule": "rounded",
    }
    for reading, verdict in ((15.726, "conforming"), (15.724, "nonconforming"), (16.128, "conforming")):
        assert characteristic(client, "width_across_flats", [reading], **members)["verdict"] == verdict
    assert characteristic(client, "width_across_flats", [16.13], **members)["verdict"] == "nonconforming"
