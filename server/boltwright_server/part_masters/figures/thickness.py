"""A thickness that stands beside the name of a coating: the thread has to have the room for it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from ...quantities import Refusal
from ...quantities.units import factor
from ..meaning.cautions import thick
from ..meaning.findings import Finding
from ..meaning.mating import outlines_of
from ..meaning.requirement import Requirement
from .figure_texts import known_unit, number_of, shown, split_unit, unit_of

THICKNESS = "coating_thickness"
_UNIT = "um"


def check_thickness(found: Requirement, given: Any, unit: str | None, said: list[Finding]) -> None:
    """Add a finding where a thickness in um is unreadable, or the thread has no room for it, or that is not known."""
    coating = found.reading.coating
    assert coating is not None
    if isinstance(given, dict):
        unit = unit_of(given)
    number = number_of(given)
    if number is None and isinstance(given, str) and (both := split_unit(given)) is not None:
        number, unit = number_of(both[0]), both[1]
    try:
        step = factor(known_unit(unit or _UNIT), _UNIT)
    except Refusal as refusal:
        said.append(Finding("value-unreadable", THICKNESS, shown(given), _UNIT, f"{THICKNESS}: {refusal.detail}"))
        return
    if number is None:
        said.append(
            Finding("value-unreadable", THICKNESS, shown(given), None, f"{THICKNESS}: {shown(given)} is no number")
        )
        return
    thickness = Decimal(repr(number)) * step.numerator / step.denominator
    said.extend(thick(outlines_of(found), coating, thickness.normalize()))
