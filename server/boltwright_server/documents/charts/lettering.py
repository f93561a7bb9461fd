"""Lettering of a chart: lines of text that fold, and figures that end at a place."""

from __future__ import annotations

from collections.abc import Iterable

from ..drawings.pen import LETTER, lettering, width_of

LINE = 4.4
#: The widths of the letters are estimates: nothing is set closer to its room than this.
_SPARE = 1.03
#: Letters wider than the estimate, in parts of the letter height; all other scripts are taken to be as wide.
_WIDE, _MORE = set("MWmw@%&—…"), 0.45
_LATIN = 0x24F


def folded(text: str, width: float) -> list[str]:
    """Return a text as lines that fit the width; a word longer than a line is broken."""
    lines = [""]
    # Not at the narrow spaces inside a figure.
    for word in text.split(" "):
        for piece in _pieces(word, width):
            longer = f"{lines[-1]} {piece}".strip()
            if lines[-1] and room_of(longer) > width:
                lines.append(piece)
            else:
                lines[-1] = longer
    return lines


def _pieces(word: str, width: float) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and room_of(pieces[-1] + letter) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def room_of(text: str) -> float:
    """Return how much room a text takes at most."""
    wide = sum(letter in _WIDE or ord(letter) > _LATIN for letter in text)
    return width_of(text) * _SPARE + wide * _MORE * LETTER


def paragraph(text: str, left: float, top: float, width: float, height: float = LETTER) -> tuple[list[str], float]:
    """Return a text folded to a width, from its top, and its lower end."""
    lines = folded(text, width * LETTER / height)
    pitch = LINE * height / LETTER
    return [lettering(line, (left, top + height + pitch * at), height=height) for at, line in enumerate(lines)], (
        top + pitch * len(lines)
    )


def ending(text: str, right: float, base: float) -> str:
    """Return a text that ends at `right`."""
    return lettering(text, (right - width_of(text), base))


def widest(texts: Iterable[str]) -> float:
    """Return the room of the widest text."""
    return max(map(room_of, texts), default=0.0)
