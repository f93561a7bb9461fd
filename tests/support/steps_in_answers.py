"""The steps of a derivation as an answer holds them, decimals kept."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

import msgspec

from boltwright_server.quantities.derivation import Step
from boltwright_server.web.http.derivations import steps_shown


def steps_in_answers(steps: Sequence[Step]) -> list[dict[str, Any]]:
    """Return the members of each step."""
    found: list[dict[str, Any]] = msgspec.to_builtins(steps_shown(steps), builtin_types=(Decimal,))
    return found
