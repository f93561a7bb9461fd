"""`boltwright gauge`: is a measured gauge fit for use, worn, or out of its limits."""

from __future__ import annotations

import argparse
from typing import Any

from ..look_ups.gauge_sizes_check import GaugeCondition, MeasuredGauge, gauge_sizes_check
from ..tables import Cell, aligned, limits_of, listed, sections, words
from ..transport import Connection

EXIT_CODES = {"fit_for_use": 0, "worn": 1, "out_of_new_limits": 1}


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add `gauge` to the commands."""
    gauge = commands.add_parser(
        "gauge",
        parents=[shared],
        epilog="Exit code: 0 fit for use, 1 worn or out of its limits, 3 error.",
    )
    gauge.add_argument("designation", help="the thread that it checks, as M10-6g")
    gauge.add_argument("gauge", help="its id as `boltwright gauges` lists it, as go_screw_ring")
    gauge.add_argument("measured", type=float, help="the measured size")
    gauge.add_argument("--unit", default="mm", help="of the measured size, mm (default), um or in")
    gauge.add_argument("--dimension", default="pitch_diameter", help="default: %(default)s")
    gauge.add_argument("--standard", help="the gauge standard; the default follows the thread")
    gauge.set_defaults(run=_gauge)


def _gauge(connection: Connection, options: argparse.Namespace) -> tuple[Any, str, int]:
    measured = MeasuredGauge(
        designation=options.designation,
        gauge=options.gauge,
        value=options.measured,
        unit=options.unit,
        dimension=options.dimension,
        standard=options.standard,
    )
    found = gauge_sizes_check(connection, [measured])
    one = found.gauges[0]
    return found, condition_text(one), EXIT_CODES[one.status]


def condition_text(found: GaugeCondition) -> str:
    """Return what the measured size means, beside the limits."""
    low, high, unit = limits_of(found.limits.limits)
    rows: list[tuple[Cell, ...]] = [("", "measured", "min", "max", "worn at", "remaining wear", "")]
    rows.append(
        (
            words(found.dimension),
            f"{found.measured:g}",
            low,
            high,
            found.limits.exact_wear_limit,
            "" if found.remaining_wear is None else f"{found.remaining_wear:g}",
            unit,
        )
    )
    return sections(
        f"{found.designation}   {words(found.gauge)} of {found.gauge_standard}: {words(found.status).upper()}",
        aligned(rows),
        ("Reasons", listed(found.reasons)),
        ("To note", listed(found.notices)),
    )
