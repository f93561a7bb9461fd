"""How a symbol is set: quantities in italics with their subscript, names of scales upright (ISO 80000-1, clause 7)."""

from __future__ import annotations

import re
from dataclasses import dataclass

#: A letter, then what is set below the line: d2, ds, Rp0.2, ReL, Fm,min, MB,min, TD2, LT. Not: HV, KV, es, EI.
_WITH_SUBSCRIPT = re.compile(r"([A-Za-z])([a-z0-9].*|\w+,\w+|D\d|(?<=L)[TGB])")
_WHOLE = {"es", "ei", "EI", "ES", "KV"}
#: Three small letters or more with a vowel after the first are a word: set, drop; not dkt.
_WORD = re.compile(r"(?=.+[aeiou])[a-z]{3,}")


@dataclass(frozen=True, slots=True)
class Symbol:
    """A symbol in its parts. `italic` is False for scales and words."""

    letter: str
    subscript: str = ""
    italic: bool = True

    @classmethod
    def of(cls, text: str) -> Symbol:
        """Read a symbol as the tables spell it."""
        match = None if text in _WHOLE or is_word(text) else _WITH_SUBSCRIPT.fullmatch(text)
        if match is not None:
            return cls(match[1], match[2])
        return cls(text, italic=text in _WHOLE or len(text) == 1)


def is_word(text: str) -> bool:
    """Say whether a limit is called by a word (`set`, `drop`) and not by a symbol."""
    return _WORD.fullmatch(text) is not None
