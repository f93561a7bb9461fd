"""One module a resource: its URL, its schemas, its views. `BLUEPRINTS` lists them, one line each."""

from . import (
    capability,
    conformance,
    gauge_sizes,
    mechanical_minimums,
    product_dimensions,
    sampling_plan,
    specification,
    standards,
    thread_limits,
    units,
)

BLUEPRINTS = (
    standards.blueprint,
    units.blueprint,
    thread_limits.blueprint,
    gauge_sizes.blueprint,
    mechanical_minimums.blueprint,
    product_dimensions.blueprint,
    specification.blueprint,
    sampling_plan.blueprint,
    capability.blueprint,
    conformance.blueprint,
)
