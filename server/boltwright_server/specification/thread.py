"""The characteristics of a screw thread: measured diameters beside gauging, never one inferred from the other."""

from __future__ import annotations

from ..standards import rules
from ..threads import ThreadClass, ThreadSize, limits
from .characteristic import Characteristic, attribute, measured, with_role

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
    characteristics = {id: measured(id, found[id.removeprefix("thread_")]) for id in with_role("gauged")}
    number, clause = _GAUGING[size.system]
    basis = rules(number).clause(clause, "common practice")
    for id in ("thread_go_gauge", "thread_not_go_gauge"):
        characteristics[id] = attribute(id, basis)
    return characteristics
