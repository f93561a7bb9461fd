"""Drawings of parts and of tolerance zones, to scale from the figures of a specification."""

from .part import part_drawing
from .thread_zones import thread_drawing, thread_zones

__all__ = ["part_drawing", "thread_drawing", "thread_zones"]
