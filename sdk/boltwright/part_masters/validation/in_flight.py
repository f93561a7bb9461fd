"""Parts on their way over several connections at once; their answers come back in the order of the parts."""

from __future__ import annotations

import os
import threading
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator
from concurrent.futures import Future, wait
from itertools import islice
from queue import SimpleQueue
from typing import Any, NamedTuple, TypeVar, cast

from ...transport import Connection
from .parts import Part

T = TypeVar("T")
LANE = "boltwright part"
#: What asks for a part that starts at a row.
Ask = Callable[[Connection, Part, int], T]
#: More connections by themselves would take a service from its other users.
_MOST_BY_ITSELF = 8
#: Seconds after which a wait looks up: a Ctrl-C is not seen within one on every system.
_LOOK_UP = 1.0


class _Task(NamedTuple):
    answer: Future[Any]
    part: Part
    first_row: int


def workers_of_machine() -> int:
    """Return how many connections follow the machine: one a core that this process may use."""
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return min(cores, _MOST_BY_ITSELF)


def in_order(
    connection: Connection, parts: Iterable[Part], first_row: int, ask: Ask[T], workers: int | None
) -> Generator[tuple[Part, T], None, None]:
    """Yield parts with their answers, in order; what a part raises is raised in its place, and no later one is asked.

    Args:
        first_row: the row at which the first part starts.
        workers: connections; None: as many as the machine has cores. One is `connection` itself, in this thread; so is
            a session of the caller's own, which no two threads may share.

    Raises:
        ValueError: fewer than one worker.
    """
    if workers is not None and workers < 1:
        raise ValueError(f"workers are 1 or more, not {workers}")
    lanes = workers_of_machine() if workers is None else workers
    if lanes == 1 or not connection.own_session:
        for part in parts:
            yield part, ask(connection, part, first_row)
            first_row += part.rows
        return
    yield from _over_lanes(connection, parts, first_row, ask, lanes)


def _over_lanes(
    connection: Connection, parts: Iterable[Part], first_row: int, ask: Ask[T], lanes: int
) -> Generator[tuple[Part, T], None, None]:
    """Keep two parts a lane on their way or waiting, so that memory stays bounded and no lane stands still.

    Lanes are daemons: whoever stops waits for no answer that nobody wants any more.
    """
    tasks: SimpleQueue[_Task | None] = SimpleQueue()
    waiting: deque[tuple[Part | Exception, Future[Any]]] = deque()
    coming, started = _with_its_error(parts), 0
    try:
        while True:
            for part in islice(coming, 2 * lanes - len(waiting)):
                answer: Future[Any] = Future()
                waiting.append((part, answer))
                if isinstance(part, Exception):
                    answer.set_exception(part)
                    continue
                tasks.put(_Task(answer, part, first_row))
                first_row += part.rows
                if started < lanes:
                    lane = connection.another(), ask, tasks
                    threading.Thread(target=_lane, args=lane, name=f"{LANE} {started}", daemon=True).start()
                    started += 1
            if not waiting:
                return
            part, answer = waiting.popleft()
            while not wait([answer], _LOOK_UP).done:
                pass
            yield cast(Part, part), answer.result()
    finally:
        for _, answer in waiting:
            answer.cancel()
        for _ in range(started):
            tasks.put(None)


def _with_its_error(parts: Iterable[Part]) -> Iterator[Part | Exception]:
    """Yield parts, and what reading the next one raises in its place: those before it are whole."""
    try:
        yield from parts
    except Exception as error:
        yield error


def _lane(connection: Connection, ask: Ask[Any], tasks: SimpleQueue[_Task | None]) -> None:
    with connection:
        while (task := tasks.get()) is not None:
            if not task.answer.set_running_or_notify_cancel():
                continue
            try:
                task.answer.set_result(ask(connection, task.part, task.first_row))
            except BaseException as error:
                task.answer.set_exception(error)
