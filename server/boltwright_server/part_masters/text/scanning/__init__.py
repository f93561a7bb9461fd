"""Walks over the atoms of a text and notes what each says, looking ahead where only neighbours give it a meaning."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..scanned import Scanned
from ..tokens import Atom
from . import classes, sizes, standards, words
from .cursor import Cursor

_HANDLERS: dict[str, Callable[[Cursor, Atom], None]] = {
    "word": words.word,
    "unknown": words.word,
    "standard": standards.standard,
    "body": standards.body,
    "thread": sizes.thread,
    "metric": sizes.metric,
    "by": sizes.by,
    "number": words.number,
    "fraction": words.number,
    "sign": sizes.sign,
    "series": sizes.series,
    "tolerance": sizes.tolerance,
    "class": classes.property_class,
    "grade": classes.grade,
    "sae": classes.sae,
    "astm": classes.astm,
    "nut_grade": classes.nut_grade,
    "hardness": classes.hardness,
    "vickers": classes.vickers,
    "coating": classes.coating,
    "currency": classes.sign_of_currency,
}


def scan(atoms: Sequence[Atom]) -> Scanned:
    """Return what the atoms say; numbers that could be several things wait for the end."""
    cursor = Cursor(atoms)
    while cursor.at < len(atoms):
        atom = cursor.next()
        handler = _HANDLERS.get(atom.kind)
        if handler is not None:
            handler(cursor, atom)
    return cursor.scanned
