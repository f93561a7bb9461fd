"""How far a long run is: on a terminal, in a log, with and without the extra `progress`."""

from __future__ import annotations

import io
import sys
from types import SimpleNamespace

import pytest

from boltwright.command_line import progress
from boltwright.command_line.progress import Progress


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def seconds(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """The clock of the module: the test moves it."""
    now = [100.0]
    monkeypatch.setattr(progress, "time", SimpleNamespace(monotonic=lambda: now[0]))
    return now


def test_a_log_gets_a_line_now_and_then(seconds: list[float], monkeypatch: pytest.MonkeyPatch) -> None:
    log = io.StringIO()
    monkeypatch.setattr(sys, "stderr", log)
    with Progress(1000) as told:
        told(0, 0)
        for part in range(1, 11):
            seconds[0] += 4
            told(100 * part, 50 * part)
    assert log.getvalue().splitlines() == [
        "30 %, 150 rows, 12 rows/s",
        "60 %, 300 rows, 12 rows/s",
        "90 %, 450 rows, 12 rows/s",
    ]


def test_a_terminal_without_the_extra_gets_one_line_that_is_written_over(
    seconds: list[float], monkeypatch: pytest.MonkeyPatch
) -> None:
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setitem(sys.modules, "tqdm", None)
    with Progress(None) as told:
        told(0, 4000)
        seconds[0] += 2
        told(1, 6000)
    first, rest = terminal.getvalue().split("\n", 1)
    assert first == "going on behind row 3999"
    assert rest.strip("\r\n ") == "6000 rows, 1000 rows/s"
    assert rest.endswith("\n")


def test_a_terminal_with_the_extra_gets_a_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("tqdm", reason="the extra `progress` is not installed")
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    with Progress(1000) as told:
        told(0, 0)
        told(500, 40)
        told(1000, 80)
    assert "%|" in terminal.getvalue()


@pytest.mark.parametrize("stream", [io.StringIO(), Terminal()])
def test_quiet_is_quiet(stream: io.StringIO, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stderr", stream)
    with Progress(1000, quiet=True) as told:
        told(0, 10)
        told(500, 40)
    assert stream.getvalue() == ""
