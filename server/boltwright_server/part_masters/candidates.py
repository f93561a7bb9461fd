"""Which products of the standards a text may mean. Everything here is remembered: part masters repeat themselves."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from functools import cache, lru_cache
from typing import NamedTuple

from ..designations import parse_thread
from ..products import Product, products
from ..products.look_alikes import LookAlike, differences, look_alikes, told
from ..quantities import Refusal
from ..threads import MetricSize, ThreadSize, find_size
from .findings import Finding
from .lexicon import UNSAID, Concept, concepts

_REMEMBERED = 65_536


class Wanted(NamedTuple):
    """The part of a reading that decides which products and sizes are meant."""

    standard: str | None
    concept: str | None
    kind: str
    drive: str
    form: str
    thread_form: str
    system: str | None
    diameter: str | None
    pitch: str | None


class Candidates(NamedTuple):
    """Products with the size each has, how they were found, and what is wrong with standard or size."""

    parts: tuple[tuple[Product, ThreadSize], ...]
    how: str
    former: str | None
    findings: tuple[Finding, ...]


@cache
def _former_standards() -> dict[str, LookAlike]:
    return {one.former: one for one in look_alikes()}


@cache
def _by_standard() -> dict[str, tuple[Product, ...]]:
    found: dict[str, tuple[Product, ...]] = {}
    for product in products():
        for name in {product.standard.id, product.id}:
            found[name] = (*found.get(name, ()), product)
    return found


@lru_cache(maxsize=_REMEMBERED)
def candidates(wanted: Wanted) -> Candidates:
    """Return the products that fit what was said."""
    named, how, former, findings = _products(wanted)
    if not named:
        return Candidates((), how, former, findings)
    if wanted.diameter is None:
        return Candidates((), how, former, (*findings, _missing("thread", "no thread or size is given")))
    parts, wrong = _sized(named, wanted)
    return Candidates(parts, how, former, (*findings, *(() if parts else wrong)))


def _missing(member: str, detail: str) -> Finding:
    return Finding("requirement-missing", member, None, None, detail)


def _products(wanted: Wanted) -> tuple[tuple[Product, ...], str, str | None, tuple[Finding, ...]]:
    if wanted.standard is None:
        return _by_words(wanted), "words", None, ()
    held = _by_standard()
    if wanted.standard in held:
        return _narrowed(held[wanted.standard], wanted), "standard", None, ()
    former = _former_standards().get(wanted.standard)
    if former is not None:
        found = tuple(product for name in former.partners for product in held.get(name, ()))
        return found, "former", former.former, (_look_alike(former, wanted),)
    known = Finding(
        "standard-unknown", "standard", wanted.standard, None, f"{wanted.standard} is not held: nothing is checked"
    )
    return (), "unknown", None, (known,)


def _look_alike(former: LookAlike, wanted: Wanted) -> Finding:
    """What differs at that size, as every other resource tells it."""
    size = None if wanted.diameter is None else f"M{wanted.diameter}" + (f"x{wanted.pitch}" if wanted.pitch else "")
    partner = former.partner(size)
    known = differences(former, size)
    basis = known[0].partner_basis if known else None
    return Finding("look-alike-standard", "standard", former.former, partner.id, told(former, size), basis)


def _narrowed(named: tuple[Product, ...], wanted: Wanted) -> tuple[Product, ...]:
    """Several products of one standard: the words choose."""
    if len(named) < 2:
        return named
    meant = {name for concept in _fitting(wanted) for name in concept.products}
    return tuple(product for product in named if product.id in meant) or named


def _by_words(wanted: Wanted) -> tuple[Product, ...]:
    held = _by_standard()
    names: Iterable[str] = (name for concept in _fitting(wanted) for name in concept.products)
    return tuple(product for name in dict.fromkeys(names) for product in held.get(name, ()))


def _fitting(wanted: Wanted) -> list[Concept]:
    """Concepts that agree with everything said; the words decide, what is unsaid leaves all open."""
    series = UNSAID
    if wanted.system == "metric" and wanted.diameter is not None:
        size = _size(wanted.diameter, wanted.pitch)
        series = size.series if isinstance(size, MetricSize) else UNSAID
    found = [
        concept
        for concept in concepts()
        if _agrees(concept, wanted)
        and concept.system == (wanted.system or "metric")
        and (UNSAID in (series, concept.series) or series == concept.series)
    ]
    exact = [concept for concept in found if concept.thread_form == wanted.thread_form]
    return exact or [concept for concept in found if concept.thread_form == UNSAID]


def _agrees(concept: Concept, wanted: Wanted) -> bool:
    """Every word that was said agrees; a form that was not said is the plain one."""
    if wanted.concept is not None:
        return concept.concept == wanted.concept and wanted.form in (concept.form, UNSAID)
    if wanted.kind == wanted.drive == wanted.form == UNSAID:
        return False
    return (
        wanted.kind in (concept.kind, UNSAID)
        and wanted.drive in (concept.drive, UNSAID)
        and wanted.form == concept.form
    )


@lru_cache(maxsize=4096)
def _size(diameter: str, pitch: str | None) -> MetricSize | Refusal:
    try:
        return find_size(Decimal(diameter), None if pitch is None else Decimal(pitch))
    except (Refusal, ArithmeticError) as error:
        return error if isinstance(error, Refusal) else Refusal(str(error))


def _sized(named: tuple[Product, ...], wanted: Wanted) -> tuple[tuple[tuple[Product, ThreadSize], ...], list[Finding]]:
    """Return each product with its size; a fine-thread standard with one pitch at a diameter needs none named."""
    parts, wrong = [], []
    for product in named:
        size = _size_in(product, wanted)
        if isinstance(size, Finding):
            wrong.append(size)
        else:
            parts.append((product, size))
    return tuple(parts), wrong[:1]


def _size_in(product: Product, wanted: Wanted) -> ThreadSize | Finding:
    assert wanted.diameter is not None
    if product.family.inch:
        return _inch_size_in(product, wanted.diameter, wanted.pitch)
    given = f"M{wanted.diameter}" + (f"x{wanted.pitch}" if wanted.pitch else "")
    size = _size(wanted.diameter, wanted.pitch)
    known = size if isinstance(size, MetricSize) else None
    if known is not None and product.table.find(_row_key(product, known)) is not None:
        return known
    same = [name for name in product.size_keys() if name.split("x")[0] == f"M{wanted.diameter}"]
    if wanted.pitch is None and len(same) == 1:
        return _size_of(same[0])
    if isinstance(size, Refusal):
        near, detail = ", ".join(size.nearest or same), size.detail
    else:
        near, detail = ", ".join(same), f"{product.standard.cited} lists no {_row_key(product, size)}"
    code = "pitch-not-in-standard" if same else "size-not-in-standard"
    return Finding(code, "thread", given, near or None, detail)


def _row_key(product: Product, size: MetricSize) -> str:
    return size.designation if product.names_thread else f"M{size.d}"


def _inch_size_in(product: Product, diameter: str, threads_per_inch: str | None) -> ThreadSize | Finding:
    if threads_per_inch is None:
        return Finding(
            "requirement-missing", "thread", diameter, None, f"{diameter} in: the threads per inch are missing"
        )
    text = f"{diameter}-{threads_per_inch}"
    try:
        size = parse_thread(text).size
        product.row(size)
    except Refusal as refusal:
        near = ", ".join(refusal.nearest) or None
        return Finding("size-not-in-standard", "thread", text, near, refusal.detail)
    return size


def _size_of(name: str) -> MetricSize:
    d, _, pitch = name.removeprefix("M").partition("x")
    return find_size(Decimal(d), Decimal(pitch) if pitch else None)
