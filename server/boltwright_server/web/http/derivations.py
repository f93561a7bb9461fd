"""`explain=true`: the steps to every number of an answer, as a member of the JSON answer or as a page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from flask import Response, render_template
from marshmallow import Schema, fields

from ...quantities.derivation import Input, Step
from .caching import HTML, JSON, preferred
from .presentation import basis, encode
from .schemas import BasisSchema


def explain() -> fields.Boolean:
    """Return the field of the parameter that asks for the derivation."""
    return fields.Boolean(
        load_default=False,
        metadata={"description": "true adds `derivation`, or answers with a page where Accept prefers text/html."},
    )


class DerivationInputSchema(Schema):
    """A number that goes into a step: tabulated, or the result of an earlier step."""

    value = fields.String(metadata={"description": "Exact decimal or fraction; an ellipsis follows first digits."})
    unit = fields.String()
    step = fields.Integer(metadata={"description": "Which step gave it; the rounded or the unrounded result."})
    taken = fields.String(metadata={"enum": ["rounded", "unrounded"]})
    basis = fields.Nested(BasisSchema)


class DerivationStepSchema(Schema):
    """One step of a derivation."""

    step = fields.Integer()
    symbol = fields.String(metadata={"example": "d2_max"})
    expression = fields.String(metadata={"example": "d2 + es"})
    inputs = fields.Dict(keys=fields.String(), values=fields.Nested(DerivationInputSchema))
    unrounded = fields.String()
    exact = fields.Boolean(
        metadata={"description": "false: a root or pi is in it, `unrounded` shows the first digits."}
    )
    rounded = fields.Float(allow_none=True)
    rounding = fields.Dict(metadata={"description": "rule, and the multiple or count of digits in `to`"})
    unit = fields.String()
    answers = fields.String(allow_none=True, metadata={"description": "Path of the member that this step gives."})
    basis = fields.Nested(BasisSchema)
    note = fields.String()


def derivation_field() -> Any:
    """Return the field of the member `derivation`."""
    return fields.List(
        fields.Nested(DerivationStepSchema), metadata={"description": "With explain=true: the steps, in order."}
    )


def steps_shown(steps: Sequence[Step], after: int = 0) -> list[dict[str, Any]]:
    """Return the members of a derivation; steps are counted on from `after`."""
    return [_step(step, after) for step in steps]


def _step(step: Step, after: int) -> dict[str, Any]:
    shown = {
        "step": step.number + after,
        "symbol": step.symbol,
        "expression": step.expression,
        "inputs": {symbol: _input(one, after) for symbol, one in step.inputs.items()},
        "unrounded": step.unrounded,
        "exact": step.exact,
        "rounded": step.rounded,
        "rounding": {"rule": step.rounding.rule, "to": step.rounding.to},
        "unit": step.unit,
        "answers": step.answers,
        "basis": basis(step.basis),
    }
    return shown if step.note is None else {**shown, "note": step.note}


def _input(one: Input, after: int) -> dict[str, Any]:
    shown: dict[str, Any] = {"value": one.value, "unit": one.unit}
    if one.basis is not None:
        return {**shown, "basis": basis(one.basis)}
    return {**shown, "step": (one.step or 0) + after, "taken": one.taken}


def answer_with(
    answer: Mapping[str, Any], title: str, derivations: Mapping[str, Sequence[Step]], asked: bool
) -> Response:
    """Return an answer, with its derivation where the query asks for one.

    `derivations` holds the steps by a heading for the page. Where a heading is a member of the answer, as the two
    members of a fit, the steps go into that member.
    """
    if not asked:
        return Response(encode(answer), mimetype=JSON)
    if preferred() == HTML:
        pages = {heading: steps_shown(steps) for heading, steps in derivations.items()}
        return Response(render_template("derivation.html", title=title, derivations=pages), mimetype=HTML)
    explained: dict[str, Any] = {**answer}
    rest: list[dict[str, Any]] = []
    for heading, steps in derivations.items():
        if heading in answer:
            explained[heading] = {**answer[heading], "derivation": steps_shown(steps)}
        else:
            rest += steps_shown(steps, len(rest))
    if rest or not any(heading in answer for heading in derivations):
        explained["derivation"] = rest
    return Response(encode(explained), mimetype=JSON)
