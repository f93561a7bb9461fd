"""Figures that a row stores: right ones, taken from the printed tables, and the mass of a solid of those dimensions."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from math import pi, sqrt
from random import Random

from . import facts
from .parts import Part, kind_of

#: The unit that each figure has without a word.
UNITS = {
    "tensile_load": "N",
    "proof_load": "N",
    "nut_proof_load": "N",
    "tensile_strength": "MPa",
    "hardness_core": "HV",
}
_MM3_TO_KG_A_THOUSAND = 7.85e-3
_ISO_898_1 = (
    "hex_bolt",
    "hex_screw",
    "hex_bolt_c",
    "hex_screw_c",
    "hex_bolt_fine",
    "hex_screw_fine",
    "socket_cap",
    "flange_bolt",
)
_ISO_898_2 = ("hex_nut", "thin_nut", "hex_nut_fine", "thin_nut_fine")
_BOLT_CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")


@dataclass(frozen=True, slots=True)
class Range:
    """A printed range; equal ends for a load, which a row repeats as it is printed."""

    low: Decimal
    high: Decimal
    decimals: int

    def pick(self, chance: Random) -> str:
        """Return a value of the range with the decimals of its limits."""
        step = 10**self.decimals
        return f"{Decimal(chance.randint(int(self.low * step), int(self.high * step))) / step:.{self.decimals}f}"


def dimensions(part: Part) -> dict[str, Range]:
    """Return the dimensions that rows store, as printed."""
    cells, letter = part.cells, grade(part)
    found = {}
    for id, low, high in (
        ("width_across_flats", f"s_min_{letter}", "s_max"),
        ("width_across_flats", "s_min", "s_max"),
        ("head_height", f"k_min_{letter}", f"k_max_{letter}"),
        ("head_height", "k_min", "k_max"),
        ("nut_height", "m_min", "m_max"),
        ("width_across_flats", "F_min", "F_max"),
    ):
        if id not in found and not _unset(cells.get(low)) and not _unset(cells.get(high)):
            found[id] = _range(cells[low], cells[high])
    if "socket" in part.kind or part.kind.startswith("set_"):
        found.pop("width_across_flats", None)
    return found


def _unset(cell: str | None) -> bool:
    return cell in (None, "", "-")


def _range(low: str, high: str) -> Range:
    return Range(Decimal(low), Decimal(high), max(-int(Decimal(one).as_tuple().exponent) for one in (low, high)))


def grade(part: Part) -> str:
    """Return product grade A or B of a bolt. ISO 4759-1: A up to M24 and up to 10 d or 150 mm."""
    if not part.length or part.inch:
        return "A"
    return "A" if part.d <= 24 and Decimal(part.length) <= min(10 * part.d, Decimal(150)) else "B"


def mechanical(part: Part) -> dict[str, Range]:
    """Return loads in N or lbf, strength in MPa and hardness in HV, as printed."""
    name = part.property_class
    found: dict[str, str | None] = {}
    if part.kind in _ISO_898_1 and name in _BOLT_CLASSES:
        found["tensile_load"] = facts.bolt_load("tensile", part.size, name)
        found["proof_load"] = facts.bolt_load("proof", part.size, name)
        found["tensile_strength"] = facts.bolt_property("Rm_min", part.d, name)
    elif part.kind in _ISO_898_2 and name.isdigit():
        found["nut_proof_load"] = facts.nut_load(part.size, name)
    elif part.kind in ("inch_cap_screw", "inch_hex_bolt") and name.startswith("SAE"):
        found["tensile_load"] = facts.inch_load("tensile", part.d, part.size.rpartition("-")[2], name.split()[-1])
    ranges = {id: _range(one, one) for id, one in found.items() if one is not None}
    low, high = facts.bolt_property("HV_min", part.d, name), facts.bolt_property("HV_max", part.d, name)
    if "tensile_strength" in ranges and low and high:
        ranges["hardness_core"] = _range(low, high)
    return ranges


def mass(part: Part) -> float | None:
    """Return the mass of 1000 pieces in kg of plain solids of the nominal dimensions, or None for other shapes."""
    cells = part.cells
    if part.inch or part.kind.startswith("flange"):
        return None
    if kind_of(part) == "washer":
        outer, hole, height = (float(cells[one]) for one in ("d2_max", "d1_min", "h_nom"))
        return pi / 4 * (outer**2 - hole**2) * height * _MM3_TO_KG_A_THOUSAND
    pitch_diameter = float(part.d) - 0.65 * float(part.pitch or 0)
    if part.kind in ("hex_nut", "hex_nut_fine", "thin_nut", "thin_nut_fine", "high_nut"):
        flats, height = float(cells["s_max"]), float(cells["m_max"])
        return (sqrt(3) / 2 * flats**2 - pi / 4 * pitch_diameter**2) * height * _MM3_TO_KG_A_THOUSAND
    if part.kind in ("hex_bolt", "hex_screw", "hex_bolt_fine", "hex_screw_fine"):
        head = sqrt(3) / 2 * float(cells["s_max"]) ** 2 * float(cells["k_nom"])
        threaded = min(float(part.length), _thread_length(part)) if "bolt" in part.kind else float(part.length)
        shank = pitch_diameter**2 * threaded + float(part.d) ** 2 * (float(part.length) - threaded)
        return (head + pi / 4 * shank) * _MM3_TO_KG_A_THOUSAND
    return None


def _thread_length(part: Part) -> float:
    """Return the reference length of the thread of a bolt, by the group of its length."""
    length = Decimal(part.length)
    column = "b_l_le_125" if length <= 125 else "b_l_le_200" if length <= 200 else "b_l_gt_200"
    cell = part.cells.get(column, "-")
    return float(part.length) if cell == "-" else float(cell)


def stored(part: Part, chance: Random) -> dict[str, str]:
    """Return a few right figures as a row stores them."""
    known = {**dimensions(part), **mechanical(part)}
    row = {id: typed(one.pick(chance), chance) for id, one in known.items() if chance.random() < 0.25}
    weight = mass(part)
    if weight is not None and chance.random() < 0.25:
        row["mass_per_1000"] = typed(f"{weight * chance.uniform(0.96, 1.04):.3g}", chance)
    return {id: _with_unit(id, value, part, chance) for id, value in row.items()}


def typed(number: str, chance: Random) -> str:
    """Return a number as it is typed: a decimal comma, no zeros at the end."""
    if "e" in number:
        number = f"{float(number):.0f}"
    if "." in number and chance.random() < 0.3:
        return number.replace(".", ",")
    return number.rstrip("0").rstrip(".") if "." in number and chance.random() < 0.3 else number


def _with_unit(id: str, value: str, part: Part, chance: Random) -> str:
    if part.inch or chance.random() > 0.1:
        return value
    unit = {"mass_per_1000": "kg"}.get(id) or UNITS.get(id, "mm")
    if unit == "N" and chance.random() < 0.5:
        return f"{Decimal(value.replace(',', '.')) / 1000:f} kN"
    return f"{value} {unit}"
