"""What to do after each piece while a machine runs: set-up, run and confirmation by narrow limits, in exact decimals.

Common practice (narrow-limit rule, one adjustment by four fresh pieces). This module stands twice, in the service and
in the SDK, byte for byte, so that the floor decides alike with and without a network; it imports the standard library
only. A state is opaque to its holder and goes back as it came. Its digest shows an alteration or other limits; it is no
signature, and that it is the latest only its holder can know.
"""

from __future__ import annotations

import json
from base64 import urlsafe_b64decode, urlsafe_b64encode
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Context, Decimal, localcontext
from hashlib import sha256
from typing import Any

#: Pieces in a row in the target zone that approve a set-up, and fresh pieces that confirm a shift.
APPROVING, CONFIRMING = 5, 4
#: Limits closer than this many steps of the gauge cannot be decided on.
LEAST_STEPS = 10
#: A standard deviation that is not known is taken as this part of the tolerance.
_ASSUMED_PART = 8
_MOST_DIGITS, _LARGEST = 40, 30
_EXACT = Context(prec=400)
_SEAL = b"narrow limits, state 1\0"
WORDS = ("continue", "measure_next", "adjust", "stop", "refused")
MEMBERS = ("min", "max", "resolution", "standard_deviation", "target", "step")


class PieceRefusal(Exception):
    """A station, a state or readings that no decision can be made on; `path` names the member."""

    def __init__(self, code: str, path: tuple[str, ...], detail: str) -> None:
        super().__init__(detail)
        self.code = code
        self.path = path
        self.detail = detail


@dataclass(frozen=True, slots=True)
class Station:
    """Limits of a characteristic at a machine with all that the rule needs, in one unit."""

    low: Decimal
    high: Decimal
    target: Decimal
    green_low: Decimal
    green_high: Decimal
    sigma: Decimal
    sigma_assumed: bool
    step: Decimal
    #: The members as given, by their shortest text.
    seal: bytes


@dataclass(slots=True)
class State:
    """Where a station stands. `answer` is what the last piece with a value was answered."""

    phase: str = "set-up"
    greens: int = 0
    yellow: str = ""
    fresh: list[Decimal] = field(default_factory=list)
    number: int = 0
    value: Decimal | None = None
    answer: dict[str, Any] = field(default_factory=dict)


def decide(station: Station, readings: Iterable[tuple[int, Decimal | None]], state: State) -> list[dict[str, Any]]:
    """Return one answer a reading, and move the state on."""
    with localcontext(_EXACT):
        return [_answer(station, number, value, state) for number, value in readings]


def station_of(members: Mapping[str, Decimal | None]) -> Station:
    """Return a station from its members.

    Raises:
        PieceRefusal: `two_limits_needed`, `resolution_too_coarse`, or a member that cannot be.
    """
    for name, number in members.items():
        if number is not None:
            _plain(number, ("station", name))
    low, high = members.get("min"), members.get("max")
    if low is None or high is None:
        at = "min" if low is None else "max"
        raise _refusal("two_limits_needed", at, "narrow limits on pieces need min and max")
    with localcontext(_EXACT):
        return _checked(members, low, high)


def _checked(members: Mapping[str, Decimal | None], low: Decimal, high: Decimal) -> Station:
    if low >= high:
        raise _refusal("contradiction", "min", f"min {low} is not below max {high}")
    resolution = _positive(members, "resolution")
    if resolution is None:
        raise _refusal("missing_member", "resolution", "resolution of the gauge is missing")
    if high - low < LEAST_STEPS * resolution:
        text = f"{high - low} between the limits is less than {LEAST_STEPS} steps of {resolution}: take a finer gauge"
        raise _refusal("resolution_too_coarse", "resolution", text)
    given = _positive(members, "standard_deviation")
    sigma = (high - low) / _ASSUMED_PART if given is None else given
    step = _positive(members, "step") or resolution
    if step > sigma:
        text = f"step {step} exceeds the standard deviation {sigma}: the machine cannot be set finely enough"
        raise _refusal("contradiction", "step", text)
    target = members.get("target")
    if target is None:
        target = (low + high) / 2
    elif not low <= target <= high:
        raise _refusal("out_of_range", "target", f"target {target} lies outside {low} to {high}")
    seal = "|".join("" if (one := members.get(name)) is None else _text(one) for name in MEMBERS)
    green_low, green_high = target - (target - low) / 2, target + (high - target) / 2
    return Station(low, high, target, green_low, green_high, sigma, given is None, step, seal.encode())


def _positive(members: Mapping[str, Decimal | None], name: str) -> Decimal | None:
    number = members.get(name)
    if number is not None and number <= 0:
        raise _refusal("out_of_range", name, f"{name} is above 0, not {number}")
    return number


def _refusal(code: str, member: str, detail: str) -> PieceRefusal:
    return PieceRefusal(code, ("station", member), detail)


def _plain(number: Decimal, path: tuple[str, ...]) -> Decimal:
    """Refuse what exact sums would need too many digits for."""
    if not number.is_finite() or len(number.as_tuple().digits) > _MOST_DIGITS or abs(number.adjusted()) > _LARGEST:
        detail = f"{'/'.join(path)}: a finite number of at most {_MOST_DIGITS} digits"
        raise PieceRefusal("out_of_range", path, detail)
    return number


def reading_of(number: int, value: Decimal | None, at: int) -> tuple[int, Decimal | None]:
    """Return a reading that can be decided on.

    Raises:
        PieceRefusal: a number below 1, or a value of too many digits.
    """
    if number < 1:
        raise PieceRefusal("out_of_range", ("readings", str(at), "number"), f"pieces count from 1, not {number}")
    return number, None if value is None else _plain(value, ("readings", str(at), "value"))


def _answer(station: Station, number: int, value: Decimal | None, state: State) -> dict[str, Any]:
    if number < state.number:
        return _said(number, "refused", f"out of order: piece {state.number} was decided on")
    if number == state.number:
        if value is not None and value == state.value:
            return {**state.answer, "repeat": True}
        return _said(number, "refused", "same number, other value")
    gap = number - state.number - 1
    if value is None:
        return {**_said(number, "measure_next", "no value", 1), "gap": gap}
    answer = {**_said(number, *_next(station, value, state)), "gap": gap}
    state.number, state.value, state.answer = number, value, answer
    return answer


def _said(
    number: int, decision: str, reason: str, pieces: int | None = None, amount: Decimal | None = None
) -> dict[str, Any]:
    return {
        "number": number,
        "decision": decision,
        "pieces": pieces,
        "amount": amount,
        "repeat": False,
        "gap": 0,
        "reason": reason,
    }


Said = tuple[str, str] | tuple[str, str, int] | tuple[str, str, None, Decimal]


def _next(station: Station, value: Decimal, state: State) -> Said:
    if value < station.low or value > station.high:
        _to(state, "set-up")
        return "stop", "outside the limit: keep apart what was made since the last good check"
    side = "low" if value < station.green_low else "high" if value > station.green_high else ""
    if state.phase == "confirm":
        return _confirm(station, value, state)
    return _set_up(side, state) if state.phase == "set-up" else _run(side, state)


def _to(state: State, phase: str) -> None:
    state.phase, state.greens, state.yellow, state.fresh = phase, 0, "", []


def _set_up(side: str, state: State) -> Said:
    if side and state.yellow:
        _to(state, "set-up")
        return "adjust", "two yellow in set-up"
    if side:
        state.greens, state.yellow = 0, side
        return "measure_next", "yellow in set-up, count starts again", APPROVING
    state.greens, state.yellow = state.greens + 1, ""
    if state.greens < APPROVING:
        return "measure_next", f"set-up {state.greens} of {APPROVING}", APPROVING - state.greens
    _to(state, "run")
    return "continue", "set-up approved: five green in a row"


def _run(side: str, state: State) -> Said:
    before, state.yellow = state.yellow, side
    if not side:
        return "continue", "within the target zone"
    if not before:
        return "measure_next", "first yellow", 1
    if before != side:
        _to(state, "set-up")
        return "stop", "two yellow, opposite sides: spread"
    _to(state, "confirm")
    return "measure_next", f"second yellow, same side: measure {CONFIRMING} fresh pieces", CONFIRMING


def _confirm(station: Station, value: Decimal, state: State) -> Said:
    """By fresh pieces only: those that raised the alarm were chosen for being extreme."""
    state.fresh.append(value)
    measured = len(state.fresh)
    if measured < CONFIRMING:
        return "measure_next", f"confirming {measured} of {CONFIRMING}", CONFIRMING - measured
    off = sum(state.fresh, Decimal(0)) / CONFIRMING - station.target
    if abs(off) <= station.sigma:  # 2 sigma / sqrt(4)
        _to(state, "run")
        return "continue", "not confirmed: mean within the dead band"
    _to(state, "set-up")
    return "adjust", "confirmed shift", None, Decimal(_text(-(off // station.step) * station.step))


def _text(number: Decimal) -> str:
    """Write a number by its shortest text without an exponent."""
    text = format(number.normalize(_EXACT), "f")
    return "0" if text == "-0" else text


def written(station: Station, state: State) -> str:
    """Return the state as text."""
    answer = {**state.answer}
    if answer.get("amount") is not None:
        answer["amount"] = _text(answer["amount"])
    value = None if state.value is None else _text(state.value)
    fresh = [_text(one) for one in state.fresh]
    members = [state.phase, state.greens, state.yellow, fresh, state.number, value, answer]
    body = json.dumps(members, separators=(",", ":")).encode()
    return f"{urlsafe_b64encode(body).decode()}.{_digest(station, body)}"


def read(station: Station, text: str | None) -> State:
    """Return the state that a text holds; None is a new set-up.

    Raises:
        PieceRefusal: `state_not_of_this_station`, for a text that was altered or made for other limits.
    """
    if text is None:
        return State()
    coded, _, digest = text.partition(".")
    try:
        body = urlsafe_b64decode(coded.encode("ascii"))
        if digest != _digest(station, body) or urlsafe_b64encode(body).decode() != coded:
            raise ValueError("another digest")
        phase, greens, yellow, fresh, number, value, answer = json.loads(body)
    except ValueError:
        text = "the state was altered, or made for other limits: send the last of this station, or none for a set-up"
        raise PieceRefusal("state_not_of_this_station", ("state",), text) from None
    if answer.get("amount") is not None:
        answer["amount"] = Decimal(answer["amount"])
    values = [Decimal(one) for one in fresh]
    return State(phase, greens, yellow, values, number, None if value is None else Decimal(value), answer)


def _digest(station: Station, body: bytes) -> str:
    return sha256(_SEAL + station.seal + b"\0" + body).hexdigest()[:32]
