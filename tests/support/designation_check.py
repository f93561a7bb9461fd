"""What the readers of designations promise for any text: an answer or a refusal, quickly, and a refusal that helps."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from time import perf_counter, process_time
from typing import Any

from boltwright_server.designations import names_thread, parse_coating, parse_product, parse_thread
from boltwright_server.designations.reader import read
from boltwright_server.quantities import NotUnderstood, Refusal

#: Seconds for one text.
SLOWEST = 0.010
_SAYS_WHERE = re.compile(r"cannot read .* (?:at position (\d+) \(.*\)|at the end): expected (.+)", re.DOTALL)
READERS: tuple[tuple[str, Callable[[str], Any]], ...] = (
    ("thread", parse_thread),
    ("product", parse_product),
    ("coating", parse_coating),
)


@dataclass
class Findings:
    """What was seen of a run."""

    read: int = 0
    refused: int = 0
    slowest: float = 0.0
    slowest_text: str = ""
    wrong: list[str] = field(default_factory=list)


def check(text: str, seen: Findings) -> None:
    """Read a text as each kind of designation, without what the readers remember, and note what breaks a promise."""
    for kind, parse in READERS:
        if kind == "thread" and not names_thread(text) and len(text) > 12:
            continue
        began = process_time()
        _one(kind, parse, text, seen)
        took = process_time() - began
        if took > SLOWEST:
            took = min(took, *(_again(parse, text) for _ in range(3)))
        if took > seen.slowest:
            seen.slowest, seen.slowest_text = took, text
        if took > SLOWEST:
            seen.wrong.append(f"{took * 1000:.1f} ms for {kind} {text!r}")


def _again(parse: Callable[[str], Any], text: str) -> float:
    began = perf_counter()
    with suppress(Refusal):
        parse.__wrapped__(text)  # type: ignore[attr-defined]
    return perf_counter() - began


def _one(kind: str, parse: Callable[[str], Any], text: str, seen: Findings) -> None:
    try:
        found = parse.__wrapped__(text)  # type: ignore[attr-defined]
    except Refusal as refusal:
        seen.refused += 1
        if unhelpful := _unhelpful(refusal, text, kind):
            seen.wrong.append(f"{unhelpful}: {kind} {text!r}: {refusal.detail}")
        return
    except Exception as error:
        seen.wrong.append(f"{type(error).__name__}: {kind} {text!r}: {error}")
        return
    seen.read += 1
    canonical = found.designation if kind == "coating" else found.canonical
    try:
        again = parse(canonical)
    except Refusal as refusal:
        seen.wrong.append(f"canonical text refused: {text!r} -> {canonical!r}: {refusal.detail}")
        return
    if (again.designation if kind == "coating" else again.canonical) != canonical or again != found:
        seen.wrong.append(f"canonical text is read as something else: {text!r} -> {canonical!r}")


def _unhelpful(refusal: Refusal, text: str, kind: str) -> str | None:
    """Any refusal names the member and the place; a text that the grammar refuses is told what instead."""
    if not refusal.detail or not refusal.member:
        return "a refusal without detail or member"
    if refusal.code != "too_long" and (refusal.position is None or not 0 <= refusal.position <= len(text)):
        return f"a refusal at position {refusal.position}"
    if not isinstance(refusal, NotUnderstood) or refusal.code == "too_long" or _reads(text, kind):
        return None
    said = _SAYS_WHERE.fullmatch(refusal.detail)
    if said is None or said[2] == "something else" or not refusal.expected:
        return "a refusal that does not say where and what instead"
    return None if said[1] is None or int(said[1]) < len(text) else "a position outside the text"


def _reads(text: str, kind: str) -> bool:
    """Whether the grammar takes the text, so that its meaning was refused."""
    try:
        read(text, kind)
    except NotUnderstood:
        return False
    return True
