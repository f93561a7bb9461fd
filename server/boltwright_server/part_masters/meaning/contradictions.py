"""Words of a text that contradict the size, the class or the coating beside them: told, whichever of them is right."""

from __future__ import annotations

import re

from ...products import Product, products
from ...products.thread_class import thread_tolerance_class
from ...quantities.keeper import remembered
from ...threads import ThreadSize, UnifiedSize
from ..text.lexicon import UNSAID
from ..text.scanned import Reading
from .candidates import concepts_of, kinds_by_standard
from .findings import Finding
from .resolution import Sized
from .sizing import bare_size

#: Classes of ISO 3506 and grades of stainless steel.
_STAINLESS = re.compile(r"[ACDF]\d-|ASTM A193 B8|ASTM A194 8")
#: Coatings of carbon steel (common practice); zinc flake is laid on stainless steel too.
_OF_CARBON_STEEL = re.compile(r"zinc plated|tZn|galv|zinc nickel|cadmium|phosphated|(?:Fe/)?(?:Zn|Cd)|[A-D]\d[A-T]$")
_STEELS = ("A1", "A2", "A3", "A4", "A5")
#: Forms that many are called by.
_SAID_OF_MANY = ("plain", "flat", "cap")
#: Words of other products that a product which is held is called by too, by its kind or form (common practice):
#: `BOLZEN`, `FLACHRUNDSCHRAUBE` ISO 7380-1, `ESPARRAGO ALLEN`, `DOME HEAD`, knurled cap heads, `HEX WASHER HEAD`.
_CALLED_SO = {
    "bolt or pin": ("bolt",),
    "carriage bolt": ("button",),
    "cap nut": ("button",),
    "rod or stud": ("set",),
    "thumb screw": ("cap",),
    "washer head screw": ("flange",),
    "spring washer": ("prevailing",),
}
#: Words that say nothing of the form.
_ANY_KIND = ("nut", "bolt", "screw", "washer", "head", "part", "thread")
_COARSE, _FINE = ("coarse", "UNC"), ("fine", "UNF", "UNEF")


def contradictions(reading: Reading, sized: Sized | None, class_name: str | None) -> list[Finding]:
    """Return what the words of a reading say against one another; most say nothing of the kind."""
    found: list[Finding] = []
    if "other" in reading.features and reading.standard is not None:
        found += _of_other(reading.features["other"], reading.standard)
    if reading.series is not None or "series" in reading.features:
        found += _of_series(reading, sized)
    if class_name is not None and ("steel" in reading.features or reading.coating is not None):
        found += _of_steel(reading, class_name)
    if sized is not None and "without" in reading.features:
        found += _of_negation(reading.features["without"], sized.product)
    if sized is not None and reading.pitch is None and reading.system == "metric":
        found += _no_pitch(sized)
    if reading.tolerances and sized is not None:
        found += _of_tolerance(reading, sized, class_name)
    return found


def _told(member: str, given: str, other: str, detail: str) -> Finding:
    return Finding("words-contradict", member, given, other, detail)


def _size(reading: Reading, sized: Sized | None) -> ThreadSize | None:
    if sized is not None:
        return sized.size if sized.product.member is not None else None
    size = None if reading.diameter is None else bare_size(reading.system, reading.diameter, reading.pitch)
    return None if isinstance(size, Finding) else size


def _of_other(other: str, standard: str) -> list[Finding]:
    """`CAP NUT ISO 4032`, `WOOD SCREW ISO 4017`: the words name a product of another kind than the standard does."""
    kinds = kinds_by_standard().get(standard)
    called = {name for concept in concepts_of(standard) for name in (concept.kind, concept.form)}
    if kinds is None or not called.isdisjoint(_CALLED_SO.get(other, ())) or _titled_so(other, standard):
        return []
    detail = f"the words say {other}, but {standard} describes a {' or '.join(sorted(kinds))} of another kind"
    return [_told("standard", other, standard, detail)]


@remembered()
def _titled_so(other: str, standard: str) -> bool:
    """Whether the title of the standard has the word too: castle nuts of DIN 935-1, carriage bolts of DIN 603."""
    titles = " | ".join(one.title.lower() for one in products() if standard in (one.id, one.standard.id))
    named = ([word[:6] for word in one.split() if word not in _ANY_KIND] for one in other.split(" or "))
    return any(words and all(re.search(rf"\b{word}", titles) for word in words) for words in named)


def _of_series(reading: Reading, sized: Sized | None) -> list[Finding]:
    """`1/2-13 UNF`, `FINE THREAD` beside a coarse one. ISO 261; ASME B1.1-2003, Table 1."""
    size = _size(reading, sized)
    if size is None:
        return []
    thread = size.designation
    said, word = (reading.series or "").replace("UNR", "UN"), reading.features.get("series")
    if said and (not isinstance(size, UnifiedSize) or (said != size.series and said != "UN")):
        return [_told("thread", said, thread, f"the text says {said}, but the thread is {thread}")]
    other = {"fine": _COARSE, "coarse": _FINE}.get(word or "", ())
    if size.series in other:
        detail = f"the words say a {word} thread, but {thread} is a {'coarse' if other is _COARSE else 'fine'} one"
        return [_told("thread", f"{word} thread", thread, detail)]
    return []


def _of_negation(value: str, product: Product) -> list[Finding]:
    """`WITHOUT FLANGE` beside a standard of flange nuts."""
    forms = {form for concept in concepts_of(product.id) for form in (concept.form, concept.variant)}
    if value not in forms or forms - {value, UNSAID, *_SAID_OF_MANY}:
        return []
    detail = f"the words say not {value.replace('_', ' ')}, but {product.id} is"
    return [_told("standard", f"not {value}", product.id, detail)]


def _no_pitch(sized: Sized) -> tuple[Finding, ...]:
    """`NUT M8 ISO 8673`: the only thread of that diameter is meant, and M8 by itself is another one. ISO 261."""
    if sized.product.member is None or sized.size.series != "fine":
        return ()
    thread = sized.size.designation
    detail = f"no pitch is written: {sized.product.id} lists {thread}; without its pitch M{sized.size.d} is coarse"
    return (Finding("requirement-missing", "thread", f"M{sized.size.d}", thread, detail),)


def _of_steel(reading: Reading, name: str) -> list[Finding]:
    """`8.8 INOX`, `8.8 A2`; a stainless class that is zinc plated. ISO 898-1 and ISO 3506-1, scope."""
    steel, coating = reading.features.get("steel"), reading.coating
    stainless = _STAINLESS.match(name) is not None
    hard = name.endswith((" HV", "H"))
    if steel is not None and not stainless and not hard:
        detail = f"the words say {steel}, but {name} is a class of carbon and alloy steel"
        return [_told("property_class", steel, name, detail)]
    if steel in _STEELS and stainless and not name.startswith(f"{steel}-"):
        return [_told("property_class", str(steel), name, f"the words say steel {steel}, but the class is {name}")]
    if coating is not None and stainless and _OF_CARBON_STEEL.match(coating) is not None:
        detail = f"{name} is stainless steel, and {coating} is a coating of carbon steel: which is meant?"
        return [_told("coating", coating, name, detail)]
    return []


def _of_tolerance(reading: Reading, sized: Sized, name: str | None) -> list[Finding]:
    """A tolerance class that is not the one of the product is a requirement of its own."""
    own = _tolerance(sized.product, sized.size, name)
    if own is None:
        return []
    if isinstance(sized.size, UnifiedSize):
        # 2A is written of screws of 3A and of nuts (common practice): left over, and no more.
        reading.left_over += [said for said in reading.tolerances if said.upper() != own.upper()]
        return []
    return [
        _told("thread", said, own, f"the text says thread tolerance {said}; {sized.product.id} has {own}")
        for said in reading.tolerances
        # How it was written is lost in capitals: 6G of a nut and 6g of a bolt are told apart by the product.
        if said.upper() != own.upper()
    ]


@remembered(4096)
def _tolerance(product: Product, size: ThreadSize, name: str | None) -> str | None:
    """Return the tolerance class before coating; None where the mark of the class says another."""
    if product.member is None or (name or "").endswith(("U", "Z", "X")):
        return None
    row = product.row(size)
    found = thread_tolerance_class(product, row, product.options.grade or str(row.cells.get("grade") or "A"), name)
    return None if found is None else found.designation
