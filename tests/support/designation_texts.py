"""Texts for the readers of designations: what is right, and what people and machines make of it; repeatable by seed."""

from __future__ import annotations

import random
from collections.abc import Iterator
from decimal import Decimal
from functools import cache

from boltwright_server.designations import parse_coating
from boltwright_server.products import Product
from boltwright_server.products.catalogue import products
from boltwright_server.threads import SYSTEMS, classes, unified

#: Characters that designations are made of, and some that they are not.
_LETTERS = (
    "MmxX×*-–/.,:# 0123456789gGhHeEfFaAzZUuNnCcLlSsIiOoTtFfRrKkPpWwDd()[]{}\"'\\\t\n\0\u00a0\u200b²½Ø°µ\U0001f529"
)
_COATINGS = ("tZn", "Fe/Zn8/An/T0", "Fe/ZnNi8", "A3L", "flZn-480h", "flZnncL-720h")
_GRADES = {"external": ("SAE J429 5",), "internal": ("SAE J995 5",)}
_CLASSES = {"external": ("8.8", "10.9", "12.9U", "A2-70", "04.8"), "internal": ("8", "10", "05", "A4-80")}
_EXTRAS = (
    *("M10", "M10x1.25-6H/6g", "M10-6g-L", "M8-LH", "M10-6H/6g-S-LH"),
    *("1/2-13 UNC-2A-LH", "1/2-24 UNS-2A-LE 1.5", "#8-32 UNC-2B"),
)
LONGEST = 200


@cache
def threads() -> tuple[str, ...]:
    """Return canonical designations of every tenth thread and class, with the extras that a text may carry."""
    found = []
    for system in SYSTEMS:
        for size in system.sizes():
            for number, tolerance in enumerate(classes(size)):
                if (number + len(found)) % 10 == 0:
                    found.append(_name(size.designation, tolerance.designation))
    extras = (
        "M10",
        "M10x1.25-6H/6g",
        "M10-6g-L",
        "M8-LH",
        "M10-6H/6g-S-LH",
        "1/2-13 UNC-2A-LH",
        "1/2-24 UNS-2A-LE 1.5",
    )
    return (*found, *extras)


def _name(size: str, tolerance: str) -> str:
    return f"{size}-{tolerance}"


@cache
def product_designations() -> tuple[str, ...]:
    """Return designations of the sizes of every product, with classes and coatings."""
    found = [text for product in products() for text in _of_product(product)]
    coated = [f"{text} - {_COATINGS[at % len(_COATINGS)]}" for at, text in enumerate(found[::7])]
    return (*found, *coated)


def _of_product(product: Product) -> Iterator[str]:
    inch = product.family.inch
    length = "" if not product.has_length else "x2" if inch else "x60"
    of_member = _GRADES if inch else _CLASSES
    for key in product.size_keys():
        size = f"{key}-{_coarse()[key]}" if inch else key
        for property_class in of_member.get(product.member or "", ("200 HV",)):
            yield f"{product.id} - {size}{length} - {property_class}"


@cache
def _coarse() -> dict[str, Decimal]:
    """Threads per inch of the coarse thread of a diameter, or of what there is."""
    by_series = sorted(unified.sizes(), key=lambda size: ("UNC", "8-UN").index(size.series) if _is_coarse(size) else 2)
    found: dict[str, Decimal] = {}
    for size in by_series:
        found.setdefault(size.name, size.threads_per_inch)
    return found


def _is_coarse(size: unified.UnifiedSize) -> bool:
    return size.series in ("UNC", "8-UN")


def coatings() -> tuple[str, ...]:
    """Return designations of coatings."""
    return tuple(parse_coating(text).designation for text in _COATINGS)


def texts(seed: int, count: int) -> Iterator[str]:
    """Yield texts: a tenth at random, the rest designations with one to five changes."""
    chance = random.Random(seed)
    right = (*threads(), *product_designations(), *coatings())
    for _ in range(count):
        if chance.random() < 0.1:
            yield "".join(chance.choices(_LETTERS, k=chance.randint(0, 60)))
        else:
            yield mutated(chance, right)[: LONGEST + 5]


def mutated(chance: random.Random, right: tuple[str, ...]) -> str:
    """Return a designation after one to five changes, mostly one."""
    text = chance.choice(right)
    for _ in range(chance.choice((1, 1, 1, 2, 3, 5))):
        text = chance.choice(_CHANGES)(chance, text, right)
    return text


def _insert(chance: random.Random, text: str, right: tuple[str, ...]) -> str:
    at = chance.randint(0, len(text))
    return text[:at] + chance.choice(_LETTERS) + text[at:]


def _delete(chance: random.Random, text: str, right: tuple[str, ...]) -> str:
    at, many = chance.randint(0, len(text)), chance.randint(1, 4)
    return text[:at] + text[at + many :]


def _replace(chance: random.Random, text: str, right: tuple[str, ...]) -> str:
    at = chance.randint(0, len(text))
    return text[:at] + chance.choice(_LETTERS) + text[at + 1 :]


def _repeat(chance: random.Random, text: str, right: tuple[str, ...]) -> str:
    at, many = chance.randint(0, len(text)), chance.randint(1, 6)
    return text[:at] + text[at : at + many] * chance.choice((2, 3, 40)) + text[at + many :]


def _splice(chance: random.Random, text: str, right: tuple[str, ...]) -> str:
    other = chance.choice(right)
    return text[: chance.randint(0, len(text))] + other[chance.randint(0, len(other)) :]


def _swap(chance: random.Random, text: str, right: tuple[str, ...]) -> str:
    parts = text.split("-")
    chance.shuffle(parts)
    return "-".join(parts)


def _spelt(chance: random.Random, text: str, right: tuple[str, ...]) -> str:
    change = chance.choice((str.lower, str.upper, str.swapcase, str.split, str.title))
    return " ".join(text.split()) if change is str.split else change(text)  # type: ignore[return-value,operator]


def _number(chance: random.Random, text: str, right: tuple[str, ...]) -> str:
    number = Decimal(chance.randint(0, 10**6)) / 10 ** chance.randint(0, 6)
    at = chance.randint(0, len(text))
    return f"{text[:at]}{number}{text[at:]}"


_CHANGES = (_insert, _delete, _replace, _repeat, _splice, _swap, _spelt, _number)
