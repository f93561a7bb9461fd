"""Worked cases of stations as data, numbers as the decimals that are written."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

from tree import ROOT


def worked(name: str) -> dict[str, Any]:
    """Return a file of tests/worked_cases."""
    text = (ROOT / "tests" / "worked_cases" / f"{name}.json").read_text(encoding="utf-8")
    found: dict[str, Any] = json.loads(text, parse_float=Decimal)
    return found
