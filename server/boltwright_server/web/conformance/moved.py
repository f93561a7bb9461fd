"""Which limits of a request moved since an answer was kept: the old figure beside the new one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

#: Members of a characteristic, and of the lot, that are compared; readings and sentences are not.
COMPARED = ("limits", "acceptance_limits", "allowed", "verdict")
COMPARED_OF_LOT = ("verdict", "missing")
_LIMITS = ("min", "max", "unit", "attainable")


def moved(old: Mapping[str, Any], new: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Return what moved, of the lot first, then characteristic by characteristic; empty where nothing did."""
    return [*_of_lot(old, new), *_of_characteristics(old["characteristics"], new["characteristics"])]


def _of_lot(old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    for member in COMPARED_OF_LOT:
        if old.get(member) != new.get(member):
            yield _moved(None, member, old.get(member), new.get(member))


def _of_characteristics(old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    for id in dict.fromkeys((*old, *new)):
        for member in COMPARED:
            before, after = (_figures(of.get(id, {}).get(member)) for of in (old, new))
            if before != after:
                yield _moved(id, member, before, after)


def _figures(member: Any) -> Any:
    """Return limits without their basis: another clause with the same figure is no other limit."""
    if isinstance(member, Mapping):
        return {name: member[name] for name in _LIMITS if name in member}
    return member


def _moved(id: str | None, member: str, old: Any, new: Any) -> dict[str, Any]:
    return {"characteristic": id, "member": member, "old": old, "new": new}
