"""Without HTTP: the judgement against `json.loads` of the same body, a look-up that nothing remembers, memory."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from functools import partial
from statistics import median

from boltwright_server.designations import parse_thread
from boltwright_server.quantities.keeper import KEEPER
from boltwright_server.standards import all_standards
from boltwright_server.threads import (
    SYSTEMS,
    ToleranceClass,
    classes,
    iso_metric_limits,
    iso_metric_tolerances,
    limits,
    sizes,
)
from boltwright_server.web.conformance.conformance import arrow_answer, conformance_answer

from . import lots
from .table import Line, middle_ratio

ROUNDS = 21


def lines() -> Iterator[Line]:
    """Yield the results."""
    yield _columns()
    yield _arrow()
    yield _cold_look_up()
    yield _designations()
    yield _whole_matrix()
    yield from _memory()


def _columns() -> Line:
    body = lots.body(10_000)
    mine, theirs = _interleaved(lambda: whole_judgement(body), lambda: json.loads(body))
    ratio = middle_ratio(mine, theirs)
    return Line(
        "10 000 pieces x 8, bytes to bytes, against json.loads", _ms(mine), _ms(theirs), ratio, 1.0, at_least=False
    )


def whole_judgement(body: bytes) -> bytes:
    """Do what the service does between reading the body and sending the answer."""
    return conformance_answer(body).get_data()


def _arrow() -> Line:
    """The same columns as an Arrow IPC stream, against json.loads of the JSON body."""
    body = lots.body(10_000)
    stream = lots.arrow_body(body)
    mine, theirs = _interleaved(lambda: arrow_answer(stream).get_data(), lambda: json.loads(body))
    return Line("10 000 pieces x 8 as Arrow, against json.loads", _ms(mine), _ms(theirs), middle_ratio(mine, theirs))


def _cold_look_up() -> Line:
    """Every metric size in 6g, nothing remembered, against json.dumps of as many numbers as an answer has."""
    all_standards()
    tolerance = ToleranceClass.parse("6g")
    wanted = [size for size in sizes() if 1 <= size.d <= 100 and size.pitch >= 1]
    answer = json.dumps({f"limit_{at}": at / 1000 for at in range(20)})

    def all_limits() -> None:
        iso_metric_limits.limits.cache_clear()
        iso_metric_tolerances.tolerances.cache_clear()
        for size in wanted:
            limits(size, tolerance)

    mine, theirs = _interleaved(all_limits, lambda: [json.loads(answer) for _ in wanted])
    ratio = middle_ratio(mine, theirs)
    each = [[time_ / len(wanted) for time_ in times] for times in (mine, theirs)]
    return Line("cold limits of a thread, against json.loads of 20 numbers", _us(each[0]), _us(each[1]), ratio)


def _designations() -> Line:
    """Text to limits of a thread with nothing remembered, against the goal of 1 ms of engine time."""
    texts = [f"{size.designation}-6g" for size in sizes() if 1 <= size.d <= 100 and size.pitch >= 1]

    def once() -> float:
        forget()
        began = time.process_time()
        for text in texts:
            thread = parse_thread(text)
            limits(thread.size, thread.classes[0])
        return (time.process_time() - began) / len(texts)

    took = median(once() for _ in range(5))
    return Line("text to limits, nothing remembered, against the goal", _us([took]), "1 ms", took / 1e-3, 1.0, False)


def _whole_matrix() -> Line:
    """Every size of every system in every class, nothing remembered, against the goal of 1 s on one core."""

    def once() -> float:
        forget()
        began = time.process_time()
        count = sum(1 for system in SYSTEMS for size in system.sizes() for one in classes(size) if limits(size, one))
        took = time.process_time() - began
        assert count > 15_000
        return took

    took = median(once() for _ in range(5))
    return Line("every thread in every class, against the goal", _ms([took]), "1 s", took, 1.0, at_least=False)


def forget() -> None:
    """Empty what the thread engines and the reader of designations remember; tables and products stay in memory."""
    for memory in KEEPER.memories.values():
        if memory.room in ("threads", "designations") and "reader" not in memory.name:
            memory.forget()


def _memory() -> Iterator[Line]:
    bare = _resident("import numpy")
    tables = _resident("import numpy; from boltwright_server.standards import all_standards; kept = all_standards()")
    flask = _resident("import numpy, flask, flask_smorest, marshmallow, msgspec, gunicorn.app.base")
    whole = _resident("from boltwright_server.web.app import create_app; kept = create_app()")
    yield Line("memory: all tables, against Python with numpy", f"{tables:.0f} MB", f"{bare:.0f} MB", tables / bare)
    yield Line("memory: the application, against its libraries", f"{whole:.0f} MB", f"{flask:.0f} MB", whole / flask)


def _resident(code: str) -> float:
    """Return the megabytes that a new interpreter holds after `code`."""
    measure = "; print(next(line.split()[1] for line in open('/proc/self/status') if line.startswith('VmRSS')))"
    return int(subprocess.check_output([sys.executable, "-c", code + measure], text=True)) / 1024


def _interleaved(ours: Callable[[], object], baseline: Callable[[], object]) -> tuple[list[float], list[float]]:
    ours(), baseline()
    pairs = [(_timed(ours), _timed(baseline)) for _ in range(ROUNDS)]
    return [one for one, _ in pairs], [other for _, other in pairs]


def _timed(call: Callable[[], object]) -> float:
    began = time.perf_counter()
    call()
    return time.perf_counter() - began


def _shown(scale: float, unit: str, seconds: list[float]) -> str:
    return f"{median(seconds) * scale:.2f} {unit}"


_ms, _us = partial(_shown, 1e3, "ms"), partial(_shown, 1e6, "us")
