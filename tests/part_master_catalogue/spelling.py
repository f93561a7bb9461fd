"""Writes a part down as people do: any order, any language, any separator, in words or in members."""

from __future__ import annotations

from random import Random

from . import words
from .facts import table
from .parts import Part, inch, kind_of

Row = dict[str, str]
_SEPARATORS = (" ", " ", " ", ", ", " - ", "; ", "  ", " | ", "_")


def written(part: Part, chance: Random) -> Row:
    """Return the words of a row that asks for the part: as a description, a designation or in members."""
    style = chance.choice((_described, _described, _described, _designated, _structured))
    return style(part, chance)


def described(part: Part, chance: Random) -> Row:
    """Return a row whose description says everything, the standard too."""
    return _described(part, chance, bare=False)


def _described(part: Part, chance: Random, bare: bool = True) -> Row:
    language = _language(part, chance)
    certain = part.kind in words.NAMES and language in words.NAMES[part.kind]
    bare = bare and certain and not _needs_standard(part) and chance.random() < 0.4
    pieces = [name_of(part, language, chance), *_size(part, language, chance)]
    pieces.append(class_of(part, language, chance))
    if not bare:
        pieces.insert(chance.randrange(len(pieces) + 1), standard_of(part, language, chance))
    elif chance.random() < 0.5:
        pieces = [*pieces[1:-1], pieces[0], pieces[-1]]
    row = {"description": ""}
    if part.coating:
        if not part.designated_coating and chance.random() < 0.3:
            row["coating"] = coating_of(part, language, chance)
        else:
            pieces.append(coating_of(part, language, chance))
    if chance.random() < 0.15:
        pieces.insert(chance.choice((0, len(pieces))), chance.choice(words.FILLERS))
    row["description"] = _cased(_joined(pieces, chance), chance)
    return row


def _designated(part: Part, chance: Random) -> Row:
    """Return a row with a designation column, more or less as the standard writes it."""
    language = _language(part, chance)
    text = part.canonical
    for old, new in (("x", chance.choice(("x", "X", " x ", "×"))), (" - ", chance.choice((" - ", "-", " ")))):
        text = text.replace(old, new) if chance.random() < 0.5 and not part.inch else text
    row = {"description": name_of(part, language, chance).split(",")[0], "designation": text}
    if part.coating and not part.designated_coating:
        row["coating"] = coating_of(part, language, chance)
    return row


def _structured(part: Part, chance: Random) -> Row:
    """Return a row whose members say everything, with a short name or nothing beside them."""
    language = _language(part, chance)
    size = part.size
    if "washer" in part.kind or part.inch or chance.random() < 0.8:
        size = part.size
    elif part.pitch and "x" not in size:
        size = f"{size}x{part.pitch}"
    row = {
        "description": chance.choice(("", name_of(part, language, chance))),
        "standard": part.standard,
        "thread": size,
        "length": part.length,
        "property_class": part.property_class,
    }
    if part.coating:
        row["coating"] = coating_of(part, language, chance)
    return {name: value for name, value in row.items() if value}


def _language(part: Part, chance: Random) -> str:
    return "en" if part.inch else chance.choice(words.LANGUAGES)


def _needs_standard(part: Part) -> bool:
    """Whether class or size leave the words open: stainless in several, C products, a lock nut."""
    return part.property_class[:2] in ("A2", "A4") and kind_of(part) != "washer" and part.kind != "socket_cap"


def name_of(part: Part, language: str, chance: Random) -> str:
    """Return a name of the kind; a loose one for kinds that no words tell apart."""
    if part.kind in words.NAMES:
        return chance.choice(words.NAMES[part.kind][language])
    if part.kind == "flange_bolt":
        return chance.choice(words.FLANGE_BOLT[language])
    return "" if part.inch else chance.choice(words.LOOSE_NAMES[kind_of(part)][language])


def standard_of(part: Part, language: str, chance: Random) -> str:
    """Return the standard as it is typed: `DIN EN ISO 4014`, `ISO4014`, `ASME B18.2.1`."""
    if part.inch:
        name = part.standard.removeprefix("ASME ")
        number, _, product = name.partition(" ")
        return f"{chance.choice(('ASME ', 'ANSI ', 'ASME/ANSI ', ''))}{number} {product.upper()}"
    if not part.standard.startswith("ISO"):
        return part.standard.replace(" ", chance.choice((" ", "", "-", ".")))
    return chance.choice(words.PREFIXES[language]) + part.standard.removeprefix("ISO ")


def class_of(part: Part, language: str, chance: Random) -> str:
    """Return the class as it is typed: `8.8`, `CL8,8`, `A2/70`, `200HV`, `GR 5`."""
    name = part.property_class
    if not name:
        return ""
    if part.inch:
        grade = name.removeprefix("SAE J429 ").removeprefix("SAE J995 ")
        return name if grade == name else f"{chance.choice(words.GRADE_MARKS)}{grade}".replace("J429 ", "J429 GR ")
    if name.endswith("HV"):
        number = name.split()[0]
        return chance.choice((name, f"{number}HV", f"HV{number}", f"HV {number}"))
    if name.startswith("A"):
        return chance.choice((name, name.replace("-", "/"), name.replace("-", " "), f"INOX {name}", f"SS {name}"))
    if kind_of(part) == "bolt" and "." in name and chance.random() < 0.15:
        name = name.replace(".", ",")
    if name == "45H":
        return name
    return f"{chance.choice(words.CLASS_MARKS[language])}{name}"


def coating_of(part: Part, language: str, chance: Random) -> str:
    """Return the coating as it is typed."""
    named = words.COATINGS.get(part.coating)
    if named is None:
        return chance.choice((part.coating, part.coating.upper()))
    return chance.choice(named.get(language) or named["en"])


def _size(part: Part, language: str, chance: Random) -> list[str]:
    if part.inch:
        return [_inch_size(part, chance)]
    d = part.size.removeprefix("M").split("x")[0]
    fine = "x" in part.size
    if "washer" in part.kind:
        return [chance.choice((f"M{d}", f"M {d}", part.size))]
    shown_pitch = fine or (part.pitch and chance.random() < 0.1)
    pitch = part.pitch.replace(".", ",") if chance.random() < 0.3 else part.pitch
    by = chance.choice(("X", "x", " x ", " X ", "*", "×"))
    size = chance.choice(("M", "M", "M", "M ")) + d
    if shown_pitch:
        size += chance.choice((by, by, "-")) + pitch
    if not part.length:
        return [size]
    length = part.length.replace(".", ",") if "," in size else part.length
    if chance.random() < 0.12:
        return [size, f"{chance.choice(words.LENGTH_MARKS[language])}{length}{chance.choice(('', 'MM', ' MM'))}"]
    return [f"{size}{by}{length}{chance.choice(('', '', '', 'MM', ' mm'))}"]


def _inch_size(part: Part, chance: Random) -> str:
    diameter, _, tpi = part.size.rpartition("-")
    mark = chance.choice(("", "", '"')) if not diameter.startswith("#") else ""
    diameter = diameter.replace(" ", chance.choice((" ", "-"))) if " " in diameter else diameter
    series = chance.choice(
        ("", "", "UNC" if _coarse(part, tpi) else "UNF", " UNC-2A" if _coarse(part, tpi) else " UNF-2A")
    )
    size = f"{diameter}{mark}-{tpi}{series}"
    if not part.length:
        return size
    length = part.length
    if chance.random() < 0.25:
        length = f"{inch(part.length):.2f}" if inch(part.length) * 100 % 1 == 0 else f"{inch(part.length):.3f}"
    elif " " in length:
        length = length.replace(" ", chance.choice((" ", "-")))
    return f"{size}{chance.choice(('X', ' X ', 'x', ' x '))}{length}{mark}"


def _coarse(part: Part, tpi: str) -> bool:
    found = table("asme_b1_1_2003", "table_1")
    return any(
        inch_row["series"] == "UNC" and inch_row["threads_per_inch"] == tpi and float(inch_row["d"]) == float(part.d)
        for inch_row in found
    )


def _joined(pieces: list[str], chance: Random) -> str:
    separator = chance.choice(_SEPARATORS)
    return separator.join(one for one in pieces if one)


def _cased(text: str, chance: Random) -> str:
    return chance.choice((text, text, text, text.lower(), text.title() if text.isascii() else text))
