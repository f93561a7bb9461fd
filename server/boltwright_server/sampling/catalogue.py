"""One door to every scheme, with its parameters checked."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from ..quantities import NotUnderstood, UnknownName
from .iso_2859_1 import iso_2859_1
from .iso_3269 import CATEGORY_OF_GROUP, EDITIONS, iso_3269_2000, iso_3269_2019
from .plan import SamplingPlan
from .zero_acceptance import zero_acceptance

#: scheme -> parameters beside lot_size and fractions
SCHEMES: dict[str, tuple[str, ...]] = {
    "ISO 2859-1": ("level", "aql", "severity", "group"),
    "ISO 3269": ("edition", "group", "category", "aql", "acceptance_number", "second_sample"),
    "zero-acceptance": ("limiting_quality", "consumer_risk", "aql", "group"),
}
LARGEST_LOT = 10**9


def sampling_plan(scheme: str, lot_size: int, parameters: Mapping[str, Any]) -> SamplingPlan:
    """Return the plan of a scheme for a lot. Numbers in `parameters` are Decimals or ints.

    Raises:
        UnknownName: no such scheme, level, severity, AQL or group.
        NotUnderstood: a parameter is missing, not of the scheme, or out of range.
        NotStandardised: the scheme has no plan for the lot.
    """
    if scheme not in SCHEMES:
        raise UnknownName(
            f"no sampling scheme {str(scheme)[:40]!r}; known: {', '.join(SCHEMES)}", member="scheme", code="invalid"
        )
    known = (*SCHEMES[scheme], "fractions")
    for name in parameters:
        if name not in known:
            raise NotUnderstood(
                f"{scheme} takes {', '.join(known)}, not {name[:40]!r}", member=name, code="unknown_member"
            )
    if not 1 <= lot_size <= LARGEST_LOT:
        raise NotUnderstood(f"lot_size is from 1 to {LARGEST_LOT}", member="lot_size", code="out_of_range")
    group = parameters.get("group")
    if group is not None and group not in CATEGORY_OF_GROUP:
        raise UnknownName(
            f"no group {str(group)[:40]!r}; known: {', '.join(CATEGORY_OF_GROUP)}", member="group", code="invalid"
        )
    return {"ISO 2859-1": _by_aql, "ISO 3269": _of_fasteners, "zero-acceptance": _zero}[scheme](lot_size, parameters)


def _number(parameters: Mapping[str, Any], name: str, default: Decimal | None = None) -> Decimal:
    value = parameters.get(name, default)
    if value is None:
        raise NotUnderstood(f"{name} is missing", member=name, code="missing_member")
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        raise NotUnderstood(f"{name} is a JSON number", member=name, code="wrong_type")
    return Decimal(value)


def _fraction(parameters: Mapping[str, Any], name: str) -> Decimal:
    value = _number(parameters, name)
    if not 0 < value < 1:
        raise NotUnderstood(f"{name} is a fraction above 0 and below 1, not {value}", member=name, code="out_of_range")
    return value


def _flag(parameters: Mapping[str, Any], name: str) -> bool:
    value = parameters.get(name, False)
    if not isinstance(value, bool):
        raise NotUnderstood(f"{name} is true or false", member=name, code="wrong_type")
    return value


def _fractions(parameters: Mapping[str, Any]) -> tuple[Decimal, ...]:
    return tuple(parameters.get("fractions", ()))


def _by_aql(lot_size: int, parameters: Mapping[str, Any]) -> SamplingPlan:
    return iso_2859_1(
        lot_size,
        _number(parameters, "aql"),
        str(parameters.get("level", "II")),
        str(parameters.get("severity", "normal")),
        _fractions(parameters),
    )


def _of_fasteners(lot_size: int, parameters: Mapping[str, Any]) -> SamplingPlan:
    edition, group = str(parameters.get("edition", EDITIONS[-1])), parameters.get("group")
    if edition not in EDITIONS:
        raise UnknownName(f"ISO 3269 is held in {', '.join(EDITIONS)}", member="edition", code="invalid")
    if edition == "2000":
        if "second_sample" in parameters:
            raise NotUnderstood(f"ISO 3269:{edition} has no second sample", member="second_sample", code="invalid")
        aql = _number(parameters, "aql") if "aql" in parameters else None
        acceptance = int(_number(parameters, "acceptance_number", Decimal(0)))
        return iso_3269_2000(lot_size, group, aql, acceptance, _fractions(parameters))
    category = int(_number(parameters, "category")) if "category" in parameters else None
    if category not in (None, 1, 2, 3):
        raise NotUnderstood("category is 1, 2 or 3", member="category", code="out_of_range")
    return iso_3269_2019(lot_size, group, category, _fractions(parameters), _flag(parameters, "second_sample"))


def _zero(lot_size: int, parameters: Mapping[str, Any]) -> SamplingPlan:
    aql = _number(parameters, "aql") if "aql" in parameters else None
    return zero_acceptance(
        lot_size,
        _fraction(parameters, "limiting_quality"),
        _fraction(parameters, "consumer_risk"),
        aql,
        _fractions(parameters),
    )
