"""The service as it is started: what reaches it over a socket, beyond what a test client of the application sends."""

import json
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from concurrent.futures import ThreadPoolExecutor
from typing import Any
from urllib.parse import quote, urlencode

import pytest
from flask.testing import FlaskClient
from lots import bolts, request
from running_server import RunningServer, environment, free_port

TEN_MB = "M10-6g " * 1_500_000
MEDIA_TYPE = "application/problem+json"


def ask(server: RunningServer, path: str, data: bytes | None = None, **headers: str) -> tuple[int, str, Any]:
    """Return status, media type and JSON of an answer."""
    asked = urllib.request.Request(server.url + path, data, headers)
    try:
        with urllib.request.urlopen(asked, timeout=30) as answer:
            return answer.status, answer.headers.get_content_type(), json.load(answer)
    except urllib.error.HTTPError as error:
        with error:
            return error.code, error.headers.get_content_type(), json.load(error)


def send(server: RunningServer, *pieces: bytes) -> bytes:
    """Send bytes as they are and return all that comes back."""
    with socket.create_connection((server.host, server.port), timeout=20) as connection:
        for piece in pieces:
            connection.sendall(piece)
        received = b""
        while chunk := connection.recv(65536):
            received += chunk
        return received


def test_a_look_up_has_the_bytes_of_the_application(server: RunningServer, client: FlaskClient) -> None:
    path = "/v1/specification?" + urlencode({"designation": "ISO 4014 - M10x60 - 8.8"})
    with urllib.request.urlopen(server.url + path) as answer:
        assert answer.read() == client.get(path).get_data()


def test_a_lot_is_judged(server: RunningServer) -> None:
    body = json.dumps(request()).encode()
    status, _, found = ask(server, "/v1/conformance", body, **{"Content-Type": "application/json"})
    assert (status, found["verdict"]) == (200, "accept")


def test_a_designation_of_10_mb_in_the_request_line_is_refused_and_read_by_the_client(server: RunningServer) -> None:
    line = f"GET /v1/thread-limits?designation={quote(TEN_MB)} HTTP/1.1\r\nHost: x\r\n\r\n".encode()
    assert len(line) > 10_000_000
    head, _, body = send(server, line).partition(b"\r\n\r\n")
    assert head.startswith(b"HTTP/1.1 414 ")
    assert MEDIA_TYPE.encode() in head
    assert json.loads(body)["code"] == "uri_too_long"
    assert ask(server, "/livez")[0] == 200


def test_a_designation_of_10_mb_in_a_body_is_refused(server: RunningServer) -> None:
    body = json.dumps(request(designation=TEN_MB)).encode()
    status, media_type, found = ask(server, "/v1/conformance", body, **{"Content-Type": "application/json"})
    assert (status, media_type) == (422, MEDIA_TYPE)
    assert found["errors"][0]["pointer"] == "/designation"
    assert len(json.dumps(found)) < 2000


def test_a_body_beyond_the_limit_is_refused(server: RunningServer) -> None:
    head = (
        "POST /v1/conformance HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"
        f"Content-Length: {65 * 1024 * 1024}\r\nConnection: close\r\n\r\n"
    )
    received = send(server, head.encode(), b"{" * 1024)
    assert received.startswith(b"HTTP/1.1 413 ")
    assert b'"content_too_large"' in received


@pytest.mark.parametrize(
    "raw",
    [
        b"hello\r\n\r\n",
        b"GET / HTTP/9.9\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost x\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: x\r\nX-A: " + b"a" * 100_000 + b"\r\n\r\n",
        b"POST /v1/conformance HTTP/1.1\r\nHost: x\r\nContent-Length: many\r\n\r\n",
        b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n",
    ],
    ids=["no request", "no such version", "no colon", "a header of 100 kB", "no length", "a TLS greeting"],
)
def test_what_is_no_request_is_answered_with_a_problem(raw: bytes, server: RunningServer) -> None:
    head, _, body = send(server, raw).partition(b"\r\n\r\n")
    status = int(head.split()[1])
    assert 400 <= status < 500
    assert json.loads(body)["status"] == status
    assert ask(server, "/livez")[0] == 200


def test_an_unknown_method_is_a_problem(server: RunningServer) -> None:
    received = send(server, b"BREW /v1/units HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n")
    assert received.startswith(b"HTTP/1.1 405 ")
    assert b'"method_not_allowed"' in received


def test_a_client_that_hangs_up_harms_no_other(server: RunningServer) -> None:
    for _ in range(5):
        with socket.create_connection((server.host, server.port)) as connection:
            connection.sendall(b"POST /v1/conformance HTTP/1.1\r\nHost: x\r\nContent-Length: 1000\r\n\r\n{")
    assert ask(server, "/readyz")[0] == 200


def test_many_clients_at_once_each_get_their_own_answer(server: RunningServer) -> None:
    """Each lot has one width out at another piece."""

    def judge(piece: int) -> list[int]:
        column = [15.9] * 20
        column[piece] = 16.5
        body = json.dumps(request(bolts(20, width_across_flats=column))).encode()
        _, _, found = ask(server, "/v1/conformance", body, **{"Content-Type": "application/json"})
        pieces: list[int] = found["characteristics"]["width_across_flats"]["nonconforming_pieces"]
        return pieces

    with ThreadPoolExecutor(8) as pool:
        assert list(pool.map(judge, [piece % 20 for piece in range(80)])) == [[piece % 20] for piece in range(80)]


def test_a_port_that_is_taken_ends_the_start_with_a_word() -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        command = [sys.executable, "-m", "boltwright_server", "--port", str(taken.getsockname()[1])]
        run = subprocess.run(command, env=environment(), capture_output=True, text=True, timeout=60)
    assert run.returncode == 1
    assert run.stderr.count("\n") == 1
    assert "in use" in run.stderr


@pytest.mark.parametrize(
    "options",
    [
        ["--port", "many"],
        ["--port", "99999"],
        ["--colour", "red"],
        ["--threads", "0"],
        ["--workers", "0"],
        ["--host", ""],
        ["--limit", "rows=0"],
        ["--limit", "colour=3"],
    ],
)
def test_a_wrong_option_ends_the_start(options: list[str]) -> None:
    command = [sys.executable, "-m", "boltwright_server", "--port", str(free_port()), *options]
    run = subprocess.run(command, env=environment(), capture_output=True, text=True, timeout=60)
    assert run.returncode == 2
    assert options[0] in run.stderr


@pytest.mark.parametrize(("host", "cautioned"), [("::1", False), ("0.0.0.0", True)])
def test_the_port_that_was_chosen_is_named_and_a_caution_beyond_the_loopback(host: str, cautioned: bool) -> None:
    command = [sys.executable, "-m", "boltwright_server", "--host", host, "--port", "0", "--workers", "1"]
    process = subprocess.Popen(command, env=environment(), stderr=subprocess.PIPE, text=True)
    try:
        assert process.stderr is not None
        port = int(process.stderr.readline().removeprefix("listening on port "))
        if cautioned:
            assert process.stderr.readline().startswith("caution: 0.0.0.0 is reached from other machines")
        with socket.create_connection(("127.0.0.1" if cautioned else host, port), timeout=20) as connection:
            connection.sendall(b"GET /livez HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n")
            assert connection.recv(100).startswith(b"HTTP/1.1 200 ")
    finally:
        process.terminate()
        process.communicate(timeout=20)
