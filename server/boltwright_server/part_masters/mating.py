"""Bolt and nut of a set: may they be used together?"""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache

from ..designations import ProductDesignation
from ..quantities import Basis
from ..standards import standard
from .findings import Finding
from .reading import read
from .requirement import resolve

_PAIRING = Basis("ISO 898-2", "2012", "Table 2", "tabulated", "two reproductions")


def check_mate(part: ProductDesignation | None, text: str, said: list[Finding]) -> None:
    """Add a finding where the part and what it is sold with must not be paired."""
    if not text:
        return
    mate = _mate(text)
    if mate is None:
        detail = f"mates_with {text[:60]!r} is no designation that is held"
        said.append(Finding("value-unreadable", "mates_with", text[:60], None, detail))
        return
    if part is not None:
        reason = _reason(part, mate)
        if reason is not None:
            said.append(Finding("pair-not-permitted", "mates_with", text[:60], None, reason, _PAIRING))


@lru_cache(maxsize=16_384)
def _mate(text: str) -> ProductDesignation | None:
    return resolve(read(text)).part


def _reason(one: ProductDesignation, other: ProductDesignation) -> str | None:
    """Return why a bolt and a nut must not be paired, or None; other pairs are not judged."""
    pair = {part.product.member: part for part in (one, other)}
    bolt, nut = pair.get("external"), pair.get("internal")
    if bolt is None or nut is None:
        return None
    if bolt.size != nut.size:
        return f"the bolt has thread {bolt.size.designation}, the nut {nut.size.designation}"
    if nut.property_class in ("04", "05"):
        return f"a thin nut of class {nut.property_class} cannot carry the bolt's load: it pairs with no bolt class"
    needed = _needed(bolt.property_class)
    given = _number(nut.property_class)
    if needed is None or given is None or given >= needed:
        return None
    return (
        f"a nut of class {nut.property_class} is too weak for a bolt of class {bolt.property_class}: "
        f"class {needed} or higher is needed (ISO 898-2:2012, Table 2)"
    )


def _number(name: str | None) -> Decimal | None:
    return Decimal(name) if name is not None and name.isdigit() else None


@lru_cache(maxsize=64)
def _needed(bolt_class: str | None) -> Decimal | None:
    """The lowest nut class that carries the bolt class: the pair of Table 2, or the next higher one."""
    if bolt_class is None:
        return None
    strength = bolt_class.removesuffix("U").partition(".")[0]
    if not strength.isdigit():
        return None
    table = standard("iso_898_2_2012").table("table_2")
    classes = sorted(Decimal(str(key[0])) for key in table.rows)
    return next((one for one in classes if one >= Decimal(strength)), None)
