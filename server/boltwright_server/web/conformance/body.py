"""From the JSON text of a conformance request to the columns of a lot.

Readings are decoded straight into typed lists, column by column: a string, a boolean among numbers, NaN or Infinity
is refused where it stands. marshmallow validates the envelope around them, never the readings.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

import msgspec
import numpy as np

from ...conformance import Column, LotPlan, Request, Requirement, Retest
from ...conformance.cross_rules import LOCATIONS
from ...conformance.rules import EDITIONS, SIMPLE, TIES, DecisionRule
from ...quantities.keeper import remembered
from ...specification.characteristic import Kind, traits
from ..http.bodies import decoded, load, problem
from ..http.members import anything, members_of
from .schemas import ColumnSchema, EnvelopeSchema, RequirementSchema, RuleSchema

#: The members of an object as they were written.
Written = tuple[tuple[str, bytes], ...]
#: Bytes of a request, readings aside, up to which its plan is kept, and how many plans: some 20 kB each, at most 100.
_LONGEST_KEPT, _PLANS_KEPT = 4096, 256
#: The same of what stands beside the values of a column; a kB each.
_LONGEST_SETTINGS, _SETTINGS_KEPT = 256, 1024
_FLOATS = msgspec.json.Decoder(list[float | None])
_BOOLEANS = msgspec.json.Decoder(list[bool | None])
_WORDS = msgspec.json.Decoder(list[str | None])
_EXPECTED = {
    "measured": "a JSON number or null (no strings, no true or false)",
    "attribute": "true, false or null (true: the requirement is met)",
    "category": f"one of {', '.join(LOCATIONS)} or null",
}


class Sent(NamedTuple):
    """A request as it was read, and its members as they were written."""

    plan: LotPlan
    columns: tuple[Column, ...]
    envelope: Mapping[str, msgspec.Raw]
    readings: Mapping[str, Any]


def read_request(body: bytes) -> Sent:
    """Return the plan and the columns of the lot that a JSON body holds.

    Raises:
        Problem: not JSON, or a member that is missing, unknown or of the wrong kind; `errors` points at it.
    """
    envelope = members_of(body, ())
    readings = envelope.pop("readings", None)
    if readings is None:
        raise problem("missing_member", "readings is missing", ("readings",))
    plan = lot_plan(envelope)
    written = members_of(readings, ("readings",))
    return Sent(plan, _columns(written, plan), envelope, written)


def lot_plan(envelope: Mapping[str, msgspec.Raw]) -> LotPlan:
    """Return the plan of the lot that the members beside `readings` ask for; a plan is kept for the next piece.

    Raises:
        Problem: as `read_request`.
    """
    written = tuple((name, bytes(raw)) for name, raw in envelope.items())
    short = sum(len(text) for _, text in written) <= _LONGEST_KEPT
    return (_kept_plan if short else _plan)(written)


def _plan(written: Written) -> LotPlan:
    plain = {name: anything(text, (name,)) for name, text in written}
    return LotPlan(_request(load(EnvelopeSchema, plain, ())))


#: By the bytes of the request, not by its values: 16.0 and 16.00 are equal numbers, but stated to different digits.
_kept_plan = remembered(_PLANS_KEPT)(_plan)


def _request(members: Mapping[str, Any]) -> Request:
    requirements, dropped = read_requirements(members)
    return Request(
        members["designation"],
        (),
        _rule(members.get("decision_rule"), ("decision_rule",)) or SIMPLE,
        members["fracture_rule"],
        members.get("lot_size"),
        requirements,
        dropped,
        members.get("sampling"),
        members.get("sampling_destructive"),
        members["risks"],
        Retest(**members["retest"]) if "retest" in members else None,
    )


def read_columns(readings: msgspec.Raw, plan: LotPlan) -> tuple[Column, ...]:
    """Return the columns of a `readings` member of a lot with that plan.

    Raises:
        Problem: as `read_request`.
    """
    return _columns(members_of(readings, ("readings",)), plan)


def _columns(written: Mapping[str, msgspec.Raw], plan: LotPlan) -> tuple[Column, ...]:
    return tuple(_column(id, raw, kind_of(id, plan)) for id, raw in written.items())


def _rule(given: Any, path: tuple[str, ...]) -> DecisionRule | None:
    if given is None:
        return None
    members = {"rule": given} if isinstance(given, str) else given
    if not isinstance(members, dict):
        raise problem("wrong_type", f"{'/'.join(path)} is a name or an object with rule and edition", path)
    loaded = load(RuleSchema, members, path)
    for name, owner in (("edition", "guarded"), ("ties", "rounded")):
        if name in loaded and loaded["rule"] != owner:
            raise problem("invalid", f"{name} belongs to {owner}, not to {loaded['rule']}", (*path, name))
    edition = loaded.get("edition", EDITIONS[-1]) if loaded["rule"] == "guarded" else None
    return DecisionRule(loaded["rule"], edition, loaded.get("ties", TIES[0]))


def read_requirements(members: Mapping[str, Any]) -> tuple[tuple[Requirement, ...], dict[str, str]]:
    """Return requirements by id and, for each id that is null, the reason of the drop."""
    found: dict[str, Requirement] = {}
    dropped: dict[str, str] = {}
    reasons = members.get("dropped") or {}
    for id, given in (members.get("requirements") or {}).items():
        path = ("requirements", id)
        if given is None:
            dropped[id] = _reason(reasons.get(id), id)
            continue
        if not isinstance(given, dict):
            raise problem("wrong_type", f"{'/'.join(path)} is an object or null", path)
        loaded = load(RequirementSchema, given, path)
        source = loaded.get("basis", {})
        found[id] = Requirement(id, loaded, source.get("document"), source.get("revision"))
    if extra := [id for id in reasons if id not in dropped]:
        raise problem("invalid", f"dropped/{extra[0]}: requirements/{extra[0]} is not null", ("dropped", extra[0]))
    return tuple(found.values()), dropped


def _reason(given: Any, id: str) -> str:
    """Return the stated reason of a drop.

    Raises:
        Problem: no reason; what is not judged has to be answered for by somebody.
    """
    reason = given.get("reason") if isinstance(given, dict) else given
    path = ("dropped", id, "reason")
    if reason is None:
        raise problem("missing_member", f"requirements/{id} is null: state the reason in dropped/{id}/reason", path)
    if not isinstance(reason, str):
        raise problem("wrong_type", f"dropped/{id}/reason is a text", path)
    if not reason.strip():
        raise problem("invalid", f"dropped/{id}/reason is empty: say why it is not judged", path)
    return reason.strip()[:500]


def _column(id: str, raw: msgspec.Raw, kind: Kind) -> Column:
    path = ("readings", id)
    if bytes(raw).startswith(b"["):
        return Column(id, _values(id, raw, path, kind), bare=True)
    beside = members_of(raw, path, "a list of values or an object with values")
    values = beside.pop("values", None)
    if values is None:
        raise problem("missing_member", f"readings/{id}/values is missing", (*path, "values"))
    column = column_settings(id, tuple((name, bytes(one)) for name, one in beside.items()))
    return column._replace(values=_values(id, values, (*path, "values"), kind))


def column_settings(id: str, written: Written) -> Column:
    """Return a column without its values, from the JSON of what stands beside them; kept for the next piece.

    Raises:
        Problem: as `read_request`.
    """
    short = sum(len(text) for _, text in written) <= _LONGEST_SETTINGS
    return (_kept_settings if short else _settings)(id, written)


def _settings(id: str, written: Written) -> Column:
    path = ("readings", id)
    beside = load(ColumnSchema, {name: anything(text, (*path, name)) for name, text in written}, path)
    pieces = beside.get("pieces")
    return Column(
        id,
        [],
        beside.get("unit"),
        beside.get("expanded_uncertainty"),
        beside["coverage_factor"],
        _rule(beside.get("decision_rule"), (*path, "decision_rule")),
        None if pieces is None else tuple(pieces),
        beside.get("edition"),
        beside.get("repeated"),
        _replaced(beside.get("replaced", {}), path),
        beside.get("instrument"),
        beside.get("measured_at"),
    )


_kept_settings = remembered(_SETTINGS_KEPT)(_settings)


def _replaced(given: Mapping[str, str], path: tuple[str, ...]) -> dict[int, str]:
    """Piece numbers are keys of a JSON object and therefore text."""
    for piece in given:
        if not (piece.isascii() and piece.isdigit()):
            raise problem("wrong_type", f"replaced/{piece[:20]}: a piece is a whole number", (*path, "replaced", piece))
    return {int(piece): reason for piece, reason in given.items()}


def _values(id: str, raw: msgspec.Raw, path: tuple[str, ...], kind: Kind) -> Any:
    if kind == "measured":
        return np.array(decoded(_FLOATS, raw, path, _EXPECTED[kind]), dtype=np.float64)
    decoder = _BOOLEANS if kind == "attribute" else _WORDS
    values = decoded(decoder, raw, path, _EXPECTED[kind])
    check_words(id, values, path)
    return values


def kind_of(id: str, plan: LotPlan) -> Kind:
    """Return what the readings of a characteristic are; one that only a drawing or an order has is what it says."""
    trait = traits().get(id)
    if trait is not None:
        return trait.kind
    return "attribute" if id in plan.request.attributes else "measured"


def check_words(id: str, values: Sequence[Any], path: tuple[str, ...]) -> None:
    """Refuse a word that is no place of a break.

    Raises:
        Problem: pointing at the word below `path`.
    """
    if id in traits() and traits()[id].kind == "category":
        for at, word in enumerate(values):
            if word is not None and word not in LOCATIONS:
                detail = f"{id}: {word[:40]!r} is not {_EXPECTED['category']}"
                raise problem("invalid", detail, (*path, str(at)))
