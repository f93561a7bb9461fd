"""The test programme of a part: which tests of its standard apply, how they are set up, what passes.

Every standard of mechanical properties keeps the same three tables: `test_applicability`, `test_settings`,
`test_methods`. What depends on the class (wedge angle, loads, temperatures) comes from the standard's engine.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fnmatch import fnmatchcase

from ..quantities.keeper import remembered
from ..quantities.rounding import shortest
from ..standards import Row, Standard, rules, standard
from .answer import PartShape, Setting, Test

#: What a test can do to whoever stands beside it; common practice.
_CAUTIONS = {
    "stored_energy": (
        "The loaded part and machine store energy and fragments fly at fracture: close the guard, wear eye protection, "
        "stand clear until the load is off.",
    ),
    "torque": ("The part breaks suddenly under torque: use a guard and eye protection, brace the wrench.",),
    "blow": ("Struck parts chip and fly: use a guard, eye and hearing protection.",),
    "heat": ("Hot furnace and parts: gloves, face protection, dry tongs.",),
    "none": (),
}
_CONDITIONS = (
    ("d_min", "d >= {} {unit}"),
    ("d_max", "d <= {} {unit}"),
    ("l_over_d_min", "l >= {} d"),
    ("l_over_d_below", "l < {} d"),
    ("b_over_d_min", "b >= {} d"),
    ("b_pitches_more", "plus {} P"),
    ("l_min", "l >= {} {unit}"),
)
_STUD = "l_over_d_min_stud"
_AQL = {True: Decimal("1.5"), False: Decimal("0.65")}
Settings = Mapping[str, dict[str, Setting]]


@dataclass(frozen=True, slots=True)
class Candidate:
    """The part to be tested: its thread in the unit of the standard, its class, its shape where it is known."""

    d: Decimal
    pitch: Decimal
    code: str
    shape: PartShape | None = None
    reduced_loadability: bool = False
    #: test id -> settings that depend on class and size
    settings: Settings = field(default_factory=dict)


def programme_of(facts: Standard, candidate: Candidate, prefix: str = "") -> tuple[Test, ...]:
    """Return every test of the standard for the class, each with whether it applies and why.

    `prefix` leads the names of the tables where one standard holds the tests of bolts and of nuts.
    """
    rows = facts.table(f"{prefix}test_applicability").rows.values()
    decided: dict[str, tuple[bool | None, str]] = {}
    for row in rows:
        decided[row.word("test")] = _decide(row, candidate, decided)
    return tuple(
        _test(facts, prefix, row, candidate, *decided[row.word("test")]) for row in rows if _for_class(row, candidate)
    )


def _for_class(row: Row, candidate: Candidate) -> bool:
    return _is_among(candidate.code, row.word("classes"))


def _is_among(code: str, patterns: str) -> bool:
    """Say whether a class is named by a list such as `8.8 10.9`, `A?-70` or `all`."""
    return patterns in ("all", "*") or any(fnmatchcase(code, pattern) for pattern in patterns.split())


def _decide(row: Row, candidate: Candidate, before: dict[str, tuple[bool | None, str]]) -> tuple[bool | None, str]:
    shape, unit = candidate.shape, row.table.unit
    not_for = row.word("not_for").split()
    if candidate.reduced_loadability and "reduced" in not_for:
        return False, "a part of reduced loadability breaks in head or shank: its product standard gives the loads"
    if shape is not None and shape.kind in not_for:
        return False, f"not for a {shape.kind.replace('_', ' ')}"
    least, most = row.get("d_min"), row.get("d_max")
    if least is not None and candidate.d < least:
        return False, f"d = {candidate.d} {unit} is below {least} {unit}"
    if most is not None and candidate.d > most:
        return False, f"d = {candidate.d} {unit} is above {most} {unit}"
    found = _by_length(row, candidate)
    other = row.word("instead_of")
    if found[0] and other != "-":
        return _instead(other, before.get(other, (None, ""))[0])
    return found


def _instead(other: str, other_applies: bool | None) -> tuple[bool | None, str]:
    name = other.replace("_", " ")
    if other_applies is None:
        return None, f"applies where the {name} test is not feasible: name a length"
    return not other_applies, f"the {name} test is {'feasible and decides' if other_applies else 'not feasible'}"


def _by_length(row: Row, candidate: Candidate) -> tuple[bool | None, str]:
    d, shape, unit = candidate.d, candidate.shape, row.table.unit
    least = _least_length(row, d, shape)
    below = row.get("l_over_d_below")
    thread = row.get("b_over_d_min")
    if least is None and below is None and thread is None:
        return True, "applies to every length"
    if shape is None or shape.length is None:
        return None, "depends on the length: name a product with its length"
    if least is not None and shape.length < least:
        return False, f"l = {shape.length} {unit} is shorter than {shortest(least)} {unit}"
    if below is not None and shape.length >= below * d:
        return False, f"l = {shape.length} {unit} is not shorter than {shortest(below * d)} {unit}"
    if thread is not None and shape.thread_length is not None:
        needed = thread * d + (row.get("b_pitches_more") or 0) * candidate.pitch
        if shape.thread_length < needed:
            return False, f"b = {shape.thread_length} {unit} is shorter than {shortest(needed)} {unit}"
    return True, "diameter and lengths allow it"


def _least_length(row: Row, d: Decimal, shape: PartShape | None) -> Decimal | None:
    """A stud may need to be longer than a bolt."""
    of_stud = row.get(_STUD) if shape is not None and shape.kind == "stud" and _STUD in row.cells else None
    multiple, fixed = of_stud or row.get("l_over_d_min"), row.get("l_min")
    wanted = [one for one in (None if multiple is None else multiple * d, fixed) if one is not None]
    return max(wanted, default=None)


def _test(facts: Standard, prefix: str, row: Row, candidate: Candidate, applies: bool | None, reason: str) -> Test:
    id = row.word("test")
    method = facts.table(f"{prefix}test_methods").find(id)
    if method is None:
        raise KeyError(f"{facts.folder}/{prefix}test_methods.csv has no {id}")
    destructive = method.word("destructive") == "yes"
    return Test(
        id,
        method.word("name"),
        applies,
        reason,
        _condition(row),
        method.word("specimen"),
        destructive,
        _pieces(facts, destructive),
        int(method.number("readings")),
        tuple(method.word("equipment").split("; ")),
        method.word("acceptance"),
        _CAUTIONS[method.word("hazards")],
        {**_settings(facts.folder, f"{prefix}test_settings", id, candidate.d), **candidate.settings.get(id, {})},
        facts.basis(f"clause {row.word('clause')}", row.checked("d_min"), "tabulated"),
    )


def _pieces(facts: Standard, destructive: bool) -> Setting | None:
    """Smallest sample of ISO 3269:2000 with acceptance number 0: AQL 1.5 for destructive tests, else 0.65 (memory)."""
    row = rules("ISO 3269", holding="sampling_plans").table("sampling_plans").find(_AQL[destructive], Decimal(0))
    if row is None or not facts.id.startswith("ISO"):
        return None
    note = f"AQL {_AQL[destructive]}, acceptance number 0; the order or another plan may ask for more"
    return Setting(row.number("n"), None, "1", row.basis("n", note=note))


def _condition(row: Row) -> str:
    given = [
        text.format(row.get(column), unit=row.table.unit) for column, text in _CONDITIONS if row.get(column) is not None
    ]
    return ", ".join(given).replace(", plus", " plus")


@remembered(4096)
def _settings(folder: str, table: str, test: str, d: Decimal) -> dict[str, Setting]:
    """Settings of the clause; those given as multiples of d come back in the unit of d."""
    found = {}
    for row in standard(folder).table(table).rows.values():
        if row.word("test") != test:
            continue
        name, low, high = row.word("setting"), row.get("min"), row.get("max")
        multiple = name.endswith("_in_d")
        basis = row.basis("max" if low is None else "min", note=f"{low or high} d" if multiple else None)
        if multiple:
            low, high = (None if end is None else shortest(end * d) for end in (low, high))
        found[name.removesuffix("_in_d")] = Setting(low, high, row.word("unit"), basis)
    return found
