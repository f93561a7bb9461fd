"""The rule behind a product table, built apart from the engine.

ISO 4759-1:2000 (classes of the product grades) on ISO 286-2:2010 (limit deviations, read from the published file), with
the formulas of width, corners and washer face. Lengths in mm; decimals, ties away from zero.
"""

from __future__ import annotations

import csv
from decimal import ROUND_HALF_UP, Decimal
from functools import cache

from boltwright_server.products import Product, ProductDimensions
from boltwright_server.products.product import size_of

from .check import PUBLISHED

_HUNDREDTH, _TENTH = Decimal("0.01"), Decimal("0.1")
#: Washer face thickness of bolts: up to d, min, max.
_C = (
    (Decimal("2.5"), "0.10", "0.25"),
    (4, "0.15", "0.40"),
    (6, "0.15", "0.50"),
    (14, "0.15", "0.60"),
    (36, "0.2", "0.8"),
)
_C_ABOVE = ("0.3", "1.0")


def bolt_rule(product: Product, part: ProductDimensions, symbol: str) -> Decimal:
    """Return a dimension of a hexagon bolt or screw by the rule of its product grade."""
    size, grade = size_of(part.size), part.product_grade
    nominal = _nominals(product, part)
    s_class = {"A": "h13" if nominal["s"] <= 30 else "h14", "B": _coarse_class(nominal["s"])}[grade]
    s_min = nominal["s"] + _lower(s_class, nominal["s"])
    k_half = _width("js14" if grade == "A" else "js15", nominal["k"])
    rules = {
        "s_min": lambda: s_min,
        "e_min": lambda: _round(Decimal("1.13") * s_min, _HUNDREDTH),
        "k_min": lambda: nominal["k"] - k_half,
        "k_max": lambda: nominal["k"] + k_half,
        "kw_min": lambda: _round(Decimal("0.7") * (nominal["k"] - k_half), _HUNDREDTH),
        "ds_min": lambda: size.d + _lower("h13" if grade == "A" else "h14", size.d),
        "dw_min": lambda: _washer_face(nominal["s"], s_min, _HUNDREDTH),
        "b_l_le_125": lambda: _round(2 * size.d + 6, Decimal(1)),
        "b_l_le_200": lambda: _round(2 * size.d + 12, Decimal(1)),
        "b_l_gt_200": lambda: _round(2 * size.d + 25, Decimal(1)),
        "a_max": lambda: 3 * size.pitch,
    }
    return rules[symbol]()


def nut_rule(product: Product, part: ProductDimensions, symbol: str) -> Decimal:
    """Return a dimension of a hexagon nut by the rule; heights and washer faces are printed to 0.1 mm."""
    D = size_of(part.size).d
    nominal = _nominals(product, part)
    s_class = "h13" if part.product_grade == "A" and nominal["s"] <= 30 else None
    s_class = s_class or ("h14" if part.product_grade == "A" else _coarse_class(nominal["s"]))
    s_min = nominal["s"] + _lower(s_class, nominal["s"])
    m_min = nominal["m"] + _lower("h14" if D <= 12 else "h15" if D <= 18 else "h16", nominal["m"])
    c_min, c_max = next(((low, high) for up_to, low, high in _C if up_to >= D), _C_ABOVE)
    rules = {
        "s_min": lambda: s_min,
        "e_min": lambda: _round(Decimal("1.13") * s_min, _HUNDREDTH),
        "m_min": lambda: m_min,
        "mw_min": lambda: _round(Decimal("0.8") * m_min, _TENTH),
        "dw_min": lambda: _round(_washer_face(nominal["s"], s_min, _HUNDREDTH), _TENTH),
        "da_min": lambda: D,
        "da_max": lambda: _countersink(D),
        "c_min": lambda: Decimal(c_min),
        "c_max": lambda: Decimal(c_max),
    }
    return rules[symbol]()


def _nominals(product: Product, part: ProductDimensions) -> dict[str, Decimal]:
    cells = product.row(size_of(part.size)).cells
    names = {"s": "s_max", "k": "k_nom", "m": "m_max"}
    return {symbol: value for symbol, name in names.items() if isinstance(value := cells.get(name), Decimal)}


def _coarse_class(s: Decimal) -> str:
    return "h14" if s <= 18 else "h15" if s <= 60 else "h16"


def _washer_face(s: Decimal, s_min: Decimal, quantum: Decimal) -> Decimal:
    """s min - IT16 below s = 21, else 0.95 s min; the band of IT16 is looked up on s min."""
    return s_min + _lower("h16", s_min) if s < 21 else _round(Decimal("0.95") * s_min, quantum)


def _countersink(D: Decimal) -> Decimal:
    """1.15 D, D + 0.75 or 1.08 D; printed to 0.1 where two decimals would not hold it exactly."""
    if D <= 5:
        exact = Decimal("1.15") * D
        return exact if exact == _round(exact, _HUNDREDTH) else _round(exact, _TENTH)
    return D + Decimal("0.75") if D <= 8 else _round(Decimal("1.08") * D, _TENTH)


def _round(value: Decimal, quantum: Decimal) -> Decimal:
    return value.quantize(quantum, rounding=ROUND_HALF_UP)


@cache
def _deviations() -> dict[str, list[tuple[Decimal, Decimal, Decimal]]]:
    path = PUBLISHED / "iso_286_1_2010" / "limit_deviations.csv"
    found: dict[str, list[tuple[Decimal, Decimal, Decimal]]] = {}
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            found.setdefault(row["class"], []).append(
                (Decimal(row["size_over"]), Decimal(row["size"]), Decimal(row["lower"]))
            )
    return found


def _lower(tolerance: str, size: Decimal) -> Decimal:
    """Lower deviation; bands are over the first, up to and including the second size."""
    return next(lower for over, up_to, lower in _deviations()[tolerance] if over < size <= up_to)


def _width(tolerance: str, size: Decimal) -> Decimal:
    return -_lower(tolerance, size)
