"""Drawings of parts and of tolerance zones, to scale from the figures of a specification."""

from .dimension import Links
from .gauge_zones import GaugedThread, gauge_zones
from .headed_part import LEFT_OUT
from .part import part_drawing
from .thread_zones import thread_drawing, thread_zones

__all__ = ["LEFT_OUT", "GaugedThread", "Links", "gauge_zones", "part_drawing", "thread_drawing", "thread_zones"]
