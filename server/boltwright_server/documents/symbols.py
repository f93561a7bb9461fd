"""How a symbol is set: quantities in italics with their subscript, names of scales upright (ISO 80000-1, clause 7)."""

from __future__ import annotations

import re
from dataclasses import dataclass

#: A letter, then what is set below the line: d2, ds, Fm,min, Rp0.2. Not: HV, KV, es, EI.
_WITH_SUBSCRIPT = re.compile(r"([A-Za-z])((?:[a-z0-9]|(?<=[a-z])[A-Z]).*)")
_WHOLE = {"es", "ei", "EI", "ES", "KV"}
#: Not symbols, but words that a limit is called by.
WORDS = {"set"}


@dataclass(frozen=True, slots=True)
class Symbol:
    """A symbol in its parts. `italic` is False for scales and words."""

    letter: str
    subscript: str = ""
    italic: bool = True

    @classmethod
    def of(cls, text: str) -> Symbol:
        """Read a symbol as the tables spell it."""
        match = None if text in _WHOLE | WORDS else _WITH_SUBSCRIPT.fullmatch(text)
        if match is not None:
            return cls(match[1], match[2])
        return cls(text, italic=text in _WHOLE or len(text) == 1)
