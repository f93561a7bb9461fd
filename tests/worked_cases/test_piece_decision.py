"""Sequences of readings and what is decided: whole, and one reading a request with the state sent back."""

import json
from decimal import Decimal
from typing import Any

import pytest
from case_files import worked
from flask.testing import FlaskClient
from problem_documents import problem

DATA = worked("piece_decision")


def station(case: dict[str, Any]) -> dict[str, Any]:
    names = {"min": "L", "max": "U", "resolution": "res", "standard_deviation": "sigma"}
    given = case.get("station", case)
    return {name: float(given[short]) for name, short in names.items() if short in given}


def decide(client: FlaskClient, of: dict[str, Any], readings: list[Any], state: str | None = None) -> dict[str, Any]:
    sent = [{"number": number, "value": value} for number, value in readings]
    answer = client.post("/v1/piece-decision", json={"station": of, "readings": sent, "state": state})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = json.loads(answer.data, parse_float=Decimal)
    return found


@pytest.mark.parametrize("case", DATA["cases"], ids=[one["name"] for one in DATA["cases"]])
def test_a_sequence(case: dict[str, Any], client: FlaskClient) -> None:
    whole = decide(client, station(case), case["readings"])
    state, single = None, []
    for reading in case["readings"]:
        found = decide(client, station(case), [reading], state)
        state = found["state"]
        single += found["decisions"]
    assert single == whole["decisions"]
    assert state == whole["state"]
    for found, wanted in zip(whole["decisions"], case["expected"], strict=True):
        assert found["decision"] == wanted["decision"]
        assert found["amount"] == wanted.get("amount")
        assert found["repeat"] is wanted.get("repeat", False)
        assert found["gap"] == wanted.get("gap", 0)
        if "why" in wanted and wanted["why"] not in ("out of order", "outside the limit"):
            assert found["reason"] == wanted["why"]


@pytest.mark.parametrize("case", DATA["refused_stations"])
def test_a_gauge_that_is_too_coarse(case: dict[str, Any], client: FlaskClient) -> None:
    body = {"station": station(case), "readings": [{"number": 1, "value": 8870}]}
    problem(client.post("/v1/piece-decision", json=body), 422, "resolution_too_coarse")
