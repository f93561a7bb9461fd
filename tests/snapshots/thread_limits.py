"""The limits of every standardised size in every class, one line a thread: `python tests/snapshots/thread_limits.py`.

Writes the files beside it anew. A number that moves shows as a changed line, to be explained in the commit. Metric
limits are in um, Unified ones in inch, stress areas in mm2 and in2; `checked` is the weakest mark of the three
diameters.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator
from decimal import Decimal
from pathlib import Path

from boltwright_server.quantities import Bounds, weakest
from boltwright_server.standards.loader import MARKS
from boltwright_server.threads import SYSTEMS, Member, ThreadLimits, ThreadSystem, classes, limits

HERE = Path(__file__).parent
_SHORT = {word: mark for mark, word in MARKS.items()}
_ENDS = ("min", "max")
#: What is checked against print; the rounded root never is.
_DIAMETERS = ("major_diameter", "pitch_diameter", "minor_diameter")


def files() -> dict[str, str]:
    """Return the text of every file by its name."""
    return {
        f"thread_limits_{system.name.lower().replace(' ', '_')}_{member}.csv": _table(_lines(system, member))
        for system in SYSTEMS
        for member in ("external", "internal")
    }


def _lines(system: ThreadSystem, member: Member) -> Iterator[dict[str, str]]:
    for size in system.sizes():
        for tolerance in classes(size):
            if tolerance.member == member:
                found = limits(size, tolerance)
                line = {"designation": f"{size.designation}-{tolerance.designation}", **_numbers(found)}
                yield {**line, "checked": _checked(found)}


def _numbers(found: ThreadLimits) -> dict[str, str]:
    """Every limit, tolerance, reference figure, engagement and stress area under its symbol."""
    numbers = {}
    for bounds in found.limits.values():
        for end in _ENDS:
            numbers[f"{bounds.symbol}_{end}"] = _shown(bounds, getattr(bounds, end))
    for group in (found.tolerances, found.stress_areas):
        for name, bounds in group.items():
            numbers[bounds.symbol if bounds.symbol not in numbers else name] = _shown(bounds, bounds.nominal)
    for name, bounds in found.reference.items():
        for end in _ENDS:
            numbers[f"{name}_{end}"] = _shown(bounds, getattr(bounds, end))
    for name, bounds in found.engagement.items():
        numbers[f"{name}_engagement"] = "..".join(_plain(one) for one in (bounds.min, bounds.max))
    return numbers


def _shown(bounds: Bounds, value: Decimal | None) -> str:
    """Lengths in mm become whole um; what is missing is a dash."""
    if value is None:
        return "-"
    return _plain(value * 1000) if bounds.unit == "mm" else _plain(value)


def _plain(value: Decimal | None) -> str:
    return "" if value is None else f"{value.normalize():f}"


def _checked(found: ThreadLimits) -> str:
    return _SHORT[weakest(*(found.limits[id].basis.checked for id in _DIAMETERS))]


def _table(lines: Iterable[dict[str, str]]) -> str:
    rows = list(lines)
    columns = list(dict.fromkeys(name for row in rows for name, cell in row.items() if cell != "-"))
    columns.remove("checked")
    text = io.StringIO()
    writer = csv.DictWriter(text, [*columns, "checked"], restval="-", extrasaction="ignore", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def main() -> None:
    """Write the snapshot anew."""
    for name, text in files().items():
        (HERE / name).write_text(text, encoding="utf-8")
        print(f"{name}: {text.count(chr(10)) - 1} threads, {len(text) / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
