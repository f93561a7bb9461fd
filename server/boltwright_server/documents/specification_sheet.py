"""A specification as a sheet for people: what each line says, and the basis that each figure leads to."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..gauges import Gauge
from ..mechanical import Test
from ..quantities import Bounds
from ..specification import GROUPS, Characteristic, Specification
from ..specification.requirements import Marking
from ..threads import limits
from .bases import Bases, Figure, Source
from .drawings import part_drawing, thread_drawing
from .figures import unit_written, written
from .names import GROUP_NAMES, name_of
from .symbols import WORDS, Symbol

#: Limits of a thread that no instrument of the trade judges piece by piece.
_ROOT = ("root_diameter", "root_radius")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a table of limits. `words` stand in place of figures where nothing is measured."""

    place: str
    name: str
    symbol: Symbol | None
    least: Figure
    greatest: Figure
    unit: str
    source: Source
    words: str = ""
    instrument: str = ""
    destructive: bool = False
    mandatory: bool = False


@dataclass(frozen=True, slots=True)
class GaugeLine:
    """One diameter of a gauge: limits when new, wear limit."""

    place: str
    name: str
    symbol: Symbol
    least: Figure
    greatest: Figure
    worn: Figure
    unit: str
    source: Source


@dataclass(frozen=True, slots=True)
class SettingLine:
    """One condition of a test."""

    name: str
    figure: Figure
    unit: str


@dataclass(frozen=True, slots=True)
class TestLine:
    """A test with its settings."""

    place: str
    test: Test
    settings: list[SettingLine]
    source: Source

    @property
    def name(self) -> str:
        """The name of the test, with a capital letter."""
        return self.test.name[:1].upper() + self.test.name[1:]

    @property
    def conditions(self) -> list[str]:
        """Where the test applies, one condition each."""
        written_out = self.test.condition.replace(">=", "≥").replace("<=", "≤")
        return written_out.split(", ") if written_out else []


@dataclass(frozen=True, slots=True)
class Sheet:
    """Everything that the sheet shows, in its order."""

    found: Specification
    groups: list[tuple[str, list[Line]]]
    reference: list[Line]
    gauges: list[tuple[Gauge, list[GaugeLine]]]
    tests: list[TestLine]
    marking: list[tuple[str, Marking, Source]]
    not_covered: list[str]
    part: str | None
    thread: str | None
    bases: list[tuple[Source, list[tuple[str, str]]]]

    @property
    def facts(self) -> list[tuple[str, str]]:
        """What the designation names, for the head of the sheet."""
        item = self.found.item
        named = (
            ("Item", item.kind),
            ("Standard", f"{item.standard}:{item.edition}"),
            ("Thread", item.thread),
            ("Tolerance class", item.tolerance_class),
            ("Nominal length", None if item.length is None else f"{item.length} mm"),
            ("Product grade", item.product_grade),
            ("Property class", item.property_class),
        )
        return [(name, value) for name, value in named if value is not None]


def sheet_of(found: Specification) -> Sheet:
    """Return the sheet of a specification.

    Raises:
        NotStandardised, UnknownName: as `threads.limits`; a specification that was composed raises neither.
    """
    bases = Bases()
    lines = [line for id, one in found.characteristics.items() for line in _characteristic(bases, id, one)]
    groups = [
        (GROUP_NAMES[group], [line for owner, line in lines if owner == group])
        for group in GROUPS
        if any(owner == group for owner, _ in lines)
    ]
    reference = _reference(bases, found)
    gauges = [(gauge, _gauge(bases, gauge)) for gauge in (found.gauges.gauges if found.gauges else ())]
    tests = [_test(bases, one) for one in found.tests]
    marking = [
        (place, one, bases.source(one.basis, place, "what is marked where"))
        for place, one in ((f"marking-{number}", one) for number, one in enumerate(found.marking, start=1))
    ]
    links = {
        line.place.removeprefix("line-"): f"#{line.source.anchor}" for line in [line for _, line in lines] + reference
    }
    return Sheet(
        found,
        groups,
        reference,
        gauges,
        tests,
        marking,
        _not_covered(found),
        part_drawing(found, links),
        thread_drawing(found, links),
        bases.entries(),
    )


def _characteristic(bases: Bases, id: str, one: Characteristic) -> list[tuple[str, Line]]:
    if one.scales:
        lines = [_scale(bases, id, one, scale, bounds) for scale, bounds in one.scales.items()]
    else:
        lines = [_line(bases, id, one, one.bounds)]
    return [(one.group, line) for line in lines]


def _line(bases: Bases, id: str, one: Characteristic, bounds: Bounds | None) -> Line:
    place = f"line-{id}"
    symbol = None if bounds is None or bounds.symbol in WORDS else Symbol.of(bounds.symbol)
    source = bases.source(one.basis, place, name_of(id) if bounds is None or symbol is None else bounds.symbol)
    return Line(
        place,
        name_of(id),
        symbol,
        Figure.of(bounds.min if bounds else None, source),
        Figure.of(bounds.max if bounds else None, source),
        unit_written(bounds.unit if bounds else None),
        source,
        "" if bounds is not None else _words(one),
        one.instrument,
        one.destructive,
        one.mandatory,
    )


def _words(one: Characteristic) -> str:
    return " or ".join("must be met" if value is True else str(value).replace("_", " ") for value in one.allowed)


def _scale(bases: Bases, id: str, one: Characteristic, scale: str, bounds: Bounds) -> Line:
    """One hardness scale; a piece is judged on the scale that it was measured on."""
    place = f"line-{id}-{scale.lower()}"
    source = bases.source(bounds.basis, place, f"{name_of(id)}, {scale}")
    words = ""
    if bounds.min is None and bounds.max is None and one.over_core is not None and one.over_core.max is not None:
        words = f"at most {written(one.over_core.max)} {one.over_core.unit} over the core of the same piece"
    return Line(
        place,
        name_of(id),
        Symbol.of(bounds.symbol),
        Figure.of(bounds.min, source),
        Figure.of(bounds.max, source),
        unit_written(bounds.unit),
        source,
        words,
        one.instrument,
        one.destructive,
        one.mandatory,
    )


def _reference(bases: Bases, found: Specification) -> list[Line]:
    """Figures that are needed and not judged: dimensions for reference, loads, stress area."""
    held: dict[str, Bounds] = dict(found.dimensions.dimensions) if found.dimensions is not None else {}
    if found.tolerance is not None:
        thread = limits(found.size, found.tolerance).limits
        held |= {id: thread[id] for id in _ROOT if id in thread}
    if found.mechanical is not None:
        held |= {**found.mechanical.loads, "stress_area": found.mechanical.stress_area}
    return [_plain(bases, id, one) for id, one in held.items() if id not in found.characteristics]


def _plain(bases: Bases, id: str, bounds: Bounds) -> Line:
    place = f"line-{id}"
    source = bases.source(bounds.basis, place, bounds.symbol)
    exact = bounds.min is None and bounds.max is None
    least, greatest = (bounds.nominal, bounds.nominal) if exact else (bounds.min, bounds.max)
    return Line(
        place,
        name_of(id),
        Symbol.of(bounds.symbol),
        Figure.of(least, source),
        Figure.of(None if least == greatest else greatest, source),
        unit_written(bounds.unit),
        source,
    )


def _gauge(bases: Bases, gauge: Gauge) -> list[GaugeLine]:
    lines = []
    for id, one in gauge.dimensions.items():
        place = f"gauge-{gauge.id}-{id}"
        source = bases.source(one.basis, place, f"{one.symbol} {gauge.id.replace('_', ' ')}")
        least, greatest, worn = (Figure.of(value, source) for value in (one.min, one.max, one.wear_limit))
        unit = unit_written(one.unit)
        lines.append(GaugeLine(place, name_of(id), Symbol.of(one.symbol), least, greatest, worn, unit, source))
    return lines


def _test(bases: Bases, test: Test) -> TestLine:
    place = f"test-{test.id}"
    settings = []
    for id, one in test.settings.items():
        source = bases.source(one.basis, place, test.name)
        settings.append(SettingLine(name_of(id), Figure(_span(one.min, one.max), source), unit_written(one.unit)))
    return TestLine(place, test, settings, bases.source(test.basis, place, test.name))


def _span(least: Decimal | None, greatest: Decimal | None) -> str:
    if least is not None and greatest is not None:
        return written(least) if least == greatest else f"{written(least)} to {written(greatest)}"
    if least is not None:
        return f"≥ {written(least)}"
    return "" if greatest is None else f"≤ {written(greatest)}"


def _not_covered(found: Specification) -> list[str]:
    """What the specification leaves out, and the gauges that are not held, one reason once."""
    if found.gauges is None:
        return [*found.not_covered, "Gauges: ISO 1502 has no gauge tolerances for this thread tolerance."]
    reasons: dict[str, list[str]] = {}
    for one in found.gauges.not_covered:
        reasons.setdefault(one.reason, []).append(one.id.replace("_", " "))
    return [*found.not_covered, *(f"Gauges ({', '.join(ids)}): {reason}." for reason, ids in reasons.items())]
