"""Limits that nobody saw in print say so wherever a process is held against them."""

from typing import Any

import pytest
from flask.testing import FlaskClient

#: The hardness of a fine nut is from memory (ISO 898-2:2012, Table 7), the width across flats was seen twice.
DOUBTFUL = {"designation": "ISO 8673 - M10x1.25 - 8", "characteristic": "hardness_core"}
SEEN = {"designation": "ISO 4014 - M10x60 - 8.8", "characteristic": "width_across_flats"}


@pytest.mark.parametrize("resource", ["narrow-limits", "trend", "capability"])
def test_doubt_travels_with_the_limits(client: FlaskClient, resource: str) -> None:
    def ask(limits: dict[str, str], values: list[float]) -> dict[str, Any]:
        found: dict[str, Any] = client.post(f"/v1/{resource}", json={"values": values, **limits}).get_json()
        return found

    doubtful = ask(DOUBTFUL, [270, 272, 271, 274, 273, 276])
    assert doubtful["limits"]["basis"]["checked"] == "memory"
    assert any("ISO 898-2:2012, Table 7, from memory" in one for one in doubtful["notices"])
    seen = ask(SEEN, [15.85, 15.86, 15.85, 15.87, 15.86, 15.88])
    assert seen["limits"]["basis"]["checked"] == "two reproductions"
    assert not any("from memory" in one for one in seen["notices"])
