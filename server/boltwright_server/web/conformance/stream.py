"""Lots of any size: NDJSON, the first line everything but the readings, then one block of columns a line.

Blocks are judged as they arrive; only their sums are kept.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from typing import IO

from ...conformance import Judgement, LotJudge
from ...quantities import Refusal
from ..http.bodies import problem
from ..http.members import members_of
from ..http.problems import Problem
from ..http.request_streams import Allowance, without_mark
from .body import lot_plan, read_columns

MEDIA_TYPE = "application/x-ndjson"
#: Bytes of one line; a block of some ten thousand pieces fits.
LONGEST_LINE = 16 * 1024 * 1024


def judge_stream(stream: IO[bytes]) -> tuple[Judgement, str]:
    """Judge the lot that a stream of lines holds; return the judgement and the SHA-256 of the stream as sent.

    Raises:
        Problem: a line cannot be read or judged; `detail` names the line, counted from 1.
    """
    lot: LotJudge | None = None
    digest, allowance = hashlib.sha256(), Allowance()
    for number, line in _lines(stream):
        digest.update(line)
        if not line.strip():
            continue
        try:
            beside = members_of(without_mark(line) if number == 1 else line, ())
            readings = beside.pop("readings", None)
            if lot is None:
                plan = lot_plan(beside)
                lot = LotJudge(plan)
            elif beside:
                raise problem("unknown_member", f"{next(iter(beside))}: only readings stand here", tuple(beside)[:1])
            if readings is not None:
                columns = read_columns(readings, plan)
                allowance.take(max((len(column.values) for column in columns), default=0))
                lot.add(columns)
        except Refusal as refusal:
            raise _at_line(number, Problem.from_refusal(refusal)) from None
        except Problem as found:
            raise _at_line(number, found) from None
    if lot is None or not lot.blocks:
        raise problem("no_readings", "the stream holds no block of readings", ("readings",))
    return lot.verdict(), digest.hexdigest()


def _lines(stream: IO[bytes]) -> Iterator[tuple[int, bytes]]:
    number = 0
    while line := stream.readline(LONGEST_LINE + 1):
        number += 1
        if len(line) > LONGEST_LINE:
            raise problem("content_too_large", f"line {number} exceeds {LONGEST_LINE} bytes: send smaller blocks", ())
        yield number, line


def _at_line(number: int, found: Problem) -> Problem:
    return Problem(found.code, f"line {number}: {found.detail}", found.errors, found.nearest)
