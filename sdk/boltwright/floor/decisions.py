"""Decisions on pieces without a service, the same as /v1/piece-decision gives."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from ..errors import Pointer, class_of
from .piece_request import answer
from .piece_rule import PieceRefusal

_STATUS = 422
Value = int | float | Decimal | None


def decide_pieces(
    station: Mapping[str, Value],
    readings: Iterable[Mapping[str, Value] | tuple[int, Value]],
    state: str | None = None,
) -> dict[str, Any]:
    """Return the body that the service would answer with: decisions, state, sigma_assumed.

    Numbers are decided on as the decimals that they are written as; `amount` is a JSON number.

    Args:
        station: min, max, resolution of the gauge; standard_deviation, target, step where they are known.
        readings: objects with number (from 1) and value (None where there is none), or pairs of both.
        state: of the answer before, as it came; None starts a set-up.

    Raises:
        ProblemError: with the service's `code`: resolution_too_coarse, two_limits_needed, state_not_of_this_station and
            others; nothing was decided then.
    """
    sent = [{"number": one[0], "value": one[1]} if isinstance(one, tuple) else one for one in readings]
    try:
        found = answer(station, sent, state)
    except PieceRefusal as refusal:
        pointer = "".join(f"/{member.replace('~', '~0').replace('/', '~1')}" for member in refusal.path)
        errors = (Pointer(pointer, refusal.code, refusal.detail),)
        kind = class_of(refusal.code, _STATUS)
        raise kind(_STATUS, refusal.code, f"/docs/problems/{refusal.code}", "", refusal.detail, errors) from None
    found["decisions"] = [{**one, "amount": _json_number(one["amount"])} for one in found["decisions"]]
    return found


def _json_number(amount: Decimal | None) -> Any:
    return None if amount is None else json.loads(str(amount))
