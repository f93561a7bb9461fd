"""Mechanical properties of bolts and nuts: strengths, hardness windows, loads, and the tests that show them."""

from .answer import Mark, MechanicalMinimums, PartShape, Setting, Steel, Test
from .catalogue import mechanical_minimums
from .grade import Grade
from .names import find_grade, grades, held_grade

__all__ = [
    "Grade",
    "Mark",
    "MechanicalMinimums",
    "PartShape",
    "Setting",
    "Steel",
    "Test",
    "find_grade",
    "grades",
    "held_grade",
    "mechanical_minimums",
]
