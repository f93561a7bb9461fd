"""Several parts of a catalogue on their way at once: the answer is that of one worker, byte by byte, whatever happens.

The catalogues are invented; what is right for a row is tested with the service.
"""

from __future__ import annotations

import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
import requests
from running_server import environment

from boltwright import Client
from boltwright.command_line import main
from boltwright.errors import Error, InvalidRequestError, UnexpectedAnswer
from boltwright.part_masters.validation import in_flight, parts
from boltwright.part_masters.validation.impact import impact_file
from boltwright.part_masters.validation.in_flight import in_order
from boltwright.part_masters.validation.parts import Part
from boltwright.part_masters.validation.run import validate_file
from boltwright.part_masters.validation.sources import source_of
from boltwright.transport import Connection

_TEXTS = (
    "ISO 4014 M10x60 8.8",
    "DIN 933 M10x40 8.8",
    "NUT HEX M16 CL10",
    'HEX BOLT 1/2" X 2, "GRADE 5"',
    "Ma\u00df\nM8",
)
_ROWS = 150
_PARTS = [Part(b"", at, at, 7) for at in range(40)]


@pytest.fixture(autouse=True)
def _short_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(parts, "LINES", 7)


def catalogue(path: Path, delimiter: str = ",") -> Path:
    """Rows that repeat one another over parts and within them, with cells that are quoted and that span lines."""
    quoted = [text.replace('"', '""') for text in _TEXTS]
    rows = (f'P{at % 90}{delimiter}"{quoted[at % 5]}"{delimiter}17\n' for at in range(_ROWS))
    path.write_text(f"part_number{delimiter}description{delimiter}width across flats\n" + "".join(rows))
    return path


@pytest.mark.parametrize(("delimiter", "suffix"), [(",", ".csv"), (";", ".csv"), (";", ".ndjson")])
@pytest.mark.parametrize("workers", [2, 5, None])
def test_the_findings_are_those_of_one_worker(
    client: Client, tmp_path: Path, delimiter: str, suffix: str, workers: int | None
) -> None:
    source, one, more = catalogue(tmp_path / "parts.csv", delimiter), tmp_path / f"1{suffix}", tmp_path / f"2{suffix}"
    totals = [
        validate_file(client, source_of(source), one, workers=1),
        validate_file(client, source_of(source), more, workers=workers),
    ]
    assert one.read_bytes() == more.read_bytes()
    assert totals[0] == totals[1]
    assert totals[0].codes["duplicate-part-number"] == 60
    assert totals[0].codes["duplicate-requirement"] > 0


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_rows_are_passed_on_as_one_request_answers_them(
    service: str, client: Client, tmp_path: Path, delimiter: str
) -> None:
    source, out = catalogue(tmp_path / "parts.csv", delimiter), tmp_path / "out.csv"
    validate_file(client, source_of(source), out, workers=3)
    url, form = f"{service}/v1/part-masters/validation", {"Content-Type": "text/csv"}
    assert out.read_bytes() == requests.post(url, data=source.read_bytes(), headers=form, timeout=60).content


def test_the_impact_is_that_of_one_worker(client: Client, tmp_path: Path) -> None:
    source = catalogue(tmp_path / "parts.csv")
    totals = [
        impact_file(client, source_of(source), "DIN 933", "ISO 4017", tmp_path / f"{workers}.csv", workers=workers)
        for workers in (1, 4)
    ]
    assert (tmp_path / "1.csv").read_bytes() == (tmp_path / "4.csv").read_bytes()
    assert totals[0] == totals[1]


def test_answers_come_in_order_and_so_few_parts_wait_that_memory_is_bounded() -> None:
    read = 0

    def counted() -> Iterator[Part]:
        nonlocal read
        for part in _PARTS:
            read += 1
            yield part

    def slow_at_first(lane: Connection, part: Part, first_row: int) -> int:
        time.sleep(0.2 if part.end == 0 else 0.0)
        return first_row

    with Client() as client:
        for at, (part, first_row) in enumerate(in_order(client, counted(), 5, slow_at_first, 3)):
            assert (part.end, first_row) == (at, 5 + 7 * at)
            assert read <= at + 6


def test_the_first_part_that_is_refused_is_told_and_no_later_one_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[int] = []

    def refused(lane: Connection, part: Part, first_row: int) -> int:
        asked.append(part.end)
        time.sleep(0.05 if part.end == 4 else 0.0)
        if part.end in (4, 5, 6):
            raise UnexpectedAnswer(f"part {part.end}")
        return part.end

    with Client() as client:
        answers = in_order(client, _PARTS, 0, refused, 3)
        assert [next(answers)[1] for _ in range(4)] == [0, 1, 2, 3]
        with pytest.raises(UnexpectedAnswer, match="part 4"):
            next(answers)
    assert max(asked) < 4 + 6
    _lanes_are_gone()


def test_what_reading_a_part_raises_comes_behind_the_parts_before_it() -> None:
    def broken() -> Iterator[Part]:
        yield from _PARTS[:3]
        raise OSError("the disk is gone")

    with Client() as client:
        answers = in_order(client, broken(), 0, lambda lane, part, first_row: None, 2)
        assert [next(answers)[0].end for _ in range(3)] == [0, 1, 2]
        with pytest.raises(OSError, match="the disk is gone"):
            next(answers)
    _lanes_are_gone()


def _lanes_are_gone() -> None:
    until = time.monotonic() + 10
    while any(thread.name.startswith(in_flight.LANE) for thread in threading.enumerate()):
        assert time.monotonic() < until
        time.sleep(0.01)


def test_a_session_of_the_caller_is_used_by_no_two_threads() -> None:
    lanes = set()

    def noted(lane: Connection, part: Part, first_row: int) -> None:
        lanes.add((threading.get_ident(), lane))

    with requests.Session() as session:
        client = Client(session=session)
        list(in_order(client, _PARTS, 0, noted, 4))
    assert lanes == {(threading.get_ident(), client)}


def test_a_lane_has_address_key_and_agent_of_its_connection() -> None:
    with Client("http://127.0.0.1:9", "key", user_agent_suffix="plant/1", timeout=7, retries=1) as client:
        lane = client.another()
    for member in ("base_url", "_auth", "_user_agent", "_timeout"):
        assert getattr(lane, member) == getattr(client, member)
    assert lane._session is not client._session


@pytest.mark.parametrize("workers", [1, 4])
@pytest.mark.parametrize("part", [0, 1, 9, 20])
def test_a_part_that_is_refused_leaves_what_is_done_and_the_run_goes_on(
    client: Client, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, workers: int, part: int
) -> None:
    source, whole, out = catalogue(tmp_path / "parts.csv"), tmp_path / "whole.csv", tmp_path / "out.csv"
    validate_file(client, source_of(source), whole, workers=1)
    first = sum(one.rows for one in list(source_of(source).parts(0))[:part])
    post, asked = Connection.post_rows, []

    def failing(self: Connection, path: str, body: bytes, form: str, **query: Any) -> tuple[bytes, Mapping[str, str]]:
        asked.append(query["first_row"])
        # The first lines are asked about before.
        if query["first_row"] >= first and len(asked) > 1:
            raise UnexpectedAnswer(f"row {query['first_row']}")
        return post(self, path, body, form, **query)

    with monkeypatch.context() as patched:
        patched.setattr(Connection, "post_rows", failing)
        with pytest.raises(UnexpectedAnswer, match=f"^row {first}$"):
            validate_file(client, source_of(source), out, workers=workers)
    assert not out.exists()
    seen: list[int] = []
    validate_file(client, source_of(source), out, workers=workers, progress=lambda done, rows: seen.append(rows))
    assert seen[0] == first
    assert out.read_bytes() == whole.read_bytes()


def test_many_workers_that_are_killed_go_on_where_they_stopped(service: str, client: Client, tmp_path: Path) -> None:
    source, whole, out = catalogue(tmp_path / "parts.csv"), tmp_path / "whole.csv", tmp_path / "out.csv"
    source.write_text(source.read_text() + source.read_text().partition("\n")[2] * 150)
    validate_file(client, source_of(source), whole, workers=1)
    run = _command(service, source, out)
    for _ in range(2):
        process = subprocess.Popen(run, stderr=subprocess.PIPE, text=True, env=environment())
        _wait_for(lambda: (tmp_path / "out.csv.part").exists() and (tmp_path / "out.csv.part").stat().st_size > 30_000)
        time.sleep(0.1)
        process.kill()
        process.communicate()
    done = subprocess.run(run, capture_output=True, text=True, env=environment(), timeout=120, check=False)
    assert done.returncode == 1, done.stderr
    assert "going on behind row" in done.stderr
    assert out.read_bytes() == whole.read_bytes()


def test_ctrl_c_ends_many_workers_at_once_and_keeps_what_is_done(service: str, client: Client, tmp_path: Path) -> None:
    source, out = catalogue(tmp_path / "parts.csv"), tmp_path / "out.csv"
    source.write_text(source.read_text() + source.read_text().partition("\n")[2] * 150)
    run = _command(service, source, out)
    # A shell lets what it starts behind itself ignore the interruption; this process listens to it all the same.
    process = subprocess.Popen(
        run,
        stderr=subprocess.PIPE,
        text=True,
        env=environment(),
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )
    _wait_for(lambda: (tmp_path / "out.csv.part").exists() and (tmp_path / "out.csv.part").stat().st_size > 30_000)
    process.send_signal(signal.SIGINT)
    said = process.communicate(timeout=10)[1]
    assert process.returncode == 3
    assert "Traceback" not in said
    done = subprocess.run(run, capture_output=True, text=True, env=environment(), timeout=120, check=False)
    assert "going on behind row" in done.stderr
    validate_file(client, source_of(source), tmp_path / "whole.csv", workers=1)
    assert out.read_bytes() == (tmp_path / "whole.csv").read_bytes()


def _command(service: str, source: Path, out: Path) -> list[str]:
    program = (
        "import sys; from boltwright.part_masters.validation import parts, run\n"
        "parts.LINES, run.KEPT_EVERY = 40, 0.02\n"
        "from boltwright.command_line import main; sys.exit(main(sys.argv[1:]))"
    )
    return [
        sys.executable,
        "-c",
        program,
        "validate",
        str(source),
        "--out",
        str(out),
        "--url",
        service,
        "--workers",
        "4",
    ]


def _wait_for(ready: Callable[[], bool]) -> None:
    until = time.monotonic() + 60
    while not ready():
        assert time.monotonic() < until
        time.sleep(0.005)


@pytest.mark.parametrize("workers", ["0", "-1", "many", "1.5"])
def test_workers_are_a_whole_number(capsys: pytest.CaptureFixture[str], workers: str) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["validate", "parts.csv", "--workers", workers])
    assert stopped.value.code == 3
    assert "a whole number from 1 on" in capsys.readouterr().err
    with Client() as client, pytest.raises(ValueError, match="1 or more"):
        list(in_order(client, _PARTS, 0, lambda lane, part, first_row: None, 0))


def test_refusals_of_the_service_are_typed_over_many_workers(client: Client, tmp_path: Path) -> None:
    source = tmp_path / "parts.ndjson"
    source.write_text('{"hello": 1}\n' * 50)
    with pytest.raises(InvalidRequestError):
        validate_file(client, source_of(source), tmp_path / "out.ndjson", workers=4)
    assert sorted(one.name for one in tmp_path.iterdir()) == ["parts.ndjson"]
    assert issubclass(InvalidRequestError, Error)
