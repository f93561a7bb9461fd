"""The words of a reason: what is required, what was read, which pieces, in plain sentences."""

from __future__ import annotations

from collections.abc import Sequence

from ..quantities import DOUBTS, Basis, Bounds, cited
from ..specification.characteristic import in_words
from .column_plan import ColumnPlan
from .statistics import Statistics

_BREAKS = {"thread": "in the free thread", "shank": "in the shank"}
_MOST_NAMED = 5
#: Clause of a limit that the request states.
OF_REQUEST = "requirement of the request"


def named(id: str) -> str:
    """Return a characteristic in words: `hardness_core` is "Core hardness"."""
    words = in_words(id)
    return f"{words[:1].upper()}{words[1:]}"


def counted(count: int, one: str, several: str | None = None) -> str:
    """Return "1 piece", "2 pieces"."""
    return f"{count} {one}" if count == 1 else f"{count} {several or one + 's'}"


def do_not_conform(count: int, whole: int | None = None) -> str:
    """Return "1 of 5 pieces does not conform"."""
    of = counted(count, "piece") if whole is None else f"{count} of {counted(whole, 'piece')}"
    return f"{of} {'does' if count == 1 else 'do'} not conform"


def pieces_named(pieces: Sequence[int], count: int) -> str:
    """Return "piece 4", "pieces 1, 2, 3, 4, 5 and 7 more": `pieces` are indexes from 0, people count from 1."""
    listed = ", ".join(str(piece + 1) for piece in pieces[:_MOST_NAMED])
    more = f" and {count - _MOST_NAMED} more" if count > _MOST_NAMED else ""
    return f"{'piece' if count == 1 else 'pieces'} {listed}{more}"


def of_pieces(count: int, whole: int, pieces: Sequence[int]) -> str:
    """Return "2 of 5 pieces (pieces 1, 3)"."""
    return f"{count} of {counted(whole, 'piece')} ({pieces_named(pieces, count)})"


def clause(basis: Basis) -> str:
    """Return the citation of a basis, as a reader looks it up, with the doubt that lies on it."""
    if basis.clause == OF_REQUEST:
        document = basis.standard if basis.edition == "-" else f"{basis.standard}, revision {basis.edition}"
        return f"{document}; {basis.note}" if basis.note and basis.note.endswith(DOUBTS) else document
    title = cited(basis.standard, basis.edition) if basis.edition[:1].isdigit() else basis.standard
    return ", ".join(part for part in (title, basis.clause, basis.doubt) if part)


def doubt_of(basis: Basis) -> str:
    """Return the doubt that lies on a limit, also on the side that a purchaser leaves to the standard; else nothing."""
    if basis.note and basis.clause == OF_REQUEST:
        return next((doubt for doubt in DOUBTS if basis.note.endswith(doubt)), "")
    return basis.doubt


def limits_in_words(limits: Bounds | None) -> str:
    """Return "15.73 to 16.00 mm", "at least 17.77 mm"; nothing where both sides are open."""
    if limits is None or (limits.min is None and limits.max is None):
        return ""
    if limits.max is None:
        return f"at least {limits.min} {limits.unit}"
    return (
        f"at most {limits.max} {limits.unit}" if limits.min is None else f"{limits.min} to {limits.max} {limits.unit}"
    )


def required(plan: ColumnPlan) -> str:
    """Return what is asked of a piece."""
    characteristic = plan.characteristic
    if characteristic.kind == "category":
        places = [_BREAKS.get(str(word), str(word)) for word in characteristic.allowed]
        return f"a break {' or '.join(places)}"
    if characteristic.kind == "attribute":
        return characteristic.met
    rise = characteristic.over_core
    over_core = "" if rise is None else f"at most {rise.max} {rise.unit} above the core of the same piece"
    return " and ".join(part for part in (limits_in_words(plan.limits), over_core) if part)


def read(found: Statistics | None, unit: str | None) -> str:
    """Return between which readings a column lies; nothing where there is no number."""
    if found is None:
        return ""
    unit = unit or ""
    if found.min == found.max:
        return f"; read: {found.min:.15g} {unit}".rstrip()
    return f"; read: {found.min:.15g} to {found.max:.15g} {unit}".rstrip()
