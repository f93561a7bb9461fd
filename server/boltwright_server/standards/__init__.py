"""The facts: one folder a standard and edition, one CSV a printed table. No formulas here."""

from . import editions
from .loader import BadFacts
from .other_sources import other_source
from .registry import REGISTRY, all_standards, current, rules, standard
from .table import Row, Standard, Table

__all__ = [
    "REGISTRY",
    "BadFacts",
    "Row",
    "Standard",
    "Table",
    "all_standards",
    "current",
    "editions",
    "other_source",
    "rules",
    "standard",
]
