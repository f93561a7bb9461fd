"""A part that no mechanical test fits is never accepted on its dimensions alone.

ISO 3506-1:2009: tests need a least length (from memory); that a lot without any strength result is not released is
common practice.
"""

import pytest
from flask.testing import FlaskClient
from lots import post

PARTS = [
    "ISO 10642 - M8x30 - A2-70",
    "ISO 4017 - M20x40 - A2-70",
    # ISO 898-1:2013 ends at M39, ISO 898-2:2012 starts at M5; SAE J995 gives no proof load of jam nuts.
    "ISO 4014 - M42x200 - 8.8",
    "ISO 4032 - M3 - 8",
    "ASME B18.2.2 hex jam nut - 1/2-13 - SAE J995 2",
]


def lot(client: FlaskClient, designation: str) -> dict:
    """Conforming readings of everything mandatory but the strength."""
    answer = client.get("/v1/specification", query_string={"designation": designation}).json
    readings = {}
    for id, one in answer["characteristics"].items():
        if one["mandatory"] and id != "strength_as_agreed":
            inside = one["min"] if one["min"] is not None else one["max"]
            readings[id] = [inside if one["kind"] == "measured" else one["allowed"][0]]
    return {"designation": designation, "readings": readings}


@pytest.mark.parametrize("designation", PARTS)
def test_without_a_strength_result_the_lot_is_incomplete(client: FlaskClient, designation: str) -> None:
    answer = post(client, lot(client, designation)).json
    assert (answer["verdict"], answer["missing"]) == ("incomplete", ["strength_as_agreed"])


@pytest.mark.parametrize(("result", "verdict"), [(True, "accept"), (False, "reject")])
def test_the_result_agreed_with_the_purchaser_decides(client: FlaskClient, result: bool, verdict: str) -> None:
    wanted = lot(client, PARTS[0])
    wanted["readings"]["strength_as_agreed"] = [result]
    assert post(client, wanted).json["verdict"] == verdict
