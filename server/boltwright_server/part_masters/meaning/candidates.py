"""Which products of the standards a text may mean. Everything here is remembered: part masters repeat themselves."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from ...products import Product, products
from ...products.look_alikes import LookAlike, differences, look_alikes, told
from ...products.not_held import not_held
from ...quantities.keeper import remembered
from ...threads import MetricSize, ThreadSize
from ..text.lexicon import UNSAID, Concept, concepts
from .findings import Finding
from .sizing import bare_size, metric_size, size_in, written_size

_REMEMBERED = 65_536
#: Forms that only their own products have; `cap`, `flat` and `plain` are said of many.
_STRONG_FORMS = frozenset(
    (
        "countersunk",
        "button",
        "flange",
        "thin",
        "high",
        "prevailing",
        "set",
        "large",
        "small",
        "chamfered",
        "heavy",
        "heavy_thin",
    )
)


#: Heights of nuts, which their classes tell apart.
_HEIGHTS = ("thin", "high")
#: A chamfered point is the usual end of a bolt, and any washer may be called one of metal.
_USUAL_VARIANTS = {"bolt": ("flat", "metal"), "washer": ("flat", "metal")}


class Wanted(NamedTuple):
    """The part of a reading that decides which products and sizes are meant."""

    standard: str | None
    kind: str
    drive: str
    form: str
    variant: str
    thread_form: str
    #: `bolt` or `screw`, as it was written: inch standards name their products so.
    noun: str
    system: str | None
    diameter: str | None
    pitch: str | None


class Bare(NamedTuple):
    """A part of which only the thread is known; `kind` is UNSAID where nothing says what carries it."""

    standard: str
    size: ThreadSize
    kind: str


@dataclass(frozen=True, eq=False, slots=True)
class Candidates:
    """Products with the size each has, how they were found, and what is wrong with standard or size.

    There is one of each: what follows from it is remembered by its identity.
    """

    parts: tuple[tuple[Product, ThreadSize], ...]
    how: str
    former: str | None
    findings: tuple[Finding, ...]
    #: The standard that is named and of which no product is held in that size; the thread by itself, and what it is of.
    bare: Bare | None = None
    #: The size that a former standard is written with, where neither it nor what replaced it is held.
    size: str | None = None
    #: Of the same family in another height: a class may be listed there only, as 04 of thin nuts.
    others: tuple[tuple[Product, ThreadSize], ...] = ()
    #: The product that is named, in a size that it does not list.
    unlisted: tuple[Product, ThreadSize] | None = None


@remembered()
def _former_standards() -> dict[str, LookAlike]:
    return {one.former: one for one in look_alikes()}


@remembered()
def _by_standard() -> dict[str, tuple[Product, ...]]:
    found: dict[str, tuple[Product, ...]] = {}
    for product in products():
        for name in {product.standard.id, product.id, *product.standard.also}:
            found[name] = (*found.get(name, ()), product)
    return found


@remembered(_REMEMBERED)
def candidates(wanted: Wanted) -> Candidates:
    """Return the products that fit what was said."""
    named, how, former, findings = _products(wanted)
    if not named:
        bare, of_thread = _bare(wanted)
        size = None if former is None else _size_written(wanted)
        return _the_only((), how, former, (*findings, *of_thread), bare, size)
    if wanted.diameter is None:
        return _the_only((), how, former, (*findings, _missing("thread", "no thread or size is given")))
    parts, wrong = _sized(named, wanted, former is not None)
    if not parts and how == "standard" and former is not None:
        replaced_by = _partners(_former_standards()[former])
        parts, how = _sized(replaced_by, wanted, former=True)[0], "former"
    if how == "words":
        others = _sized(_other_heights(wanted), wanted, former=False)[0]
        wrong = [_of_family(one, named) for one in wrong]
        return _the_only(parts, how, former, (*findings, *(() if parts else wrong)), others=others)
    if parts:
        return _the_only(parts, how, former, findings)
    unlisted = written_size(named[0], wanted.diameter, wanted.pitch) if len(named) == 1 and how == "standard" else None
    as_written = None if unlisted is None else (named[0], unlisted)
    bare = None if former is None else _bare(wanted)[0]
    return _the_only(parts, how, former, (*findings, *wrong), bare, unlisted=as_written)


@remembered(_REMEMBERED)
def _the_only(
    parts: tuple[tuple[Product, ThreadSize], ...],
    how: str,
    former: str | None,
    findings: tuple[Finding, ...],
    bare: Bare | None = None,
    size: str | None = None,
    others: tuple[tuple[Product, ThreadSize], ...] = (),
    unlisted: tuple[Product, ThreadSize] | None = None,
) -> Candidates:
    """Many ways of saying it come to the same candidates."""
    return Candidates(parts, how, former, findings, bare, size, others, unlisted)


def _bare(wanted: Wanted) -> tuple[Bare | None, tuple[Finding, ...]]:
    """The thread of a part whose standard is not held, or what is wrong with it: ISO 261 and the Unified series."""
    if wanted.standard is None or wanted.diameter is None:
        return None, ()
    kinds = kinds_by_standard().get(wanted.standard) or frozenset((wanted.kind,))
    size = bare_size(wanted.system, wanted.diameter, wanted.pitch)
    if isinstance(size, Finding):
        return None, (size,)
    return Bare(wanted.standard, size, next(iter(kinds)) if len(kinds) == 1 else UNSAID), ()


def _of_family(wrong: Finding, named: tuple[Product, ...]) -> Finding:
    """The row names no standard: what is wrong is said of the products that its words may mean."""
    names = " or ".join(product.id for product in named)
    return wrong._replace(detail=f"the row names no standard; its words may mean {names}: {wrong.detail}")


def _other_heights(wanted: Wanted) -> tuple[Product, ...]:
    """Return what the words may mean in another height, where they say none: only nuts are called so."""
    if wanted.form != UNSAID:
        return ()
    return tuple(product for form in _HEIGHTS for product in _by_words(wanted._replace(form=form)))


def _missing(member: str, detail: str) -> Finding:
    return Finding("requirement-missing", member, None, None, detail)


def _products(wanted: Wanted) -> tuple[tuple[Product, ...], str, str | None, tuple[Finding, ...]]:
    if wanted.standard is None:
        return _by_words(wanted), "words", None, ()
    held = _by_standard()
    former = _former_standards().get(wanted.standard)
    if wanted.standard in held:
        named = _narrowed(held[wanted.standard], wanted)
        if former is None:
            return named, "standard", None, _disagreement(named, wanted)
        return named, "standard", former.former, (_look_alike(former, wanted), *_disagreement(named, wanted))
    if former is not None:
        found = _partners(former)
        return found, "former", former.former, (_look_alike(former, wanted), *_disagreement(found, wanted))
    known = not_held(wanted.standard)
    detail = f"{wanted.standard} is not held: nothing is checked against it"
    detail += "" if known is None else f". It names {known.what}: {known.reason}"
    return (), "unknown", None, (Finding("standard-unknown", "standard", wanted.standard, None, detail),)


def _partners(former: LookAlike) -> tuple[Product, ...]:
    return tuple(product for name in former.partners for product in _by_standard().get(name, ()))


def _look_alike(former: LookAlike, wanted: Wanted) -> Finding:
    """What differs at that size, as every other resource tells it."""
    size = _former_size(former, wanted)
    known = differences(former, size)
    basis = known[0].partner_basis if known else former.basis
    name = former.partner_name(size)
    return Finding("look-alike-standard", "standard", former.former, name, told(former, size), basis)


def _former_size(former: LookAlike, wanted: Wanted) -> str | None:
    """The thread that a former standard names; of a washer it may name the hole."""
    if wanted.diameter is None:
        return None
    for name in (former.former, *former.partners[:1]):
        for product in _by_standard().get(name, ()):
            size = size_in(product, wanted.diameter, wanted.pitch, by_hole=True)
            if not isinstance(size, Finding):
                return size.designation
    return _size_written(wanted)


def _size_written(wanted: Wanted) -> str | None:
    """The thread as it is written, where no product that is held has it."""
    if wanted.diameter is None or wanted.system == "inch":
        return None
    return f"M{wanted.diameter}" + (f"x{wanted.pitch}" if wanted.pitch else "")


def _narrowed(named: tuple[Product, ...], wanted: Wanted) -> tuple[Product, ...]:
    """Several products of one standard: the words choose, at last the noun that ends the product's name."""
    if len(named) < 2:
        return named
    named = _of_kind(named, wanted)
    meant = {name for concept in _fitting(wanted) for name in concept.products}
    found = tuple(product for product in named if product.id in meant) or named
    by_noun = tuple(product for product in found if product.id.endswith(wanted.noun))
    return by_noun if len(found) > 1 and by_noun else found


def _of_kind(named: tuple[Product, ...], wanted: Wanted) -> tuple[Product, ...]:
    """Bolts and nuts of one standard: the word chooses; without one it is the product that bears the number alone."""
    if wanted.kind == UNSAID:
        return tuple(product for product in named if product.id == wanted.standard) or named
    return tuple(product for product in named if wanted.kind in _kinds((product,))) or named


def _by_words(wanted: Wanted) -> tuple[Product, ...]:
    """A word names a family: sockets have no plain form, any of their heads may be meant."""
    held = _by_standard()
    fitting = _fitting(wanted)
    if not fitting and wanted.form == UNSAID and wanted.drive != UNSAID:
        forms = dict.fromkeys(concept.form for concept in concepts() if concept.drive == wanted.drive)
        fitting = [concept for form in forms for concept in _fitting(wanted._replace(form=form))]
    names: Iterable[str] = (name for concept in fitting for name in concept.products)
    return tuple(product for name in dict.fromkeys(names) for product in held.get(name, ()))


def _fitting(wanted: Wanted) -> list[Concept]:
    """Concepts that agree with everything said; the words decide, what is unsaid leaves all open."""
    series = UNSAID
    if wanted.system == "metric" and wanted.diameter is not None:
        size = metric_size(wanted.diameter, wanted.pitch)
        series = size.series if isinstance(size, MetricSize) else UNSAID
    found = [
        concept
        for concept in concepts()
        if _agrees(concept, wanted)
        and concept.system == (wanted.system or "metric")
        and (UNSAID in (series, concept.series) or series == concept.series)
    ]
    for feature in ("thread_form", "variant"):
        said = getattr(wanted, feature)
        exact = [concept for concept in found if getattr(concept, feature) == said]
        found = exact or [concept for concept in found if getattr(concept, feature) == UNSAID]
    return found


def _agrees(concept: Concept, wanted: Wanted) -> bool:
    """Every word that was said agrees; a form that was not said is the plain one."""
    if wanted.kind == wanted.drive == wanted.form == UNSAID:
        return False
    return (
        wanted.kind in (concept.kind, UNSAID)
        and wanted.drive in (concept.drive, UNSAID)
        and wanted.form == concept.form
    )


@remembered()
def concepts_of(product: str) -> tuple[Concept, ...]:
    """Return what a product can be called by; a former standard by the words of what replaced it."""
    former = _former_standards().get(product)
    names = {product, *(() if former is None else former.partners)}
    return tuple(concept for concept in concepts() if not names.isdisjoint(concept.products))


def _disagreement(named: tuple[Product, ...], wanted: Wanted) -> tuple[Finding, ...]:
    """Words that no product of the named standard can be called by."""
    known = [concept for product in named for concept in concepts_of(product.id)]
    found = []
    for feature in ("kind", "drive", "form", "variant", "thread_form"):
        said = getattr(wanted, feature)
        meant = {getattr(concept, feature) for concept in known} - {UNSAID}
        if said == UNSAID or said in meant or _said_of_any(feature, said, known):
            continue
        if meant or (known and feature in ("form", "variant")):
            shown = " or ".join(sorted(meant)) or "plain"
            detail = f"the words say {said.replace('_', ' ')}, but {wanted.standard} is {shown}"
            found.append(Finding("words-contradict", "standard", wanted.standard, said, detail))
    return tuple(found)


def _said_of_any(feature: str, said: str, known: list[Concept]) -> bool:
    """Whether a word of form is used so loosely that it contradicts nothing; a cap on a nut makes it another nut."""
    kinds = {concept.kind for concept in known}
    if feature == "variant":
        return any(said in _USUAL_VARIANTS.get(kind, ()) for kind in kinds)
    return feature == "form" and said not in _STRONG_FORMS and not (said == "cap" and kinds == {"nut"})


@remembered()
def kinds_by_standard() -> dict[str, frozenset[str]]:
    """Return what the products of each standard are: bolt, nut or washer. Former ones are what followed them."""
    found = {name: _kinds(several) for name, several in _by_standard().items()}
    for former in look_alikes():
        kinds = frozenset[str]().union(*(found.get(name, frozenset()) for name in former.partners))
        if kinds and former.former not in found:
            found[former.former] = kinds
    return found


def _kinds(several: tuple[Product, ...]) -> frozenset[str]:
    names = {"internal": "nut", "external": "bolt"}
    return frozenset("washer" if product.member is None else names[product.member] for product in several)


def _sized(
    named: tuple[Product, ...], wanted: Wanted, former: bool
) -> tuple[tuple[tuple[Product, ThreadSize], ...], list[Finding]]:
    """Return each product with its size, or what is wrong with the first."""
    assert wanted.diameter is not None
    parts, wrong = [], []
    for product in named:
        size = size_in(product, wanted.diameter, wanted.pitch, by_hole=former)
        if isinstance(size, Finding):
            wrong.append(size)
        else:
            parts.append((product, size))
    return tuple(parts), wrong[:1]
