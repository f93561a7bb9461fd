"""Kinds of fault of the mixed catalogue: which finding each asks for by the wire contract, and how a row gets it."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, replace

from . import mixed_parts as book
from .mixed_parts import Part

Cells = dict[str, str]
Spoil = Callable[[Part, Cells, str, random.Random], None]
Fits = Callable[[Part], bool]
ANY = "any"
"""Any warning or error: the contract asks that it is told and names no code."""
REPEATS = frozenset({"duplicate-part-number", "duplicate-requirement"})
NUMBER_TWICE, REQUIREMENT_TWICE = "number given twice", "requirement given twice"
KINDS: dict[str, Kind] = {}


@dataclass(frozen=True)
class Kind:
    """Codes of which one has to be told with a warning or an error, and the parts that can have the fault."""

    codes: frozenset[str]
    fits: Fits
    spoil: Spoil

    def is_told(self, weighty: set[str]) -> bool:
        told = weighty - REPEATS
        return bool(told) if ANY in self.codes else not self.codes.isdisjoint(weighty)


def kind(name: str, codes: str, fits: Fits, spoil: Spoil) -> None:
    KINDS[name] = Kind(frozenset(codes.split()), fits, spoil)


def bolt(part: Part) -> bool:
    return part.standard in book.HEXAGON and not part.zinc and part.strength in ("8.8", "10.9")


def high(part: Part) -> bool:
    return bolt(part) and part.strength == "10.9"


def wide(part: Part) -> bool:
    return bolt(part) and part.thread in book.FORMER_WIDTHS


def nut(part: Part) -> bool:
    return part.standard == "ISO 4032" and not part.zinc and part.strength in ("8", "10")


def stainless(part: Part) -> bool:
    return part.standard in book.HEXAGON and part.stainless


def galvanized(part: Part) -> bool:
    return bolt(part) and part.thread in ("M12", "M16", "M20")


def put(member: str, value: Callable[[Part], str]) -> Spoil:
    def spoil(part: Part, cells: Cells, language: str, chance: random.Random) -> None:
        cells[member] = value(part)

    return spoil


def rewrite(change: Callable[[Part], Part]) -> Spoil:
    def spoil(part: Part, cells: Cells, language: str, chance: random.Random) -> None:
        cells["description"] = book.description(change(part), language, chance)

    return spoil


def add(words: dict[str, str]) -> Spoil:
    def spoil(part: Part, cells: Cells, language: str, chance: random.Random) -> None:
        cells["description"] += f" {words[language]}"

    return spoil


def both(first: Spoil, second: Spoil) -> Spoil:
    def spoil(part: Part, cells: Cells, language: str, chance: random.Random) -> None:
        first(part, cells, language, chance)
        second(part, cells, language, chance)

    return spoil


def load(part: Part) -> int:
    return book.LOADS[part.thread][part.strength]


def other(thread: str) -> str:
    return "M16" if thread != "M16" else "M20"


def former(part: Part) -> Part:
    return replace(part, standard={"ISO 4014": "DIN 931", "ISO 4017": "DIN 933"}[part.standard])


def fine(part: Part) -> Part:
    return replace(part, thread="M10x1" if part.thread == "M10" else f"{part.thread}x1.5")


def nothing(part: Part, cells: Cells, language: str, chance: random.Random) -> None:
    """The catalogue itself makes the fault."""


def width_in_words(part: Part, cells: Cells, language: str, chance: random.Random) -> None:
    words = {"en": "{} A/F", "de": "SW {}", "fr": "clé de {}", "es": "entrecaras {}", "it": "chiave {}"}
    cells["description"] += " " + words[language].format(book.FORMER_WIDTHS[part.thread])


FINE_WORDS = {"en": "fine thread", "de": "Feingewinde", "fr": "pas fin", "es": "paso fino", "it": "passo fine"}
LEFT = {
    "en": "left hand",
    "de": "Linksgewinde",
    "fr": "filetage à gauche",
    "es": "rosca izquierda",
    "it": "filetto sinistro",
}
STEEL = {"en": "stainless", "de": "Edelstahl", "fr": "inox", "es": "acero inoxidable", "it": "acciaio inox"}
THICK = {language: f"{word} 25 µm" for language, word in book.ZINC.items()}
TYPING = {"8.8": "8.7", "10.9": "10.8"}

# Figures.
kind(
    "width of the former standard",
    "dimension-outside-limits",
    wide,
    put("width_across_flats", lambda part: str(book.FORMER_WIDTHS[part.thread])),
)
kind("width in the text", "dimension-outside-limits", wide, width_in_words)
kind(
    "nut too low",
    "dimension-outside-limits",
    nut,
    put("nut_height", lambda part: f"{book.NUT_HEIGHTS[part.thread] - 1.9:.1f}"),
)
kind("load too small", "mechanical-figure-wrong", bolt, put("tensile_load", lambda part: str(round(load(part) * 0.93))))
kind(
    "load too small, former standard",
    "mechanical-figure-wrong",
    bolt,
    both(rewrite(former), put("tensile_load", lambda part: str(round(load(part) * 0.93)))),
)
kind("load in kN", "unit-mix-up", bolt, put("tensile_load", lambda part: f"{load(part) / 1000:g}"))
kind(
    "width in inches",
    "unit-mix-up",
    bolt,
    put("width_across_flats", lambda part: f"{(book.WIDTHS[part.thread][1] - 0.1) / 25.4:.4f}"),
)
kind("figure that is none", "value-unreadable", bolt, put("tensile_load", lambda part: "siehe Zeichnung"))
kind("mass too small", "mass-implausible unit-mix-up", bolt, put("mass_per_1000", lambda part: "0.02"))
kind("a nut with a length", ANY, nut, put("length", lambda part: "50"))

# Standard, size, length, class.
kind(
    "class that does not exist",
    "property-class-unknown",
    bolt,
    rewrite(lambda part: replace(part, strength=TYPING[part.strength])),
)
kind(
    "class that is not listed",
    "property-class-not-in-standard",
    high,
    rewrite(lambda part: replace(part, strength="12.9")),
)
kind("size that is not listed", "size-not-in-standard", bolt, rewrite(lambda part: replace(part, thread="M13")))
kind(
    "fine pitch in a coarse standard",
    "pitch-not-in-standard",
    lambda part: bolt(part) and part.thread in ("M10", "M12", "M16"),
    rewrite(fine),
)
kind("fine word beside a coarse part", ANY, bolt, add(FINE_WORDS))
kind(
    "length out of the range",
    "length-not-in-standard",
    bolt,
    rewrite(lambda part: replace(part, length=300 + part.length)),
)
kind("former standard", "look-alike-standard", bolt, rewrite(former))
kind(
    "standard that is not held",
    "standard-unknown look-alike-standard",
    bolt,
    put("description", lambda part: f"Hex bolt BS 3692 {part.size} {part.strength}"),
)
kind(
    "edition that is not held",
    "edition-not-held",
    bolt,
    put("description", lambda part: f"{part.standard}:2022 {part.size} {part.strength}"),
)
kind("left-hand", "left-hand-thread", nut, add(LEFT))
kind("thread says otherwise", "attribute-contradicts-description", bolt, put("thread", lambda part: other(part.thread)))
kind(
    "class says otherwise",
    "attribute-contradicts-description",
    bolt,
    put("property_class", lambda part: "10.9" if part.strength == "8.8" else "8.8"),
)

# Mates.
kind("nut too weak", "pair-not-permitted", bolt, put("mates_with", lambda part: f"ISO 4032 - {part.thread} - 6"))
kind(
    "nut too weak, former standards",
    "pair-not-permitted",
    bolt,
    both(rewrite(former), put("mates_with", lambda part: f"DIN 934 {part.thread} 6")),
)
kind(
    "nut of another thread",
    "pair-not-permitted",
    bolt,
    put("mates_with", lambda part: f"ISO 4032 - {other(part.thread)} - 10"),
)
kind(
    "undersize bolt, oversize nut",
    "pair-not-permitted",
    galvanized,
    both(
        put("description", lambda part: f"{part.standard} - {part.size} - {part.strength}U - tZn"),
        put("mates_with", lambda part: f"ISO 4032 - {part.thread} - 10Z - tZn"),
    ),
)

# Coatings and steel.
kind("coating without room", "coating-without-room", bolt, put("coating", lambda part: "Fe/Zn25"))
kind("coating without room, in words", "coating-without-room", bolt, add(THICK))
kind("coating that nobody knows", "coating-unknown", bolt, put("coating", lambda part: "Finish 12"))
kind(
    "12.9 electroplated",
    "hydrogen-embrittlement",
    lambda part: part.standard == "ISO 4762" and part.strength == "12.9",
    put("coating", lambda part: "zinc plated"),
)
kind("stainless and zinc plated", ANY, stainless, add(book.ZINC))
kind("stainless beside a class of carbon steel", ANY, bolt, add(STEEL))

# Repeats.
kind(NUMBER_TWICE, "duplicate-part-number", lambda part: not part.zinc, nothing)
kind(REQUIREMENT_TWICE, "duplicate-requirement", lambda part: not part.zinc, nothing)
