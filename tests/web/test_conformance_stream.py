"""POST /v1/conformance as NDJSON: a lot in blocks gets the verdict that it gets in one piece, in bounded memory."""

import json
import tracemalloc
from collections.abc import Iterator
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lots import BOLT, bolts, judged
from problem_documents import pointers, problem
from werkzeug.test import TestResponse

from boltwright_server.web.http.limits import Limits

HEAD = {"designation": BOLT}


def stream(client: FlaskClient, *lines: Any) -> TestResponse:
    body = "\n".join(line if isinstance(line, str) else json.dumps(line) for line in lines)
    return client.post("/v1/conformance", data=body, content_type="application/x-ndjson")


def comparable(answer: dict[str, Any]) -> dict[str, Any]:
    """Return what must be the same: statistics of sums are not kept per block and may differ in the last digit."""
    of = {
        id: {name: one[name] for name in ("verdict", "count", "nonconforming_count", "nonconforming_pieces", "limits")}
        for id, one in answer["characteristics"].items()
    }
    return {"verdict": answer["verdict"], "missing": answer["missing"], "sampling": answer["sampling"], "of": of}


VALUES = st.lists(st.sampled_from([15.73, 15.9, 16.0, 16.01, None]), min_size=1, max_size=12)


@settings(max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(VALUES, st.integers(1, 5))
def test_blocks_are_judged_as_one_lot(client: FlaskClient, values: list[float | None], size: int) -> None:
    blocks = [values[at : at + size] for at in range(0, len(values), size)]
    lines = [{"readings": {"width_across_flats": block, "marking": [True] * len(block)}} for block in blocks]
    whole = judged(client, {"width_across_flats": values, "marking": [True] * len(values)})
    assert comparable(stream(client, HEAD, *lines).get_json()) == comparable(whole)


def test_pieces_are_numbered_through_the_blocks(client: FlaskClient) -> None:
    lines = [{"readings": {"length": [60, 70]}}, {"readings": {"length": [60, 60, 70]}}, {"readings": {"length": [70]}}]
    found = stream(client, HEAD, *lines).get_json()["characteristics"]["length"]
    assert (found["count"], found["nonconforming_pieces"]) == (6, [1, 4, 5])


def test_statistics_are_those_of_the_whole_lot(client: FlaskClient) -> None:
    values = [15.81, 15.84, 15.9, 15.88, 15.86, 15.79]
    lines = [{"readings": {"width_across_flats": values[at : at + 2]}} for at in (0, 2, 4)]
    found = stream(client, HEAD, *lines).get_json()["characteristics"]["width_across_flats"]["statistics"]
    whole = judged(client, {"width_across_flats": values})["characteristics"]["width_across_flats"]["statistics"]
    for name in ("mean", "standard_deviation", "min", "max", "cp", "cpk"):
        assert found[name] == pytest.approx(whole[name], rel=1e-9)


def test_the_margin_outlasts_a_block_without_a_reading(client: FlaskClient) -> None:
    lines = [{"readings": {"length": [60, 60.3]}}, {"readings": {"length": [None]}}]
    assert stream(client, HEAD, *lines).get_json()["characteristics"]["length"]["margin"] == 0.3


def test_a_complete_lot_is_accepted(client: FlaskClient) -> None:
    found = stream(client, HEAD, {"readings": bolts(3)}, "", {"readings": bolts(2)}).get_json()
    assert found["verdict"] == "accept"
    assert found["characteristics"]["tensile_load"]["count"] == 5


@pytest.mark.parametrize(
    ("lines", "code", "word"),
    [
        ([], "no_readings", "no block"),
        ([HEAD], "no_readings", "no block"),
        ([HEAD, "{"], "not_json", "line 2"),
        ([HEAD, {"readings": {"length": [60]}}, {"readings": {"length": ["60"]}}], "wrong_type", "line 3"),
        ([HEAD, {"readings": {"length": [60]}, "lot_size": 5}], "unknown_member", "line 2"),
        ([HEAD, {"readings": {"colour": [1]}}], "unknown_characteristic", "line 2"),
        ([{"designation": "M10x1.3-6g"}, {"readings": {}}], "unknown_size", "line 1"),
        (
            [HEAD, {"readings": {"length": [60]}}, {"readings": {"length": {"values": [60000], "unit": "um"}}}],
            "contradiction",
            "line 3",
        ),
        (
            [HEAD, {"readings": {"length": [60]}}, {"readings": {"length": {"values": [60], "pieces": [4]}}}],
            "contradiction",
            "line 3",
        ),
    ],
)
def test_a_line_that_cannot_be_judged_is_named(lines: list[Any], code: str, word: str, client: FlaskClient) -> None:
    answer = stream(client, *lines)
    found = problem(answer, answer.status_code, code)
    assert 400 <= answer.status_code < 500
    assert word in found["detail"]


def test_the_pointer_is_that_of_the_line(client: FlaskClient) -> None:
    answer = stream(client, HEAD, {"readings": {"length": [60, "60"]}})
    assert pointers(problem(answer, 422, "wrong_type")) == ["/readings/length/1"]


def test_a_long_lot_is_never_held_in_memory(client: FlaskClient) -> None:
    """20 MB of readings are judged with a fraction of that."""

    class Lines:
        def __init__(self, lines: Iterator[bytes]) -> None:
            self.lines = lines

        def readline(self, _: int) -> bytes:
            return next(self.lines, b"")

    from boltwright_server.web.conformance.stream import judge_stream

    block = json.dumps({"readings": {"length": [60.125] * 20_000}}).encode() + b"\n"
    lines = iter([json.dumps(HEAD).encode() + b"\n", *[block] * 120])
    tracemalloc.start()
    try:
        found, _ = judge_stream(Lines(lines))  # type: ignore[arg-type]
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert found.characteristics["length"].measured_count == 2_400_000
    assert peak < 8 * len(block)


def test_a_stream_may_exceed_the_limit_of_a_body(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(client.application.config, "LIMITS", Limits(json_bytes=1000))
    lines = [{"readings": {"length": [60.1] * 50}}] * 30
    answer = stream(client, HEAD, *lines)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    assert answer.get_json()["characteristics"]["length"]["count"] == 1500
    assert client.post("/v1/conformance", json={**HEAD, "readings": {"length": [60.1] * 500}}).status_code == 413
