"""The rules behind the product tables, built apart from the engine.

ISO 4759-1:2000 (classes of the product grades) and ISO 4759-3:2000 (washers) on ISO 286-2:2010 (limit deviations, read
from the published file), with the formulas of corners, washer face, sockets and thread length. Lengths in mm; decimals,
ties away from zero. A figure that is a table value of its own has no rule.
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Mapping
from decimal import ROUND_HALF_UP, Decimal
from functools import cache

from boltwright_server.products import Product
from boltwright_server.products.product import size_of
from boltwright_server.threads import UnifiedSize

from .check import PUBLISHED

Rules = Mapping[str, Callable[[], Decimal]]
_WHOLE, _TENTH, _HUNDREDTH, _THOUSANDTH = (Decimal(one) for one in ("1", "0.1", "0.01", "0.001"))
#: Washer face thickness of bolts and nuts of grades A and B: up to d, min, max.
_C = (
    (Decimal("2.5"), "0.10", "0.25"),
    (4, "0.15", "0.40"),
    (6, "0.15", "0.50"),
    (14, "0.15", "0.60"),
    (36, "0.2", "0.8"),
)
_C_ABOVE = ("0.3", "1.0")
_B = {"b_l_le_125": 6, "b_l_le_200": 12, "b_l_gt_200": 25}
#: Plus and minus on the thickness of washers: up to h, grade A, grade C.
_H = ((Decimal("0.5"), "0.05", "0.1"), (1, "0.1", "0.2"), (Decimal("2.5"), "0.2", "0.3"), (4, "0.3", "0.6"))
_H_ABOVE = ((6, "0.6", "1"), (10, "1", "1.2"))


def product_rule(product: Product, thread: str, grade: str, symbol: str) -> Decimal | None:
    """Return a figure of a product table by its rule, or None where it has none."""
    rules = _FAMILIES[product.standard.family](_Row(product, thread, grade))
    return rules[symbol]() if symbol in rules else None


def inch_rule(product: Product, size: UnifiedSize, symbol: str) -> Decimal | None:
    """Return a figure of an inch table by its rule, or None where it has none.

    ASME B18.2.1 and B18.2.2: G max = F / cos 30 of the basic width, G min = 1.14 F min, LT = 2 D + 1/4 or + 1/2 in, to
    0.001 in; ASME B18.3: D max = D, LT of 1/4 to 1 in = 2 D + 1/2 in, to 0.01 in.
    """
    cells = product.row(size).cells
    if "F_min" in cells:
        least, most = cells["F_min"], cells["F_max"]
        assert isinstance(least, Decimal)
        assert isinstance(most, Decimal)
        basic = Decimal(round(most * 32)) / 32
        rules = {
            "G_min": _round(Decimal("1.14") * least, _THOUSANDTH),
            "G_max": _round(basic / (Decimal(3).sqrt() / 2), _THOUSANDTH),
            "LT_le_6": 2 * size.d + Decimal("0.25"),
            "LT_gt_6": 2 * size.d + Decimal("0.5"),
        }
        return rules.get(symbol)
    if symbol == "LT_min" and Decimal("0.25") <= size.d <= 1:
        return _round(2 * size.d + Decimal("0.5"), _HUNDREDTH)
    return size.d if symbol == "D_max" else None


class _Row:
    """The nominal figures of one row."""

    def __init__(self, product: Product, thread: str, grade: str) -> None:
        self.standard, self.grade = product.standard.id, grade[0]
        self.size = size_of(thread)
        self.d = self.size.d
        self.cells = product.row(self.size).cells

    def __call__(self, column: str) -> Decimal:
        cell = self.cells[column]
        assert isinstance(cell, Decimal)
        return cell


def _hexagon_bolt(row: _Row) -> Rules:
    s_min, half = _s_min(row), Decimal(0)
    if "k_nom" in row.cells:
        class_of_k = {"A": "js14", "B": "js15", "C": "js16" if row("k_nom") < 10 else "js17"}[row.grade]
        half = _width(class_of_k, row("k_nom"))
    return {
        "s_min": lambda: s_min,
        "e_min": lambda: _round(Decimal("1.13") * s_min, _HUNDREDTH),
        "k_min": lambda: row("k_nom") - half,
        "k_max": lambda: row("k_nom") + half,
        "kw_min": lambda: _round(Decimal("0.7") * (row("k_nom") - half), _HUNDREDTH),
        "ds_min": lambda: row.d - _width({"A": "h13", "B": "h14", "C": "h15"}[row.grade], row.d),
        "ds_max": lambda: row.d + (_width("h15", row.d) if row.grade == "C" else 0),
        "dw_min": lambda: _washer_face(row("s_max"), s_min, _HUNDREDTH),
        "a_max": lambda: 3 * row.size.pitch,
        "a_min": lambda: row.size.pitch,
        **_thread_lengths(row),
    }


def _flange_bolt(row: _Row) -> Rules:
    """ISO 4162 has the driving feature of grade B, ISO 15071 of grade A; the flange head is not trimmed."""
    row.grade = "B" if row.standard == "ISO 4162" else "A"
    s_min = _s_min(row)
    return {
        "s_min": lambda: s_min,
        "e_min": lambda: _round(Decimal("1.12") * s_min, _HUNDREDTH),
        "ds_min": lambda: row.d - _width("h13", row.d),
        "ds_max": lambda: row.d,
        **_thread_lengths(row),
    }


def _socket_screw(row: _Row) -> Rules:
    cap = row.standard in ("ISO 4762", "DIN 912")
    head, height = ("h13", "h13" if row("k_max") <= 5 else "h14") if cap else ("h14", "h14")
    rules = {
        "b": lambda: _round(2 * row.d + 12, _WHOLE),
        "dk_max_knurled": lambda: row("dk_max") + _width("h13", row("dk_max")),
        "ds_max": lambda: row.d,
        "ds_min": lambda: row.d - _width("h13", row.d),
    }
    if row.standard == "ISO 10642":
        return rules
    rules |= {
        "dk_min": lambda: row("dk_max") - _width(head, row("dk_max")),
        "k_min": lambda: row("k_max") - _width(height, row("k_max")),
        "e_min": lambda: _round(Decimal("1.14") * row("s_min"), _HUNDREDTH),
    }
    if cap:
        rules |= {"k_max": lambda: row.d, "v_max": lambda: row.d / 10}
    return rules | _socket(row("s_nom"), "D9", "D10", "E11")


def _set_screw(row: _Row) -> Rules:
    return {
        **_socket(row("s_nom"), "D11", "D11", "E12"),
        "e_min": lambda: _round(Decimal("1.14") * row("s_min"), _THOUSANDTH),
        "dp_min": lambda: row("dp_max") - _width("h14", row("dp_max")),
        "dz_min": lambda: row("dz_max") - _width("h14", row("dz_max")),
        "z_max_short": lambda: row("z_min_short") + _width("h14", row("z_min_short")),
        "z_max_long": lambda: row("z_min_long") + _width("h14", row("z_min_long")),
    }


def _socket(s: Decimal, to_2: str, at_2_5: str, to_14: str) -> dict[str, Callable[[], Decimal]]:
    """The class of a hexagon socket by its nominal width; 0.9 and 1.3 mm have classes of no clear rounding."""
    if s in (Decimal("0.9"), Decimal("1.3")):
        return {}
    bands = ((Decimal("0.7"), "EF8"), (2, to_2), (Decimal("2.5"), at_2_5), (3, "D11"), (4, "E11"), (14, to_14))
    of_size = next((named for up_to, named in bands if s <= up_to), "D12")
    lower, upper = _deviations_of(of_size, s)
    return {"s_min": lambda: s + lower, "s_max": lambda: s + upper}


def _nut(row: _Row) -> Rules:
    if "m_max" not in row.cells and row.standard not in _THREAD_OF:
        return {}  # nominal sizes alone
    m_max = _nominal_height(row)
    m_class = "h17" if row.grade == "C" else "h14" if row.d <= 12 else "h15" if row.d <= 18 else "h16"
    m_min = m_max - _width(m_class, m_max)
    s_min = _s_min(row)
    c_min, c_max = next(((low, high) for up_to, low, high in _C if up_to >= row.d), _C_ABOVE)
    return {
        "s_min": lambda: s_min,
        "e_min": lambda: _round(Decimal("1.13") * s_min, _HUNDREDTH),
        "m_min": lambda: m_min,
        "mw_min": lambda: _round(Decimal("0.8") * m_min, _TENTH),
        "dw_min": lambda: _round(_washer_face(row("s_max"), s_min, _HUNDREDTH), _TENTH),
        "da_min": lambda: row.d,
        "da_max": lambda: _countersink(row.d),
        "c_min": lambda: Decimal(c_min),
        "c_max": lambda: Decimal(c_max),
    }


def _castle_nut(row: _Row) -> Rules:
    """Corners and widths by the grade; heights, slots and crown are those of the castle."""
    return {symbol: rule for symbol, rule in _nut(row).items() if symbol not in ("m_min", "mw_min", "c_min", "c_max")}


def _flange_nut(row: _Row) -> Rules:
    return {symbol: rule for symbol, rule in _nut(row).items() if symbol not in ("mw_min", "dw_min", "c_min", "c_max")}


#: The hexagon nut whose thread a prevailing torque nut has, and the one that an all-metal nut is at least as high as.
_THREAD_OF = {
    **dict.fromkeys(("ISO 7040", "ISO 7042", "ISO 7719", "DIN 982"), "ISO 4032"),
    **dict.fromkeys(("ISO 7041", "ISO 7720"), "ISO 4033"),
    **dict.fromkeys(("ISO 10512", "ISO 10513"), "ISO 8673"),
    "ISO 10511": "ISO 4035",
    "ISO 7043": "ISO 4161",
    "ISO 7044": "ISO 4161",
}
_HEIGHT_OF = {"ISO 7042": "ISO 4033", "ISO 7719": "ISO 4032", "ISO 7720": "ISO 4033", "ISO 10513": "ISO 8674"}


def _prevailing_torque_nut(row: _Row) -> Rules:
    """Widths of the regular nut to 0.01 mm; the thread and the least height are those of hexagon nuts."""
    s_min = _s_min(row)
    if row.standard not in _THREAD_OF:
        return _former_lock_nut(row, s_min)
    regular = _nut(row)
    high = (
        _nut(_Row(_product(_HEIGHT_OF[row.standard]), row.size.designation, row.grade))
        if row.standard in _HEIGHT_OF
        else {}
    )
    return {
        **regular,
        "mw_min": lambda: _round(Decimal("0.8") * regular["m_min"](), _HUNDREDTH),
        "dw_min": lambda: _washer_face(row("s_max"), s_min, _HUNDREDTH),
        **({"h_min": high["m_min"]} if high else {}),
    }


def _former_lock_nut(row: _Row, s_min: Decimal) -> Rules:
    """DIN 980 and 985 have heights of their own; wrenching height of DIN 980 is 0.55 d."""
    return {
        "s_min": lambda: s_min,
        "e_min": lambda: _round(Decimal("1.13") * s_min, _HUNDREDTH),
        "dw_min": lambda: _washer_face(row("s_max"), s_min, _HUNDREDTH),
        "da_max": lambda: _countersink(row.d),
        "mw_min": lambda: _round(Decimal("0.55") * row.d, _HUNDREDTH),
    }


def _washer(row: _Row) -> Rules:
    h = row("h_nom")
    half = Decimal(next(grades["AC".index(row.grade)] for up_to, *grades in (*_H, *_H_ABOVE) if h <= up_to))
    thick = h > 4
    hole, outside = {
        "A": ("h14" if thick else "h13", "h15" if thick else "h14"),
        "C": ("h15" if thick else "h14", "h16"),
    }[row.grade]
    return {
        "d1_max": lambda: row("d1_min") + _width(hole, row("d1_min")),
        "d2_min": lambda: row("d2_max") - _width(outside, row("d2_max")),
        "h_min": lambda: h - half,
        "h_max": lambda: h + half,
    }


def _machine_screw(row: _Row) -> Rules:
    """Heads of slotted, recessed and hexalobular screws: cheese heads h13, all others h14; k h13 up to M5, then h14."""
    rules = {"dk_min": lambda: row("dk_max") - _width("h13" if row.standard in _CHEESE else "h14", row("dk_max"))}
    if "k_min" in row.cells and row.standard != "DIN 7985":
        rules["k_min"] = lambda: row("k_max") - _width("h13" if row.d <= 5 else "h14", row("k_max"))
    return rules


_CHEESE = ("ISO 1207", "ISO 7048", "ISO 14580")


def _square_neck_bolt(row: _Row) -> Rules:
    return _thread_lengths(row)


_FAMILIES: dict[str, Callable[[_Row], Rules]] = {
    "hexagon_bolt": _hexagon_bolt,
    "hexagon_flange_bolt": _flange_bolt,
    "socket_screw": _socket_screw,
    "set_screw": _set_screw,
    "slotted_screw": _machine_screw,
    "recessed_screw": _machine_screw,
    "hexalobular_screw": _machine_screw,
    "square_neck_bolt": _square_neck_bolt,
    "hexagon_nut": _nut,
    "hexagon_flange_nut": _flange_nut,
    "prevailing_torque_nut": _prevailing_torque_nut,
    "prevailing_torque_flange_nut": _flange_nut,
    "cap_nut": _nut,
    "castle_nut": _castle_nut,
    "collar_nut": _nut,
    "square_nut": lambda row: {},
    "plain_washer": _washer,
}


def _thread_lengths(row: _Row) -> dict[str, Callable[[], Decimal]]:
    return {name: lambda more=more: _round(2 * row.d + more, _WHOLE) for name, more in _B.items()}


def _s_min(row: _Row) -> Decimal:
    s = row("s_max")
    fine = "h13" if s <= 30 else "h14"
    coarse = "h14" if s <= 18 else "h15" if s <= 60 else "h16"
    return s - _width(fine if row.grade == "A" else coarse, s)


def _nominal_height(row: _Row) -> Decimal:
    """A prevailing torque nut has the thread of a hexagon nut."""
    if "m_max" in row.cells:
        return row("m_max")
    cell = _product(_THREAD_OF[row.standard]).row(row.size).cells["m_max"]
    assert isinstance(cell, Decimal)
    return cell


def _product(standard: str) -> Product:
    from boltwright_server.products import find_product

    return find_product(standard)


def _washer_face(s: Decimal, s_min: Decimal, quantum: Decimal) -> Decimal:
    """s min - IT16 below s = 21, else 0.95 s min; the band of IT16 is looked up on s min."""
    return s_min - _width("h16", s_min) if s < 21 else _round(Decimal("0.95") * s_min, quantum)


def _countersink(D: Decimal) -> Decimal:
    """1.15 D, D + 0.75 or 1.08 D; printed to 0.1 where two decimals would not hold it exactly."""
    if D <= 5:
        exact = Decimal("1.15") * D
        return exact if exact == _round(exact, _HUNDREDTH) else _round(exact, _TENTH)
    return D + Decimal("0.75") if D <= 8 else _round(Decimal("1.08") * D, _TENTH)


def _round(value: Decimal, quantum: Decimal) -> Decimal:
    return value.quantize(quantum, rounding=ROUND_HALF_UP)


@cache
def _deviations() -> dict[str, list[tuple[Decimal, Decimal, Decimal, Decimal]]]:
    path = PUBLISHED / "iso_286_1_2010" / "limit_deviations.csv"
    found: dict[str, list[tuple[Decimal, Decimal, Decimal, Decimal]]] = {}
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            band = tuple(Decimal(row[name]) for name in ("size_over", "size", "lower", "upper"))
            found.setdefault(row["class"], []).append(band)  # type: ignore[arg-type]
    return found


def _deviations_of(tolerance: str, size: Decimal) -> tuple[Decimal, Decimal]:
    """Lower and upper deviation; bands are over the first, up to and including the second size."""
    return next((low, high) for over, up_to, low, high in _deviations()[tolerance] if over < size <= up_to)


def _width(tolerance: str, size: Decimal) -> Decimal:
    """How far the class reaches below the nominal size: the whole tolerance of h, half of it for js."""
    return -_deviations_of(tolerance, size)[0]
