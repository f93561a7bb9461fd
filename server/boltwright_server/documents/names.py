"""What people call the ids of the wire contract; characteristics have their words in the book of characteristics."""

from __future__ import annotations

from ..specification.characteristic import in_words

#: Of what is no characteristic, only where the id read aloud is not what the trade says.
_NAMES = {
    "stress_area": "Nominal stress area",
    "hold_time": "Time under load",
}
GROUP_NAMES = {
    "dimension": "Dimensions",
    "thread": "Thread",
    "mechanical": "Mechanical properties",
    "surface": "Surface",
    "marking": "Marking",
}


def name_of(id: str) -> str:
    """Return the name of a characteristic, property or setting, with a capital letter."""
    return _NAMES.get(id) or capital(in_words(id))


def capital(text: str) -> str:
    """Return the text with a capital letter in front; the rest stays as it is."""
    return text[:1].upper() + text[1:]
