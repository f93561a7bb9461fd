"""The running process: capability, control charts, narrow limits, trends.

Set-points of the stations belong here too.
"""

from .capability import DISTRIBUTIONS, Capability, Distribution, capability
from .control_chart import CHARTS, ControlChart, Given, control_chart
from .goodness_of_fit import Fit
from .histogram import Histogram, histogram
from .indices import Index
from .run_rules import RULE_SETS, RULES, Chart, Signal

__all__ = [
    "CHARTS",
    "DISTRIBUTIONS",
    "RULES",
    "RULE_SETS",
    "Capability",
    "Chart",
    "ControlChart",
    "Distribution",
    "Fit",
    "Given",
    "Histogram",
    "Index",
    "Signal",
    "capability",
    "control_chart",
    "histogram",
]
