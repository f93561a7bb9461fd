"""Validates part masters row by row: never stops, never loses one, remembers what came before."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import compress
from types import TracebackType
from typing import Any, Self

from ..figures.figures import check_figures
from ..figures.mass import check_mass
from ..figures.thickness import THICKNESS, check_thickness
from ..meaning.cautions import cautions
from ..meaning.findings import CONTRADICTIONS, Finding, status_of
from ..meaning.mating import check_mate, outlines_of, with_oversize_nut
from ..meaning.proposal import proposed
from ..meaning.requirement import Requirement, resolve
from ..meaning.resolution import NOTHING
from ..repeats.repeats import Repeats
from .csv_rows import misfit
from .row import MASS, WORDS, header_of, is_figure, reading_of, repeated_members, says_nothing, text_of, with_unit
from .written import check_no_length, check_written

#: A row, or the sentence that says why it could not be split into members.
Row = Mapping[str, Any] | str


@dataclass(slots=True)
class Result:
    """One row back: `row` counts from 0."""

    part_number: str
    row: int
    status: str
    designation: str | None
    confidence: float
    alternatives: list[str]
    left_over: list[str]
    findings: list[Finding]
    #: In a batch without repeats: product and coating that the row asks for, by which repeats are found over all
    #: batches; empty where they are not certain.
    requirement: str | None = None
    #: Words that the reading used, as they stand in the row.
    used: list[str] = field(default_factory=list)
    #: Members that would change in a corrected row.
    proposed: dict[str, str] = field(default_factory=dict)


@dataclass(slots=True)
class Summary:
    """What a run came to."""

    rows: int = 0
    by_status: Counter[str] = field(default_factory=Counter)
    by_code: Counter[str] = field(default_factory=Counter)
    started: float = field(default_factory=time.perf_counter)

    def add(self, results: Sequence[Result]) -> None:
        """Count results."""
        self.rows += len(results)
        self.by_status.update([one.status for one in results])
        for one in results:
            if one.findings:
                self.by_code.update(dict.fromkeys([finding.code for finding in one.findings], 1))

    def rows_per_second(self) -> float:
        """Throughput so far."""
        return self.rows / max(1e-9, time.perf_counter() - self.started)


class Validator:
    """Validates a stream of rows; remembers part numbers and requirements across the whole stream.

    For one batch of a longer stream: `first_row` is the number of its first row, and without `repeats` nothing is
    remembered; `repeats.Repeats` finds them over all batches.
    """

    def __init__(self, first_row: int = 0, repeats: bool = True) -> None:
        """Start with nothing seen."""
        self._repeats = Repeats() if repeats else None
        self._first_row = first_row
        self._layouts: dict[tuple[str, ...], Layout] = {}
        self.summary = Summary()

    def __enter__(self) -> Self:
        """Return itself."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Give temporary files back."""
        if self._repeats is not None:
            self._repeats.__exit__(kind, error, trace)

    def validate(self, row: Row) -> Result:
        """Validate one row; members as the wire contract names them, figures as numbers, text or value with unit."""
        return self.validate_rows((row,))[0]

    def validate_rows(self, rows: Iterable[Row]) -> list[Result]:
        """Validate rows, or report those that could not even be split into members."""
        return self._finished([self._of_row(row, number) for number, row in enumerate(rows, self._next_row)])

    def _of_row(self, row: Row, number: int) -> Result:
        if isinstance(row, str):
            return Result("", number, "unreadable", None, 0.0, [], [], [Finding("unreadable", "", None, None, row)], "")
        columns = self.layout(tuple(row))
        if columns.repeated:
            contradictions = columns.contradictions(row.values())
            result = self._judged(columns.merged(row.values()), columns, number, contradictions)
        else:
            result = self._judged({columns.ids[name]: value for name, value in row.items()}, columns, number)
        if columns.unknown:
            # A member that is not known is not read: its name is left over. A file has columns of its own.
            result.left_over += [name[:80] for name in columns.unknown if row[name] not in (None, "")]
        return result

    def validate_block(self, rows: Iterable[Sequence[str]], columns: Layout) -> list[Result]:
        """Validate rows of a CSV text; empty cells say nothing. Many at once cost less than one by one."""
        return self._finished(
            [self._of_cells(cells, columns, number) for number, cells in enumerate(rows, self._next_row)]
        )

    def _of_cells(self, cells: Sequence[str], columns: Layout, number: int) -> Result:
        names = columns.names
        wrong = misfit(len(cells), len(names)) if len(cells) != len(names) else ()
        if columns.repeated:
            return self._judged(columns.merged(cells), columns, number, (*wrong, *columns.contradictions(cells)))
        return self._judged(dict(compress(zip(names, cells, strict=False), cells)), columns, number, wrong)

    @property
    def _next_row(self) -> int:
        return self._first_row + self.summary.rows

    def _judged(self, given: dict[str, Any], columns: Layout, number: int, before: Sequence[Finding] = ()) -> Result:
        """Judge a row whose members have their ids already; `before` are findings of whoever read it."""
        said: list[Finding] = list(before)
        part_number = text_of(given, "part_number", said)
        if "length" in given and ("length" in columns.units or isinstance(given["length"], dict)):
            given["length"] = with_unit(given["length"], columns.units.get("length"))
        found = resolve(reading_of(given, said))
        said.extend(found.findings)
        _check(found, given, columns, said)
        return Result(
            part_number,
            number,
            status_of(said) if said else "valid",
            found.designation,
            found.confidence,
            found.alternatives,
            found.reading.left_over,
            said,
            _requirement_of(found, said, given.get(THICKNESS)),
            found.reading.used,
            proposed(found, said, given) if said or "designation" in given else {},
        )

    def run(self, rows: Iterable[Row]) -> Iterator[Result]:
        """Validate rows one after the other."""
        for row in rows:
            yield self.validate(row)

    def layout(self, names: tuple[str, ...]) -> Layout:
        """Return what member names mean; worked out once for each set of names."""
        columns = self._layouts.get(names)
        if columns is None:
            if len(self._layouts) > 1000:
                self._layouts.clear()
            columns = self._layouts[names] = Layout(names)
        return columns

    def _finished(self, results: list[Result]) -> list[Result]:
        if self._repeats is not None:
            add_repeats(results, self._repeats)
        self.summary.add(results)
        return results


def _check(found: Requirement, given: Mapping[str, Any], columns: Layout, said: list[Finding]) -> None:
    """Hold what else the row says against what it asks for; most rows say little."""
    if not columns.figures.isdisjoint(given):
        _check_figures(found, given, columns, said)
    if given.get(MASS) not in (None, ""):
        certain = found.meant.resolved if found.part is not None else NOTHING.resolved
        check_mass(certain, found.length, given[MASS], columns.units.get(MASS), said)
    if found.reading.figures is not None:
        check_written(found, said)
    if found.length is not None:
        check_no_length(found, said)
    mate = text_of(given, "mates_with", said) if given.get("mates_with") else ""
    mate = "" if says_nothing(mate) else mate
    if found.reading.coating is not None:
        _check_coating(found, mate, said)
    if mate:
        check_mate(found, mate, said)


def _check_figures(found: Requirement, given: Mapping[str, Any], columns: Layout, said: list[Finding]) -> None:
    figures = {id: given[id] for id in given if id in columns.figures and given[id] not in (None, "")}
    thickness = figures.get(THICKNESS)
    if thickness is not None and found.reading.coating is not None:
        check_thickness(found, thickness, columns.units.get(THICKNESS), said)
        if found.part is None or found.part.coating is None:
            del figures[THICKNESS]
    check_figures(found.meant.resolved, outlines_of(found), found.length, figures, columns.units, said)


def _check_coating(found: Requirement, mate: str, said: list[Finding]) -> None:
    """A part and what it is sold with: their threads have the room for a coating together."""
    coating, outlines = found.reading.coating, outlines_of(found)
    assert coating is not None
    with_room = bool(mate) and with_oversize_nut(mate)
    if outlines == found.meant.resolved.outlines and not with_room:
        told = found.meant.cautions
    else:
        told = cautions(outlines, coating, with_room=with_room)
    if told and any(one.code == "unreadable" or (one.member == "thread" and not outlines) for one in found.findings):
        # That nothing is known of the product has been said.
        told = tuple(one for one in told if one.code != "coating-not-judged")
    said.extend(told)


def add_repeats(results: Sequence[Result], repeats: Repeats) -> None:
    """Add the findings of rows that repeat earlier ones, to results that stand in the order of their rows."""
    found = repeats.findings(
        [one.part_number for one in results],
        [one.requirement or "" for one in results],
        [one.row for one in results],
    )
    for one in results:
        one.requirement = None
        if one.row in found:
            one.findings.append(found[one.row])
            one.status = status_of(one.findings)


def _requirement_of(found: Requirement, said: list[Finding], thickness: Any) -> str:
    """What a row asks for, to find it again; empty where it is not certain or the row contradicts itself."""
    designation = found.designation
    if designation is None or (said and any(one.code in _COMPARED_WITH_NOTHING for one in said)):
        return ""
    reading = found.reading
    # A steel without its strength is left over; a washer of A2 is not one of carbon steel. So are words of a coating,
    # and any other word that is not understood: the same words ask for the same.
    coating = f"{reading.coating or ''}{thickness or ''} {reading.features.get('finish', '')}"
    words = " ".join(sorted(reading.unexplained)) if reading.unexplained else ""
    return f"{designation}\x1f{coating}\x1f{reading.features.get('steel', '')}\x1f{words}"


#: A row that contradicts itself, or has a coating that nobody understood, may ask for anything.
_COMPARED_WITH_NOTHING = frozenset((*CONTRADICTIONS, "coating-unknown"))


class Layout:
    """What the names of a row's members mean: `ids` by name, `names` the ids in the order of the columns.

    `repeated` are the ids that two names mean, as `Thread` and `thread`, or `proof_load [N]` and `proof_load [lbf]`.
    """

    __slots__ = ("_headers", "figures", "ids", "names", "repeated", "units", "unknown")

    def __init__(self, names: tuple[str, ...]) -> None:
        """Read the names; a name may hold its unit: `tensile_load [lbf]`."""
        self._headers = [header_of(name) for name in names]
        self.ids = {name: header.id for name, header in zip(names, self._headers, strict=True)}
        self.names = [header.id for header in self._headers]
        self.figures = frozenset(id for id in self.names if is_figure(id) and id not in ("length", MASS))
        self.unknown = [name for name, id in self.ids.items() if id not in WORDS and not is_figure(id)]
        self.repeated = {id for id, times in Counter(self.names).items() if times > 1}
        self.units = {id: unit for id, unit in self._headers if unit is not None and id not in self.repeated}

    def merged(self, values: Iterable[Any]) -> dict[str, Any]:
        """Return the members of a row with repeated ones: the last value counts, with the unit that its name holds."""
        given: dict[str, Any] = {}
        for (id, unit), value in zip(self._headers, values, strict=False):
            if value not in (None, ""):
                with_unit = unit is not None and id in self.repeated and not isinstance(value, dict)
                given[id] = {"value": value, "unit": unit} if with_unit else value
        return given

    def contradictions(self, values: Iterable[Any]) -> list[Finding]:
        """Return a finding for each member that a row gives twice with different values."""
        return repeated_members(self.names, values)
