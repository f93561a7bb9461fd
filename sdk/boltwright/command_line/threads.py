"""`boltwright fit` and `boltwright coating`."""

from __future__ import annotations

import argparse
from typing import Any

from ..look_ups.coating_limits import CoatingLimits, CoatingState, coating_limits
from ..look_ups.thread_fit import ThreadFit, thread_fit
from ..tables import listed, sections, words
from ..transport import Connection
from .look_ups import bounds_table

Outcome = tuple[Any, str, int]


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add the commands."""
    fit = commands.add_parser("fit", parents=[shared])
    fit.add_argument("external")
    fit.add_argument("internal")
    fit.add_argument("--unit", help="show lengths in this unit, as um or in")
    fit.set_defaults(run=_fit)
    coating = commands.add_parser("coating", parents=[shared])
    coating.add_argument("designation", help="a thread, or a product with its coating")
    coating.add_argument("--coating", help="as tZn, Fe/Zn8, A3L or flZn-480h")
    coating.add_argument("--length", help="nominal length in mm")
    coating.add_argument("--property-class", help="for loads and hydrogen embrittlement")
    coating.set_defaults(run=_coating)


def _fit(connection: Connection, options: argparse.Namespace) -> Outcome:
    found = thread_fit(connection, options.external, options.internal, unit=options.unit)
    return found, fit_text(found), 0


def _coating(connection: Connection, options: argparse.Namespace) -> Outcome:
    found = coating_limits(
        connection,
        options.designation,
        coating=options.coating,
        length=options.length,
        property_class=options.property_class,
    )
    return found, coating_text(found), 0


def fit_text(found: ThreadFit) -> str:
    """Return the clearances and the overlap."""
    overlap = {"overlap of the flanks": found.overlap, "share of 5/8 H": found.overlap_ratio}
    return sections(
        f"{found.designation}   clearances on the diameter, {found.system}",
        bounds_table(found.clearances),
        ("Overlap", bounds_table(overlap)),
        ("To note", listed(found.notices)),
    )


def coating_text(found: CoatingLimits) -> str:
    """Return room, states, pairs and cautions."""
    named = "" if found.coating is None else f", {found.coating.designation} ({found.coating.process})"
    return sections(
        f"{found.designation}   {found.tolerance_class}{named}",
        ("Greatest nominal thickness", bounds_table(found.largest_nominal_thickness)),
        ("Greatest thickness by the rule", bounds_table(found.largest_thickness)),
        ("Fit", "" if found.fit is None else listed([found.fit.detail])),
        *((words(state.state).capitalize(), _state(state)) for state in found.states),
        ("Pairs", listed(f"{one.external} with {one.internal}: {one.reason}" for one in found.pairings)),
        ("Cautions", listed(found.cautions)),
        ("To note", listed(found.notices)),
    )


def _state(state: CoatingState) -> str:
    gauges = f"GO {state.go_gauge or 'none held'}, NOT GO {state.not_go_gauge or 'none held'}. {state.remark}"
    return "\n".join(filter(None, (listed([gauges]), bounds_table(state.limits))))
