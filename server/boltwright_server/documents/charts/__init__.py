"""Charts of a process: values against control limits, and against the limits of the product."""

from .control_chart import control_chart_drawing
from .histogram import Picture, histogram_drawing

__all__ = ["Picture", "control_chart_drawing", "histogram_drawing"]
