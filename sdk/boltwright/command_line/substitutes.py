"""`boltwright equivalents`: the nearest products of the same function, and in what they differ."""

from __future__ import annotations

import argparse
from typing import Any

from ..look_ups.equivalents import Alternative, Difference, Equivalents, equivalents
from ..tables import Cell, aligned, listed, sections, words
from ..transport import Connection
from ..values import Bounds
from .look_ups import Outcome

_SAFE = {True: "", False: "not met", None: "to be reviewed"}


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add the command."""
    wanted = commands.add_parser("equivalents", parents=[shared])
    wanted.add_argument("designation", help="as 'ISO 4014 - M12x60 - 8.8'")
    wanted.add_argument("--limit", type=int, help="the greatest number of alternatives (default 6, at most 30)")
    wanted.set_defaults(run=_equivalents)


def _equivalents(connection: Connection, options: argparse.Namespace) -> Outcome:
    found = equivalents(connection, options.designation, limit=options.limit)
    return found, equivalents_text(found), 0


def equivalents_text(found: Equivalents) -> str:
    """Return each alternative with its differences, the nearest first."""
    return sections(
        f"{found.designation}   {found.function}",
        *(section for one in found.alternatives for section in _alternative(one)),
        ("Before any of them is used", listed([found.review])),
        ("To note", listed(found.notices)),
    )


def _alternative(one: Alternative) -> list[tuple[str, str] | str]:
    thread = "same thread" if one.same_thread else "another thread"
    told = listed(_sentence(each) for each in one.differences if each.asked is None and each.other is None)
    head = (f"{one.designation}   {thread}; {one.interchange}", difference_table(one))
    return [head, told] if told else [head]


def difference_table(one: Alternative) -> str:
    """Return one line a figure that differs: asked, other, direction, whether it still meets what was asked."""
    rows: list[tuple[Cell, ...]] = [
        (words(each.id), _side(each.asked), _side(each.other), each.direction, _SAFE[each.meets])
        for each in one.differences
        if each.asked is not None or each.other is not None
    ]
    return aligned([("", "asked", "other", "", ""), *rows]) if rows else ""


def _side(limits: Bounds | None) -> str:
    if limits is None:
        return "-"
    return str(limits) + (f" ({limits.basis.caution})" if limits.basis.caution else "")


def _sentence(one: Difference) -> str:
    return f"{words(one.id)}: {one.asked_text or '-'} / {one.other_text or '-'}"
