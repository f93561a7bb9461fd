"""Charts of a process: values against control limits, and against the limits of the product."""

from .capability import capability_remarks
from .control_chart import control_chart_drawing
from .histogram import Picture, histogram_drawing

__all__ = ["Picture", "capability_remarks", "control_chart_drawing", "histogram_drawing"]
