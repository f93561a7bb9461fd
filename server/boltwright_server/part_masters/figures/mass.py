"""A stored mass against the one computed from the geometry: far off is a wrong part, unit or hundred."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from ...designations import ProductDesignation
from ...products import dimensions
from ...quantities import Basis, Refusal
from ...quantities.keeper import remembered
from ...quantities.units import factor
from ..meaning.findings import Finding
from ..meaning.resolution import Resolved, Sized
from .figure_texts import number_of, split_unit, unit_of

_REMEMBERED = 65_536
#: The computed mass is nominal; tolerances, coating and underfill move it by a few percent (common practice).
_PLAUSIBLE = 0.2
_MIX_UPS = {10.0: "kg per 100", 0.1: "kg per 10 000", 0.001: "g per 1000 or kg per 1 000 000", 1000.0: "kg a piece"}


def check_mass(found: Resolved, length: Decimal | None, given: Any, unit: str | None, said: list[Finding]) -> None:
    """Add a finding where a stored mass of 1000 pieces in kg is unreadable or implausible."""
    part, sized = found.part, found.sized
    number = number_of(given)
    if number is None and isinstance(given, str) and (both := split_unit(given)) is not None:
        number, unit = number_of(both[0]), both[1]
    if isinstance(given, dict):
        unit = unit_of(given)
    shown = str(given)[:40]
    if number is None:
        said.append(Finding("value-unreadable", "mass_per_1000", shown, None, f"mass_per_1000: {shown} is no number"))
        return
    if part is None or sized is None:
        said.append(_not_judged(shown, "no product whose geometry is held is certain"))
        return
    nominal = _nominal_mass(sized, length if part.product.has_length else None)
    if nominal is None:
        why = f"the geometry of {part.product.id} is not held, or not at this length"
        said.append(_not_judged(shown, why)._replace(mild=True))
        return
    try:
        mass = number * float(factor(unit or "kg", "kg"))
    except Refusal as refusal:
        said.append(Finding("value-unreadable", "mass_per_1000", shown, "kg", f"mass_per_1000: {refusal.detail}"))
        return
    if not _near(mass, nominal):
        said.append(_far_off(part, length, shown, mass, nominal))


def _not_judged(shown: str, why: str) -> Finding:
    return Finding("figures-not-judged", "mass_per_1000", shown, None, f"mass_per_1000 {shown} is not judged: {why}")


def _far_off(part: ProductDesignation, length: Decimal | None, shown: str, mass: float, nominal: float) -> Finding:
    """A mass that would be right of another count or unit is a mix-up, and the right one is proposed."""
    expected = f"about {nominal:.3g} kg"
    what = f"{part.product.id} {part.size.designation}"
    detail = f"mass_per_1000 {shown}: the geometry of {what} gives {expected}, nominal"
    basis = _basis(part, length)
    for times, name in _MIX_UPS.items():
        if _near(mass * times, nominal):
            told = f"{detail}; it would be right as {name}"
            return Finding("unit-mix-up", "mass_per_1000", shown, expected, told, basis, f"{mass * times:.4g} kg")
    return Finding("mass-implausible", "mass_per_1000", shown, expected, detail, basis)


def _basis(part: ProductDesignation, length: Decimal | None) -> Basis | None:
    found = dimensions(part.product, part.size, length if part.product.has_length else None).mass_per_1000
    return None if found is None else found.basis


def _near(mass: float, nominal: float) -> bool:
    return abs(mass - nominal) <= _PLAUSIBLE * nominal


@remembered(_REMEMBERED)
def _nominal_mass(sized: Sized, length: Decimal | None) -> float | None:
    """The mass of 1000 pieces in kg, or None where the form is not held; no property class changes it."""
    try:
        mass = dimensions(sized.product, sized.size, length).mass_per_1000
    except Refusal:
        return None
    return None if mass is None or mass.nominal is None else float(mass.nominal)
