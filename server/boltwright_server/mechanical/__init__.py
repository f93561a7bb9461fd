"""Mechanical properties of bolts and nuts: strengths, hardness windows, loads, and the tests that show them."""

from .answer import MechanicalMinimums, Test
from .catalogue import find_class, mechanical_minimums

__all__ = ["MechanicalMinimums", "Test", "find_class", "mechanical_minimums"]
