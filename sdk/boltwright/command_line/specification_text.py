"""A specification as plain text: a table a group, the sources as numbered notes below."""

from __future__ import annotations

from collections.abc import Mapping

from ..look_ups.specification import Characteristic, Specification
from ..tables import Cell, aligned, limits_of, listed, sections, words
from ..values import Basis, Bounds, cited


class Sources:
    """Numbers the sources in the order in which they are cited."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def mark(self, basis: Basis) -> str:
        """Return the number of a source; what its reader must be told stands beside it."""
        number = self._numbers.setdefault(str(basis), len(self._numbers) + 1)
        return f"[{number}] {basis.caution}".rstrip()

    def listed(self) -> str:
        """Return the notes."""
        return "\n".join(f"  [{number}] {cited}" for cited, number in self._numbers.items())


def specification_text(found: Specification) -> str:
    """Return the whole specification; a star marks what a verdict needs."""
    item = found.item
    thread = "-".join(part for part in (item.thread, item.tolerance_class) if part)
    head = f"{found.designation}\n{cited(item.standard, item.edition)}, {item.title}\nthread {thread}" + (
        f", product grade {item.product_grade}, property class {item.property_class}" if item.property_class else ""
    )
    groups = dict.fromkeys(one.group for one in found.characteristics.values())
    sources = Sources()
    return sections(
        head,
        *((f"{group.capitalize()}", _group_table(found, group, sources)) for group in groups),
        "* a verdict needs readings of it",
        ("Sources", sources.listed()),
        ("Reference dimensions, not judged", _reference(found.reference_dimensions)),
        ("Gauges", listed(f"{gauge.name}: {gauge.checks}" for gauge in found.gauges)),
        ("Tests", listed(_test_lines(found))),
        (
            "Marks on the part",
            listed(f"{one.symbol}: {one.requirement}; {one.place} ({one.basis})" for one in found.marking),
        ),
        ("Not covered", listed(found.not_covered)),
        ("To note", listed(found.notices)),
        ("Caution", listed(found.cautions)),
    )


def _group_table(found: Specification, group: str, sources: Sources) -> str:
    rows: list[tuple[Cell, ...]] = [("", "", "", "min", "max", "", "source", "")]
    for id, one in found.characteristics.items():
        if one.group == group:
            rows += _characteristic_rows(id, one, sources)
    return aligned(rows)


def _characteristic_rows(id: str, one: Characteristic, sources: Sources) -> list[tuple[Cell, ...]]:
    """One row, and one more for each further hardness scale."""
    star = "*" if one.mandatory else ""
    allowed = " or ".join("pass" if word is True else str(word) for word in one.allowed)
    low, high, unit = limits_of(one.limits)
    rows: list[tuple[Cell, ...]] = [
        (star, words(id), one.limits.symbol or allowed, low, high, unit, sources.mark(one.basis), one.instrument)
    ]
    rows += [
        ("", "", scale, *limits_of(bounds), sources.mark(bounds.basis), "")
        for scale, bounds in one.scales.items()
        if bounds != one.limits
    ]
    if one.over_core is not None:
        rows.append(("", "  above the core", "", *limits_of(one.over_core), sources.mark(one.over_core.basis), ""))
    return rows


def _reference(dimensions: Mapping[str, Bounds]) -> str:
    return listed(
        f"{words(id)} {one.symbol}: {one.nominal:g} {one.unit}" for id, one in dimensions.items() if one.nominal
    )


def _test_lines(found: Specification) -> list[str]:
    return [
        f"{test.name}: "
        + ("; ".join(f"{words(id)} {bounds}" for id, bounds in test.settings.items()) or test.condition)
        for test in found.tests
        if test.applies is not False
    ]
