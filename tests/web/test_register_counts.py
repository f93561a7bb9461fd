"""Images of /v1/set-points: their counts lie within the figures of the same station."""

import json
from decimal import Decimal
from typing import Any

import pytest
from flask.testing import FlaskClient

CODED = ("thread_pitch_diameter", "thread_major_diameter", "rolling_blank_diameter", "tapping_bore")
CODED += ("width_across_flats", "head_height", "length", "body_diameter", "hardness_core")


def post(client: FlaskClient, **body: Any) -> dict[str, Any]:
    answer = client.post("/v1/set-points", json=body)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = json.loads(answer.data, parse_float=Decimal, parse_int=Decimal)
    return found


@pytest.mark.parametrize(
    ("designation", "stage", "step"),
    [
        ("M10-6g", "thread_rolling", {"value": 0.5, "unit": "um"}),
        ("3/4-16 UNF-2A", "thread_rolling", None),
        ("1/2-13 UNC-2B", "tapping", {"value": 0.00005, "unit": "in"}),
        ("ISO 4014 - M10x60 - 8.8", "heading", {"value": 7, "unit": "um"}),
        ("ISO 4014 - M10x60 - 8.8", "hardening", {"value": 3, "unit": "HV"}),
    ],
)
def test_counts_of_an_image_lie_within_the_figures(
    designation: str, stage: str, step: dict[str, Any] | None, client: FlaskClient
) -> None:
    """Inches become mm at 25.4 exactly (ISO 31-1, the inch of 1959) and then counts, inwards."""
    body: dict[str, Any] = {"designation": designation} | ({} if step is None else {"step": step})
    held = {one["id"]: one for one in post(client, **body)["stations"]}[stage]["set_points"]
    coded = [id for id in held if id in CODED][:6]
    registers = {"station": 7, "stage": stage, "characteristics": coded, "sequence": 1, "issued_at": 1}
    found = post(client, **body, **{"as": "registers"}, registers={**registers, "order": "o", "lot": "l"})
    assert len(found["entries"]) == len(coded) > 0
    for entry in found["entries"]:
        one, count = held[entry["characteristic"]], {1: "0.001", 2: "0.0001", 5: "1"}[int(entry["scale"])]
        times = Decimal("25.4") if one["unit"] == "in" else 1
        for name, side, sign in (("stop_min", "min", 1), ("stop_max", "max", -1)):
            if one[side] is not None:
                inside = sign * (entry[name] * Decimal(count) - one[side] * times)
                assert 0 <= inside < Decimal(count)
        for name, side, sign in (("warn_min", "warning_min", 1), ("warn_max", "warning_max", -1)):
            if entry[name] is not None:
                assert 0 <= sign * (entry[name] * Decimal(count) - one[side] * times) < Decimal(count)
