"""Bars of the deviations of diameters from their basic sizes, upper above lower, against the line of deviation 0."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ...quantities import Bounds
from ...threads import ThreadSize
from ...threads.geometry import minor_diameter
from ..figures import signed, written
from ..svg import element, path
from ..symbols import Symbol
from .dimension import Label, Links
from .pen import LETTER, lettering, thin

#: The one accent colour of the pages; on its own, the drawing brings a blue that both grounds bear.
ACCENT = "var(--accent, #2f7fc1)"
SHADE = 0.3
#: Unit of the limits -> (deviations in one of it, what one deviation is called).
_STEPS = {"mm": (Decimal(1000), "µm"), "in": (Decimal(10000), "0.0001 in")}
_HEIGHT, _BAR, _PITCH = 34.0, 17.0, 33.0
_FIRST = 9.0


@dataclass(frozen=True, slots=True)
class Zone:
    """Deviations of one diameter from its basic size; None is an open side."""

    id: str
    symbol: str
    basic: Decimal
    lower: Decimal | None
    upper: Decimal | None
    href: str | None

    @classmethod
    def of(cls, id: str, bounds: Bounds, size: ThreadSize, links: Links) -> Zone:
        """Return the zone of limits. A minor diameter printed without its basic size gets it from the profile."""
        known = next(side for side in (bounds.max, bounds.min) if side is not None)
        basic = bounds.nominal
        if basic is None:
            basic = minor_diameter(size.d, size.pitch)
        basic = basic.quantize(known)
        steps, _ = _STEPS[bounds.unit]
        lower, upper = (
            None if side is None else ((side - basic) * steps).to_integral_value() for side in (bounds.min, bounds.max)
        )
        return cls(id, bounds.symbol, basic, lower, upper, links.get(id))


def chart(zones: list[Zone], unit: str, left: float, top: float, right: float) -> tuple[list[str], float]:
    """Return the bars and their lower end."""
    edges = [side for one in zones for side in (one.lower, one.upper) if side is not None]
    high, low = max([*edges, Decimal(0)]), min([*edges, Decimal(0)])
    scale = _HEIGHT / float(high - low)
    zero, bottom = top + scale * float(high), top + _HEIGHT
    name = _STEPS[unit][1]
    parts = [
        lettering(f"deviations from the basic size, in {name}", (left, top - 6.5)),
        thin([(left, zero), (right, zero)]),
        lettering("0", (left, zero - 1.0)),
    ]
    for place, one in enumerate(zones):
        upper = top if one.upper is None else zero - scale * float(one.upper)
        lower = bottom if one.lower is None else zero - scale * float(one.lower)
        parts.append(_bar(one, left + _FIRST + place * _PITCH, upper, lower))
    return parts, bottom


def _bar(zone: Zone, left: float, upper: float, lower: float) -> str:
    right = left + _BAR
    box = [(left, upper), (right, upper), (right, lower), (left, lower)]
    ends = [
        thin([(left, at), (right, at)]) for at, side in ((upper, zone.upper), (lower, zone.lower)) if side is not None
    ]
    return element(
        "g",
        element("path", d=path(box, close=True), fill=ACCENT, fill_opacity=SHADE),
        *ends,
        thin([box[0], box[3]]),
        thin([box[1], box[2]]),
        *_inside(zone, left, (upper + lower) / 2),
        *_deviations(zone, right + 1.2, upper, lower),
        data_figure=zone.id,
        class_="zone",
    )


def _inside(zone: Zone, left: float, middle: float) -> list[str]:
    """The symbol and the width of the zone, which is the tolerance."""
    name = Label(zone.id, Symbol.of(zone.symbol), ())
    closed = zone.upper is not None and zone.lower is not None
    width = written(zone.upper - zone.lower) if zone.upper is not None and zone.lower is not None else "open"
    return [
        name.drawn(left + (_BAR - name.width) / 2, middle - 2.5),
        _linked(zone, lettering(width, (left + _BAR / 2, middle + 3.0), "middle"), closed),
    ]


def _deviations(zone: Zone, x: float, upper: float, lower: float) -> list[str]:
    """Both within the height of the bar, so that the line of deviation 0 crosses neither."""
    places = ((zone.upper, upper + LETTER * 0.8), (zone.lower, lower - 0.4))
    return [_linked(zone, lettering(signed(value), (x, base))) for value, base in places if value is not None]


def _linked(zone: Zone, text: str, is_figure: bool = True) -> str:
    return element("a", text, href=zone.href, tabindex="-1") if zone.href and is_figure else text
