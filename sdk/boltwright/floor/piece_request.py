"""A request for decisions on pieces, checked member by member, and its answer.

Stands twice, in the service and in the SDK, byte for byte, as `piece_rule`; it imports the standard library and that
rule only. Numbers are whole numbers, decimals or, from a program, doubles, which count as the decimals that they are
written as.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any

from .piece_rule import MEMBERS, PieceRefusal, decide, read, reading_of, station_of, written

#: One request is some minutes of a line at most.
MOST_READINGS = 10_000
_LONGEST_STATE = 4000
_LARGEST_NUMBER = 2**53
_READING = ("number", "value")


def answer(station: Any, readings: Any, state: Any = None) -> dict[str, Any]:
    """Return decisions, one a reading, the state after them, and whether the standard deviation was assumed.

    Raises:
        PieceRefusal: a member that is missing, unknown or cannot be; nothing was decided then.
    """
    held = station_of(_members_of_station(station))
    before = read(held, _state(state))
    decisions = decide(held, _readings(readings), before)
    return {"decisions": decisions, "state": written(held, before), "sigma_assumed": held.sigma_assumed}


def _members_of_station(station: Any) -> dict[str, Decimal | None]:
    if station is None:
        raise PieceRefusal("missing_member", ("station",), "station is missing")
    members = _object(station, ("station",), MEMBERS)
    return {name: None if value is None else _number(value, ("station", name)) for name, value in members.items()}


def _object(value: Any, path: tuple[str, ...], known: Iterable[str]) -> Mapping[str, Any]:
    if not isinstance(value, Mapping):
        raise PieceRefusal("wrong_type", path, f"{'/'.join(path)} is an object with {', '.join(known)}")
    for name in value:
        if name not in known:
            text = f"Unknown member {str(name)[:40]}; known: {', '.join(known)}"
            raise PieceRefusal("unknown_member", (*path, str(name)[:60]), text)
    return value


def _state(state: Any) -> str | None:
    if state is not None and not isinstance(state, str):
        raise PieceRefusal("wrong_type", ("state",), "state is the text of the answer before, or null")
    return None if state is None else state[:_LONGEST_STATE]


def _readings(readings: Any) -> list[tuple[int, Decimal | None]]:
    if readings is None:
        raise PieceRefusal("missing_member", ("readings",), "readings is missing")
    if not isinstance(readings, Sequence) or isinstance(readings, str | bytes):
        raise PieceRefusal("wrong_type", ("readings",), "readings is an array of {number, value}")
    if not 1 <= len(readings) <= MOST_READINGS:
        text = f"readings holds 1 to {MOST_READINGS} of them, not {len(readings)}"
        raise PieceRefusal("no_readings", ("readings",), text)
    return [_reading(one, at) for at, one in enumerate(readings)]


def _reading(one: Any, at: int) -> tuple[int, Decimal | None]:
    path = ("readings", str(at))
    members = _object(one, path, _READING)
    for name in _READING:
        if name not in members:
            text = f"{'/'.join(path)}/{name} is missing; a value of null is none"
            raise PieceRefusal("missing_member", (*path, name), text)
    number, value = members["number"], members["value"]
    if isinstance(number, bool) or not isinstance(number, int) or abs(number) > _LARGEST_NUMBER:
        raise PieceRefusal("wrong_type", (*path, "number"), f"{'/'.join(path)}/number is a whole number")
    return reading_of(number, None if value is None else _number(value, (*path, "value")), at)


def _number(value: Any, path: tuple[str, ...]) -> Decimal:
    if isinstance(value, float) and math.isfinite(value):
        return Decimal(repr(value))
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        raise PieceRefusal("wrong_type", path, f"{'/'.join(path)} is a finite number, not text or a flag")
    return Decimal(value)
