"""Everything required of one designation: characteristics, gauges, tests, marking, and what is not covered."""

from .characteristic import GROUPS, Characteristic
from .compose import Item, Specification, specification, specification_of
from .nearest import nearest_designations

__all__ = [
    "GROUPS",
    "Characteristic",
    "Item",
    "Specification",
    "nearest_designations",
    "specification",
    "specification_of",
]
