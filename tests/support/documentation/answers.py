"""JSON answers as documentation shows them: shortened, digits kept."""

from __future__ import annotations

import json
import math
from decimal import Decimal
from typing import Any

ANYTHING, WHOLE = "…", "?"
_WIDTH = 100
_MOST_PRINTED = 12


def parse(text: str) -> Any:
    """Return JSON with every number as the decimal that was written."""
    return json.loads(text, parse_float=Decimal, parse_int=Decimal)


def difference(shown: Any, answer: Any, path: str = "") -> str | None:
    """Return the first place where what is shown is not in the answer, or None."""
    if shown == ANYTHING:
        return None
    if isinstance(shown, dict) and isinstance(answer, dict):
        return _difference_of_objects(shown, answer, path)
    if isinstance(shown, list) and isinstance(answer, list):
        return _difference_of_lists(shown, answer, path)
    if type(shown) is type(answer) and (str(shown) == str(answer) or _same_statistic(shown, answer)):
        return None
    return f"{path or '/'}: shown {pretty(shown)}, answered {pretty(answer)}"


def _same_statistic(shown: Any, answer: Any) -> bool:
    """Say whether both are statistics (more digits than any standard prints) that differ by the last bits only."""
    if not isinstance(shown, Decimal) or not isinstance(answer, Decimal):
        return False
    digits = min(len(one.as_tuple().digits) for one in (shown, answer))
    return digits > _MOST_PRINTED and math.isclose(shown, answer, rel_tol=1e-9)


def _difference_of_objects(shown: dict[str, Any], answer: dict[str, Any], path: str) -> str | None:
    for name, value in shown.items():
        if name not in answer:
            return f"{path}/{name}: shown, but not in the answer"
        if found := difference(value, answer[name], f"{path}/{name}"):
            return found
    return None


def _difference_of_lists(shown: list[Any], answer: list[Any], path: str) -> str | None:
    wanted = shown[:-1] if shown[-1:] == [ANYTHING] else shown
    if len(answer) < len(wanted) or (wanted is shown and len(answer) != len(shown)):
        return f"{path}: {len(wanted)} elements shown, {len(answer)} answered"
    places = (
        difference(one, other, f"{path}/{at}") for at, (one, other) in enumerate(zip(wanted, answer, strict=False))
    )
    return next(filter(None, places), None)


def projected(shown: Any, answer: Any) -> Any:
    """Return the answer cut to the shape that is shown."""
    if shown == ANYTHING:
        return ANYTHING
    if isinstance(shown, dict) and isinstance(answer, dict):
        return {name: projected(value, answer[name]) for name, value in shown.items() if name in answer}
    if isinstance(shown, list) and isinstance(answer, list) and shown[-1:] == [ANYTHING]:
        return [*(projected(one, other) for one, other in zip(shown[:-1], answer, strict=False)), ANYTHING]
    if isinstance(shown, list) and isinstance(answer, list) and len(shown) == len(answer):
        return [projected(one, other) for one, other in zip(shown, answer, strict=True)]
    return answer


def pretty(value: Any, indent: int = 0, before: int = 0) -> str:
    """Return JSON on one line where it fits, else one member a line. `before` counts what stands left of it."""
    flat = _flat(value)
    if len(flat) + indent + before <= _WIDTH or not isinstance(value, dict | list) or not value:
        return flat
    inner = indent + 2
    if isinstance(value, dict):
        lines = [f"{_flat(name)}: {pretty(one, inner, len(name) + 4)}" for name, one in value.items()]
    else:
        lines = [pretty(one, inner) for one in value]
    left, right = "{}" if isinstance(value, dict) else "[]"
    body = ",\n".join(" " * inner + line for line in lines)
    return f"{left}\n{body}\n{' ' * indent}{right}"


def _flat(value: Any) -> str:
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_flat(name)}: {_flat(one)}" for name, one in value.items()) + "}"
    if isinstance(value, list):
        return f"[{', '.join(_flat(one) for one in value)}]"
    return json.dumps(value, ensure_ascii=False)
