"""Plans are kept between requests; no answer may come from the plan of another request."""

from __future__ import annotations

import json
from concurrent.futures import ThreadPoolExecutor
from typing import Any

from engine import clear_caches
from flask import Flask
from flask.testing import FlaskClient
from lots import BOLT, NUT

FLATS = "width_across_flats"


def lot(limit: str, rule: str = "rounded", reading: str = "16.04") -> str:
    return (
        f'{{"designation": "{BOLT}", "decision_rule": "{rule}", "requirements": {{"{FLATS}": {{"max": {limit}}}}}, '
        f'"readings": {{"{FLATS}": [{reading}]}}}}'
    )


def sent(client: FlaskClient, body: str) -> bytes:
    answer = client.post("/v1/conformance", data=body, content_type="application/json")
    assert answer.status_code == 200
    return bytes(answer.data)


def verdict(client: FlaskClient, body: str) -> str:
    return str(json.loads(sent(client, body))["characteristics"][FLATS]["verdict"])


def test_equal_limits_of_other_digits_have_plans_of_their_own(client: FlaskClient) -> None:
    """ASTM E29-13, rounding method: 16.04 goes to 16.0 against 16.0, and stays 16.04 against 16.00."""
    for _ in range(2):
        assert verdict(client, lot("16.0")) == "conforming"
        assert verdict(client, lot("16.00")) == "nonconforming"
        assert b'"max":16.0,' in sent(client, lot("16.0"))
        assert b'"max":16.00,' in sent(client, lot("16.00"))


def test_another_uncertainty_has_a_plan_of_its_own(client: FlaskClient) -> None:
    """ISO 14253-1:2017: 15.98 against 16.00 is proved with u = 0.01, not with u = 0.02."""
    for uncertainty, expected in (("0.02", "conforming"), ("0.04", "undecided"), ("0.02", "conforming")):
        column = f'{{"values": [15.98], "expanded_uncertainty": {uncertainty}}}'
        body = f'{{"designation": "{BOLT}", "decision_rule": "guarded", "readings": {{"{FLATS}": {column}}}}}'
        assert verdict(client, body) == expected


def test_a_refusal_is_not_kept_and_keeps_nothing(client: FlaskClient) -> None:
    bad = lot("16.0").replace("rounded", "rounder")
    for _ in range(2):
        assert client.post("/v1/conformance", data=bad, content_type="application/json").status_code == 422
        assert verdict(client, lot("16.0")) == "conforming"


def test_threads_share_plans_and_get_their_own_answers(application: Flask) -> None:
    bodies: list[Any] = [
        lot(limit, rule, f"{reading:.3f}")
        for limit in ("16.0", "16.00", "15.9")
        for rule in ("simple", "rounded")
        for reading in (15.95, 16.0, 16.004, 16.05)
    ]
    bodies += [json.dumps({"designation": NUT, "readings": {"nut_height": [8.0 + at / 100]}}) for at in range(8)]
    expected = [sent(application.test_client(), body) for body in bodies]
    clear_caches()
    with ThreadPoolExecutor(8) as pool:
        for _ in range(5):
            found = pool.map(lambda body: sent(application.test_client(), body), bodies)
            assert list(found) == expected
