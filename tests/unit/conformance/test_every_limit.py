"""A reading equal to a limit conforms, for every limit of a few hundred specifications, in every unit.

Limits belong to the zone that they bound (ISO 286-1, ISO 898-1: "minimum", "maximum"). The next decimal outside does
not conform. A limit that has no finite decimal in a unit is met by the last double inside.
"""

import math
from collections.abc import Iterator
from decimal import Context, Decimal, Inexact
from fractions import Fraction

import numpy as np
import pytest

from boltwright_server.conformance.column_plan import column_plan
from boltwright_server.conformance.decide import judge_readings
from boltwright_server.conformance.readings import Column
from boltwright_server.conformance.rules import SIMPLE
from boltwright_server.products import products
from boltwright_server.quantities import Bounds, NotStandardised
from boltwright_server.quantities.units import CODES, dimension, factor
from boltwright_server.specification import Characteristic, specification
from boltwright_server.threads import sizes

_EXACT = Context(prec=30, traps=[Inexact])
#: A reading of a column goes to whole nanometres, millinewtons and the like; half of that is outside.
_FINER = Fraction(1, 10**9)


def designations() -> list[str]:
    found = []
    for product in products():
        if product.standard.family in ("hexagon_bolt", "hexagon_nut"):
            for thread in product.table.column_values("thread"):
                ends = ("x60 - 8.8", "x45 - 10.9", "x160 - 5.6") if product.has_length else (" - 8", " - 10")
                found += [f"{product.standard.id} - {thread}{end}" for end in ends]
    return found + [f"{size.designation}-{name}" for size in sizes() for name in ("6g", "6H", "4h")]


def limits_of(one: Characteristic) -> Iterator[tuple[Bounds, str | None]]:
    """Yield the limits of a characteristic with the edition that a disputed scale needs."""
    for scale, bounds in one.scales.items():
        if scale in one.disputed:
            yield from ((held, edition) for edition, held in one.disputed[scale].items())
        else:
            yield bounds, None
    if not one.scales and one.bounds is not None:
        yield one.bounds, None


def units_of(bounds: Bounds) -> list[str]:
    return [unit for unit in CODES if dimension(unit) == dimension(bounds.unit)]


def decimal_of(exact: Fraction) -> Decimal | None:
    """Return the finite decimal that equals a fraction, or None."""
    try:
        return _EXACT.divide(Decimal(exact.numerator), Decimal(exact.denominator))
    except Inexact:
        return None


def last_inside(exact: Fraction, outward: int) -> float:
    reading = float(exact)
    while (Fraction(repr(reading)) - exact) * outward > 0:
        reading = math.nextafter(reading, -outward * math.inf)
    return reading


def judged(one: Characteristic, reading: float, unit: str, edition: str | None) -> str:
    column = Column(one.id, np.array([reading]), unit, edition=edition)
    found = judge_readings(column_plan(one, column, SIMPLE), column)
    assert not found.undecided.any()
    # Below a minimum that is guidance a reading fails where that minimum binds (ISO 898-2:2012, clause 9.2).
    guided = found.guided is not None and found.guided.any()
    return "nonconforming" if guided or found.nonconforming.any() else "conforming"


def check_limit(one: Characteristic, limit: Decimal, outward: int, bounds: Bounds, edition: str | None) -> int:
    for unit in units_of(bounds):
        exact = Fraction(limit) * factor(bounds.unit, unit)
        equal = decimal_of(exact)
        inside = last_inside(exact, outward) if equal is None else float(equal)
        outside = exact + outward * _FINER * max(1, abs(exact))
        where = f"{one.id} {limit} {bounds.unit} in {unit}"
        assert judged(one, inside, unit, edition) == "conforming", where
        assert judged(one, float(outside), unit, edition) == "nonconforming", where
    return len(units_of(bounds))


@pytest.mark.parametrize("kind", ["ISO 40", "ISO 8", "M"])
def test_a_reading_equal_to_a_limit_conforms(kind: str) -> None:
    tried = 0
    for text in designations():
        if not text.startswith(kind):
            continue
        try:
            wanted = specification(text)
        except NotStandardised:
            continue
        for one in wanted.characteristics.values():
            for bounds, edition in limits_of(one) if one.kind == "measured" else ():
                if bounds.min is not None:
                    tried += check_limit(one, bounds.min, -1, bounds, edition)
                if bounds.max is not None:
                    tried += check_limit(one, bounds.max, 1, bounds, edition)
    assert tried > 3000
