"""Bolt and nut of a set: may they be used together?"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from ..designations import ProductDesignation
from ..mechanical import find_grade
from ..mechanical.pairing import NutPair, pairing
from ..products import Product
from ..quantities import Basis, Refusal
from ..threads import ThreadSize
from .findings import Finding
from .reading import read
from .requirement import LEFT, resolve

_REMEMBERED = 16_384
_SAME_THREAD = Basis("ISO 898-2", "2012", "mating threads", "common practice", "memory")
_ALLOWANCES = Basis("ISO 10684", "2004", "clause on pairing", "tabulated", "memory")
_BOTH_CUT = (
    "both threads are cut with an allowance for the zinc: bolt {bolt} and nut {nut}; only one of the two may be "
    "(ISO 10684:2004)"
)


class _Objection(NamedTuple):
    """Why two parts must not be paired."""

    reason: str
    basis: Basis


#: Several mates in one cell: `ISO 4032 M10 8; ISO 7089 10 200 HV`.
_BETWEEN = re.compile(r"[;&+\n]")
_LEFT_HAND = _Objection("what it is sold with has a left-hand thread, the part a right-hand one", _SAME_THREAD)


def check_mate(part: ProductDesignation | None, text: str, said: list[Finding]) -> None:
    """Add a finding where the part and what it is sold with must not be paired."""
    for one in filter(None, map(str.strip, _BETWEEN.split(text))):
        _check_one(part, one, said)


def _check_one(part: ProductDesignation | None, text: str, said: list[Finding]) -> None:
    mate = mate_of(text)
    if mate is None and not _named(text):
        detail = f"mates_with {text[:60]!r} is no designation that is held"
        said.append(Finding("value-unreadable", "mates_with", text[:60], None, detail))
        return
    found = None if part is None or mate is None else _objection(part, mate)
    if part is not None and _left_hand(text):
        found = _LEFT_HAND
    if found is not None:
        said.append(Finding("pair-not-permitted", "mates_with", text[:60], None, found.reason, found.basis))


@lru_cache(maxsize=_REMEMBERED)
def mate_of(text: str) -> ProductDesignation | None:
    """Return the product that a text means, or None where it is not certain."""
    return resolve(read(text)).part


@lru_cache(maxsize=_REMEMBERED)
def _left_hand(text: str) -> bool:
    """Whether a text names a left-hand thread; a part that is certain has a right-hand one."""
    return resolve(read(text)).reading.features.get("hand") == LEFT


@lru_cache(maxsize=_REMEMBERED)
def _named(text: str) -> bool:
    """Whether a text names a product, if only one of a former standard or one of several: then nothing is judged."""
    found = resolve(read(text))
    return found.designation is not None or bool(found.alternatives) or "hand" in found.reading.features


def _objection(one: ProductDesignation, other: ProductDesignation) -> _Objection | None:
    """Say why a bolt and a nut must not be paired, or None; other pairs are not judged."""
    pair = {part.product.member: part for part in (one, other)}
    bolt, nut = pair.get("external"), pair.get("internal")
    if bolt is None or nut is None:
        return None
    if bolt.size != nut.size:
        reason = f"the bolt has thread {bolt.size.designation}, the nut {nut.size.designation}"
        return _Objection(reason, _SAME_THREAD)
    if bolt.mark and nut.mark:
        return _Objection(_BOTH_CUT.format(bolt=bolt.mark, nut=nut.mark), _ALLOWANCES)
    if bolt.property_class is None or nut.property_class is None:
        return None
    return _by_strength(bolt.product, nut.product, bolt.size, bolt.property_class, nut.property_class)


@lru_cache(maxsize=_REMEMBERED)
def _by_strength(bolt: Product, nut: Product, size: ThreadSize, bolt_class: str, nut_class: str) -> _Objection | None:
    """ISO 898-2:2012, Table 2; SAE J429: the nut must be listed for the bolt, or prove at least as much.

    A nut whose class is one of its own is not judged.
    """
    if nut.options.strength:
        return None
    try:
        nuts = pairing(size, find_grade(bolt.strength_class(bolt_class), "external")).nuts
        name = find_grade(nut_class, "internal").name
    except Refusal:
        return None
    listed = [one for one in nuts if one.nut == name and _same_form(one, nut, nut_class)]
    if not listed or listed[0].holds:
        return None
    lowest = next((one.nut for one in nuts if one.holds and _same_form(one, nut, one.nut)), None)
    needed = "" if lowest is None else f"; {lowest} holds it"
    reason = f"nut {nut_class} does not hold a bolt {bolt_class}: {listed[0].reason}{needed}"
    return _Objection(reason, listed[0].basis)


def _same_form(pair: NutPair, nut: Product, nut_class: str) -> bool:
    """Whether the pair is of nuts of that height and shape."""
    style, form = nut.nut_style(nut_class), nut.options.form or None
    return pair.style in (None, style) and pair.form in (None, form)
