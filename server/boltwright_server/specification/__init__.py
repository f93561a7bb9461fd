"""Everything required of one designation: characteristics, gauges, tests, marking, and what is not covered."""

from .characteristic import GROUPS, Characteristic
from .compose import Item, Specification, specification, specification_of

__all__ = ["GROUPS", "Characteristic", "Item", "Specification", "specification", "specification_of"]
