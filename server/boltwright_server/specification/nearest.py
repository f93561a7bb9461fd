"""Designations near one that has no specification: each is tried, so that none of them leads nowhere."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..quantities import Refusal
from .compose import specification

_MOST = 5
#: Longer texts are no slip of the pen.
_LONGEST = 80
#: A thread as it is written, metric (M12x1.5x60) or inch (#10-24 UNC, 1 1/2-6 UNC).
_THREAD = re.compile(
    r"[Mm]\s?\d+(?:[.,]\d+)?(?:\s?[x×X]\s?\d+(?:[.,]\d+)?)*|(?:#\d+|[\d./]+(?: \d+/\d+)?)-\d+(?: [A-Z]+)?|#\d+"
)
_BETWEEN = re.compile(r"\s+-\s+")
_STANDARD = re.compile(r"[A-Z]+(?: [A-Z]+)* [A-Z]*\d[\d.]*")
#: What a designation that stops too early may lack, the most common first.
_ENDINGS = ("-6g", "-6H", "-2A", "-2B", " - 8.8", " - 10.9", " - 8", " - 10")


def nearest_designations(asked: str, names: Sequence[str]) -> tuple[str, ...]:
    """Return up to five canonical designations that have a specification.

    `names` are the near names that a refusal carries: standards, sizes or classes. Each takes the place of its like.
    """
    found: dict[str, None] = {}
    for candidate in _candidates(asked, names) if len(asked) <= _LONGEST else ():
        try:
            found[specification(candidate).designation] = None
        except Refusal:
            continue
        if len(found) == _MOST:
            break
    return tuple(found)


def _candidates(asked: str, names: Sequence[str]) -> Iterator[str]:
    for name in names:
        yield name
        yield from _with_name(asked, name)
        yield from _in_each_part(asked, name)
    if not names:
        yield from (f"{asked.rstrip(' -')}{ending}" for ending in _ENDINGS)
        yield from (f"{asked.split('-')[0].rstrip()}{ending}" for ending in _ENDINGS[:4])


def _in_each_part(asked: str, name: str) -> Iterator[str]:
    """Put a name in the place of each part between ` - `, the last one first, or of what stands before its length."""
    parts = _BETWEEN.split(asked)
    for at in reversed(range(len(parts))):
        for one in (name, name + parts[at][parts[at].find("x") :] if "x" in parts[at] else name):
            yield " - ".join([*parts[:at], one, *parts[at + 1 :]])


def _with_name(asked: str, name: str) -> Iterator[str]:
    """Put a name in the place of the first of its kind. Of a thread the shortest piece goes first: M11 of M11x60."""
    if _STANDARD.fullmatch(name):
        yield _STANDARD.sub(name, asked, count=1)
    elif thread := _THREAD.search(asked) if _THREAD.fullmatch(name) else None:
        pieces = re.split(r"([x×X-])", thread[0])
        for end in range(1, len(pieces) + 1, 2):
            given = "".join(pieces[:end])
            yield asked[: thread.start()] + name + asked[thread.start() + len(given) :]
    else:
        yield f"{asked.rpartition('-')[0].rstrip()} - {name}"
