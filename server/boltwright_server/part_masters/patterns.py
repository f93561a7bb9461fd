"""Rows repeat themselves in everything but the length: what is read once with one length holds for every other.

The length in a text is replaced by a mark, the row is read and resolved with it, and the result is remembered under
the words that are left. Whatever does not come out as expected is read the long way, every time.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, NamedTuple

from .findings import Finding
from .reading import Reading
from .requirement import MARK_LENGTH, Requirement, decimal_of, resolve, with_length
from .row import reading_of
from .tokens import LONGEST_TEXT

_WORDS = ("description", "designation", "standard", "thread", "property_class", "coating")
#: The number behind the last x, as `M10X60`, `M8-1.25 X 30`; inch fractions are read the long way.
_LENGTH = re.compile(r"[xX×*]\s{0,3}(\d{1,4}(?:[.,]\d{1,2})?)(?![\d./]|\s{0,3}[xX×*/])")
_MARK = str(MARK_LENGTH)
_REMEMBERED = 65_536


class Pattern(NamedTuple):
    """What rows of one wording say, resolved with the mark in place of the length."""

    reading: Reading
    requirement: Requirement
    findings: tuple[Finding, ...]
    has_length: bool


class Patterns:
    """Remembers the wordings of a stream."""

    def __init__(self) -> None:
        """Start with none."""
        self._known: dict[tuple[Any, ...], Pattern | None] = {}

    def read(self, given: Mapping[str, Any], said: list[Finding]) -> Requirement:
        """Return what a row asks for; findings of the reading itself are added to `said`."""
        found = self._split(given)
        if found is not None:
            key, length = found
            pattern = self._known.get(key, False)
            if pattern is False:
                pattern = self._learn(key, length is not None)
            if isinstance(pattern, Pattern):
                said.extend(pattern.findings)
                return with_length(pattern.requirement, None if length is None else decimal_of(length))
        return resolve(reading_of(given, said))

    def _split(self, given: Mapping[str, Any]) -> tuple[tuple[Any, ...], str | None] | None:
        """Return the wording and the length of a row, or None where the two cannot be told apart simply."""
        words = [given.get(name) or "" for name in _WORDS]
        stated = given.get("length") or ""
        for word in (*words, stated):
            if not isinstance(word, str) or len(word) > LONGEST_TEXT:
                return None
        if stated and decimal_of(stated) is None:
            return None
        length = stated
        for at in (0, 1):
            match = next(reversed([*_LENGTH.finditer(words[at])]), None) if words[at] else None
            if match is None:
                continue
            number = match[1]
            if length and number != length:
                return None
            length = number
            words[at] = f"{words[at][: match.start(1)]}{_MARK}{words[at][match.end(1) :]}"
        return (*words, bool(stated)), length or None

    def _learn(self, key: tuple[Any, ...], has_length: bool) -> Pattern | None:
        marked: dict[str, Any] = dict(zip(_WORDS, key, strict=False))
        if key[-1]:
            marked["length"] = _MARK
        said: list[Finding] = []
        reading = reading_of(marked, said)
        plain = all(_MARK not in f"{one.given} {one.expected} {one.detail}" for one in said)
        pattern = None
        if plain and reading.length == (_MARK if has_length else None) and _MARK not in reading.left_over:
            pattern = Pattern(reading, resolve(reading), tuple(said), has_length)
        if len(self._known) >= _REMEMBERED:
            self._known.clear()
        self._known[key] = pattern
        return pattern
