"""Figures as part masters hold them: numbers, text with a decimal comma, a unit beside them or in their cell."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from ...quantities.units import CODES

#: Characters up to which a text is read as a figure.
LONGEST_FIGURE = 40
#: A number with its unit in one cell.
_WITH_UNIT = re.compile(r"([-+0-9.,\s]{1,30}?)\s*([A-Za-z][A-Za-z0-9./]{0,5})")
#: N/mm2 is how Europe writes MPa.
_UNITS = {code.lower(): code for code in CODES} | {
    **{"n/mm2": "MPa", "nm": "N.m", "\u00b5m": "um"},
    **dict.fromkeys(("inch", "inches", "zoll", '"'), "in"),
}


def value_of(given: str) -> float | None:
    """Return the number that a text holds, decimal comma or point; None where it holds none."""
    text = given.strip().replace(" ", "").replace("\u00a0", "")
    if not text or len(text) > LONGEST_FIGURE or not text.isascii() or text[-1] not in "0123456789.":
        return None
    if "," in text:
        text = text.replace(",", ".") if text.count(",") == 1 and "." not in text else text.replace(",", "")
    try:
        value = float(text)
    except ValueError:
        return None
    return value if abs(value) < 1e12 else None


def number_of(given: Any) -> float | None:
    """Return a figure given as a number, as text or as value with unit; None where it is none."""
    value = given.get("value") if isinstance(given, dict) else given
    return value_of(value) if isinstance(value, str) else _number(value)


def unit_of(given: dict[str, Any]) -> str | None:
    """Return the unit that stands beside a value, whatever its type."""
    unit = given.get("unit")
    return None if unit is None else str(unit)


def known_unit(unit: str) -> str:
    """Return a unit by its code, `N/mm²` as MPa; as it stands where it is not known."""
    return _UNITS.get(unit.lower().replace("\u00b2", "2").replace("\u03bc", "\u00b5"), unit)


def split_unit(given: str) -> tuple[str, str] | None:
    """Return number and unit of a text that holds both, `46.4 kN`; None where no known unit ends it."""
    text = given.strip().replace("\u00b2", "2")
    match = _WITH_UNIT.fullmatch(text) if len(given) <= LONGEST_FIGURE else None
    if match is None:
        return None
    unit = _UNITS.get(match[2].lower())
    return None if unit is None else (match[1], unit)


def shown(given: Any) -> str:
    """Return a figure as a finding shows it."""
    return str(given)[:LONGEST_FIGURE]


def _number(value: Any) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
        return None
    number = float(value)
    return number if abs(number) < 1e12 else None
