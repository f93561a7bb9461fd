"""A specification as a sheet for people: what each line says, and the basis that each figure leads to."""

from __future__ import annotations

from dataclasses import dataclass

from ..mechanical import Mark
from ..quantities import cited
from ..specification import Specification
from ..threads import limits
from .bases import Bases, Source
from .drawings import LEFT_OUT, GaugedThread, Links, gauge_zones, part_drawing, thread_drawing
from .sheet_blocks import coating_blocks, gauge_block, links_of, test_block
from .sheet_lines import Block, Line
from .sheet_requirements import reference, requirements


@dataclass(frozen=True, slots=True)
class MarkLine:
    """One marking with its basis."""

    place: str
    mark: Mark
    source: Source


@dataclass(frozen=True, slots=True)
class Sheet:
    """Everything that the sheet shows, in its order. A drawing that is not held is None."""

    found: Specification
    groups: list[tuple[str, list[Line]]]
    reference: list[Line]
    coating: list[Block]
    gauges: list[Block]
    tests: list[Block]
    marking: list[MarkLine]
    not_covered: list[str]
    part: str | None
    thread: str | None
    zones: str | None
    bases: list[tuple[Source, list[tuple[str, str]]]]

    @property
    def is_shortened(self) -> bool:
        """Whether the part is drawn broken."""
        return self.part is not None and LEFT_OUT in self.part

    @property
    def facts(self) -> list[tuple[str, str]]:
        """What the designation names, for the head of the sheet."""
        item, part = self.found.item, self.found.dimensions
        unit = "mm" if part is None else part.unit
        named = (
            ("Item", item.kind),
            ("Standard", cited(item.standard, item.edition)),
            ("Thread", item.thread),
            ("Tolerance class", item.tolerance_class),
            ("Nominal length", None if item.length is None else f"{item.length} {unit}"),
            ("Product grade", item.product_grade),
            ("Property class", item.property_class),
            ("Coating", item.coating),
        )
        return [(name, value) for name, value in named if value is not None]


def sheet_of(found: Specification) -> Sheet:
    """Return the sheet of a specification.

    Raises:
        NotStandardised, UnknownName: as `threads.limits`; a specification that was composed raises neither.
    """
    bases = Bases()
    groups = requirements(bases, found)
    others = reference(bases, found)
    links = {
        line.place.removeprefix("line-"): f"#{line.source.anchor}"
        for line in [*(line for _, lines in groups for line in lines), *others]
    }
    part = part_drawing(found, links)
    coating = [] if found.coating is None else coating_blocks(bases, found.coating)
    gauges = [] if found.gauges is None else [gauge_block(bases, one) for one in found.gauges.gauges]
    return Sheet(
        found,
        groups,
        others,
        coating,
        gauges,
        [test_block(bases, one) for one in found.tests],
        _marking(bases, found),
        _not_covered(found, part),
        part,
        thread_drawing(found, links),
        _zones(found, {**links, **links_of(gauges)}),
        bases.entries(),
    )


def _zones(found: Specification, links: Links) -> str | None:
    """The gauges against the limits of the thread that the specification shows."""
    if found.gauges is None or found.tolerance is None:
        return None
    thread = GaugedThread(limits(found.size, found.tolerance).limits, found.gauges, links)
    return gauge_zones(found.designation, [thread])


def _marking(bases: Bases, found: Specification) -> list[MarkLine]:
    places = [(f"marking-{number}", one) for number, one in enumerate(found.marking, start=1)]
    return [MarkLine(place, one, bases.source(one.basis, place, f"marking {one.symbol}")) for place, one in places]


def _not_covered(found: Specification, part: str | None) -> list[str]:
    """What the specification leaves out, the gauges that are not held, one reason once, and a missing drawing."""
    said = list(found.not_covered)
    if found.gauges is None:
        said.append("Gauges: no gauge standard that is held has tolerances for this thread.")
    reasons: dict[str, list[str]] = {}
    for one in found.gauges.not_covered if found.gauges is not None else ():
        reasons.setdefault(one.reason, []).append(one.id.replace("_", " "))
    said += [f"Gauges ({', '.join(ids)}): {reason}." for reason, ids in reasons.items()]
    if found.dimensions is not None and part is None:
        said.append("Drawing of the part: none is held for this family of products.")
    return said
