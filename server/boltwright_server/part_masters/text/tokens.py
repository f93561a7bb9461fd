"""From typed text to atoms: standards, sizes, numbers, classes, words. Each distinct piece of text is scanned once.

No pattern here can backtrack badly: alternatives start with different characters or are bounded in length.
"""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

from ...quantities.keeper import KEEPER, Memory, Size
from .lexicon import terms

#: Longer texts are refused unread.
LONGEST_TEXT = 500
#: Scanned pieces are remembered up to this many, then forgotten all at once; bytes of one.
_REMEMBERED, _BYTES = 50_000, 500


class Atom(NamedTuple):
    """One recognised piece: its kind, its value in canonical spelling, and how it stood in the text."""

    kind: str
    value: str
    text: str


_SPELLINGS = str.maketrans(
    {
        "×": "X", "✕": "X", "*": "X", "–": "-", "—": "-", "−": "-", "“": '"', "”": '"', "″": '"', "Ø": " ", "ß": "SS",
        ";": " ", "(": " ", ")": " ", "[": " ", "]": " ", "_": " ", "|": " ", "\t": " ", "\u00a0": " ",
    }
)  # fmt: skip
#: The same for all of ASCII, capitals at once: most texts hold nothing else.
_ASCII_SPELLINGS = bytes(ord(_SPELLINGS.get(code, chr(code)).upper()) for code in range(128)).ljust(256)
#: A comma between digits is a decimal one, unless a number with a point follows: `M10X60,8.8`.
_MICRO = re.compile(r"[\u00b5\u03bc](?:m(?![a-z]))?", re.IGNORECASE)
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d{1,4}(?![\d.])(?!,\d))")
#: A colon only introduces the year of an edition: `ISO 4014:2011`.
_COLON = re.compile(r"\s?:\s?(?!(?:19|20)\d\d(?!\d))|(?<!\d):|(?<=\s):")
_STARS = re.compile(r"\*{2,}")
#: `T.E.` is TE.
_INITIALS = re.compile(r"(?:[A-Z]\.){1,4}[A-Z]")
#: Not behind the x of a size: `.25-20X.75`.
_POINT_AFTER_WORD = re.compile(r"(?<=[A-WYZ])\.(?=\d)")
#: `1\u00bd` is 1-1/2, never 11/2; `1.1/2` is 1-1/2, too.
_VULGAR = re.compile(r"(\d)([\u00bc-\u00be\u2150-\u215e])")
_POINTED_FRACTION = re.compile(r"(?<![\d.])(\d{1,2})\.(?=\d{1,2}/\d{1,2}(?!\d))")
#: `B10.5`: form and hole of a washer; `B18.3` is a standard.
_FORM_AND_HOLE = re.compile(r"[AB](?!18\.)(?=\d{1,2}\.\d$)")
_ATOM = re.compile(
    r"""
    (?P<iso>(?:DIN[-. ]?)?(?:EN[-. ]?)?ISO[-. ]?(?P<iso_number>\d{3,5}(?:-\d(?![\d.]))?))
  | (?P<din>DIN[-. ]?(?P<din_number>\d{2,5}(?:-\d(?![\d.]))?)(?!\d))
  | (?P<asme>(?:ASME|ANSI)?(?:/ANSI)?[-./ ]?B(?P<asme_number>18\.\d{1,2}(?:\.\d)?))
  | (?P<sae>(?:SAE[-. ]?)?J(?P<sae_number>429|995)(?!\d))
  | (?P<astm>(?:ASTM[-. ]?)?(?P<astm_number>A(?:193|194|307|325|354|449|490|563|574)|F3125)M?(?![0-9]))
  | (?P<body>(?:DIN|EN|ISO|ASME|ANSI|SAE|ASTM|BS|UNI|UNE|NFE?|JIS|GB/T|GB|GOST|CSN|ONORM)(?![A-Z]))
  | (?P<thread>M(?![A-Z0-9]))
  | (?P<hardness_first>HV(?P<hv_first>\d{3})(?!\d))
  | (?P<vickers>HV(?![A-Z0-9]))
  | (?P<stainless>A(?P<steel>[1-5])[-./]?(?P<strength>50|70|80|100|025|035|040)(?!\d))
  | (?P<newer_steel>(?:A8|C[134]|D[2468]|F1)-(?:45|50|60|70|80|100|110)(?!\d))
  | (?P<grade>(?:GRADE|GRD|GR|G)[-. ]?(?P<grade_number>\d{1,3}(?:\.\d)?)(?![\d.]))
  | (?P<class>(?:CLASS|CLASSE|CL|PC|KL|FKL|FK|QUAL|CAL|K(?=\d{1,2}\.\d))[-. ]?
      (?P<class_number>\d{1,3}(?:\.\d)?[UZX]?)(?![\d./]))
  | (?P<coating>FE/[A-Z]{2,4}\d{1,2}(?:/{1,2}[A-Z0-9]{1,6}){0,3}
      |FLZN[-/]?(?:NC|YC)?[-/]?L?[-/]?\d{2,4}H|[ABPQR]\d[A-T](?![A-Z0-9]))
  | (?P<hardness>(?P<hv>\d{3})HV)
  | (?P<metric>M(?P<diameter>\d{1,3}(?:\.\d{1,2})?))
  | (?P<strength_class>(?:0[4-9]|4|5|6|8|9|010|10|012|12)\.[689][UZX]?(?![\d.]))
  | (?P<hard_class>(?:14|22|33|45)H(?![A-Z0-9]))
  | (?P<nut_grade>(?:2HM?|DH3?|BC|BD|C3)(?![A-Z0-9]))
  | (?P<series>UNR?(?:C|EF|F|S)?(?![A-WYZ]|X[A-Z]))
  | (?P<tolerance>(?:[123][AB]|[4-9][EFGH](?:[4-9][EFGH])?)(?![A-WYZ0-9.]|X[A-Z]))
  | (?P<nut_class>(?:0?[4-9]|1[02])[ZX](?![A-Z0-9]))
  | (?P<fraction>(?:\d{1,2}-)?\d{1,2}/\d{1,2})
  | (?P<number>\d{1,6}(?:\.\d{1,4})?|\.\d{1,4})
  | (?P<year>:(?P<year_number>\d{4}))
  | (?P<by>X(?![A-Z]))
  | (?P<dash>-)
  | (?P<sign>[#"'=/])
  | (?P<word>[A-Z][A-Z0-9]{0,39})
  | (?P<currency>[\u20ac$\u00a3\u00a5])
  | (?P<unknown>[^\W\d_A-Z]{2,40})
  | (?P<other>.)
    """,
    re.VERBOSE,
)
#: Kind of match -> kind of atom, the group that holds the value, and what stands before it.
_VALUES = {
    "iso": ("standard", "iso_number", "ISO "),
    "din": ("standard", "din_number", "DIN "),
    "asme": ("standard", "asme_number", "ASME B"),
    "sae": ("sae", "sae_number", "SAE J"),
    "astm": ("astm", "astm_number", "ASTM "),
    "grade": ("grade", "grade_number", ""),
    "class": ("class", "class_number", ""),
    "hardness": ("hardness", "hv", ""),
    "hardness_first": ("hardness", "hv_first", ""),
    "metric": ("metric", "diameter", ""),
    "year": ("year", "year_number", ""),
}
_CLASSES = frozenset(("strength_class", "hard_class", "nut_class", "newer_steel"))
_seen: dict[str, tuple[Atom, ...]] = {}


def pieces(text: str) -> list[str]:
    """Return the pieces of a text between white space, in capitals, without accents, decimal commas as points."""
    if "**" in text:
        text = _STARS.sub(" ", text)
    if text.isascii():
        text = text.encode().translate(_ASCII_SPELLINGS).decode()
    else:
        text = _MICRO.sub(" um ", text)
        text = unicodedata.normalize("NFKD", _VULGAR.sub(r"\1-\2", text).translate(_SPELLINGS)).replace("\u2044", "/")
        text = "".join(one for one in text if not unicodedata.combining(one)).upper().translate(_SPELLINGS)
    if "," in text:
        text = _DECIMAL_COMMA.sub(".", text).replace(",", " ")
    if ":" in text:
        text = _COLON.sub(" ", text)
    return text.split()


def atoms(piece: str) -> tuple[Atom, ...]:
    """Return the atoms of one piece."""
    found = _seen.get(piece)
    if found is None:
        if len(_seen) >= _REMEMBERED:
            _seen.clear()
        found = _seen[piece] = tuple(_scan(piece))
    return found


#: A dictionary, for most pieces of a catalogue come once; the atoms of a piece are a few for each of its characters.
KEEPER.add(Memory(f"{__name__}.atoms", lambda: Size(len(_seen), len(_seen) * _BYTES), _seen.clear))


def _scan(piece: str) -> list[Atom]:
    bare = piece.strip(".,-/'?!")
    if _INITIALS.fullmatch(bare):
        bare = bare.replace(".", "")
    if piece.startswith(".") and bare[:1].isdigit():
        bare = f".{bare}"
    if bare in terms():
        return [Atom("word", bare, bare)]
    parts = [part for part in re.split(r"[-/.]", bare) if part]
    if len(parts) > 1 and all(part in terms() for part in parts):
        return [Atom("word", part, part) for part in parts]
    if "/" in bare:
        bare = _POINTED_FRACTION.sub(r"\1-", bare)
    if _FORM_AND_HOLE.match(bare) is not None:
        bare = f"{bare[0]} {bare[1:]}"
    # The group that closed last is the outermost: the kind.
    found = _ATOM.finditer(_POINT_AFTER_WORD.sub(" ", bare))
    return [_atom(match.lastgroup or "other", match[0], match) for match in found]


def _atom(kind: str, text: str, match: re.Match[str]) -> Atom:
    if kind in _VALUES:
        name, group, prefix = _VALUES[kind]
        return Atom(name, prefix + match[group], text)
    if kind == "stainless":
        return Atom("class", f"A{match['steel']}-{match['strength']}", text)
    if kind in _CLASSES:
        return Atom("class", text, text)
    if kind == "word" and text not in terms():
        return Atom("unknown", text, text)
    return Atom(kind, text, text)
