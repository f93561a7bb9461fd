"""Gauges, tests and states of a coating as blocks of lines."""

from __future__ import annotations

from dataclasses import replace

from ..coating import CoatingLimits, State
from ..gauges import Gauge
from ..mechanical import Test
from .bases import Bases, Figure
from .names import capital, name_of
from .sheet_lines import Block, Line, line_of


def gauge_block(bases: Bases, gauge: Gauge) -> Block:
    """Return a gauge: limits when new, wear limit."""
    lines = []
    for id, one in gauge.dimensions.items():
        used_as = f"{one.symbol} {gauge.id.replace('_', ' ')}"
        line = line_of(bases, f"gauge-{gauge.id}-{id}", name_of(id), one.symbol, one, used_as)
        lines.append(replace(line, worn=Figure.of(one.wear_limit, line.source)))
    return Block(f"gauge-{gauge.id}", gauge.name, [f"Checks {gauge.checks}. {gauge.application}"], lines)


def links_of(blocks: list[Block]) -> dict[str, str]:
    """Return where the figures of each line lead, by the place of the line."""
    return {line.place: f"#{line.source.anchor}" for block in blocks for line in block.lines}


def test_block(bases: Bases, test: Test) -> Block:
    """Return a test with its settings; one that does not apply says why and no more."""
    place = f"test-{test.id}"
    source = bases.source(test.basis, place, test.name)
    reason = f"{_APPLIES[test.applies]}: {test.reason} ({_readable(test.condition)})."
    if test.applies is False:
        return Block(place, capital(test.name), [reason], [], source, test.applies)
    remarks = [
        reason,
        f"Piece: {test.specimen}. Equipment: {', '.join(test.equipment)}.",
        f"Passes when {test.acceptance}.",
        *(f"Caution: {caution}" for caution in test.cautions),
    ]
    lines: list[Line] = [
        line_of(bases, f"{place}-{id}", name_of(id), None, one, f"{name_of(id).lower()}, {test.name}")
        for id, one in test.settings.items()
    ]
    return Block(place, capital(test.name), remarks, lines, source, test.applies)


_APPLIES = {True: "Applies", False: "Does not apply", None: "Depends on the length"}


def _readable(condition: str) -> str:
    return condition.replace(">=", "≥").replace("<=", "≤")


def coating_blocks(bases: Bases, coating: CoatingLimits) -> list[Block]:
    """Return the limits of the thread in each state of its coating, and the gauges that go with it."""
    return [_state(bases, number, one) for number, one in enumerate(coating.states, start=1)]


def _state(bases: Bases, number: int, state: State) -> Block:
    place = f"coating-{number}"
    remarks = [f"{capital(state.remark)}.", f"GO gauge {state.go}, NOT GO gauge {state.not_go}."]
    lines = [
        line_of(bases, f"{place}-{id}", name_of(id), one.symbol, one, f"{one.symbol} {state.state}")
        for id, one in state.limits.items()
    ]
    return Block(place, capital(state.state), remarks, lines)
