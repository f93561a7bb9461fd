"""The good parts of the mixed catalogue: what the product standards list, and how clerks write it. Invented.

Sizes, lengths and classes: ISO 4014:2011, 4016:2011, 4017:2014, 4032:2012, 4033:2012, 4035:2012, 4162:2012, 4762:2004,
7040:2012, 8676:2011, 8765:2011, 10642:2004; lengths of ISO 888. Loads: ISO 898-1:2013 Table 4. Widths and heights: the
tables of the product standards (grades A and B). Words: common practice.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from dataclasses import dataclass, replace

LENGTHS = (10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200)
LANGUAGES = ("en", "de", "fr", "es", "it")
ZINC = {"en": "zinc plated", "de": "galv. verzinkt", "fr": "zingué", "es": "cincado", "it": "zincato"}
CLASS_WORDS = {"en": "class", "de": "Kl.", "fr": "classe", "es": "clase", "it": "cl."}
WIDTHS = {
    "M6": (9.78, 10),
    "M8": (12.73, 13),
    "M10": (15.73, 16),
    "M12": (17.73, 18),
    "M16": (23.67, 24),
    "M20": (29.67, 30),
}
FORMER_WIDTHS = {"M10": 17, "M12": 19}
LOADS = {
    "M6": {"5.6": 10000, "8.8": 16100, "10.9": 20900, "12.9": 24500},
    "M8": {"5.6": 18300, "8.8": 29200, "10.9": 38100, "12.9": 44600},
    "M10": {"5.6": 29000, "8.8": 46400, "10.9": 60300, "12.9": 70800},
    "M12": {"5.6": 42200, "8.8": 67400, "10.9": 87700, "12.9": 103000},
    "M16": {"5.6": 78500, "8.8": 125000, "10.9": 163000, "12.9": 192000},
    "M20": {"5.6": 122000, "8.8": 203000, "10.9": 255000},
}
NUT_HEIGHTS = {"M6": 5.0, "M8": 6.6, "M10": 8.2, "M12": 10.6, "M16": 14.5, "M20": 17.5}
_LONG = {"M6": (30, 60), "M8": (40, 80), "M10": (45, 100), "M12": (50, 120), "M16": (65, 160), "M20": (80, 200)}
_SHORT = {"M6": (12, 60), "M8": (16, 80), "M10": (20, 100), "M12": (25, 120), "M16": (30, 150), "M20": (40, 150)}
_SOCKET = {"M6": (10, 60), "M8": (12, 80), "M10": (16, 100), "M12": (20, 120), "M16": (25, 160)}
_FINE_LONG = {"M10x1.25": (45, 100), "M12x1.5": (50, 120), "M16x1.5": (65, 160), "M20x1.5": (80, 200)}
_FINE_SHORT = {"M10x1.25": (20, 100), "M12x1.5": (25, 120), "M16x1.5": (35, 160)}
_NUTS = dict.fromkeys(NUT_HEIGHTS, (0, 0))
CARBON = ("5.6", "8.8", "10.9")
LISTS: dict[str, tuple[dict[str, tuple[int, int]], tuple[str, ...]]] = {
    "ISO 4014": (_LONG, (*CARBON, "A2-70", "A4-70")),
    "ISO 4016": ({"M10": (45, 100), "M12": (55, 120), "M16": (65, 160), "M20": (80, 200)}, ("4.6", "4.8")),
    "ISO 4017": (_SHORT, (*CARBON, "A2-70", "A4-70")),
    "ISO 4162": ({"M8": (16, 80), "M10": (20, 100)}, ("8.8", "10.9")),
    "ISO 4762": (_SOCKET, ("8.8", "10.9", "12.9", "A2-70", "A4-70")),
    "ISO 8676": (_FINE_SHORT, CARBON),
    "ISO 8765": (_FINE_LONG, CARBON),
    "ISO 10642": ({"M6": (10, 60), "M8": (12, 80), "M10": (16, 100)}, ("8.8", "10.9")),
    "ISO 4032": (_NUTS, ("6", "8", "10", "A2-70", "A4-70")),
    "ISO 4033": (_NUTS, ("12",)),
    "ISO 4035": (_NUTS, ("04", "05")),
    "ISO 7040": (dict.fromkeys(("M6", "M8", "M10", "M12"), (0, 0)), ("5", "8", "10")),
}
HEXAGON, NUTS = ("ISO 4014", "ISO 4017"), ("ISO 4032", "ISO 4033", "ISO 4035", "ISO 7040")
WORDS: dict[str, dict[str, tuple[str, ...]]] = {
    "ISO 4014": {
        "en": ("Hex bolt", "HEX HD BOLT", "bolt hexagon"),
        "de": ("Sechskantschraube", "6KT-Schraube", "SKT-SCHR"),
        "fr": ("Vis H", "VIS TH", "Vis à tête hexagonale"),
        "es": ("Tornillo hexagonal", "TORNILLO HEX", "Tornillo cabeza hexagonal"),
        "it": ("Vite TE", "VITE T.E.", "Vite testa esagonale"),
    },
    "ISO 4032": {
        "en": ("Hex nut", "NUT, HEX", "hexagon nut"),
        "de": ("Sechskantmutter", "6KT-Mutter", "Mutter"),
        "fr": ("Ecrou H", "Écrou hexagonal", "ECROU"),
        "es": ("Tuerca hexagonal", "TUERCA HEX", "Tuerca"),
        "it": ("Dado esagonale", "DADO", "Dado ES"),
    },
    "ISO 4762": {
        "en": ("Socket head cap screw", "SHCS", "Cap screw"),
        "de": ("Zylinderschraube", "Zylinderschraube mit Innensechskant", "ZYL-SCHR"),
        "fr": ("Vis CHC", "VIS CHC", "Vis à tête cylindrique"),
        "es": ("Tornillo Allen", "TORNILLO ALLEN", "Tornillo"),
        "it": ("Vite TCEI", "VITE TCEI", "Vite"),
    },
}
_FORM = {"ISO 10642": "", **dict.fromkeys(("ISO 4016", "ISO 4017", "ISO 8676", "ISO 8765"), "ISO 4014")}
_FORM |= dict.fromkeys(NUTS, "ISO 4032") | {"ISO 4014": "ISO 4014", "ISO 4762": "ISO 4762", "ISO 4162": ""}
_ANY = {"en": "Screw", "de": "Schraube", "fr": "Vis", "es": "Tornillo", "it": "Vite"}


@dataclass(frozen=True)
class Part:
    """One requirement; no two good rows of a catalogue have the same."""

    standard: str
    thread: str
    length: int
    strength: str
    zinc: bool = False

    @property
    def size(self) -> str:
        return self.thread + (f"x{self.length}" if self.length else "")

    @property
    def canonical(self) -> str:
        return f"{self.standard} - {self.size} - {self.strength}"

    @property
    def stainless(self) -> bool:
        return self.strength.startswith("A")


def parts() -> Iterator[Part]:
    """Everything that the lists above hold, with zinc and without, where zinc takes no warning with it."""
    for standard, (sizes, strengths) in LISTS.items():
        for (thread, (least, most)), strength in itertools.product(sizes.items(), strengths):
            for length in [one for one in LENGTHS if least <= one <= most] or [0]:
                part = Part(standard, thread, length, strength)
                yield part
                if not part.stainless and strength != "12.9":
                    yield replace(part, zinc=True)


def word(part: Part, language: str, chance: random.Random) -> str:
    form = _FORM.get(part.standard, "ISO 4014")
    return chance.choice(WORDS[form][language]) if form else _ANY[language]


def spelt(size: str, chance: random.Random) -> str:
    """The ways to write a size that the contract names."""
    ways = (size, size, size.upper(), size.replace("x", " x "), size.replace("x", "×"), size.replace("M", "M "))
    return chance.choice((*ways, size.replace(".", ","), size.lower()))


def description(part: Part, language: str, chance: random.Random) -> str:
    named = chance.choice(("", "", "DIN EN ", "EN ")) + part.standard
    strength = chance.choice((part.strength, f"{CLASS_WORDS[language]} {part.strength}"))
    if part.stainless:
        strength = part.strength
    first = [word(part, language, chance), named, spelt(part.size, chance), strength]
    second = [word(part, language, chance), named, "-", part.size, "-", strength]
    return " ".join(chance.choice((first, first, second)))
