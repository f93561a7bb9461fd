"""The rules of the product grades at any nominal size: for parts whose size no product table lists.

ISO 4759-1:2000 (bolts, screws, nuts) and ISO 4759-3:2000 (washers) on ISO 286-1:2010. Where a product table departs
from its rule the table wins; these are the rules alone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, Bounds, NotUnderstood, UnknownName, weakest
from ..quantities.rounding import half_up
from ..standards import rules
from .product_grade import length_bounds, limits_of_class, tolerance_class, washer_bounds

GRADES = ("A", "B", "C")
_WIDE = Decimal(21)
_HUNDREDTH = "0.01"


@dataclass(frozen=True, slots=True)
class Asked:
    """A feature's nominal size in mm; `beside` is the size that chooses its class where that is another one."""

    grade: str
    nominal: Decimal
    beside: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Feature:
    """A rule: the symbol, the size that it starts from, and what chooses its class if not that size."""

    symbol: str
    starts_from: str
    rule: Callable[[str, Asked], Bounds]
    beside: str | None = None


def feature_limits(feature: str, asked: Asked) -> Bounds:
    """Return the limits of a feature in mm by the rule of its product grade.

    ISO 4759-1:2000 and ISO 4759-3:2000; minima that are multiples round half up to 0.01 mm.

    Raises:
        UnknownName: no rule is held for the feature. NotUnderstood: no such grade, or the size beside is missing.
        NotCovered: the size lies outside 0 to 500 mm.
    """
    rule = FEATURES.get(feature)
    if rule is None:
        raise UnknownName(f"no rule of ISO 4759 is held for {feature!r}", member="feature", nearest=tuple(FEATURES))
    if asked.grade not in GRADES:
        raise NotUnderstood(f"product grade {asked.grade!r} is none of A, B, C", member="grade")
    if rule.beside is not None and asked.beside is None:
        raise NotUnderstood(f"the class of {feature} depends on the {rule.beside}: name it", member=rule.beside)
    return rule.rule(rule.symbol, asked)


def class_limits(tolerance: str, nominal: Decimal) -> Bounds:
    """Return the limits of size of an ISO 286 class in mm.

    ISO 286-1:2010, Tables 1 to 5.

    Raises:
        NotUnderstood, NotCovered: as `limits_of_class`.
    """
    low, high, checked = limits_of_class(tolerance, nominal)
    basis = rules("ISO 286-1").basis(f"Tables 1 to 5, class {tolerance}", checked)
    return Bounds(tolerance, nominal + low, nominal + high, "mm", basis, nominal)


def _by_class(symbol: str, asked: Asked) -> Bounds:
    """The class of the feature by its product grade, at its own size."""
    named, class_checked = tolerance_class(symbol, asked.grade, asked.beside or asked.nominal)
    low, high, grade_checked = limits_of_class(named, asked.nominal)
    basis = _basis(
        f"{symbol}, product grade {asked.grade}: {named} of {rules('ISO 286-1').cited}", class_checked, grade_checked
    )
    return Bounds(symbol, asked.nominal + low, asked.nominal + high, "mm", basis, asked.nominal)


def _basis(clause: str, *checked: str) -> Basis:
    return rules("ISO 4759-1").basis(clause, weakest(*checked))


def _least(symbol: str, start: str, factor: str) -> Callable[[str, Asked], Bounds]:
    """A minimum that is a multiple of another minimum: e = 1.13 s min."""

    def rule(_: str, asked: Asked) -> Bounds:
        limits = _by_class(start, asked)
        least = half_up(Decimal(factor) * _min(limits), _HUNDREDTH)
        return Bounds(symbol, least, None, "mm", _basis(f"{symbol} min = {factor} {start} min", limits.basis.checked))

    return rule


def _min(limits: Bounds) -> Decimal:
    assert limits.min is not None
    return limits.min


def _washer_face(symbol: str, asked: Asked) -> Bounds:
    """Below s = 21 the least s less IT16 of itself, from 21 on 0.95 s min."""
    flats = _by_class("s", asked)
    least = _min(flats)
    if asked.nominal < _WIDE:
        low, _, checked = limits_of_class("h16", least)
        return Bounds(symbol, least + low, None, "mm", _basis("dw min = s min - IT16", flats.basis.checked, checked))
    face = half_up(Decimal("0.95") * least, _HUNDREDTH)
    return Bounds(symbol, face, None, "mm", _basis("dw min = 0.95 s min", flats.basis.checked))


def _length(_: str, asked: Asked) -> Bounds:
    return length_bounds(asked.nominal, asked.grade)


def _washer(symbol: str, asked: Asked) -> Bounds:
    thickness = asked.nominal if symbol == "h" else asked.beside
    assert thickness is not None
    return washer_bounds(symbol, asked.grade, asked.nominal, thickness)


#: Dimension id -> its rule.
FEATURES: dict[str, Feature] = {
    "width_across_flats": Feature("s", "s", _by_class),
    "width_across_corners": Feature("e", "s", _least("e", "s", "1.13")),
    "washer_face_diameter": Feature("dw", "s", _washer_face),
    "head_height": Feature("k", "k", _by_class),
    "wrenching_height": Feature("kw", "k", _least("kw", "k", "0.7")),
    "body_diameter": Feature("ds", "d", _by_class),
    "length": Feature("l", "l", _length),
    "nut_height": Feature("m", "m", _by_class, "diameter"),
    "nut_wrenching_height": Feature("mw", "m", _least("mw", "m", "0.8"), "diameter"),
    "inner_diameter": Feature("d1", "d1", _washer, "thickness"),
    "outer_diameter": Feature("d2", "d2", _washer, "thickness"),
    "thickness": Feature("h", "h", _washer),
}
