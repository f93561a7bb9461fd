"""The client: one method a resource, of the resource's own name."""

from __future__ import annotations

from .conformance import (
    arrow as conformance_arrow,
)
from .conformance import (
    conformance,
    conformance_replay,
)
from .conformance import (
    drawing as conformance_drawing,
)
from .conformance import (
    stream as conformance_stream,
)
from .look_ups import (
    coating_limits,
    equivalents,
    gauge_sizes,
    gauge_sizes_check,
    hardness_conversion,
    look_alikes,
    mechanical_minimums,
    pairing,
    product_dimensions,
    products,
    sampling_plan,
    sampling_plan_switching,
    size_limits,
    specification,
    standards,
    thread_fit,
    thread_limits,
    threads,
    tolerance_classes,
    units,
)
from .part_masters import part_masters_impact, part_masters_validation
from .stations import piece_decision, set_points, state_limits
from .statistics import capability, control_chart, histogram, narrow_limits, trend
from .transport import Connection


class Client(Connection):
    """Boltwright's service.

        with Client() as client:
            client.thread_limits("M10-6g").limits["pitch_diameter"].max

    A new resource is a module of that name with a function of that name, and one line below. What a resource draws
    stands before it: below its own line the name is the method and no longer the module.
    """

    standards = standards.standards
    units = units.units
    threads_iter = threads.threads_iter
    threads = threads.threads
    tolerance_classes = tolerance_classes.tolerance_classes
    thread_limits = thread_limits.thread_limits
    thread_fit = thread_fit.thread_fit
    gauge_sizes_drawing = gauge_sizes.gauge_sizes_drawing
    gauge_sizes = gauge_sizes.gauge_sizes
    gauge_sizes_check = gauge_sizes_check.gauge_sizes_check
    coating_limits = coating_limits.coating_limits
    mechanical_minimums = mechanical_minimums.mechanical_minimums
    pairing = pairing.pairing
    hardness_conversion = hardness_conversion.hardness_conversion
    products = products.products
    product_dimensions = product_dimensions.product_dimensions
    look_alikes = look_alikes.look_alikes
    equivalents = equivalents.equivalents
    size_limits = size_limits.size_limits
    specification_drawing = specification.specification_drawing
    specification = specification.specification
    sampling_plan = sampling_plan.sampling_plan
    sampling_plan_switching = sampling_plan_switching.sampling_plan_switching
    capability_drawing = capability.capability_drawing
    capability = capability.capability
    histogram_drawing = histogram.histogram_drawing
    histogram = histogram.histogram
    control_chart_drawing = control_chart.control_chart_drawing
    control_chart = control_chart.control_chart
    narrow_limits = narrow_limits.narrow_limits
    trend = trend.trend
    set_points_registers = set_points.set_points_registers
    set_points = set_points.set_points
    state_limits = state_limits.state_limits
    piece_decision = piece_decision.piece_decision
    conformance_arrow = conformance_arrow.conformance_arrow
    conformance_drawing = conformance_drawing.conformance_drawing
    conformance_stream = conformance_stream.conformance_stream
    conformance = conformance.conformance
    conformance_replay = conformance_replay.conformance_replay
    # Before the name of the module means its method.
    part_masters_validation_iter = part_masters_validation.part_masters_validation_iter
    part_masters_validation = part_masters_validation.part_masters_validation
    part_masters_impact = part_masters_impact.part_masters_impact


Client.__init__.__doc__ = Connection.__doc__
