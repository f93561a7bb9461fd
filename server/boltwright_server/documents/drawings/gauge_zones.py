"""Drawing of the zones of gauges against the tolerance of the thread that they check, to scale.

ISO 1502:1996, ASME B1.2-1983 and ASME B1.16M-1984 show such zones; the layout is our own. One chart for each diameter
of the thread that gauges guard, and one for each ring with the plugs that check or set it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from ...gauges import Gauge, GaugeSet
from ...quantities import Bounds
from ...quantities.rounding import shortest
from ..figures import signed, written
from ..names import capital
from ..svg import document
from .dimension import Links
from .level_chart import Bar, Level, chart
from .pen import LETTER, lettering, width_of

_LEFT, _TOP = 3.0, 7.0
_BETWEEN = 12.0
#: Unit of a zone -> (steps in one of it, what a step is called).
_STEPS = {"um": (Decimal(1), "µm"), "in": (Decimal(10000), "0.0001 in")}
#: Diameter of the thread -> the gauges that guard both its limits.
_GUARDED = {"pitch_diameter": "screw", "major_diameter": "plain", "minor_diameter": "plain"}


@dataclass(frozen=True, slots=True)
class GaugedThread:
    """One member of a thread: the limits of its diameters by id, and its gauges.

    `links` leads the offsets of a gauge (`gauge-<gauge>-<dimension>`) and the limits of the thread
    (`thread_<diameter>`) to an address; without it the drawing stands on its own.
    """

    limits: Mapping[str, Bounds]
    gauges: GaugeSet
    links: Links = field(default_factory=dict)


def gauge_zones(designation: str, threads: list[GaugedThread]) -> str:
    """Return the zones of the gauges of a thread, or of both members of a fit, as SVG."""
    parts, below, width = [], _TOP, 0.0
    for thread in threads:
        for title, bars in _charts(thread):
            drawn, below, right = chart(bars, _LEFT, below + 2 * LETTER)
            parts += [lettering(title, (_LEFT, below - drawn.height - 2 * LETTER)), *drawn.parts]
            below, width = below + _BETWEEN, max(width, right, _LEFT + width_of(title))
    return document(
        "gauges",
        width + _LEFT,
        below - _BETWEEN + _LEFT,
        f"{designation}: zones of the gauges, {threads[0].gauges.gauge_standard}",
        "The tolerance of the thread as a band, the limits of each new gauge as a shaded bar against the limit that it "
        "guards, and open below or above it what wear may still take, to the wear limit.",
        *parts,
    )


def _charts(thread: GaugedThread) -> Iterator[tuple[str, list[Bar]]]:
    """Yield title and bars: the thread and its gauges, then each ring and its plugs."""
    gauges, links = thread.gauges.gauges, thread.links
    for diameter, kind in _GUARDED.items():
        guards = [one for one in gauges if one.member != "gauge" and kind in one.id and _is_guarded(one, diameter)]
        if len(guards) > 1:
            product = _product(diameter, thread.limits[diameter], guards[0], links)
            yield _title(diameter, guards[0]), [product, *(_bar(one, diameter, links) for one in guards)]
    for ring in gauges:
        plugs = [one for one in gauges if one.member == "gauge" and one.id.endswith(f"_for_{ring.id}")]
        if plugs:
            own = _bar(ring, "pitch_diameter", links)
            title = f"{capital(_name(ring))} and its plugs: {_offsets(ring, 'pitch_diameter')}"
            yield title, [own, *(_bar(one, "pitch_diameter", links) for one in plugs)]


def _is_guarded(gauge: Gauge, diameter: str) -> bool:
    return diameter in gauge.dimensions and gauge.dimensions[diameter].zone is not None


def _offsets(gauge: Gauge, diameter: str) -> str:
    zone = gauge.dimensions[diameter].zone
    assert zone is not None
    return f"from {zone.product_limit}, in {_STEPS[zone.unit][1]}"


def _title(diameter: str, gauge: Gauge) -> str:
    zone = gauge.dimensions[diameter].zone
    assert zone is not None
    return f"{capital(diameter.replace('_', ' '))}: each gauge from its limit, in {_STEPS[zone.unit][1]}"


def _product(diameter: str, limits: Bounds, gauge: Gauge, links: Links) -> Bar:
    """The tolerance of the thread, in the steps of the gauges; it is the band behind the others."""
    assert limits.min is not None
    assert limits.max is not None
    unit = gauge.dimensions[diameter].unit
    low, high = (_absolute(side, unit) for side in (limits.min, limits.max))
    href = links.get(f"thread_{diameter}")
    levels = [Level(high, f"max {written(limits.max)}", href), Level(low, f"min {written(limits.min)}", href)]
    return Bar(f"thread {limits.symbol}", low, high, None, levels, is_band=True)


def _absolute(size: Decimal, unit: str) -> Decimal:
    """Return a size in steps of the drawing: µm, or 0.0001 in."""
    return size * (1000 if unit == "mm" else 10000)


def _bar(gauge: Gauge, diameter: str, links: Links) -> Bar:
    dimension = gauge.dimensions[diameter]
    zone = dimension.zone
    assert zone is not None
    base, (steps, _) = _absolute(zone.at, dimension.unit), _STEPS[zone.unit]
    low, high = zone.low * steps, zone.high * steps
    href = links.get(f"gauge-{gauge.id}-{diameter}")
    wear = None if zone.wear is None else zone.wear * steps
    levels = [Level(base + side, signed(shortest(side)), href) for side in (high, low) if side != wear]
    if wear is not None:
        levels.append(Level(base + wear, f"worn {signed(shortest(wear))}", href))
    return Bar(_name(gauge), base + low, base + high, None if wear is None else base + wear, levels)


def _name(gauge: Gauge) -> str:
    """Return a name short enough for a heading: GO ring, NOT GO snap, wear check."""
    words = gauge.id.partition("_for_")[0].split("_")
    said = {"screw", "plain"} | ({"plug"} if gauge.member == "gauge" else set())
    return " ".join(word.upper() if word in ("go", "not") else word for word in words if word not in said)
