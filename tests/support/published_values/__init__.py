"""Compares what is printed elsewhere with what the engines answer.

`tests/published/<standard folder>/about.toml` says where each CSV is printed and which question its rows ask; a
question is a small function of `questions/`, found by its name. A new file of a known question needs no code.
"""

from .check import Check, load_checks
from .comparison import Differs, Rounded, Within, mismatches
from .questions import QUESTIONS

__all__ = ["QUESTIONS", "Check", "Differs", "Rounded", "Within", "load_checks", "mismatches"]
