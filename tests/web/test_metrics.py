"""GET /metrics, request ids and the request log, on the application and on a service of two processes."""

from __future__ import annotations

import json
import logging
import urllib.request
from concurrent.futures import ThreadPoolExecutor

import pytest
from flask.testing import FlaskClient
from prometheus_client.openmetrics.parser import text_string_to_metric_families
from running_server import ready_options, running_server

from boltwright_server.web.app import create_app

UNITS = "/v1/units"


def samples(text: str) -> dict[tuple[str, ...], float]:
    """Return the samples of an exposition, read by a parser that is not ours: name and label values to value."""
    return {
        (sample.name, *sorted(sample.labels.values())): sample.value
        for family in text_string_to_metric_families(text)
        for sample in family.samples
    }


def test_the_exposition_is_openmetrics(client: FlaskClient) -> None:
    client.get(UNITS)
    answer = client.get("/metrics")
    assert answer.headers["Content-Type"].startswith("application/openmetrics-text")
    assert samples(answer.text)["boltwright_http_requests_total", UNITS, "200", "GET"] >= 1


def test_routes_are_labelled_by_rule_and_never_by_what_a_client_sent(client: FlaskClient) -> None:
    client.get("/v1/no-such-resource")
    text = client.get("/metrics").text
    assert "no-such-resource" not in text
    assert samples(text)["boltwright_http_requests_total", "404", "any", "unmatched"] >= 1


def test_requests_of_all_workers_are_counted_together() -> None:
    with running_server(*ready_options(workers=2)) as server, ThreadPoolExecutor(8) as pool:
        done = list(pool.map(lambda _: urllib.request.urlopen(server.url + UNITS).status, range(200)))
        text = urllib.request.urlopen(f"{server.url}/metrics").read().decode()
    assert done == [200] * 200
    assert samples(text)["boltwright_http_requests_total", UNITS, "200", "GET"] == 200


def test_lots_are_counted_by_verdict(client: FlaskClient) -> None:
    key = ("boltwright_lots_judged_total", "incomplete")
    before = samples(client.get("/metrics").text).get(key, 0.0)
    client.post("/v1/conformance", json={"designation": "ISO 4032 - M10 - 8", "readings": {"marking": [True]}})
    assert samples(client.get("/metrics").text)[key] == before + 1


@pytest.mark.parametrize("given", ["order-7:3", "a" * 64])
def test_a_request_id_is_echoed(client: FlaskClient, given: str) -> None:
    assert client.get(UNITS, headers={"X-Request-Id": given}).headers["X-Request-Id"] == given


@pytest.mark.parametrize("given", ["", "a" * 65, "two words", "<b>"])
def test_an_id_that_is_not_safe_to_echo_is_replaced(client: FlaskClient, given: str) -> None:
    made = client.get("/v1/none", headers={"X-Request-Id": given}).headers["X-Request-Id"]
    assert made != given
    assert len(made) == 16


def test_a_log_line_names_the_request(caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.INFO, logger="boltwright_server.requests"):
        create_app(log_requests=True).test_client().get(f"{UNITS}?x=1", headers={"X-Request-Id": "night-job"})
    line = json.loads(caplog.messages[-1])
    assert (line["request_id"], line["route"], line["query"], line["status"]) == ("night-job", UNITS, "x=1", 422)


def test_requests_are_not_logged_unasked(caplog: pytest.LogCaptureFixture, client: FlaskClient) -> None:
    with caplog.at_level(logging.INFO, logger="boltwright_server.requests"):
        client.get(UNITS)
    assert not caplog.messages
