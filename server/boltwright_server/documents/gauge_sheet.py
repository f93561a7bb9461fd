"""The gauges of a thread as a sheet for people: limits new and worn, zones, and the basis that each figure leads to."""

from __future__ import annotations

from dataclasses import dataclass

from ..gauges import GaugeSet
from ..threads import ThreadLimits
from .bases import Bases, Source
from .drawings import GaugedThread, gauge_zones
from .names import capital, name_of
from .sheet_blocks import gauge_block, links_of
from .sheet_lines import Block, line_of


@dataclass(frozen=True, slots=True)
class GaugeSheet:
    """Everything that the sheet shows, in its order."""

    designation: str
    gauge_standard: str
    zones: str
    threads: list[Block]
    gauges: list[Block]
    notices: list[str]
    not_covered: list[str]
    bases: list[tuple[Source, list[tuple[str, str]]]]


def gauge_sheet(designation: str, members: list[tuple[ThreadLimits, GaugeSet]]) -> GaugeSheet:
    """Return the sheet of the gauges of a thread, or of both members of a fit."""
    bases = Bases()
    threads, gauges, drawn = [], [], []
    for limits, held in members:
        threads.append(_thread(bases, limits))
        own = [gauge_block(bases, one) for one in held.gauges]
        gauges += own
        links = {f"thread_{place.rpartition('-')[2]}": href for place, href in links_of(threads[-1:]).items()}
        drawn.append(GaugedThread(limits.limits, held, {**links, **links_of(own)}))
    sets = [held for _, held in members]
    return GaugeSheet(
        designation,
        sets[0].gauge_standard,
        gauge_zones(designation, drawn),
        threads,
        gauges,
        list(dict.fromkeys(notice for held in sets for notice in held.notices)),
        [f"{capital(one.id.replace('_', ' '))}: {one.reason}." for held in sets for one in held.not_covered],
        bases.entries(),
    )


def _thread(bases: Bases, limits: ThreadLimits) -> Block:
    place = f"thread-{limits.member}"
    lines = [
        line_of(bases, f"{place}-{id}", name_of(id), one.symbol, one, f"{one.symbol} of the thread")
        for id, one in limits.limits.items()
    ]
    return Block(place, f"{capital(limits.member)} thread, class {limits.tolerance_class}", [], lines)
