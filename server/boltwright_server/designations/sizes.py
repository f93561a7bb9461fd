"""Sizes and lengths in product designations: M10x1.25x60, 1/2-13x1-1/2, and 10 for a washer."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from lark import Token

from ..products import Product
from ..quantities import Contradiction, NotUnderstood, Refusal, UnknownName
from ..quantities.keeper import remembered
from ..quantities.rounding import shortest
from ..threads import ThreadSize, find_size, unified
from .numbers import number
from .reader import at
from .thread import parse_thread

#: A pitch is told from a length by the number that follows it, or by its size: no bolt is shorter than 3.5 mm.
_SIZE = re.compile(r"\bM\s*(\d{1,3}(?:[.,]\d{1,2})?)(?:\s*[x×*]\s*([0-3](?:[.,]\d{1,3})?)(?![0-9.,]))?", re.IGNORECASE)
_INCH_DENOMINATORS = (1, 2, 4, 8, 16, 32, 64)


def parse_size(product: Product, text: str) -> ThreadSize:
    """Read the size of a product without tolerance class: `M10`, `M10x1.25`, `1/2-13`; a washer also has `10`.

    Raises:
        NotUnderstood: not of that form, or with a tolerance class.
        UnknownName: no such diameter or pitch is listed.
    """
    bare = not product.names_thread and re.fullmatch(r"\s*[0-9]+(?:[.,][0-9]+)?\s*", text)
    thread = parse_thread(f"M{text.strip()}" if bare else text)
    if thread.classes:
        raise NotUnderstood("size is a thread such as M10, without tolerance class", member="size")
    return thread.size


def size_in(text: str) -> str | None:
    """Return the metric size that a text mentions, as M10 or M10x1.25, or None."""
    match = _SIZE.search(text)
    if match is None:
        return None
    d, pitch = (None if one is None else one.replace(",", ".") for one in match.groups())
    return f"M{d}x{pitch}" if pitch else f"M{d}"


def parse_length(product: Product, text: str | None) -> Decimal | None:
    """Read a nominal length: a number of mm, for an inch product a number or fraction of inches, `1-1/2`.

    Raises:
        NotUnderstood: no number.
    """
    if text is None:
        return None
    return inches(text, "length") if product.family.inch else millimetres(text)


def millimetres(text: str) -> Decimal:
    """Return a number of mm; a comma is a decimal point.

    Raises:
        NotUnderstood: the text is no number.
    """
    if not re.fullmatch(r"\s*[-+]?[0-9]{1,9}(?:[.,][0-9]{1,9})?\s*", text):
        raise NotUnderstood(f"length {text[:40]!r} is no number of mm", member="length", code="wrong_type")
    return shortest(number(text.strip()))


def inches(text: str, member: str = "designation") -> Decimal:
    """Return inches from `2`, `2.5`, `3/4`, `1-1/2` or `1 1/2`, with or without the unit.

    Raises:
        NotUnderstood: no such number, or a denominator that no rule divides by.
    """
    match = re.fullmatch(
        r"\s*(?:(?:(?P<whole>[0-9]+)(?:\s*-\s*|\s+))?(?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)|(?P<number>[0-9]*[.,]?[0-9]+))"
        r"\s*(?:in|\")?\s*",
        text,
        re.IGNORECASE,
    )
    if match is None:
        raise NotUnderstood(f"{text[:40]!r} is no length in inch: write 2, 2.5, 3/4 or 1-1/2", member=member)
    if match["number"] is not None:
        return shortest(number(match["number"]))
    bottom = int(match["bottom"])
    if bottom not in _INCH_DENOMINATORS:
        raise NotUnderstood(f"{text[:40]!r}: fractions of an inch are halves down to sixty-fourths", member=member)
    return shortest(Decimal(int(match["whole"] or 0)) + Decimal(int(match["top"])) / bottom)


@remembered(4096)
def length_text(product: Product, length: Decimal) -> str:
    """Return a length as the canonical designation writes it: 60, 62.5; in inch 2, 3/4, 1-1/2."""
    exact = Fraction(length)
    if not product.family.inch or exact.denominator not in _INCH_DENOMINATORS:
        return str(length)
    whole, rest = divmod(exact.numerator, exact.denominator)
    return "-".join([str(whole)] * bool(whole or not rest) + [f"{rest}/{exact.denominator}"] * bool(rest))


def _by_hole(product: Product, form: str, hole: Decimal) -> ThreadSize:
    """Return the size of a washer that its standard designates by form and hole, `A 10.5` of DIN 125.

    Raises:
        NotUnderstood: the standard has no such form, or its form is not held. UnknownName: no such hole.
    """
    if form not in product.options.forms:
        held = " and ".join(product.options.forms) or "none"
        raise NotUnderstood(f"form {form} of {product.id} is not held; forms that are: {held}", member="designation")
    rows = [row for row in product.table.rows.values() if row.cells.get("d1_min") == hole]
    if not rows:
        holes = [f"{form} {row.get('d1_min')}" for row in product.table.rows.values()]
        near = sorted(holes, key=lambda name: abs(Decimal(name.split()[1]) - hole))[:3]
        raise UnknownName(f"{product.id} lists no hole of {hole} mm", member="size", code="unknown_size", nearest=near)
    return parse_size(product, str(rows[0].key[0]))


def size_and_length(product: Product, tokens: Sequence[Token]) -> tuple[ThreadSize, Decimal | None]:
    """Return what the tokens of a size say: diameter, pitch where it is written, and length.

    Raises:
        NotUnderstood: a bolt without length, a nut with one, or more numbers than a size has.
        UnknownName: no such diameter or pitch is listed.
    """
    alone = next((one for one in tokens if one.type == "INCH_ALONE"), None)
    if alone is not None:
        with at(alone):
            raise _without_pitch(product, alone.rstrip(' "'))
    thread = next((one for one in tokens if one.type == "INCH_THREAD"), None)
    if thread is None:
        numbers = [one for one in tokens if one.type == "NUMBER"]
        form = next((one for one in tokens if one.type == "FORM"), None)
        if form is not None:
            with at(form):
                return _by_hole(product, form.upper(), number(numbers[0])), None
        with at(numbers[0]):
            return _metric(product, [number(one) for one in numbers])
    series = next((str(one) for one in tokens if one.type == "SERIES"), "")
    length = next((one for one in tokens if one.type == "INCH_LENGTH"), None)
    with at(thread):
        _check_length(product, length is not None, f"{thread}x2")
        size = _inch_size(f"{thread} {series}")
    with at(length):
        return size, None if length is None else inches(str(length))


def _without_pitch(product: Product, diameter: str) -> Refusal:
    """A fraction or number of an inch names no thread; `nearest` holds the threads of that diameter."""
    if not product.family.inch:
        return Contradiction(
            f"{product.id} has metric threads, as M10; {diameter} is an inch size", member="designation"
        )
    threads = [size.short for size in unified.of_diameter(diameter)]
    example = " or ".join(threads) or "1/2-13"
    return NotUnderstood(
        f"{diameter} in: name the threads per inch too, as {example}",
        member="designation",
        nearest=threads,
    )


def _inch_size(text: str) -> ThreadSize:
    """Return the size of a part of a designation; where that part is refused as a whole, its places mean nothing."""
    try:
        return parse_thread(text).size
    except Refusal as refusal:
        refusal.position, refusal.expected = None, ()
        raise


def _metric(product: Product, numbers: list[Decimal]) -> tuple[ThreadSize, Decimal | None]:
    d, rest = numbers[0], numbers[1:]
    if len(rest) > 2 or (len(rest) == 2 and not product.has_length):
        raise NotUnderstood(
            f"{product.id}: too many numbers after {d}; write M10x60 or M10x1.25x60 for a bolt, "
            "M10 or M10x1.25 for a nut, 10 for a washer",
            member="designation",
        )
    if product.has_length:
        _check_length(product, bool(rest), f"M{d}x60")
        length = shortest(rest.pop())
    else:
        length = None
    return _listed(product, d, rest[0] if rest else None), length


def _check_length(product: Product, given: bool, example: str) -> None:
    if product.has_length and not given:
        raise NotUnderstood(
            f"{product.id} needs a nominal length, as {example}", member="designation", code="length_missing"
        )
    if given and not product.has_length:
        raise NotUnderstood(
            f"{product.id} is a {product.family.item} and has no length", member="designation", code="no_length"
        )


def _listed(product: Product, d: Decimal, pitch: Decimal | None) -> ThreadSize:
    """Return the size of a diameter and the pitch as written, None where it is not.

    Of a diameter with fine threads only, the pitch that is not written is the one listed, and never the coarse one: a
    canonical text does not write the coarse pitch, and would be read as the fine one.
    """
    names = [name for name in product.size_keys() if name.split("x")[0] == f"M{d}"]
    if not names or f"M{d}" in names:
        return find_size(d, pitch)
    if pitch is None and len(names) > 1:
        raise NotUnderstood(
            f"{product.id} lists several pitches for M{d}: name one of {', '.join(names)}",
            member="designation",
            nearest=names,
        )
    size = find_size(d, pitch or Decimal(names[0].split("x")[1]))
    if size.series == "coarse":
        raise UnknownName(
            f"{product.standard.cited} lists no M{d} with the coarse pitch of {size.pitch} mm",
            member="designation",
            code="unknown_size",
            nearest=names,
        )
    return size
