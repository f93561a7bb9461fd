"""The requirements of a specification as lines, by group, and the figures that are for reference only."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..quantities import Bounds
from ..specification import GROUPS, Characteristic, Specification
from ..threads import limits
from .bases import Bases, Figure
from .figures import written
from .names import GROUP_NAMES, name_of
from .sheet_lines import Line, line_of
from .symbols import is_word

#: Limits of a thread that no instrument of the trade judges piece by piece.
_ROOT = ("root_diameter", "root_radius")


def requirements(bases: Bases, found: Specification) -> list[tuple[str, list[Line]]]:
    """Return the lines of every characteristic, by the name of its group."""
    lines: dict[str, list[Line]] = {group: [] for group in GROUPS}
    for id, one in found.characteristics.items():
        lines.setdefault(one.group, []).extend(_lines(bases, id, one))
    return [(GROUP_NAMES.get(group, name_of(group)), held) for group, held in lines.items() if held]


def _lines(bases: Bases, id: str, one: Characteristic) -> Iterator[Line]:
    if one.scales:
        found = [_scale(bases, id, one, scale, bounds) for scale, bounds in one.scales.items()]
    elif one.bounds is not None:
        symbol = None if is_word(one.bounds.symbol) else one.bounds.symbol
        found = [line_of(bases, f"line-{id}", name_of(id), symbol, one.bounds)]
    else:
        found = [_words(bases, id, one)]
    for line in found:
        yield replace(
            line,
            instrument=one.instrument,
            destructive=one.destructive,
            mandatory=("one scale" if len(one.scales) > 1 else "yes") if one.mandatory else "",
            state=(one.state or "").replace("_", " "),
        )


def _words(bases: Bases, id: str, one: Characteristic) -> Line:
    source = bases.source(one.basis, f"line-{id}", name_of(id))
    words = " or ".join(one.met if value is True else str(value).replace("_", " ") for value in one.allowed)
    none = Figure.of(None, source)
    return Line(f"line-{id}", name_of(id), None, none, none, "", source, words)


def _scale(bases: Bases, id: str, one: Characteristic, scale: str, bounds: Bounds) -> Line:
    """One hardness scale; a piece is judged on the scale that it was measured on."""
    line = line_of(bases, f"line-{id}-{scale.lower()}", name_of(id), bounds.symbol, bounds, f"{name_of(id)}, {scale}")
    over = one.over_core
    if bounds.min is None and bounds.max is None and over is not None and over.max is not None:
        return replace(line, words=f"at most {written(over.max)} {over.unit} over the core of the same piece")
    return line


def reference(bases: Bases, found: Specification) -> list[Line]:
    """Figures that are needed and not judged: dimensions for reference, root of the thread, loads, stress area."""
    held: dict[str, Bounds] = dict(found.dimensions.dimensions) if found.dimensions is not None else {}
    if found.tolerance is not None:
        thread = limits(found.size, found.tolerance).limits
        held |= {id: thread[id] for id in _ROOT if id in thread}
    if found.mechanical is not None:
        held |= {**found.mechanical.loads, "stress_area": found.mechanical.stress_area}
    return [_reference(bases, id, one) for id, one in held.items() if id not in found.characteristics]


def _reference(bases: Bases, id: str, bounds: Bounds) -> Line:
    """One value stands under the minimum alone, and is not written twice."""
    line = line_of(bases, f"line-{id}", name_of(id), bounds.symbol, bounds)
    if bounds.min is None and bounds.max is None:
        return replace(line, least=Figure.of(bounds.nominal, line.source))
    return replace(line, greatest=Figure.of(None, line.source)) if bounds.min == bounds.max else line
