"""Random sequences decided with a network, without one, and by the plain rule: all three answer alike."""

from __future__ import annotations

import random
from decimal import Decimal
from typing import Any

from piece_sequences import HIGH, LOW, RESOLUTION, STATIONS, Answer, Plain, Reading, readings_of_a_line

from boltwright.floor import piece_rule as of_the_floor
from boltwright.floor.decisions import decide_pieces
from boltwright_server.stations import piece_rule as of_the_service


def mm(figure: int | None) -> Decimal | None:
    """Return ten-thousandths as mm."""
    return None if figure is None else Decimal(figure).scaleb(-4)


def members(target: int, sigma: int, step: int) -> dict[str, Any]:
    """Return the station of a request."""
    figures = (LOW, HIGH, RESOLUTION, sigma, target, step)
    return dict(zip(of_the_floor.MEMBERS, map(mm, figures), strict=True))


def short(decision: dict[str, Any]) -> Answer:
    """Return a decision as the plain rule gives it."""
    amount = decision["amount"]
    tenths = None if amount is None else int(Decimal(str(amount)).scaleb(4))
    return decision["decision"], decision["pieces"], tenths, decision["repeat"], decision["gap"]


def plain(station: tuple[int, int, int], readings: list[Reading]) -> list[Answer]:
    """Return what the plain rule answers."""
    rule = Plain(*station)
    return [rule.answer(*one) for one in readings]


def in_process(first: int, count: int, most: int = 12) -> int:
    """Decide sequences by both copies and by the plain rule; return how many readings were equal in all three."""
    equal = 0
    for seed in range(first, first + count):
        chance = random.Random(seed)
        station = chance.choice(STATIONS)
        readings = readings_of_a_line(chance, most)
        expected = plain(station, readings)
        decimals = [(number, mm(value)) for number, value in readings]
        states = []
        for rule in (of_the_floor, of_the_service):
            known = rule.station_of(members(*station))
            state: Any = rule.State()
            cut = len(decimals) // 2
            found = rule.decide(known, decimals[:cut], state)  # type: ignore[arg-type]
            state = rule.read(known, rule.written(known, state))  # type: ignore[arg-type]
            found += rule.decide(known, decimals[cut:], state)  # type: ignore[arg-type]
            assert [short(one) for one in found] == expected, f"sequence {seed}"
            states.append(rule.written(known, state))  # type: ignore[arg-type]
        assert states[0] == states[1], f"state of sequence {seed}"
        equal += len(readings)
    return equal


def through_http(post: Any, first: int, count: int) -> int:
    """Decide sequences by `post` and without it, taking turns with each other's states; return how many readings."""
    equal = 0
    for seed in range(first, first + count):
        chance = random.Random(seed)
        station = chance.choice(STATIONS)
        readings = readings_of_a_line(chance, 40)
        given = {name: float(figure) for name, figure in members(*station).items()}
        cut, state, found = chance.randint(0, len(readings) - 1), None, []
        for part in (readings[:cut], readings[cut:]):
            if not part:
                continue
            sent = [{"number": number, "value": None if v is None else v / 10_000} for number, v in part]
            there = post({"station": given, "readings": sent, "state": state})
            here = decide_pieces(given, sent, state)
            assert {name: there[name] for name in here} == here, f"sequence {seed}"
            state = chance.choice((there, here))["state"]
            found += [short(one) for one in here["decisions"]]
        assert found == plain(station, readings), f"sequence {seed}"
        equal += len(readings)
    return equal
