"""Which limits of a request moved since an answer was kept: the old figure beside the new one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, Any

from msgspec import Meta, Struct

#: Members of a characteristic, and of the lot, that are compared; readings and sentences are not.
COMPARED = ("limits", "acceptance_limits", "allowed", "verdict")
COMPARED_OF_LOT = ("verdict", "missing")
_LIMITS = ("min", "max", "unit", "attainable")


class Moved(Struct):
    """A part of the answer that is another one today; `characteristic` is null for what concerns the lot."""

    characteristic: str | None
    member: Annotated[str, Meta(extra_json_schema={"enum": list(COMPARED_OF_LOT + COMPARED)})]
    old: Any
    new: Any


def moved(old: Mapping[str, Any], new: Mapping[str, Any]) -> list[Moved]:
    """Return what moved, of the lot first, then characteristic by characteristic; empty where nothing did."""
    return [*_of_lot(old, new), *_of_characteristics(old["characteristics"], new["characteristics"])]


def _of_lot(old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[Moved]:
    for member in COMPARED_OF_LOT:
        if old.get(member) != new.get(member):
            yield Moved(None, member, old.get(member), new.get(member))


def _of_characteristics(old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[Moved]:
    for id in dict.fromkeys((*old, *new)):
        for member in COMPARED:
            before, after = (_figures(of.get(id, {}).get(member)) for of in (old, new))
            if before != after:
                yield Moved(id, member, before, after)


def _figures(member: Any) -> Any:
    """Return limits without their basis: another clause with the same figure is no other limit."""
    if isinstance(member, Mapping):
        return {name: member[name] for name in _LIMITS if name in member}
    return member
