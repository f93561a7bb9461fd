"""Drawings of parts and of tolerance zones, to scale from the figures of a specification."""

from .headed_part import LEFT_OUT
from .part import part_drawing
from .thread_zones import thread_drawing, thread_zones

__all__ = ["LEFT_OUT", "part_drawing", "thread_drawing", "thread_zones"]
