"""`boltwright validate` and what stands behind it: parts come to what one request comes to, interruptions lose nothing.

The catalogues are invented; what is right for a row is tested with the service.
"""

from __future__ import annotations

import csv
import io
import json
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
import requests
from running_server import environment

from boltwright import Client
from boltwright.command_line import main
from boltwright.errors import TransportError, UnexpectedAnswer
from boltwright.part_masters.validation import parts, run
from boltwright.part_masters.validation.parts import CSV, NDJSON
from boltwright.part_masters.validation.passed_on import answer_of
from boltwright.part_masters.validation.run import validate_file
from boltwright.part_masters.validation.sources import source_of
from boltwright.part_masters.validation.state import State

_TEXTS = ("ISO 4014 M10x60 8.8", "M10X60 8.8 ISO4014", "NUT HEX M16 CL10", "DIN 933 M10x40 8.8", "nothing of the kind")
#: Cells that span lines, quotes that never close, quotes in the middle, other widths, blank lines, a lonely delimiter.
_AWKWARD = (
    'A1,"ISO 4014\nM10x60 8.8",17\n',
    'A2,HEX BOLT 1/2" X 2,\n',
    'A3,"never closed,\n',
    "\n",
    ",,\n",
    'A4,"one\r\ntwo\r\nthree ""quoted""\r\n",x\n',
    "A5\n",
    "A6,ISO 4032 M10 8,16,extra\n",
    'A7,5" pipe clamp and 3" more,\n',
    "A1,ISO 4014 M10x60 8.8,16\n",
    "A8,ISO 4014 M10x60 8.8,16\rA9,ISO 4032 M10 8,16\r",
    'A10,"opened\nand closed" with words behind it,\n',
    "\u00c4rger;\u00b5,Schraube M8\u00d730 8.8 ISO 4017,\n",
)


@pytest.fixture(autouse=True)
def _short_parts(service: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOLTWRIGHT_URL", service)
    monkeypatch.setattr(parts, "LINES", 7)


def catalogue(count: int) -> str:
    lines = (f"P{at % (count - 2)},{_TEXTS[at % 5]},{15 + at % 3}\n" for at in range(count))
    return "part_number,description,width across flats\n" + "".join(lines)


def at_once(service: str, text: str | bytes, form: str = CSV, **query: str) -> bytes:
    """The answer to the whole catalogue in one request."""
    body = text.encode() if isinstance(text, str) else text
    url = f"{service}/v1/part-masters/validation"
    answer = requests.post(url, data=body, headers={"Content-Type": form}, params=query, timeout=60)
    assert answer.status_code == 200, answer.text
    return answer.content


def written(tmp_path: Path, text: str | bytes, name: str = "parts.csv") -> Path:
    path = tmp_path / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def test_parts_come_to_what_one_request_comes_to_byte_by_byte(service: str, tmp_path: Path) -> None:
    text = catalogue(200)
    out = tmp_path / "findings.csv"
    assert main(["validate", str(written(tmp_path, text)), "--out", str(out)]) == 1
    assert out.read_bytes() == at_once(service, text)
    assert b"duplicate-part-number" in out.read_bytes()
    assert b"duplicate-requirement" in out.read_bytes()
    assert [path.name for path in tmp_path.iterdir() if "state" in path.name] == []


@pytest.mark.parametrize("lines", [1, 2, 3, 4, 5, 60])
def test_awkward_rows_are_never_parted(
    service: str, tmp_path: Path, lines: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(parts, "LINES", lines)
    text = "part_number,description,width across flats\n" + "".join(_AWKWARD) * 4
    out = tmp_path / "findings.csv"
    main(["validate", str(written(tmp_path, text)), "--out", str(out)])
    assert out.read_bytes() == at_once(service, text)


@pytest.mark.parametrize(
    ("encoding", "stated"), [("utf-8-sig", None), ("utf-16", None), ("cp1252", None), ("cp850", "cp850")]
)
def test_encodings(tmp_path: Path, encoding: str, stated: str | None) -> None:
    text = "\r\n\r\npart_number;description\r\n" + "St\u00fcck 1;Schraube M8x30 8.8 ISO 4017\r\n" * 20
    out = tmp_path / "findings.ndjson"
    options = [] if stated is None else ["--encoding", stated]
    main(["validate", str(written(tmp_path, text.encode(encoding))), "--out", str(out), *options])
    rows = [json.loads(line) for line in out.read_text(encoding="utf-8").splitlines()]
    assert len(rows) == 20
    assert {row["part_number"] for row in rows} == {"St\u00fcck 1"}


def test_ndjson_with_broken_lines(service: str, tmp_path: Path) -> None:
    lines = [json.dumps({"part_number": f"P{at % 40}", "description": _TEXTS[at % 5]}).encode() for at in range(60)]
    lines[20:20] = [b"{broken", b"", b"\xff\xfe", b'"text"']
    text = b"\n".join(lines)
    out = tmp_path / "findings.ndjson"
    main(["validate", str(written(tmp_path, text, "parts.ndjson")), "--out", str(out)])
    *expected, _ = [json.loads(line) for line in at_once(service, text, NDJSON).splitlines()]
    assert [json.loads(line) for line in out.read_bytes().splitlines()] == expected


def test_titles_are_mapped(tmp_path: Path) -> None:
    text = "Artikel;Text\nA;ISO 4014 M10x60 8.8\n"
    out = tmp_path / "findings.csv"
    columns = "Artikel:part_number,Text:description"
    assert main(["validate", str(written(tmp_path, text)), "--out", str(out), "--columns", columns]) == 0
    (row,) = csv.DictReader(io.StringIO(out.read_text(encoding="utf-8")), delimiter=";")
    assert (row["part_number"], row["designation"]) == ("A", "ISO 4014 - M10x60 - 8.8")


@pytest.mark.parametrize(
    ("rows", "code"),
    [
        ("A,ISO 4014 M10x60 8.8,16\n", 0),
        ("A,ISO 4014 M14x60 8.8,21\n", 0),
        ("A,DIN 933 M10x40 8.8,\n", 2),
        ("A,ISO 4014 M10x60 8.8,17\nB,DIN 933 M10x40 8.8,\n", 1),
        ("A,hello,\n", 1),
        ("", 0),
    ],
)
def test_the_exit_code_is_the_gravest_finding(tmp_path: Path, rows: str, code: int) -> None:
    """M14 is not preferred in ISO 4014: a notice; 17 mm across flats at M10 is an error (ISO 4014:2011, 16 mm)."""
    path = written(tmp_path, f"part_number,description,width across flats\n{rows}")
    assert main(["validate", str(path), "--quiet"]) == code
    assert (tmp_path / "parts.findings.csv").exists()


def test_what_is_printed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = written(tmp_path, catalogue(30))
    main(["validate", str(path)])
    assert "30 rows; findings in" in capsys.readouterr().out
    main(["validate", str(path), "--json"])
    assert json.loads(capsys.readouterr().out)["rows"] == 30


def test_a_report_beside_the_findings(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, report = written(tmp_path, catalogue(30)), tmp_path / "report.html"
    assert main(["validate", str(path), "--report", str(report)]) == 1
    text = report.read_text(encoding="utf-8")
    assert "findings of parts.csv" in text
    assert '"P4"' in text
    assert f"report in {report}" in capsys.readouterr().out
    assert "http" not in text.replace("https://", "http").replace('"http://www.w3.org', "")


# Interruptions


class Interrupted(Exception):
    """Stands for whatever ends a run: a power cut, a closed lid."""


@pytest.mark.parametrize("part", [0, 1, 4, 8])
@pytest.mark.parametrize("form", ["findings.csv", "findings.ndjson"])
def test_an_interruption_between_findings_and_state_loses_and_doubles_nothing(
    service: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, part: int, form: str
) -> None:
    path, out = written(tmp_path, catalogue(60)), tmp_path / form
    monkeypatch.setattr(run, "KEPT_EVERY", 0.0)
    keep, kept = State.keep, []

    def failing(self: State, *given: Any) -> None:
        kept.append(given)
        if len(kept) > part:
            raise Interrupted
        keep(self, *given)

    with Client(service) as client:
        validate_file(client, source_of(path), tmp_path / f"whole_{form}")
        with monkeypatch.context() as patched:
            patched.setattr(State, "keep", failing)
            with pytest.raises(Interrupted):
                validate_file(client, source_of(path), out)
        seen: list[int] = []
        totals = validate_file(client, source_of(path), out, progress=lambda done, rows: seen.append(rows))
    assert seen[0] == 7 * part
    assert out.read_bytes() == (tmp_path / f"whole_{form}").read_bytes()
    assert totals.rows == sum(totals.statuses.values()) == 60


def test_a_killed_process_goes_on_where_it_stopped(service: str, tmp_path: Path) -> None:
    """Killed without warning, three times in the middle of its work."""
    text = catalogue(4000)
    path, out = written(tmp_path, text), tmp_path / "findings.csv"
    draft, state = tmp_path / "findings.csv.part", tmp_path / "findings.csv.state"
    out.write_text("findings of yesterday")
    program = (
        "import sys; from boltwright.part_masters.validation import parts, run\n"
        "parts.LINES, run.KEPT_EVERY = 40, 0.02\n"
        "from boltwright.command_line import main; sys.exit(main(sys.argv[1:]))"
    )
    command = [sys.executable, "-c", program, "validate", str(path), "--out", str(out), "--url", service]
    reached = 0
    for _ in range(3):
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=environment())
        _wait(lambda reached=reached: draft.exists() and draft.stat().st_size > reached + 20_000)
        process.kill()
        assert process.wait(timeout=30) == -signal.SIGKILL
        assert state.exists()
        assert out.read_text() == "findings of yesterday"
        reached = draft.stat().st_size
    done = subprocess.run(command, capture_output=True, text=True, env=environment(), timeout=120, check=False)
    assert done.returncode == 1, done.stderr
    assert "going on behind row" in done.stderr
    assert out.read_bytes() == at_once(service, text)
    assert not state.exists()
    assert not draft.exists()


def _wait(ready: Any) -> None:
    until = time.monotonic() + 60
    while not ready():
        assert time.monotonic() < until, "the run writes no findings"
        time.sleep(0.005)


def interrupted(client: Client, path: Path, out: Path) -> None:
    def stop(done: int, rows: int) -> None:
        if rows:
            raise Interrupted

    with pytest.raises(Interrupted):
        validate_file(client, source_of(path), out, progress=stop)


def stale_catalogue(path: Path, out: Path) -> None:
    """The export of tomorrow, under the same name."""
    written(path.parent, catalogue(61))


def stale_draft(path: Path, out: Path) -> None:
    (out.parent / f"{out.name}.part").write_bytes(b"part_number")


def stale_state(path: Path, out: Path) -> None:
    (out.parent / f"{out.name}.state").write_text("no database " * 100)


def stale_table(path: Path, out: Path) -> None:
    state = out.parent / f"{out.name}.state"
    state.unlink()
    with closing(sqlite3.connect(state)) as database:
        database.execute("create table run (other text)")
        database.execute("insert into run values ('x')")
        database.commit()


def _changed(out: Path, what: str) -> None:
    with closing(sqlite3.connect(out.parent / f"{out.name}.state")) as database:
        database.execute(f"update run set {what}")
        database.commit()


def stale_counts(path: Path, out: Path) -> None:
    _changed(out, "counts = '[1, 2]'")


def few_counts(path: Path, out: Path) -> None:
    _changed(out, "counts = '[{}, {}]'")


def stale_position(path: Path, out: Path) -> None:
    _changed(out, "position = 'here'")


SPOILT = [stale_catalogue, stale_draft, stale_state, stale_table, stale_counts, few_counts, stale_position]


@pytest.mark.parametrize("spoil", SPOILT)
@pytest.mark.parametrize("restart", [(), ("--restart",)])
def test_what_cannot_be_gone_on_with_never_sticks(
    service: str,
    client: Client,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    spoil: Any,
    restart: tuple[str, ...],
) -> None:
    path, out = written(tmp_path, catalogue(60)), tmp_path / "findings.csv"
    interrupted(client, path, out)
    spoil(path, out)
    rows = 61 if spoil is stale_catalogue else 60
    assert main(["validate", str(path), "--out", str(out), *restart]) == 1
    assert out.read_bytes() == at_once(service, catalogue(rows))
    assert ("begun anew" in capsys.readouterr().err) or restart
    assert sorted(one.name for one in tmp_path.iterdir()) == ["findings.csv", "parts.csv"]


def test_without_a_draft_a_run_begins_anew(client: Client, tmp_path: Path) -> None:
    path, out = written(tmp_path, catalogue(60)), tmp_path / "findings.csv"
    interrupted(client, path, out)
    (tmp_path / "findings.csv.part").unlink()
    assert validate_file(client, source_of(path), out).rows == 60


@pytest.mark.parametrize("restart", [False, True])
def test_two_runs_do_not_write_one_file(client: Client, tmp_path: Path, restart: bool) -> None:
    path, out = written(tmp_path, catalogue(60)), tmp_path / "findings.csv"

    def another(done: int, rows: int) -> None:
        if rows == 14:
            with pytest.raises(ValueError, match="written by another run"):
                validate_file(client, source_of(path), out, restart=restart)

    totals = validate_file(client, source_of(path), out, progress=another)
    assert totals.rows == 60
    assert len(out.read_bytes().splitlines()) == 61


def test_a_service_that_is_away_leaves_what_is_done(client: Client, tmp_path: Path) -> None:
    path, out = written(tmp_path, catalogue(60)), tmp_path / "findings.csv"
    interrupted(client, path, out)
    draft = tmp_path / "findings.csv.part"
    before = draft.read_bytes()
    with Client("http://127.0.0.1:9", retries=0) as away, pytest.raises(TransportError):
        validate_file(away, source_of(path), out)
    assert draft.read_bytes() == before
    assert not out.exists()
    assert validate_file(client, source_of(path), out).rows == 60


def test_the_catalogue_is_not_overwritten(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = catalogue(10)
    path = written(tmp_path, text)
    assert main(["validate", str(path), "--out", str(path)]) == 3
    assert "is the catalogue itself" in capsys.readouterr().err
    assert path.read_text() == text


@pytest.mark.parametrize(
    ("name", "said"), [("away.csv", "No such file"), ("empty.csv", "header"), ("parts.xlsx", "no workbook")]
)
def test_a_file_that_cannot_be_read(tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str, said: str) -> None:
    if name != "away.csv":
        written(tmp_path, "" if name == "empty.csv" else "no workbook", name)
    assert main(["validate", str(tmp_path / name)]) == 3
    assert said in capsys.readouterr().err


def test_an_encoding_that_does_not_exist(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["validate", str(written(tmp_path, catalogue(3))), "--encoding", "klingon"]) == 3
    assert "no encoding 'klingon'" in capsys.readouterr().err


def test_an_answer_that_is_cut_short_is_refused() -> None:
    row = {"part_number": "A", "row": 0, "status": "valid", "designation": None, "confidence": 1.0, "alternatives": []}
    line = json.dumps({**row, "left_over": [], "findings": []}).encode() + b"\n"
    with pytest.raises(UnexpectedAnswer, match="1 rows came, 3 are announced"):
        answer_of(line + b'{"summary": {"rows": 3}}\n', {}, NDJSON, 0, 3, None)
    whole = line + b'{"summary": {"rows": 1}}\n'
    with pytest.raises(UnexpectedAnswer, match="row 0 where row 5"):
        answer_of(whole, {}, NDJSON, 5, 1, None)
    with pytest.raises(UnexpectedAnswer, match="1 rows, 2 were sent"):
        answer_of(whole, {}, NDJSON, 0, 2, None)
