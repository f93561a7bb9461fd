"""Numbers in designations."""

from __future__ import annotations

from decimal import Decimal


def number(token: str) -> Decimal:
    """Return the decimal of a NUMBER token; a comma is a decimal point."""
    return Decimal(str(token).replace(",", "."))
