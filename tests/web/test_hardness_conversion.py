"""GET /v1/hardness-conversion: an estimate, labelled so. ISO 18265:2013, Table A.1; ASTM E140, Table 1 (memory)."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import problem


def ask(client: FlaskClient, value: str, given: str, wanted: str, **more: str) -> dict[str, Any]:
    answer = client.get("/v1/hardness-conversion", query_string={"value": value, "from": given, "to": wanted, **more})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def test_an_answer_says_that_it_is_an_estimate(client: FlaskClient) -> None:
    found = ask(client, "320", "HV", "HRC")
    assert found["is_estimate"] is True
    assert "never decides" in found["notices"][0]
    assert (found["from"], found["to"], found["unit"]) == ("HV", "HRC", "HRC")
    assert found["basis"]["method"] == "tabulated"


def test_between_two_rows_runs_the_straight_line(client: FlaskClient) -> None:
    """320 HV 32.2 HRC and 330 HV 33.3 HRC: a third of the way from one to the other is 32.5."""
    found = ask(client, "323", "HV", "HRC")
    assert found["estimate"] == 32.5
    assert found["between"] == [{"from": 320, "to": 32.2}, {"from": 330, "to": 33.3}]
    assert found["basis"]["method"] == "computed"


def test_a_decimal_comma_is_forgiven(client: FlaskClient) -> None:
    assert ask(client, "32,2", "HRC", "HV")["estimate"] == 320


def test_a_recalled_column_says_so(client: FlaskClient) -> None:
    assert ask(client, "91.5", "HRB", "HV")["basis"]["checked"] == "memory"
    assert ask(client, "39", "HRC", "HBW", table="ASTM E140 1")["basis"]["checked"] == "memory"


def test_tensile_strength_is_the_least_reliable(client: FlaskClient) -> None:
    found = ask(client, "300", "HV", "MPa")
    assert found["estimate"] == 965
    assert any("least reliable" in notice for notice in found["notices"])


@pytest.mark.parametrize(
    ("query", "code"),
    [
        ({"value": "10", "from": "HRC", "to": "HV"}, "not_standardised"),
        ({"value": "900", "from": "HV", "to": "HRC"}, "not_standardised"),
        ({"value": "200", "from": "HV", "to": "HRC"}, "not_standardised"),
        ({"value": "320", "from": "HV", "to": "HV"}, "contradiction"),
        ({"value": "95", "from": "HRB", "to": "HV", "table": "ASTM E140 1"}, "contradiction"),
        ({"value": "nan", "from": "HV", "to": "HRC"}, "invalid"),
        ({"value": "320", "from": "HV", "to": "HL"}, "invalid"),
        ({"from": "HV", "to": "HRC"}, "missing_member"),
    ],
)
def test_nothing_is_extrapolated_or_guessed(query: dict[str, str], code: str, client: FlaskClient) -> None:
    assert problem(client.get("/v1/hardness-conversion", query_string=query), 422, code)["detail"]
