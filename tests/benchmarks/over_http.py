"""Through HTTP, against routes that return the same bytes on the same server."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from urllib.parse import quote

from boltwright_server.threads import sizes

from . import lots
from .load import ask, drive, get, post
from .servers import Server, bare, service
from .table import Line, middle_ratio

SECONDS, ROUNDS = 2.0, 5


def lines() -> Iterator[Line]:
    """Yield the results."""
    one = get(f"/v1/thread-limits?designation={quote('M10-6g')}")
    page = get(f"/v1/specification?designation={quote(lots.DESIGNATION)}")
    with service() as ours:
        yield from _look_up("look-up, M10-6g", ours, one, 0.6)
        yield from _look_up("look-up, a whole specification", ours, page, 0.6)
        yield from _many_sizes(ours)
        at_the_machine = lots.body(1, lots.AT_THE_MACHINE)
        yield from _decision(ours, at_the_machine, "/answer", "decision on one piece, 3 characteristics", 0.5)
        yield from _decision(ours, lots.body(1), "/answer", "decision on one piece, 8 characteristics", 0.5)
        yield from _decision(
            ours, lots.body(10_000), "/parse", "10 000 pieces x 8, against a route that parses", 1 / 1.2
        )


def _look_up(name: str, ours: Server, request: bytes, goal: float) -> Iterator[Line]:
    with bare(ask(ours, request)) as other:
        yield from _compared(name, ours, [request], other, get("/answer"), goal)


def _many_sizes(ours: Server) -> Iterator[Line]:
    asked = [get(f"/v1/thread-limits?designation={quote(size.designation)}-6g") for size in sizes() if size.pitch >= 1]
    with bare(ask(ours, asked[0])) as other:
        yield from _compared(f"look-up, {len(asked)} threads in turn", ours, asked, other, get("/answer"), 0.6)


def _decision(ours: Server, body: bytes, route: str, name: str, goal: float) -> Iterator[Line]:
    request = post("/v1/conformance", body)
    with bare(ask(ours, request)) as other:
        yield from _compared(name, ours, [request], other, post(route, body), goal)


def _compared(
    name: str, ours: Server, asked: Sequence[bytes], other: Server, baseline: bytes, goal: float
) -> Iterator[Line]:
    drive(ours, asked, 0.5)
    drive(other, [baseline], 0.5)
    mine, theirs = [], []
    for _ in range(ROUNDS):
        mine.append(drive(ours, asked, SECONDS))
        theirs.append(drive(other, [baseline], SECONDS))
    rates = [one.rate for one in mine], [one.rate for one in theirs]
    costs = [one.cpu_microseconds for one in mine], [one.cpu_microseconds for one in theirs]
    yield Line(
        f"{name}: answers a second", f"{max(rates[0]):.0f}/s", f"{max(rates[1]):.0f}/s", middle_ratio(*rates), goal
    )
    yield Line(
        f"{name}: server's processor time",
        f"{min(costs[0]):.0f} us",
        f"{min(costs[1]):.0f} us",
        middle_ratio(*costs),
    )
