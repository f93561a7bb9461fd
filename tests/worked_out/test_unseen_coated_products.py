"""What a coated product is asked for: states, the mean of the batch, hydrogen. By the standards and the wire contract.

ISO 4042:1999 Table 1 (local and batch average), ISO 10684:2004 (40 um local, 50 um batch average), ISO 898-1:2013
Table 3 (12.9 up to 435 HV, 10.9 up to 380 HV, 8.8 up to 320 HV) against 390 HV.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient

ZINC_8, HOT_DIP = "ISO 4017 - M10x40 - 8.8 - Fe/Zn8", "ISO 4014 - M16x90 - 8.8U - tZn"
MEASURE = "hydrogen_embrittlement_measure"


def characteristics(client: FlaskClient, designation: str) -> dict[str, Any]:
    answer = client.get("/v1/specification", query_string={"designation": designation})
    assert answer.status_code == 200, answer.text[:300]
    return dict(answer.get_json()["characteristics"])


@pytest.mark.parametrize(
    ("designation", "local", "least", "most"),
    [
        ("ISO 4017 - M10x40 - 8.8 - Fe/Zn3", 3, 3, 5),
        ("ISO 4017 - M10x40 - 8.8 - Fe/Zn5", 5, 4, 6),
        (ZINC_8, 8, 7, 10),
        (HOT_DIP, 40, 50, None),
        ("ISO 4032 - M16 - 8Z - tZn", 40, 50, None),
    ],
)
def test_the_mean_of_the_batch_has_limits_of_its_own(
    client: FlaskClient, designation: str, local: int, least: int, most: int | None
) -> None:
    asked = characteristics(client, designation)
    assert (asked["coating_thickness"]["min"], asked["coating_thickness"]["mandatory"]) == (local, True)
    mean = asked["coating_thickness_mean"]
    assert (mean["min"], mean["max"], mean["unit"], mean["mandatory"]) == (least, most, "um", True)


@pytest.mark.parametrize("designation", [ZINC_8, HOT_DIP])
def test_each_characteristic_of_a_coated_product_has_its_state(client: FlaskClient, designation: str) -> None:
    states = {name: one.get("state") for name, one in characteristics(client, designation).items()}
    assert set(states.values()) == {"before_coating", "as_delivered"}, states
    assert (states["thread_go_gauge"], states["thread_go_gauge_after_coating"]) == ("before_coating", "as_delivered")
    assert (states["width_across_flats"], states["coating_thickness"]) == ("before_coating", "as_delivered")


@pytest.mark.parametrize("designation", [ZINC_8, HOT_DIP])
def test_the_gauge_after_coating_is_mandatory(client: FlaskClient, designation: str) -> None:
    gauge = characteristics(client, designation)["thread_go_gauge_after_coating"]
    assert (gauge["kind"], gauge["group"], gauge["mandatory"]) == ("attribute", "thread", True)


@pytest.mark.parametrize(
    ("designation", "asked_for"),
    [
        ("ISO 4762 - M10x40 - 12.9 - Fe/Zn5", True),
        ("ISO 4762 - M8x20 - 12.9 - Fe/Zn3", True),
        ("ISO 4762 - M10x40 - 12.9", False),
        ("ISO 4017 - M10x40 - 10.9 - Fe/Zn5", False),
        (ZINC_8, False),
        ("ISO 4017 - M10x30 - A2-70", False),
    ],
)
def test_a_measure_against_hydrogen_embrittlement_is_mandatory_above_390_hv(
    client: FlaskClient, designation: str, asked_for: bool
) -> None:
    measure = characteristics(client, designation).get(MEASURE, {"mandatory": False, "kind": "attribute"})
    assert (measure["kind"], measure["mandatory"]) == ("attribute", asked_for)
