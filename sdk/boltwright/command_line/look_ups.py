"""`boltwright limits`, `gauges` and `specification`."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Mapping
from typing import Any

from ..look_ups.derivation import Step
from ..look_ups.gauge_sizes import Gauge, GaugeSizes, gauge_sizes
from ..look_ups.specification import specification
from ..look_ups.thread_limits import ThreadLimits, thread_limits
from ..tables import Cell, aligned, limits_of, listed, sections, words
from ..transport import Connection
from ..values import Bounds
from .specification_text import specification_text

Outcome = tuple[Any, str, int]


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add the look-ups to the commands."""
    limits = commands.add_parser("limits", parents=[shared])
    limits.add_argument("designation")
    limits.add_argument("--unit", help="show lengths in this unit, as um or in")
    limits.add_argument("--explain", action="store_true", help="add the steps to every number")
    limits.set_defaults(run=_limits)
    gauges = commands.add_parser("gauges", parents=[shared])
    gauges.add_argument("designation")
    gauges.add_argument(
        "--standard", help="ISO 1502 (default) or ASME B1.16M for metric, ASME B1.2 for Unified threads"
    )
    gauges.set_defaults(run=_gauges)
    wanted = commands.add_parser("specification", parents=[shared])
    wanted.add_argument("designation", help="as 'ISO 4014 - M10x60 - 8.8'")
    wanted.set_defaults(run=_specification)


def _limits(connection: Connection, options: argparse.Namespace) -> Outcome:
    found = thread_limits(connection, options.designation, unit=options.unit, explain=options.explain or None)
    return found, limits_text(found), 0


def _gauges(connection: Connection, options: argparse.Namespace) -> Outcome:
    found = gauge_sizes(connection, options.designation, standard=options.standard)
    return found, gauges_text(found), 0


def _specification(connection: Connection, options: argparse.Namespace) -> Outcome:
    found = specification(connection, options.designation)
    return found, specification_text(found), 0


def limits_text(found: ThreadLimits) -> str:
    """Return the limits of a thread, or of both members of a fit."""
    members = [one for one in (found.external, found.internal) if one is not None] or [found]
    return "\n\n".join(_member_text(one) for one in members)


def _member_text(found: ThreadLimits) -> str:
    pitch = f"{found.threads_per_inch:g} threads per inch" if found.threads_per_inch else f"pitch {found.pitch:g} mm"
    return sections(
        f"{found.designation}   {found.member} thread, {found.system}, {found.series}, {pitch}",
        bounds_table(found.limits),
        ("Lengths of engagement", bounds_table(found.engagement)),
        ("Derivation", steps_text(found.derivation)),
        ("Tensile stress area", bounds_table(found.stress_areas)),
        ("To note", listed(_notes(found.limits))),
    )


def _notes(limits: Mapping[str, Bounds]) -> list[str]:
    """Return what the basis of a limit says beside its source, as that other prints show another figure."""
    return [f"{words(id)}: {one.basis.note}" for id, one in limits.items() if one.basis.note]


def bounds_table(limits: Mapping[str, Bounds]) -> str:
    """Return bounds as a table, one row an id."""
    if not limits:
        return ""
    rows: list[tuple[Cell, ...]] = [("", "", "min", "max", "", "basis")]
    rows += [(words(id), one.symbol, *limits_of(one), str(one.basis)) for id, one in limits.items()]
    return aligned(rows)


def gauges_text(found: GaugeSizes) -> str:
    """Return the gauges with their limits when new and worn."""
    return sections(
        f"{found.designation}   gauges of {found.gauge_standard}",
        *((f"{gauge.name} ({gauge.id})", _gauge_table(gauge)) for gauge in found.gauges),
        ("Not covered", listed(f"{words(one.id)}: {one.reason}" for one in found.not_covered)),
        ("To note", listed(found.notices)),
    )


def _gauge_table(gauge: Gauge) -> str:
    rows: list[tuple[Cell, ...]] = [("", "", "min", "max", "worn at", "", "basis")]
    for id, one in gauge.dimensions.items():
        low, high, unit = limits_of(one.limits)
        rows.append((words(id), one.limits.symbol, low, high, one.exact_wear_limit, unit, str(one.limits.basis)))
    return f"{listed([gauge.application])}\n{aligned(rows)}" if gauge.application else aligned(rows)


def steps_text(steps: Iterable[Step]) -> str:
    """Return the steps, one line each: number, expression, result, what it answers."""
    rows: list[tuple[Cell, ...]] = [(step.step, str(step), step.answers) for step in steps]
    return aligned(rows) if rows else ""
