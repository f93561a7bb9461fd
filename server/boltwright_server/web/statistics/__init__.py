"""The running process: capability, charts, narrow limits, trend."""

from . import capability, control_chart, histogram, narrow_limits, trend

#: One line a resource.
BLUEPRINTS = (
    capability.blueprint,
    control_chart.blueprint,
    histogram.blueprint,
    narrow_limits.blueprint,
    trend.blueprint,
)
