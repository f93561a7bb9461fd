"""Symbols as the standards set them: ISO 80000-1, clause 7 (quantities in italics, subscripts below the line)."""

import pytest

from boltwright_server.documents.symbols import Symbol


@pytest.mark.parametrize(
    ("spelt", "letter", "subscript", "italic"),
    [
        ("s", "s", "", True),
        ("d2", "d", "2", True),
        ("D1", "D", "1", True),
        ("dw", "d", "w", True),
        ("lg", "l", "g", True),
        ("dkt", "d", "kt", True),
        ("Td2", "T", "d2", True),
        ("TD2", "T", "D2", True),
        ("Fm,min", "F", "m,min", True),
        ("MB,min", "M", "B,min", True),
        ("Rp0.2", "R", "p0.2", True),
        ("ReL", "R", "eL", True),
        ("LT", "L", "T", True),
        ("es", "es", "", True),
        ("EI", "EI", "", True),
        ("KV", "KV", "", True),
        ("HV", "HV", "", False),
        ("HBW", "HBW", "", False),
        ("HV 0.3", "HV 0.3", "", False),
        ("set", "set", "", False),
        ("drop", "drop", "", False),
    ],
)
def test_a_symbol_in_its_parts(spelt: str, letter: str, subscript: str, italic: bool) -> None:
    assert Symbol.of(spelt) == Symbol(letter, subscript, italic)
