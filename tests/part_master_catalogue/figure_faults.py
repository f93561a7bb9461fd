"""Figures spoilt in known ways: outside the limits, in another unit, no number at all."""

from __future__ import annotations

from decimal import Decimal
from random import Random

from . import figures, spelling
from .parts import Part
from .spoilt import Spoilt, told


def value_unreadable(part: Part, chance: Random) -> Spoilt | None:
    known = list({**figures.dimensions(part), **figures.mechanical(part)})
    if not known:
        return None
    text = chance.choice(("n/a", "tbd", "see drawing", "16..17", "ok", "#REF!"))
    return told(part, {**spelling.written(part, chance), chance.choice(known): text}, "value-unreadable")


def dimension_outside(part: Part, chance: Random) -> Spoilt | None:
    known = figures.dimensions(part)
    if not known:
        return None
    id = chance.choice(list(known))
    one = known[id]
    step = Decimal(1).scaleb(-one.decimals)
    off = chance.choice((one.high + step, one.low - step, one.high * Decimal("1.1"), one.low * Decimal("0.9")))
    row = {**spelling.written(part, chance), id: figures.typed(f"{off:.{one.decimals}f}", chance)}
    return told(part, row, "dimension-outside-limits")


def figure_wrong(part: Part, chance: Random) -> Spoilt | None:
    known = figures.mechanical(part)
    if not known:
        return None
    id = chance.choice(list(known))
    one = known[id]
    off = chance.choice((one.low * Decimal("0.9"), one.high * Decimal("1.15")))
    return told(part, {**spelling.written(part, chance), id: f"{off:.0f}"}, "mechanical-figure-wrong")


def unit_mix_up(part: Part, chance: Random) -> Spoilt | None:
    found: list[tuple[str, str]] = []
    weight = figures.mass(part)
    if weight is not None:
        found.append(("mass_per_1000", f"{weight / 10:.3g}"))
    if not part.inch:
        for id, one in figures.dimensions(part).items():
            found.append((id, f"{(one.low + one.high) / 2 / Decimal('25.4'):.3f}"))
        for id, one in figures.mechanical(part).items():
            if "load" in id:
                found += [(id, f"{one.low / Decimal('4.4482'):.0f}"), (id, f"{one.low / 1000:f}")]
            elif id == "tensile_strength":
                found.append((id, f"{one.low * Decimal('145.038'):.0f}"))
    if not found:
        return None
    id, value = chance.choice(found)
    value = f"{float(value):f}".rstrip("0").rstrip(".") if "e" in value else value
    return told(part, {**spelling.written(part, chance), id: value}, "unit-mix-up")


def mass_implausible(part: Part, chance: Random) -> Spoilt | None:
    weight = figures.mass(part)
    if weight is None:
        return None
    row = {**spelling.written(part, chance), "mass_per_1000": f"{weight * chance.choice((0.45, 0.6, 1.7, 2.5)):.3f}"}
    return told(part, row, "mass-implausible")
