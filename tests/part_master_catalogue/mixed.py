"""A mixed catalogue of good rows and rows with one fault each, written from the wire contract. Invented."""

from __future__ import annotations

import csv
import io
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from . import mixed_parts as book
from .mixed_kinds import KINDS, NUMBER_TWICE, REQUIREMENT_TWICE, Cells
from .mixed_parts import Part

MEMBERS = ("part_number", "description", "thread", "length", "property_class", "coating", "mates_with")
MEMBERS += ("width_across_flats", "nut_height", "tensile_load", "mass_per_1000")
GERMAN = ("Teil", "Benennung", "Gewinde", "Länge", "Festigkeit", "Überzug", "Gegenstück")
GERMAN += ("Schlüsselweite", "Mutterhöhe", "Zugkraft", "Masse je 1000")
GERMAN_TITLES = dict(zip(MEMBERS, GERMAN, strict=True))


@dataclass(frozen=True)
class Row:
    cells: Cells
    kind: str | None
    """None: a good row."""


def catalogue(count: int, each: int, start: int, languages: tuple[str, ...]) -> list[Row]:
    """`each` rows of every kind and good rows up to `count`, in a mixed order that `start` decides.

    Good rows and spoilt ones never ask for the same part: what is told of a good one is told without a reason.
    """
    chance = random.Random(start)
    pool = list(book.parts())
    to_spoil = [part for part in pool if not part.zinc and chance.random() < 0.3]
    spoilt = [(part, kind) for kind in KINDS for part in _drawn(to_spoil, KINDS[kind].fits, each, chance)]
    good = chance.sample([part for part in pool if part not in to_spoil], count - len(spoilt))
    wanted: list[tuple[Part, str | None]] = [*spoilt, *((part, None) for part in good)]
    chance.shuffle(wanted)
    return list(_written(wanted, chance, languages))


def _drawn(pool: list[Part], fits: Callable[[Part], bool], each: int, chance: random.Random) -> list[Part]:
    return chance.choices([part for part in pool if fits(part)], k=each)


def _written(wanted: list[tuple[Part, str | None]], chance: random.Random, languages: tuple[str, ...]) -> Iterator[Row]:
    good: list[tuple[Part, Cells]] = []
    for number, (part, kind) in enumerate(wanted):
        language = chance.choice(languages)
        if kind in (NUMBER_TWICE, REQUIREMENT_TWICE) and not good:
            kind = None
        if kind == REQUIREMENT_TWICE:
            part = chance.choice(good)[0]
        cells = _cells(part, f"P-{number:05d}", language, chance)
        if kind == NUMBER_TWICE:
            cells["part_number"] = chance.choice(good)[1]["part_number"]
        elif kind is None:
            _with_right_figures(part, cells, language, chance)
            good.append((part, cells))
        else:
            KINDS[kind].spoil(part, cells, language, chance)
        yield Row(cells, kind)


def _cells(part: Part, number: str, language: str, chance: random.Random) -> Cells:
    cells = dict.fromkeys(MEMBERS, "") | {
        "part_number": number,
        "description": book.description(part, language, chance),
    }
    if part.zinc and chance.random() < 0.5:
        cells["coating"] = book.ZINC[language]
    elif part.zinc:
        cells["description"] += f" {book.ZINC[language]}"
    return cells


def _with_right_figures(part: Part, cells: Cells, language: str, chance: random.Random) -> None:
    """Figures of the standard in some good rows: a reader that flags what is right is no use."""
    if part.standard in book.HEXAGON and chance.random() < 0.4:
        least, most = book.WIDTHS[part.thread]
        cells["width_across_flats"] = f"{most - 0.4 * (most - least):.2f}"
    if part.standard in book.HEXAGON and part.strength in book.CARBON and chance.random() < 0.4:
        cells["tensile_load"] = str(book.LOADS[part.thread][part.strength])
    if part.standard == "ISO 4032" and chance.random() < 0.5:
        cells["nut_height"] = f"{book.NUT_HEIGHTS[part.thread]}"
    if part.standard in book.HEXAGON and part.strength in ("8.8", "10.9") and not part.zinc and chance.random() < 0.2:
        cells["mates_with"] = f"ISO 4032 - {part.thread} - {10 if part.strength == '10.9' else 8}"
    if part.standard in book.HEXAGON and chance.random() < 0.2:
        cells |= {"thread": part.thread, "length": str(part.length), "property_class": part.strength}
    if language == "de":
        cells["width_across_flats"] = cells["width_across_flats"].replace(".", ",")


def written(rows: list[Row], delimiter: str, titles: dict[str, str] | None = None) -> str:
    text = io.StringIO(newline="")
    out = csv.writer(text, delimiter=delimiter, lineterminator="\r\n")
    out.writerow([(titles or {}).get(member, member) for member in MEMBERS])
    out.writerows([row.cells[member] for member in MEMBERS] for row in rows)
    return text.getvalue()
