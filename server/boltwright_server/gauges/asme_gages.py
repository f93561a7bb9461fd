"""Thread gages whose size is the product limit and whose tolerance lies inside the product tolerance.

ASME B1.2-1983 (Unified inch) and ASME B1.16M-1984 (metric M) share these directions; they differ in their tolerances
and in how a NOT GO profile is truncated. There is no allowance for wear: a GO gage serves until it passes the product
limit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, Bounds, weakest
from ..standards import Row
from .gauge import Gauge, GaugeDimension

TURNS = 3
GO = "Passes freely over the full length of the thread."
NOT_GO = (
    "May enter by at most three complete turns on an external or internal thread; "
    "some purchasers and makers agree on fewer."
)
TRAP = (
    "A part can pass a gage and measure outside its limits: a NOT GO gage may enter by three turns, and a gage feels "
    "more than the pitch diameter. Report gaging and measurement as two results."
)
WEAR = (
    "There is no allowance for wear: a GO gage may be used until its pitch diameter reaches the product limit. "
    "A worn NOT GO gage refuses good parts; it accepts no bad ones."
)


@dataclass(frozen=True, slots=True)
class ClassX:
    """Tolerances of class X gages for one thread, in the unit of its standard, with the row that holds them.

    `crest` and `pitch` are the columns of the crest and pitch diameter; `places` the decimals of a gage size.
    """

    row: Row
    crest: str
    pitch: str
    unit: str
    places: Decimal

    def basis(self, clause: str, rule: str, product: Bounds, column: str, note: str | None = None) -> Basis:
        """Return the basis of a size: the rule, the product limit and the tolerance, the weakest of the three."""
        owner = self.row.table.standard
        checked = weakest(rule, product.basis.checked, self.row.checked(column))
        return owner.basis(f"{clause}; {self.row.table.printed_as}", checked, note=note)

    def sized(self, symbol: str, size: Decimal, sign: int, column: str, basis: Basis) -> GaugeDimension:
        """Return the limits from a size to that size plus (1) or minus (-1) the tolerance."""
        basic = size.quantize(self.places)
        other = basic + sign * self.row.number(column)
        return GaugeDimension(symbol, min(basic, other), max(basic, other), self.unit, basis)


@dataclass(frozen=True, slots=True)
class Truncation:
    """By how much a NOT GO profile is cut, on the diameter: plug above, ring below its pitch diameter."""

    plug: Decimal
    ring: Decimal
    rule: str
    note: str | None = None


_CLAUSE = "rules for the size of each gage"


def external_gages(x: ClassX, product: Mapping[str, Bounds], cut: Truncation) -> list[Gauge]:
    """Return the GO and NOT GO (LO) ring for an external thread."""
    pitch = product["pitch_diameter"]
    return [
        Gauge(
            "go_screw_ring",
            "GO thread ring gage",
            "external",
            "the pitch diameter with its form deviations, and the minor diameter, at maximum material",
            GO,
            {
                "pitch_diameter": _pitch(x, pitch, "max", "d2", -1, go=True),
                "minor_diameter": _crest(x, product["minor_diameter"], "max", "d1", -1),
                **_deviations(x),
            },
            wears="larger",
        ),
        Gauge(
            "not_go_screw_ring",
            "NOT GO (LO) thread ring gage",
            "external",
            "the pitch diameter at minimum material",
            NOT_GO,
            {
                "pitch_diameter": _pitch(x, pitch, "min", "d2", 1, go=False),
                "minor_diameter": _cut(x, pitch, _size(pitch, "min") - cut.ring, "d1", 1, cut),
                **_deviations(x),
            },
            TURNS,
            "larger",
        ),
    ]


def internal_gages(x: ClassX, product: Mapping[str, Bounds], cut: Truncation) -> list[Gauge]:
    """Return the GO and NOT GO (HI) plug for an internal thread."""
    pitch = product["pitch_diameter"]
    return [
        Gauge(
            "go_screw_plug",
            "GO thread plug gage",
            "internal",
            "the pitch diameter with its form deviations, and the major diameter, at maximum material",
            GO,
            {
                "major_diameter": _crest(x, product["major_diameter"], "min", "D", 1),
                "pitch_diameter": _pitch(x, pitch, "min", "D2", 1, go=True),
                **_deviations(x),
            },
        ),
        Gauge(
            "not_go_screw_plug",
            "NOT GO (HI) thread plug gage",
            "internal",
            "the pitch diameter at minimum material",
            NOT_GO,
            {
                "major_diameter": _cut(x, pitch, _size(pitch, "max") + cut.plug, "D", -1, cut),
                "pitch_diameter": _pitch(x, pitch, "max", "D2", -1, go=False),
                **_deviations(x),
            },
            TURNS,
        ),
    ]


def _size(product: Bounds, side: str) -> Decimal:
    value = product.max if side == "max" else product.min
    assert value is not None
    return value


def _pitch(x: ClassX, product: Bounds, side: str, symbol: str, sign: int, go: bool) -> GaugeDimension:
    """Return a pitch diameter: the product limit, and the tolerance into the product tolerance."""
    at = _size(product, side)
    basis = x.basis(_CLAUSE, "one reproduction and formula", product, x.pitch)
    new = x.sized(symbol.swapcase(), at, sign, x.pitch, basis)
    if go:
        owner = x.row.table.standard
        worn = owner.basis("wear", weakest("memory", product.basis.checked))
        new = GaugeDimension(new.symbol, new.min, new.max, new.unit, basis, at, worn)
    return new.against(f"{symbol} {side}", at, sign)


def _crest(x: ClassX, product: Bounds, side: str, symbol: str, sign: int) -> GaugeDimension:
    at = _size(product, side)
    dimension = x.sized(symbol.swapcase(), at, sign, x.crest, x.basis(_CLAUSE, "memory", product, x.crest))
    return dimension.against(f"{symbol} {side}", at, sign)


def _cut(x: ClassX, product: Bounds, size: Decimal, symbol: str, sign: int, cut: Truncation) -> GaugeDimension:
    return x.sized(symbol.swapcase(), size, sign, x.crest, x.basis(_CLAUSE, cut.rule, product, x.crest, cut.note))


def _deviations(x: ClassX) -> dict[str, GaugeDimension]:
    """Return the permissible deviations of lead and half angle, where the table gives them."""
    found = {}
    for id, symbol, unit in (("lead_deviation", "dP", x.unit), ("half_angle_deviation", "da/2", "arcmin")):
        value = x.row.get(id) if id in x.row.cells else None
        if value is not None:
            found[id] = GaugeDimension(symbol, -value, value, unit, x.row.basis(id))
    return found
