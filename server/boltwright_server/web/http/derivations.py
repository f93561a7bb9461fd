"""`explain=true`: the steps to every number of an answer, as a member of the JSON answer or as a page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Annotated

from flask import Response, render_template
from marshmallow import fields
from msgspec import UNSET, Struct, UnsetType

from ...quantities import cited
from ...quantities.derivation import Input, Step
from .answers import Answer, BasisAnswer, described, sent
from .caching import HTML, preferred
from .presentation import basis


def explain() -> fields.Boolean:
    """Return the field of the parameter that asks for the derivation."""
    return fields.Boolean(
        load_default=False,
        metadata={"description": "true adds `derivation`, or answers with a page where Accept prefers text/html."},
    )


class DerivationInput(Struct, kw_only=True):
    """A number that goes into a step: tabulated (with a basis), or the result of an earlier step."""

    value: Annotated[str, described("Exact decimal or fraction; an ellipsis follows first digits.")]
    unit: str
    step: Annotated[int | UnsetType, described("Which step gave it.")] = UNSET
    taken: Annotated[str | UnsetType, described("rounded or unrounded: which result of that step.")] = UNSET
    basis: BasisAnswer | UnsetType = UNSET


class Rounding(Struct):
    """How a step was rounded; `to` is a multiple or a count of digits."""

    rule: str
    to: str | None


class DerivationStep(Struct, kw_only=True):
    """One step of a derivation."""

    step: int
    symbol: Annotated[str, described("Of the result.", "d2_max")]
    expression: Annotated[str, described("In the symbols of the standard.", "d2 + es")]
    inputs: dict[str, DerivationInput]
    unrounded: str
    exact: Annotated[bool, described("false: a root or pi is in it, `unrounded` shows the first digits.")]
    rounded: Decimal | None
    rounding: Rounding
    unit: str
    answers: Annotated[str | None, described("Path of the member that this step gives.")]
    basis: BasisAnswer
    note: str | UnsetType = UNSET


#: The member `derivation` of an answer.
Derivation = Annotated[list[DerivationStep] | UnsetType, described("With explain=true: the steps, in order.")]


def steps_shown(steps: Sequence[Step], after: int = 0) -> list[DerivationStep]:
    """Return the members of a derivation; steps are counted on from `after`."""
    return [_step(step, after) for step in steps]


def _step(step: Step, after: int) -> DerivationStep:
    return DerivationStep(
        step=step.number + after,
        symbol=step.symbol,
        expression=step.expression,
        inputs={symbol: _input(one, after) for symbol, one in step.inputs.items()},
        unrounded=step.unrounded,
        exact=step.exact,
        rounded=step.rounded,
        rounding=Rounding(step.rounding.rule, step.rounding.to),
        unit=step.unit,
        answers=step.answers,
        basis=basis(step.basis),
        note=UNSET if step.note is None else step.note,
    )


def _input(one: Input, after: int) -> DerivationInput:
    if one.basis is not None:
        return DerivationInput(value=one.value, unit=one.unit, basis=basis(one.basis))
    taken = UNSET if one.taken is None else one.taken
    return DerivationInput(value=one.value, unit=one.unit, step=(one.step or 0) + after, taken=taken)


def answer_with(answer: Answer, title: str, derivations: Mapping[str, Sequence[Step]], asked: bool) -> Response:
    """Return an answer, with its derivation where the query asks for one.

    `derivations` holds the steps by a heading for the page. Where a heading is a member of the answer, as the two
    members of a fit, the steps go into that member.
    """
    if asked and preferred() == HTML:
        pages = {heading: steps_shown(steps) for heading, steps in derivations.items()}
        page = render_template("derivation.html", title=title, derivations=pages, cited=cited)
        return Response(page, mimetype=HTML)
    if asked:
        members = [heading for heading in derivations if hasattr(answer, heading)]
        for heading in members:
            getattr(answer, heading).derivation = steps_shown(derivations[heading])
        rest: list[DerivationStep] = []
        for heading, steps in derivations.items():
            rest += [] if heading in members else steps_shown(steps, len(rest))
        answer.derivation = UNSET if members else rest  # type: ignore[attr-defined]
    return sent(answer)
