"""Runs the grammar and says where a text stops making sense and what was expected there."""

from __future__ import annotations

import re
from contextlib import AbstractContextManager

from lark import Lark, Token, Tree, UnexpectedInput

from ..products import products
from ..quantities import NotUnderstood, at_position
from ..quantities.keeper import remembered
from .grammar import parser

#: Longer texts are refused unread; the longest canonical designation has under 60 characters.
LONGEST = 200
_SPELLINGS = str.maketrans({"×": "x", "✕": "x", "–": "-", "—": "-", "−": "-", "\u00a0": " ", "″": '"', "”": '"'})
#: How the body of a standard may be written: national and European adoptions of an ISO standard keep its number.
_BODIES = {
    "ISO": r"(?:(?:DIN|BS|NF|UNI)\s*)?(?:EN\s*)?ISO",
    "ASME": r"(?:ANSI\s*\/?\s*ASME|ANSI|ASME)",
}
_MEANING = {
    "M": "M and a diameter",
    "NUMBER": "a number",
    "INCH": "an inch size such as 1/4, 1 1/2, #8 or .250",
    "TPI": "threads per inch",
    "SERIES": "a series UNC, UNF, UNEF, UN or UNS",
    "CLASS": "a class such as 2A or 2B",
    "LE": "LE and a length of engagement",
    "LENGTH": "a length in inch",
    "TOLERANCE": "a tolerance class such as 6g, 6H or 5g6g",
    "ENGAGEMENT": "an engagement group S, N or L",
    "HAND": "LH",
    "KNOWN_STANDARD": "a standard such as ISO 4014",
    "STANDARD": "a standard such as ISO 4014",
    "INCH_THREAD": "an inch thread such as 1/2-13",
    "INCH_ALONE": "an inch thread such as 1/2-13",
    "INCH_LENGTH": "a length in inch",
    "PROPERTY_CLASS": "a property class such as 8.8",
    "YEAR": "a year",
    "FORM": "the form of a washer and its hole, A 10.5",
    "HOT_DIP": "tZn (hot dip galvanized)",
    "FLAKE": "a zinc flake coating such as flZn-480h",
    "CHROMATE": "yc or nc",
    "LUBRICATED": "L (lubricated)",
    "HOURS": "h",
    "FE": "an electroplated coating such as Fe/Zn8/An/T0",
    "METAL": "a coating metal such as Zn or ZnNi",
    "FINISH": "a finish such as An or T0",
    "COATING_CODE": "a coating code such as A3L",
    "_MARK": '"',
    "_SLASH": "/",
    "_X": "x",
    "_DASH": "-",
    "COLON": ":",
    "SLASH": "/",
    "$END": "the end",
}


@remembered()
def _parser() -> Lark:
    return parser(f"(?:{known_standards()})(?![0-9A-Za-z])")


def known_standards() -> str:
    """Return a pattern of the products held, with the letters of national and European adoptions of ISO standards."""
    known = {name for product in products() for name in (product.id, *product.standard.also)}
    names = sorted(sorted(known), key=len, reverse=True)
    return "|".join(map(_adoptions, names))


def _adoptions(name: str) -> str:
    words = r"\s*".join(re.escape(word).replace("/", r"\/") for word in name.split())
    words = words.replace("hex", "hex(?:agon)?")
    for body, pattern in _BODIES.items():
        if words.startswith(body):
            return pattern + words.removeprefix(body)
    return words


def read(text: str, start: str, member: str = "designation") -> Tree[Token]:
    """Parse `text` by the rule `start` of the grammar; `member` is where the text came from.

    Raises:
        NotUnderstood: too long, empty or not of that form; names the position and what was expected.
    """
    if len(text) > LONGEST:
        raise NotUnderstood(
            f"a designation has at most {LONGEST} characters; this one has {len(text)}",
            member=member,
            code="too_long",
        )
    spelt = text.translate(_SPELLINGS)
    try:
        return _parser().parse(spelt, start=start)
    except UnexpectedInput as error:
        raise _explained(text, error, member) from None


def at(token: Token | None) -> AbstractContextManager[None]:
    """Let a refusal of what a token says name the place of the token."""
    return at_position(None if token is None else token.start_pos)


def _explained(text: str, error: UnexpectedInput, member: str) -> NotUnderstood:
    position, end = getattr(error, "pos_in_stream", None), len(text.rstrip())
    expected = getattr(error, "expected", None) or getattr(error, "allowed", None) or ()
    wanted = sorted({_MEANING.get(name, name) for name in expected})
    ended = getattr(getattr(error, "token", None), "type", "") == "$END"
    if ended or position is None or not 0 <= position < end:
        position, where = end, "at the end"
    else:
        where = f"at position {position} ({_excerpt(text, position)})"
    return NotUnderstood(
        f"cannot read {_excerpt(text)} {where}: expected {' or '.join(wanted) or 'something else'}",
        member=member,
        position=position,
        expected=wanted,
    )


def _excerpt(text: str, start: int = 0) -> str:
    piece = re.sub(r"[^\x20-\x7e\u00a0-\uffff]", "?", text[start : start + 40])
    return f"{piece!r}" + ("..." if len(text) - start > 40 else "")
