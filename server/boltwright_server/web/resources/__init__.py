"""One module a resource: its URL, its schemas, its views. `BLUEPRINTS` lists them, one line each."""

from . import (
    capability,
    coating_limits,
    conformance,
    conformance_replay,
    control_chart,
    gauge_sizes,
    mechanical_minimums,
    narrow_limits,
    product_dimensions,
    sampling_plan,
    specification,
    specification_requirements,
    standards,
    thread_limits,
    trend,
    units,
)

BLUEPRINTS = (
    standards.blueprint,
    units.blueprint,
    thread_limits.blueprint,
    gauge_sizes.blueprint,
    coating_limits.blueprint,
    mechanical_minimums.blueprint,
    product_dimensions.blueprint,
    specification.blueprint,
    specification_requirements.blueprint,
    sampling_plan.blueprint,
    capability.blueprint,
    control_chart.blueprint,
    narrow_limits.blueprint,
    trend.blueprint,
    conformance.blueprint,
    conformance_replay.blueprint,
)
