"""Near names: what is passed over for speed would not have been near.

The edit distance is held against its definition, recursively (optimal string alignment).
"""

import random
from functools import cache

from boltwright_server.quantities import near_names
from boltwright_server.quantities.near_names import _least_slips, _slips


@cache
def plainly(one: str, other: str) -> float:
    """The distance by its definition: a swap of neighbours costs 0.75, every other slip 1."""
    if not one or not other:
        return float(len(one) + len(other))
    ways = [plainly(one[:-1], other) + 1, plainly(one, other[:-1]) + 1]
    ways.append(plainly(one[:-1], other[:-1]) + (one[-1] != other[-1]))
    if len(one) > 1 and len(other) > 1 and one[-1] == other[-2] != one[-2] == other[-1]:
        ways.append(plainly(one[:-2], other[:-2]) + 0.75)
    return min(ways)


def test_the_bound_lies_never_above_the_distance() -> None:
    """Class names, and words of few letters, which have most in common."""
    draw = random.Random(17)
    words = ["".join(draw.choices("aB08.-", k=draw.randint(0, 7))) for _ in range(150)]
    words += ["8.8", "88", "10.9", "A2-70", "A2-07", "SAE J429 5", "J4295", "Q17"]
    for one in words:
        for other in words:
            assert _slips(one, other) == plainly(one, other)
            assert _least_slips(one, other) <= _slips(one, other)


def test_many_unknown_names_find_what_a_search_without_the_bound_finds() -> None:
    """Q1, Q2, ... as a column of a file held them: the same names, in the same order."""
    known = ["4.6", "8.8", "10.9", "12.9", "A2-70", "A4-80", "SAE J429 5", "45H"]
    for asked in ("Q1", "8,8", "9.8", "A270", "A2-07", "J429 5", "54H"):
        near = near_names(asked, known)
        plain = asked.lower().replace(",", ".").replace(" ", "")
        borne = min(max(2.0, len(plain) / 2), 5.0)
        others = [one.lower().replace(" ", "") for one in known]
        held = {
            one
            for one, other in zip(known, others, strict=True)
            if plainly(plain, other) <= borne or (len(plain) >= 4 and plain in other)
        }
        assert set(near) <= held
        assert len(near) == min(4, len(held))
