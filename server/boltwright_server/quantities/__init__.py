"""Value types that know no standard: exact decimals, bounds, rounding, units, basis, refusals."""

from .basis import CHECKED_WORDS, DOUBTS, STATED, Basis, cited, practice, stated_by_purchaser, unpublished, weakest
from .bounds import Bounds
from .near_names import near_names
from .refusals import (
    Contradiction,
    NotCovered,
    NotStandardised,
    NotUnderstood,
    OutsideScope,
    Refusal,
    UnknownName,
    asked_as,
    at_position,
    member_path,
)

__all__ = [
    "CHECKED_WORDS",
    "DOUBTS",
    "STATED",
    "Basis",
    "Bounds",
    "Contradiction",
    "NotCovered",
    "NotStandardised",
    "NotUnderstood",
    "OutsideScope",
    "Refusal",
    "UnknownName",
    "asked_as",
    "at_position",
    "cited",
    "member_path",
    "near_names",
    "practice",
    "stated_by_purchaser",
    "unpublished",
    "weakest",
]
