"""Answers that are cut at random, by whatever stands between service and client: none may be taken for a whole one.

`python -m tests.faults.cut_answers --cuts 1000`, from the root of the project: all forms, loopback only, some minutes.
A cut is accepted in silence where a call or a command ends well with another result than that of the whole answer; it
is untyped where anything but an error of the SDK comes out, or where the file of yesterday is touched. `whole` is a cut
of the answer to the first lines, of which only the titles are needed.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import tempfile
import threading
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from flask.testing import FlaskClient

from boltwright import Client
from boltwright.errors import Error
from boltwright.part_masters.validation import parts
from boltwright.part_masters.validation.impact import impact_file
from boltwright.part_masters.validation.run import validate_file
from boltwright.part_masters.validation.sources import source_of
from boltwright_server.web.app import create_app

#: How the rest goes missing: the length says it, nothing says it, a proxy has counted anew, or sends pieces.
MODES = ("announced", "unstated", "restated", "chunked")
TEXTS = (
    "ISO 4014 M10x60 8.8",
    "NUT HEX M16 CL10",
    "DIN 933 M10x40 8.8",
    'HEX BOLT 1/2" X 2, "GRADE 5"',
    "Ma\u00df\nM8",
)
ROWS = [{"part_number": f"P{at % 35}", "description": TEXTS[at % 5], "width_across_flats": 17} for at in range(40)]
OLD = b"findings of yesterday"


@dataclass
class Cut:
    """Which answer is cut, counted from 0, where (a share of its bytes), and how."""

    answer: int
    place: float
    mode: str


class CuttingService:
    """The service behind something that cuts its answers."""

    def __init__(self) -> None:
        self._app: FlaskClient = create_app().test_client()
        self._whole: dict[tuple[str, bytes], Any] = {}
        self._lock = threading.Lock()
        self.cut: Cut | None = None
        self.answers = 0

    def respond(self, path: str, headers: Any, body: bytes) -> tuple[int, dict[str, str], bytes, str | None]:
        """Return status, headers, what is sent of the body, and how it was cut."""
        with self._lock:
            asked = self._whole.get((path, body))
            if asked is None:
                asked = self._app.post(path, data=body, content_type=headers["Content-Type"])
                self._whole[path, body] = asked
            number, self.answers = self.answers, self.answers + 1
            found, said = asked.data, {name: value for name, value in asked.headers if name != "Content-Length"}
            if self.cut is None or self.cut.answer != number:
                return asked.status_code, {**said, "Content-Length": str(len(found))}, found, None
            sent = found[: int(len(found) * self.cut.place)]
            length = {"announced": len(found), "restated": len(sent)}.get(self.cut.mode)
            if length is not None:
                said["Content-Length"] = str(length)
            return asked.status_code, said, sent, self.cut.mode


@contextmanager
def cutting_service() -> Iterator[tuple[CuttingService, str]]:
    """Yield the service and its address on the loopback."""
    service = CuttingService()

    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers["Content-Length"]))
            target = urlsplit(self.path)
            status, headers, sent, mode = service.respond(f"{target.path}?{target.query}", self.headers, body)
            self.send_response(status)
            for name, value in headers.items():
                self.send_header(name, value)
            if mode is not None:
                self.close_connection = True
                self.send_header("Connection", "close")
            if mode == "chunked":
                self.send_header("Transfer-Encoding", "chunked")
                sent = (b"%x\r\n%s\r\n" % (len(sent), sent) if sent else b"") + b"0\r\n\r\n"
            self.end_headers()
            self.wfile.write(sent)

        def log_message(self, *said: Any) -> None:
            """Say nothing."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield service, f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def csv_text(delimiter: str) -> bytes:
    """The rows as a plant writes them."""
    quoted = [[f'"{str(cell).replace(chr(34), chr(34) * 2)}"' for cell in row.values()] for row in ROWS]
    return "\n".join(delimiter.join(line) for line in [list(ROWS[0]), *quoted]).encode()


class Calls:
    """What is asked in each form; each returns what it came to."""

    def __init__(self, client: Client, folder: Path) -> None:
        self._client = client
        self._folder = folder
        (folder / "parts.csv").write_bytes(csv_text(";"))
        (folder / "parts.ndjson").write_text("\n".join(map(json.dumps, ROWS)), encoding="utf-8")

    def by_form(self) -> dict[str, tuple[Callable[[], Any], int]]:
        """Return each call, and how many answers it takes."""
        return {
            "json validation": (lambda: self._client.part_masters_validation(ROWS).part_masters, 1),
            "json impact": (lambda: self._client.part_masters_impact("DIN 933", "ISO 4017", ROWS).part_masters, 1),
            "ndjson rows": (lambda: list(self._client.part_masters_validation_iter(ROWS, batch=20)), 2),
            "ndjson validate": (lambda: self._validate("parts.ndjson", "out.ndjson"), 2),
            "csv validate": (lambda: self._validate("parts.csv", "out.csv"), 3),
            "csv impact": (lambda: self._impact("parts.csv", "impact.csv"), 3),
            "ndjson impact": (lambda: self._impact("parts.ndjson", "impact.ndjson"), 2),
        }

    def _out(self, name: str) -> Path:
        out = self._folder / name
        out.write_bytes(OLD)
        return out

    def _validate(self, name: str, to: str) -> bytes:
        out = self._out(to)
        self._kept(out, lambda: validate_file(self._client, source_of(self._folder / name), out, restart=True))
        return out.read_bytes()

    def _impact(self, name: str, to: str) -> bytes:
        out = self._out(to)
        self._kept(out, lambda: impact_file(self._client, source_of(self._folder / name), "DIN 933", "ISO 4017", out))
        return out.read_bytes()

    def _kept(self, out: Path, run: Callable[[], Any]) -> None:
        try:
            run()
        except Error:
            assert out.read_bytes() == OLD, "a run that failed has touched the file"
            raise


def cuts(count: int, seed: int) -> Iterator[tuple[str, str, str]]:
    """Yield form, mode and what became of each cut: refused, whole (it lost nothing), silent, or an untyped error."""
    chance = random.Random(seed)
    lines, parts.LINES = parts.LINES, 20
    try:
        with (
            cutting_service() as (service, url),
            tempfile.TemporaryDirectory() as folder,
            Client(url, retries=0) as client,
        ):
            calls = Calls(client, Path(folder)).by_form()
            expected = {form: call() for form, (call, _) in calls.items()}
            for number in range(count):
                form = list(calls)[number % len(calls)]
                call, answers = calls[form]
                # Every now and then only the last byte is missing, or all of them.
                place = chance.choice((0.0, 0.999999, *(chance.random() for _ in range(6))))
                service.cut, service.answers = Cut(chance.randrange(answers), place, chance.choice(MODES)), 0
                yield form, service.cut.mode, _outcome(call, expected[form])
    finally:
        parts.LINES = lines


def _outcome(call: Callable[[], Any], expected: Any) -> str:
    try:
        found = call()
    except Error:
        return "refused"
    except Exception as error:
        return f"untyped {type(error).__name__}: {error}"
    return "whole" if found == expected else "silent"


def main() -> int:
    """Cut answers, print what became of them; returns 1 where one was taken in silence or broke the client."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cuts", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    found = Counter((form, outcome) for form, _, outcome in cuts(options.cuts, options.seed))
    for (form, outcome), times in sorted(found.items()):
        print(f"{form:16} {outcome:24} {times}")
    return 1 if any(outcome not in ("refused", "whole") for _, outcome in found) else 0


if __name__ == "__main__":
    sys.exit(main())
