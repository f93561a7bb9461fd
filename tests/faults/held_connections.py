"""`python -m tests.faults.held_connections [--count 500] [--port PORT]`, from the root of the project. Loopback only.

Holds connections open - silent, half way through headers, half way through a body - and times the answers that others
get meanwhile. Without `--port` it starts a service of its own. Ends by itself, 1 where an answer took over a second.
"""

from __future__ import annotations

import argparse
import socket
import sys
import time
import urllib.request
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1] / "support")]
BOLT = b'{"designation":"ISO 4014 - M10x60 - 8.8","readings":{"length":[60.0,59.9]}}'
ASKED: tuple[tuple[str, bytes | None], ...] = (
    ("/v1/thread-limits?designation=M10-6g", None),
    ("/v1/conformance", BOLT),
)
#: What a held connection has sent: nothing, half its headers, half a body of a stated length or in chunks.
HELD = {
    "silent": b"",
    "half the headers": b"POST /v1/conformance HTTP/1.1\r\nHost: x\r\nContent-Type: appl",
    "half a body": b"POST /v1/conformance HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"
    b"Content-Length: 500\r\n\r\n{",
    "half a chunk": b"POST /v1/part-masters/validation HTTP/1.1\r\nHost: x\r\nContent-Type: text/csv\r\n"
    b"Transfer-Encoding: chunked\r\n\r\n1000\r\npart_number",
}


@contextmanager
def held(host: str, port: int, count: int, sent: bytes) -> Iterator[list[socket.socket]]:
    """Hold connections open that have sent some bytes."""
    with ExitStack() as stack:
        connections = []
        for _ in range(count):
            connection = stack.enter_context(socket.create_connection((host, port), timeout=30))
            connection.sendall(sent)
            connections.append(connection)
        time.sleep(0.2)
        yield connections


def slowest(url: str, times: int, patience: float = 5.0) -> float:
    """Return the seconds of the slowest answer; `patience` where one did not come."""
    seconds = 0.0
    for path, body in ASKED * times:
        asked = urllib.request.Request(url + path, body, {"Content-Type": "application/json"})
        began = time.monotonic()
        try:
            urllib.request.urlopen(asked, timeout=patience).read()
        except OSError:
            return patience
        seconds = max(seconds, time.monotonic() - began)
    return seconds


def main(arguments: Sequence[str] | None = None) -> int:
    """Run; returns 1 where somebody waited for more than a second."""
    from running_server import running_server

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=500)
    parser.add_argument("--port", type=int, help="of a service that runs on this machine")
    options = parser.parse_args(arguments)
    with ExitStack() as stack:
        port = options.port or stack.enter_context(running_server()).port
        worst = 0.0
        for name, sent in {"nothing is held": None, **HELD}.items():
            count = options.count if sent is not None else 0
            with held("127.0.0.1", port, count, sent or b""):
                seconds = slowest(f"http://127.0.0.1:{port}", 20)
            print(f"{name:>18}: {count} held, slowest of 40 answers {seconds * 1000:.0f} ms", flush=True)
            worst = max(worst, seconds)
    return int(worst > 1)


if __name__ == "__main__":
    sys.exit(main())
