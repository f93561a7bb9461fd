"""From typed text to atoms: standards, sizes, numbers, classes, words. Each distinct piece of text is scanned once.

No pattern here can backtrack badly: alternatives start with different characters or are bounded in length.
"""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

from .lexicon import terms

#: Longer texts are refused unread.
LONGEST_TEXT = 500
#: Scanned pieces are remembered up to this many, then forgotten all at once.
_REMEMBERED = 50_000


class Atom(NamedTuple):
    """One recognised piece: its kind, its value in canonical spelling, and how it stood in the text."""

    kind: str
    value: str
    text: str


_SPELLINGS = str.maketrans(
    {
        "×": "X", "✕": "X", "*": "X", "–": "-", "—": "-", "−": "-", "“": '"', "”": '"', "″": '"',
        ";": " ", "(": " ", ")": " ", "[": " ", "]": " ", "_": " ", "|": " ", "\t": " ", ":": " ", "\u00a0": " ",
    }
)  # fmt: skip
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d)")
_ATOM = re.compile(
    r"""
    (?P<iso>(?:DIN[-.]?)?(?:EN[-.]?)?ISO[-.]?(?P<iso_number>\d{3,5}(?:-\d(?![\d.]))?))
  | (?P<din>DIN[-.]?(?P<din_number>\d{2,5})(?!\d))
  | (?P<asme>(?:ASME|ANSI)?[-./]?B(?P<asme_number>18\.\d(?:\.\d)?))
  | (?P<body>(?:DIN|EN|ISO|ASME|ANSI|SAE|ASTM)(?![A-Z0-9]))
  | (?P<thread>M(?![A-Z0-9]))
  | (?P<vickers>HV(?![A-Z0-9]))
  | (?P<stainless>A(?P<steel>[1-5])-?(?P<strength>50|70|80|100)(?!\d))
  | (?P<grade>(?:GRADE|GRD|GR|G)[-.]?(?P<grade_number>\d(?:\.\d)?)(?![\d.]))
  | (?P<class>(?:CLASS|CL|PC|KL|FKL|QUAL)[-.]?(?P<class_number>\d{1,2}(?:\.\d)?U?)(?![\d.]))
  | (?P<hardness>(?P<hv>\d{3})HV)
  | (?P<metric>M(?P<diameter>\d{1,3}(?:\.\d{1,2})?))
  | (?P<strength_class>(?:0[4-9]|4|5|6|8|9|010|10|012|12)\.[689]U?(?![\d.]))
  | (?P<series>UNR?(?:C|EF|F|S)?(?![A-Z]))
  | (?P<fraction>(?:\d{1,2}-)?\d{1,2}/\d{1,2})
  | (?P<number>\d{1,6}(?:\.\d{1,4})?|\.\d{1,4})
  | (?P<by>X(?![A-Z]))
  | (?P<dash>-)
  | (?P<sign>[#"'])
  | (?P<word>[A-Z][A-Z0-9]{0,39})
  | (?P<other>.)
    """,
    re.VERBOSE,
)
_VALUES = {
    "iso": ("standard", "iso_number", "ISO "),
    "din": ("standard", "din_number", "DIN "),
    "asme": ("standard", "asme_number", "ASME B"),
    "grade": ("grade", "grade_number", ""),
    "class": ("class", "class_number", ""),
    "hardness": ("hardness", "hv", ""),
    "metric": ("metric", "diameter", ""),
}
_seen: dict[str, tuple[Atom, ...]] = {}


def pieces(text: str) -> list[str]:
    """Return the pieces of a text between white space, in capitals, without accents, decimal commas as points."""
    if not text.isascii():
        text = "".join(
            one for one in unicodedata.normalize("NFKD", text.translate(_SPELLINGS)) if not unicodedata.combining(one)
        )
    text = text.upper().translate(_SPELLINGS)
    if "," in text:
        text = _DECIMAL_COMMA.sub(".", text).replace(",", " ")
    return text.split()


def atoms(piece: str) -> tuple[Atom, ...]:
    """Return the atoms of one piece."""
    found = _seen.get(piece)
    if found is None:
        if len(_seen) >= _REMEMBERED:
            _seen.clear()
        found = _seen[piece] = _scan(piece)
    return found


def _scan(piece: str) -> tuple[Atom, ...]:
    bare = piece.strip(".,-/'")
    if bare in terms():
        return (Atom("word", bare, bare),)
    parts = bare.replace("/", "-").replace(".", "-").split("-")
    if len(parts) > 1 and all(part in terms() for part in parts):
        return tuple(Atom("word", part, part) for part in parts)
    found = []
    for match in _ATOM.finditer(bare):
        kind, text = match.lastgroup or "other", match[0]
        kind = next(name for name, value in match.groupdict().items() if value is not None)
        found.append(_atom(kind, text, match))
    return tuple(found)


def _atom(kind: str, text: str, match: re.Match[str]) -> Atom:
    if kind in _VALUES:
        name, group, prefix = _VALUES[kind]
        return Atom(name, prefix + match[group], text)
    if kind == "stainless":
        return Atom("stainless", f"A{match['steel']}-{match['strength']}", text)
    if kind == "word" and text not in terms():
        return Atom("unknown", text, text)
    return Atom(kind, text, text)
