"""Which standard answers for a property class."""

from __future__ import annotations

from difflib import get_close_matches

from ..quantities import Contradiction, UnknownName
from ..threads import MetricSize
from . import iso_898_1, iso_898_2
from .answer import MechanicalMinimums

_REDUCED = tuple(f"0{name}" for name in ("4.8", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"))


def find_class(property_class: str, member: str | None = None) -> str:
    """Return the member that a property class belongs to: bolts have `8.8`, nuts `8`.

    Raises:
        UnknownName: neither ISO 898-1 nor ISO 898-2 has the class; carries the nearest.
        Contradiction: the class is of the other member.
    """
    member_of = {
        **dict.fromkeys((*iso_898_1.CLASSES, *_REDUCED), "external"),
        **dict.fromkeys(iso_898_2.CLASSES, "internal"),
    }
    if property_class not in member_of:
        fitting = [name for name, owner in member_of.items() if member in (None, owner) and name not in _REDUCED]
        raise UnknownName(
            f"no property class {property_class!r}: bolts of ISO 898-1 have {', '.join(iso_898_1.CLASSES)}, "
            f"nuts of ISO 898-2 have {', '.join(iso_898_2.CLASSES)}",
            member="property_class",
            code="unknown_property_class",
            nearest=get_close_matches(property_class[:20], fitting, n=3, cutoff=0.3),
        )
    found = member_of[property_class]
    if member is not None and member != found:
        owner = "bolts (ISO 898-1)" if found == "external" else "nuts (ISO 898-2)"
        raise Contradiction(f"class {property_class} is a class of {owner}", member="member")
    return found


def mechanical_minimums(
    size: MetricSize, property_class: str, member: str | None = None, style: int | None = None
) -> MechanicalMinimums:
    """Return the mechanical properties of a thread in a property class.

    Raises:
        UnknownName, Contradiction: as `find_class`.
        NotStandardised, NotCovered: as the standard's engine.
    """
    if find_class(property_class, member) == "external":
        return iso_898_1.bolt_minimums(size, property_class)
    return iso_898_2.nut_minimums(size, property_class, style)
