"""POST /v1/conformance as an Arrow IPC stream: the answer to the same columns as JSON, byte for byte."""

from __future__ import annotations

import builtins
import json
import math
import struct
from typing import Any

import numpy as np
import pyarrow as pa
import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from lots import BOLT
from problem_documents import pointers, problem
from werkzeug.test import TestResponse

from boltwright_server.web.conformance.arrow import MEDIA_TYPE

HEAD = {"designation": BOLT, "lot_size": 12000}


def body(columns: dict[str, Any], head: dict[str, Any] | None = None, **options: Any) -> bytes:
    """Return a stream; a column is an array, or an array with its metadata."""
    pairs = {id: one if isinstance(one, tuple) else (one, {}) for id, one in columns.items()}
    fields = [pa.field(id, array.type, metadata=metadata) for id, (array, metadata) in pairs.items()]
    schema = pa.schema(fields, metadata={"request": json.dumps(HEAD if head is None else head)})
    sink = pa.BufferOutputStream()
    with pa.ipc.new_stream(sink, schema, options=pa.ipc.IpcWriteOptions(**options)) as writer:
        writer.write_table(pa.table([array for array, _ in pairs.values()], schema=schema), max_chunksize=3)
    return bytes(sink.getvalue())


def post(client: FlaskClient, data: bytes) -> TestResponse:
    return client.post("/v1/conformance", data=data, content_type=MEDIA_TYPE)


def as_json(client: FlaskClient, columns: dict[str, Any], head: dict[str, Any] | None = None) -> TestResponse:
    return client.post("/v1/conformance", json={**(HEAD if head is None else head), "readings": columns})


READINGS = st.lists(st.sampled_from([15.73, 15.9, 16.0, math.nextafter(16.0, 17), 16.02, -0.0, None]), min_size=1)


@given(READINGS)
@example([15.73, 16.0, 15.9, 15.8, None, 16.5, 15.81])
@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_answer_is_that_of_json_columns(client: FlaskClient, values: list[float | None]) -> None:
    count = len(values)
    arrow = {
        "width_across_flats": (pa.array(values, pa.float64()), {"unit": "mm", "expanded_uncertainty": "0.020"}),
        "length": pa.array([60] * count, pa.int16()),
        "thread_go_gauge": pa.array([True, None, False][:count] + [True] * (count - 3), pa.bool_()),
        "fracture_location": (pa.array(["thread"] * count, pa.string()), {"pieces": str([*range(count)])}),
    }
    text = f"""{{
        "width_across_flats": {{"values": {json.dumps(values)}, "unit": "mm", "expanded_uncertainty": 0.020}},
        "length": {json.dumps([60] * count)},
        "thread_go_gauge": {json.dumps([True, None, False][:count] + [True] * (count - 3))},
        "fracture_location": {{"values": {json.dumps(["thread"] * count)}, "pieces": {json.dumps([*range(count)])}}}
    }}"""
    whole = f'{{"designation": "{BOLT}", "lot_size": 12000, "readings": {text}}}'
    expected = client.post("/v1/conformance", data=whole, content_type="application/json")
    answer = post(client, body(arrow))
    assert (answer.status_code, answer.data) == (200, expected.data)
    assert answer.headers["Repr-Digest"] == expected.headers["Repr-Digest"]


def test_rules_stand_in_the_metadata(client: FlaskClient) -> None:
    guarded = {"expanded_uncertainty": "0.04", "decision_rule": '{"rule": "guarded", "edition": "2013"}'}
    arrow = {
        "width_across_flats": (pa.array([15.98]), guarded),
        "length": (pa.array([60.7]), {"decision_rule": "rounded", "PARQUET:field_id": "7"}),
    }
    columns = {
        "width_across_flats": {
            "values": [15.98],
            "expanded_uncertainty": 0.04,
            "decision_rule": {"rule": "guarded", "edition": "2013"},
        },
        "length": {"values": [60.7], "decision_rule": "rounded"},
    }
    assert post(client, body(arrow)).data == as_json(client, columns).data


@pytest.mark.parametrize(
    ("column", "words"),
    [
        (pa.array([15.9], pa.float32()), "float32"),
        (pa.array(["15.9"]), "string"),
        (pa.array([True]), "bool"),
        (pa.array([15.9]).dictionary_encode(), "dictionary"),
    ],
    ids=["float32", "text", "flags", "dictionary"],
)
def test_another_type_is_refused_where_it_stands(client: FlaskClient, column: Any, words: str) -> None:
    answer = post(client, body({"length": column}))
    assert pointers(problem(answer, 422, "wrong_type")) == ["/readings/length"]
    assert words in answer.get_json()["detail"]
    assert "float64" in answer.get_json()["detail"]


@pytest.mark.parametrize("reading", [math.nan, math.inf, -math.inf])
def test_a_number_that_is_none_is_refused(client: FlaskClient, reading: float) -> None:
    arrow = {"length": pa.array([60.0, None, reading], pa.float64())}
    assert pointers(problem(post(client, body(arrow)), 422, "wrong_type")) == ["/readings/length"]


def test_what_json_refuses_is_refused(client: FlaskClient) -> None:
    one = pa.array([60.0])
    problem(post(client, body({"length": one}, {"designation": "M10x1.3-6g"})), 404, "unknown_size")
    problem(post(client, body({"length": one}, {})), 422, "missing_member")
    problem(post(client, body({"length": one}, {**HEAD, "readings": {}})), 422, "unknown_member")
    problem(post(client, body({"length_of_joy": one})), 422, "unknown_characteristic")
    problem(post(client, body({"length": (one, {"typo": "1"})})), 422, "unknown_member")
    problem(post(client, body({"length": (one, {"unit": "kN"})})), 422, "unit_does_not_fit")
    assert pointers(
        problem(post(client, body({"fracture_location": pa.array(["thread", "moon"])})), 422, "invalid")
    ) == ["/readings/fracture_location/1"]


def test_a_column_that_stands_twice_is_refused(client: FlaskClient) -> None:
    field = pa.field("length", pa.float64())
    schema = pa.schema([field, field], metadata={"request": json.dumps(HEAD)})
    sink = pa.BufferOutputStream()
    with pa.ipc.new_stream(sink, schema) as writer:
        writer.write_batch(pa.record_batch([pa.array([60.0]), pa.array([61.0])], schema=schema))
    problem(post(client, bytes(sink.getvalue())), 422, "repeated_member")


@pytest.mark.parametrize("compression", ["zstd", "lz4"])
def test_compressed_buffers_are_refused_before_they_are_read(client: FlaskClient, compression: str) -> None:
    data = body({"length": pa.array(np.zeros(100_000))}, compression=compression)
    answer = post(client, data)
    assert "compressed" in problem(answer, 422, "invalid")["detail"]


def test_nonsense_is_no_stream(client: FlaskClient) -> None:
    whole = body({"length": pa.array([60.0] * 10)})
    for data in (b"", b"{}", b"ARROW1\0\0", b"\xff" * 64, struct.pack("<iI", -1, 2**31 - 1)):
        problem(post(client, data), 400, "bad_request")
    for at in range(0, len(whole), 7):
        assert post(client, whole[:at]).status_code in (200, 400, 422)
    chance = np.random.default_rng(898)
    for _ in range(300):
        broken = bytearray(whole)
        for place in chance.integers(0, len(whole), 3):
            broken[place] = chance.integers(0, 256)
        assert post(client, bytes(broken)).status_code in (200, 400, 404, 413, 422)


def test_without_pyarrow_the_service_says_what_to_install(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    data, real = body({"length": pa.array([60.0])}), builtins.__import__

    def without(name: str, *rest: Any) -> Any:
        if name == "pyarrow":
            raise ImportError(name)
        return real(name, *rest)

    monkeypatch.setattr(builtins, "__import__", without)
    assert "boltwright[arrow]" in problem(post(client, data), 415, "unsupported_media_type")["detail"]


def test_an_attribute_that_the_purchaser_adds_is_one_here_too(client: FlaskClient) -> None:
    """Added attributes, dropped characteristics and the batch average answer as the same columns in JSON do."""
    required = {"salt_spray_240_h": {"kind": "attribute", "group": "surface"}, "marking": None}
    dropped = {"marking": {"reason": "unmarked by agreement"}}
    head = {"designation": f"{BOLT} - Fe/Zn8", "requirements": required, "dropped": dropped}
    columns = {"salt_spray_240_h": pa.array([True, False], pa.bool_()), "coating_thickness": pa.array([8.0, 9.5])}
    found = post(client, body(columns, head))
    assert found.status_code == 200, found.text
    plain = {"salt_spray_240_h": [True, False], "coating_thickness": [8.0, 9.5]}
    assert found.data == as_json(client, plain, head).data
    assert found.get_json()["characteristics"]["salt_spray_240_h"]["nonconforming_pieces"] == [1]
    wrong = body({"salt_spray_240_h": pa.array([1.0, 0.0])}, head)
    assert pointers(problem(post(client, wrong), 422, "wrong_type")) == ["/readings/salt_spray_240_h"]


def test_blocks_of_lines_know_the_added_attribute(client: FlaskClient) -> None:
    head = {"designation": BOLT, "requirements": {"salt_spray_240_h": {"kind": "attribute", "group": "surface"}}}
    lines = [head, {"readings": {"salt_spray_240_h": [True]}}, {"readings": {"salt_spray_240_h": [False]}}]
    text = "\n".join(json.dumps(line) for line in lines)
    found = client.post("/v1/conformance", data=text, content_type="application/x-ndjson").get_json()
    assert found["characteristics"]["salt_spray_240_h"]["nonconforming_pieces"] == [1]
    refused = client.post(
        "/v1/conformance", data=text.replace("[true]", "[1]"), content_type="application/x-ndjson"
    ).get_json()
    assert refused["code"] == "wrong_type"
