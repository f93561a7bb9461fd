"""Known names near one that is not: what a person would have meant to write."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .keeper import remembered

#: Two neighbours that changed places are one slip, and a likelier one than a wrong character.
_SWAP = 0.75
#: A name that holds what was written whole, so long as that is no single letter or figure.
_HELD, _LEAST_HELD = 1.0, 4
#: Of a name of another shape, as letters where digits were written.
_OTHER_SHAPE = 1.0
_LONGEST = 60
_FEWEST, _MOST = 2.0, 5.0
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


def near_names(asked: str, known: Iterable[str], most: int = 4, slips: float | None = None) -> tuple[str, ...]:
    """Return the names nearest to `asked`, the likeliest first, in the order of `known` among equals.

    Names of the same shape (letters, digits, signs) come first, then those of the fewest slips: a character too many,
    too few or wrong, or two neighbours that changed places; then those with the nearest number. A name that holds
    `asked` whole is near. `slips` is how many are borne, by default half as many as characters, from 2 to 5.
    """
    plain = _plain(asked[:_LONGEST])
    borne = min(max(_FEWEST, len(plain) / 2), _MOST) if slips is None else slips
    ranked = []
    for name in known:
        other = _plain(name)
        if len(plain) >= _LEAST_HELD and plain in other:
            far = _HELD + len(other) / 1000
        elif _least_slips(plain, other) > borne:
            continue
        else:
            far = _slips(plain, other)
        if far <= borne:
            shape = 0.0 if _shape(plain) == _shape(other) else _OTHER_SHAPE
            ranked.append(((far + shape, _apart(plain, other)), name))
    return tuple(dict.fromkeys(name for _, name in sorted(ranked, key=lambda one: one[0])))[:most]


@remembered(4096)
def _plain(name: str) -> str:
    return re.sub(r"[\s_]+", "", name.lower()).replace(",", ".")


def _shape(name: str) -> str:
    return re.sub(r"\d+", "0", re.sub(r"[^\W\d]+", "a", name))


def _apart(one: str, other: str) -> float:
    """How far the numbers in two names are from each other."""
    pairs = zip(_NUMBER.findall(one), _NUMBER.findall(other), strict=False)
    return sum(abs(float(a) - float(b)) for a, b in pairs)


def _least_slips(one: str, other: str) -> int:
    """Return a bound below `_slips`, for far less work: characters of either that have no partner in the other."""
    left = other
    for letter in one:
        left = left.replace(letter, "", 1)
    return len(left) + max(0, len(one) - len(other))


def _slips(one: str, other: str) -> float:
    """Return the edit distance with swaps of neighbours (optimal string alignment)."""
    before: list[float] = []
    row = [float(at) for at in range(len(other) + 1)]
    for i, letter in enumerate(one, 1):
        older, before, row = before, row, [float(i)]
        for j, its in enumerate(other, 1):
            best = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != its))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == its and letter != its:
                best = min(best, older[j - 2] + _SWAP)
            row.append(best)
    return row[-1]
