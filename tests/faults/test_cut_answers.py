"""No half answer is taken for a whole one, in no form and by no call; what is no answer of the service is refused."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

import pytest

from boltwright.command_line import main

from .cut_answers import MODES, OLD, cuts


def test_no_cut_answer_is_accepted_in_silence() -> None:
    found = list(cuts(168, seed=7))
    assert Counter(outcome for _, _, outcome in found if outcome not in ("refused", "whole")) == {}
    assert {mode for _, mode, outcome in found if outcome == "refused"} == set(MODES)
    refused = Counter(form for form, _, outcome in found if outcome == "refused")
    assert len(refused) == 7
    assert min(refused.values()) > 10


@contextmanager
def answering(answers: list[tuple[str, bytes]]) -> Iterator[str]:
    """Something that answers 200 to every request, with the last of the answers when the others are used up."""

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            self.rfile.read(int(self.headers["Content-Length"]))
            kind, body = answers.pop(0) if len(answers) > 1 else answers[0]
            self.send_response(200)
            if kind:
                self.send_header("Content-Type", kind)
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *said: Any) -> None:
            """Say nothing."""

    server = HTTPServer(("127.0.0.1", 0), Handler)
    thread = Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


CSV, NDJSON = "text/csv; charset=utf-8", "application/x-ndjson"
_TITLES = b"part_number,row,status,designation,confidence,alternatives,left_over,codes,findings,proposed,used\r\n"
_ROW = b"A,0,valid,,1.0,,,,[],,\r\n"
_GRAVE = b'"[{""code"":""x"",""severity"":""grave""}]"'
WRONG = {
    "login page": ("text/html", b"<html>Log in</html>"),
    "login page as text": (CSV, b"<html>Log in</html>\r\n"),
    "nothing": (CSV, b""),
    "no type": ("", _TITLES + _ROW),
    "json": ("application/json", b"{}"),
    "titles only": (CSV, _TITLES),
    "a row too many": (CSV, _TITLES + _ROW + _ROW.replace(b",0,", b",1,")),
    "another row": (CSV, _TITLES + _ROW.replace(b",0,", b",4,")),
    "short line": (CSV, _TITLES + b"A,0,valid\r\n"),
    "no text": (CSV, _TITLES + b"\xff" + _ROW),
    "findings of another kind": (CSV, _TITLES + _ROW.replace(b"[]", b"[1]")),
    "unknown severity": (CSV, _TITLES + _ROW.replace(b"[]", _GRAVE)),
    "no number": (CSV, _TITLES + _ROW.replace(b",0,", b",x,")),
}
WRONG_LINES = {
    "login page": ("text/html", b"<html>Log in</html>"),
    "nothing": (NDJSON, b""),
    "null": (NDJSON, b"null\n"),
    "summary only": (NDJSON, b'{"summary": {"rows": 0}}\n'),
    "summary of another kind": (NDJSON, b'{"row": 0}\n{"summary": []}\n'),
    "row of another kind": (NDJSON, b'[0]\n{"summary": {"rows": 1}}\n'),
    "row without members": (NDJSON, b'{"row": 0}\n{"summary": {"rows": 1}}\n'),
    "deep": (NDJSON, b"[" * 200_000 + b"\n"),
}
CHANGE = ["--from", "DIN 933", "--to", "ISO 4017"]


@pytest.mark.parametrize("command", ["validate", "impact"])
@pytest.mark.parametrize(
    ("name", "wrong"),
    [*(("parts.csv", one) for one in WRONG.items()), *(("parts.ndjson", one) for one in WRONG_LINES.items())],
    ids=lambda one: one if isinstance(one, str) else one[0],
)
@pytest.mark.parametrize("first", [[], [(CSV, _TITLES)]], ids=["at once", "behind the titles"])
def test_what_is_no_answer_is_refused_in_one_sentence(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    command: str,
    name: str,
    wrong: tuple[str, tuple[str, bytes]],
    first: list[tuple[str, bytes]],
) -> None:
    """Exit code 3, nothing overwritten, nothing left behind."""
    rows = b"description\nx\n" if name == "parts.csv" else b'{"description": "x"}\n'
    (tmp_path / name).write_bytes(rows)
    out = tmp_path / f"out{Path(name).suffix}"
    out.write_bytes(OLD)
    change = CHANGE if command == "impact" else []
    with answering([*first, wrong[1]]) as url:
        code = main([command, str(tmp_path / name), "--out", str(out), "--url", url, *change])
    said = capsys.readouterr().err
    assert code == 3
    assert len([line for line in said.splitlines() if line.startswith("boltwright: ")]) == 1
    assert out.read_bytes() == OLD
    assert sorted(one.name for one in tmp_path.iterdir()) == sorted([name, out.name])
