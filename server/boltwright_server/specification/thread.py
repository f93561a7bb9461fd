"""The characteristics of a screw thread: measured diameters beside gauging, never one inferred from the other."""

from __future__ import annotations

from ..standards import rules
from ..threads import ThreadClass, ThreadSize, limits
from .characteristic import Characteristic, attribute, measured

#: The scope of ISO 1502 says that gauging to it decides; a part can pass a gauge and still measure outside.
_GAUGING = {
    "ISO metric": ("ISO 1502", "clause 1 and acceptance by gauges"),
    "Unified inch": ("ASME B1.2", "acceptance by gages"),
}


def thread_characteristics(size: ThreadSize, tolerance: ThreadClass) -> dict[str, Characteristic]:
    """Return measured and gauged characteristics of one member of a thread.

    Raises:
        NotStandardised, UnknownName: as `threads.limits`.
    """
    found = limits(size, tolerance).limits
    measurable = {
        "thread_major_diameter": found["major_diameter"],
        "thread_pitch_diameter": found["pitch_diameter"],
        "thread_minor_diameter": found["minor_diameter"],
    }
    characteristics = {id: measured(id, bounds) for id, bounds in measurable.items()}
    number, clause = _GAUGING[size.system]
    basis = rules(number).clause(clause, "common practice")
    for id in ("thread_go_gauge", "thread_not_go_gauge"):
        characteristics[id] = attribute(id, basis)
    return characteristics
