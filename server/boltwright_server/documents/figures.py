"""How a figure is written for people: grouped by threes, true minus sign, the digits of its standard kept."""

from __future__ import annotations

from decimal import Decimal

MINUS = "\u2212"
#: A narrow no-break space: ISO 80000-1, 7.3.1 groups digits by threes and allows neither comma nor point for it.
GROUP = "\u202f"
_LONGEST_UNGROUPED = 4
#: Unit code -> what people write.
_UNITS = {
    "um": "µm",
    "mm2": "mm²",
    "in2": "in²",
    "mm3": "mm³",
    "in3": "in³",
    "Cel": "°C",
    "deg": "°",
    "N.m": "N·m",
    "1": "",
}


def written(value: Decimal) -> str:
    """Return a figure for a page: 46400 as 46 400, -12.5 with a minus sign."""
    whole, point, fraction = f"{abs(value):f}".partition(".")
    if len(whole) > _LONGEST_UNGROUPED:
        whole = f"{int(whole):,}".replace(",", GROUP)
    return f"{MINUS if value < 0 else ''}{whole}{point}{fraction}"


def signed(value: Decimal) -> str:
    """Return a deviation: always with its sign, but 0 without one."""
    return f"{'+' if value > 0 else ''}{written(value)}"


def unit_written(code: str | None) -> str:
    """Return a unit as people write it."""
    return "" if code is None else _UNITS.get(code, code)
