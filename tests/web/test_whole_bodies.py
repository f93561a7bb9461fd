"""A body is whole or refused, whatever its kind: less than was announced, more than was meant, or too much."""

from __future__ import annotations

import gzip
import io
import json
import random
from typing import Any

import pyarrow as pa
import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from boltwright_server.web.app import create_app
from boltwright_server.web.http.limits import BadLimit, Limits, limits_from
from boltwright_server.web.http.temporary_space import SPACE

BOLT = "ISO 4014 - M10x60 - 8.8"
ROW = {"part_number": "1", "description": "HEX BOLT M10X60 8.8 ISO4014"}
JSON, NDJSON, CSV, ARROW = "application/json", "application/x-ndjson", "text/csv", "application/vnd.apache.arrow.stream"
VALIDATION, CONFORMANCE = "/v1/part-masters/validation", "/v1/conformance"


def arrow_lot(blocks: int = 3) -> bytes:
    schema = pa.schema([("length", pa.float64())], {"request": json.dumps({"designation": BOLT})})
    sink = io.BytesIO()
    with pa.ipc.new_stream(sink, schema) as writer:
        for _ in range(blocks):
            writer.write_batch(pa.record_batch([pa.array([60.0, 59.9])], schema=schema))
    return sink.getvalue()


#: Path, media type and body of each kind that enters.
BODIES: dict[str, tuple[str, str, bytes]] = {
    "JSON lot": (CONFORMANCE, JSON, json.dumps({"designation": BOLT, "readings": {"length": [60.0, 59.9]}}).encode()),
    "NDJSON lot": (
        CONFORMANCE,
        NDJSON,
        b'{"designation":"%b"}\n' % BOLT.encode() + b'{"readings":{"length":[60.0,59.9]}}\n' * 20,
    ),
    "Arrow lot": (CONFORMANCE, ARROW, arrow_lot()),
    "JSON rows": (VALIDATION, JSON, json.dumps({"part_masters": [ROW] * 5}).encode()),
    "NDJSON rows": (VALIDATION, NDJSON, b"".join(json.dumps(ROW).encode() + b"\n" for _ in range(20))),
    "CSV rows": (VALIDATION, CSV, b"part_number,description\r\n" + b"1,HEX BOLT M10X60 8.8 ISO4014\r\n" * 20),
    "gauges": (
        "/v1/gauge-sizes/check",
        JSON,
        b'{"gauges":[{"designation":"M10-6g","gauge":"go_screw_ring","measured":{"value":9.0,"unit":"mm"}}]}',
    ),
}


def post(
    client: FlaskClient, kind: str, body: bytes, coding: str | None = None, length: int | None = None
) -> TestResponse:
    """Send a body of which Content-Length may say more than comes."""
    path, media_type, _ = BODIES[kind]
    return client.post(
        path,
        data=body,
        content_type=media_type,
        headers={"Content-Encoding": coding} if coding else {},
        environ_overrides={} if length is None else {"CONTENT_LENGTH": str(length)},
    )


@pytest.mark.parametrize("kind", BODIES)
def test_a_body_that_is_whole_is_answered(client: FlaskClient, kind: str) -> None:
    assert post(client, kind, BODIES[kind][2]).status_code == 200


@pytest.mark.parametrize("coding", [None, "gzip"])
@pytest.mark.parametrize("kind", BODIES)
def test_a_body_cut_anywhere_is_refused(client: FlaskClient, kind: str, coding: str | None) -> None:
    """The first refusal says what was announced and what came."""
    plain = BODIES[kind][2]
    body = gzip.compress(plain, mtime=0) if coding else plain
    for cut in random.Random(kind).choices(range(len(body)), k=40):
        answer = post(client, kind, body[:cut], coding, len(body))
        assert (answer.status_code, answer.get_json()["code"]) == (400, "body_not_whole"), cut
        assert f"announces {len(body)} bytes, {cut} came" in answer.get_json()["detail"]
        assert answer.get_json()["errors"][0]["code"] == "body_not_whole"


@pytest.mark.parametrize("kind", BODIES)
def test_gzip_cut_by_its_writer_is_refused(client: FlaskClient, kind: str) -> None:
    """Content-Length fits; the trailer is missing."""
    body = gzip.compress(BODIES[kind][2], mtime=0)
    for cut in (10, len(body) // 2, len(body) - 8, len(body) - 1):
        assert post(client, kind, body[:cut], "gzip").get_json()["code"] == "body_not_whole"


@pytest.mark.parametrize("behind", [b"x", b"0" * 100, b"\x1f\x8b\x08\x07", b'{"more":1}'])
@pytest.mark.parametrize("kind", BODIES)
def test_bytes_behind_the_trailer_of_gzip_are_refused(client: FlaskClient, kind: str, behind: bytes) -> None:
    answer = post(client, kind, gzip.compress(BODIES[kind][2], mtime=0) + behind, "gzip")
    assert (answer.status_code, answer.get_json()["code"]) == (400, "body_not_whole")


def test_another_member_behind_the_trailer_of_gzip_belongs_to_the_body(client: FlaskClient) -> None:
    """RFC 1952, clause 2.2: a gzip file is a series of members."""
    body = BODIES["CSV rows"][2]
    joined = gzip.compress(body[:100], mtime=0) + gzip.compress(body[100:]) + bytes(512)
    assert post(client, "CSV rows", joined, "gzip").get_data() == post(client, "CSV rows", body).get_data()


def test_an_arrow_stream_is_refused_at_every_cut_though_its_length_fits(client: FlaskClient) -> None:
    """Apache Arrow, IPC streaming format: a stream may end without its marker; then nobody knows how many batches."""
    body = BODIES["Arrow lot"][2]
    for cut in range(0, len(body), 8):
        answer = post(client, "Arrow lot", body[:cut])
        assert answer.status_code == 400, cut


@pytest.mark.parametrize("behind", [b"\0", b"\xff\xff\xff\xff\0\0\0\0", b"x" * 1000, arrow_lot(1)])
def test_bytes_behind_the_end_marker_of_arrow_are_refused(client: FlaskClient, behind: bytes) -> None:
    answer = post(client, "Arrow lot", BODIES["Arrow lot"][2] + behind)
    assert (answer.status_code, answer.get_json()["code"]) == (400, "body_not_whole")
    assert f"{len(behind)} bytes stand behind it" in answer.get_json()["detail"]


@pytest.mark.parametrize("coding", ["gzip", "GZIP", "Gzip", "x-gzip"])
@pytest.mark.parametrize("kind", BODIES)
def test_every_kind_of_body_may_be_gzip_whatever_the_case_of_its_name(
    client: FlaskClient, kind: str, coding: str
) -> None:
    """RFC 9110, clause 8.4.1: content codings are case-insensitive."""
    body = BODIES[kind][2]
    zipped, plain = post(client, kind, gzip.compress(body, mtime=0), coding), post(client, kind, body, "Identity")
    assert (zipped.status_code, plain.status_code) == (200, 200)


@pytest.mark.parametrize("coding", ["br", "deflate", "gzip, gzip", "zstd"])
@pytest.mark.parametrize("kind", BODIES)
def test_another_coding_is_refused_and_never_read_as_text(client: FlaskClient, kind: str, coding: str) -> None:
    assert post(client, kind, BODIES[kind][2], coding).status_code == 415


@pytest.mark.parametrize("kind", [kind for kind in BODIES if kind != "Arrow lot"])
def test_a_byte_order_mark_is_taken_off(client: FlaskClient, kind: str) -> None:
    answer = post(client, kind, b"\xef\xbb\xbf" + BODIES[kind][2])
    assert answer.status_code == 200
    assert b"\\ufeff" not in answer.get_data()


def limited(**changed: int) -> FlaskClient:
    return create_app(limits=Limits(**changed)).test_client()


def long_body(kind: str, rows: int) -> bytes:
    """Return rows, or pieces, of one kind."""
    if kind == "JSON rows":
        return json.dumps({"part_masters": [ROW] * rows}).encode()
    if kind == "NDJSON lot":
        return BODIES[kind][2].splitlines(keepends=True)[0] + b'{"readings":{"length":[60.0]}}\n' * rows
    first, *rest = BODIES[kind][2].splitlines(keepends=True)
    return first + rest[0] * (rows if kind == "CSV rows" else rows - 1)


@pytest.mark.parametrize("kind", ["JSON rows", "NDJSON rows", "CSV rows", "NDJSON lot"])
def test_rows_are_limited(kind: str) -> None:
    client = limited(rows=30, json_rows=30)
    assert post(client, kind, long_body(kind, 30)).status_code == 200
    answer = post(client, kind, long_body(kind, 31))
    assert (answer.status_code, answer.get_json()["code"]) == (413, "too_many_rows")
    assert "30 rows" in answer.get_json()["detail"]


@pytest.mark.parametrize("kind", ["NDJSON rows", "CSV rows"])
def test_the_answer_is_limited_and_gives_its_space_back(kind: str) -> None:
    client, before = limited(answer_bytes=2000), SPACE.taken
    answer = post(client, kind, long_body(kind, 30))
    assert (answer.status_code, answer.get_json()["code"]) == (413, "answer_too_large")
    assert SPACE.taken == before
    assert post(limited(), kind, long_body(kind, 30)).get_data()
    assert SPACE.taken == before


def test_temporary_space_is_shared_and_limited(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(SPACE, "limit", SPACE.taken + 2000)
    answer = post(limited(), "CSV rows", long_body("CSV rows", 30))
    assert (answer.status_code, answer.get_json()["code"]) == (503, "no_temporary_space")


def test_time_is_limited(monkeypatch: pytest.MonkeyPatch) -> None:
    client = limited(stream_seconds=5)
    ticks = iter(range(0, 10_000, 2))
    monkeypatch.setattr("boltwright_server.web.http.request_streams.monotonic", lambda: float(next(ticks)))
    answer = post(client, "NDJSON lot", long_body("NDJSON lot", 30))
    assert (answer.status_code, answer.get_json()["code"]) == (413, "takes_too_long")


@pytest.mark.parametrize("kind", ["CSV rows", "NDJSON rows", "JSON rows", "NDJSON lot"])
def test_a_little_gzip_does_not_become_much(client: FlaskClient, kind: str) -> None:
    """1.5 kB of gzip that became 1.5 MB of empty rows came back as 171 MB of findings."""
    body = gzip.compress((b",\n" if kind == "CSV rows" else b" \n") * 750_000, mtime=0)
    assert len(body) < 2000
    answer = post(client, kind, body, "gzip")
    assert (answer.status_code, answer.get_json()["code"]) == (413, "inflates_too_much")


def test_inflated_bytes_are_limited() -> None:
    body = random.Random(1).randbytes(30_000).hex().encode()
    zipped = gzip.compress(b"part_number,description\r\n" + body, mtime=0)
    answer = post(limited(inflated_bytes=50_000), "CSV rows", zipped, "gzip")
    assert (answer.status_code, answer.get_json()["code"]) == (413, "inflates_too_much")
    assert post(limited(), "CSV rows", zipped, "gzip").status_code == 200
    answer = post(
        limited(json_bytes=50_000), "JSON rows", gzip.compress(b'{"part_masters":["%b"]}' % body, mtime=0), "gzip"
    )
    assert (answer.status_code, answer.get_json()["code"]) == (413, "inflates_too_much")


@pytest.mark.parametrize("kind", BODIES)
def test_bytes_of_a_body_are_limited(kind: str) -> None:
    size = len(BODIES[kind][2])
    assert post(limited(json_bytes=size, body_bytes=size), kind, BODIES[kind][2]).status_code == 200
    answer = post(limited(json_bytes=size - 1, body_bytes=size - 1), kind, BODIES[kind][2])
    assert (answer.status_code, answer.get_json()["code"]) == (413, "content_too_large")


def test_limits_are_read_from_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOLTWRIGHT_LIMITS", "rows=7, json_bytes=1000")
    app: Flask = create_app()
    assert (app.config["LIMITS"].rows, app.config["LIMITS"].json_bytes) == (7, 1000)


@pytest.mark.parametrize("text", ["rows", "rows=0", "rows=-1", "rows=many", "rows=1.5", "colour=3", "rows=²"])
def test_a_wrong_limit_is_refused_with_a_word(text: str) -> None:
    with pytest.raises(BadLimit, match=r"whole number above 0|is no limit; body_bytes"):
        limits_from([text])


def test_a_fault_while_a_body_is_read_is_the_clients(client: FlaskClient) -> None:
    """Other servers of WSGI raise what they like where chunks are malformed."""

    class Broken(io.RawIOBase):
        def readable(self) -> bool:
            return True

        def readinto(self, buffer: Any) -> int:
            raise RuntimeError("bad chunk size")

    for path, media_type, _ in BODIES.values():
        answer = client.post(
            path,
            content_type=media_type,
            environ_overrides={"wsgi.input": Broken(), "wsgi.input_terminated": True, "CONTENT_LENGTH": "100"},
        )
        assert (answer.status_code, answer.get_json()["code"]) == (400, "body_not_whole")


def test_several_unknown_members_come_in_a_stable_order(client: FlaskClient) -> None:
    """They came in the order of a set, which differs from start to start."""
    names = [f"member_{letter}" for letter in "qwertyuiop"]
    body = {"designation": BOLT, "readings": {"length": [60.0]}, **dict.fromkeys(names, 1)}
    found = client.post(CONFORMANCE, json=body).get_json()
    assert [error["pointer"] for error in found["errors"]] == [f"/{name}" for name in sorted(names)]
