"""Unit codes and exact conversion factors.

1 in = 25.4 mm and 1 lb = 0.45359237 kg exactly (international yard and pound agreement, 1959);
standard gravity 9.80665 m/s2 exactly (3rd CGPM, 1901), so 1 lbf = 4.4482216152605 N exactly.
"""

from __future__ import annotations

from fractions import Fraction

from .keeper import remembered
from .refusals import Contradiction, UnknownName

_LBF_IN_N = Fraction("4.4482216152605")
_IN_IN_MM = Fraction("25.4")

#: code -> (dimension, how many of the dimension's first unit one of it is)
_UNITS: dict[str, tuple[str, Fraction]] = {
    "mm": ("length", Fraction(1)),
    "um": ("length", Fraction(1, 1000)),
    "in": ("length", _IN_IN_MM),
    "mm2": ("area", Fraction(1)),
    "in2": ("area", _IN_IN_MM**2),
    "mm3": ("volume", Fraction(1)),
    "in3": ("volume", _IN_IN_MM**3),
    "N": ("force", Fraction(1)),
    "kN": ("force", Fraction(1000)),
    "lbf": ("force", _LBF_IN_N),
    "MPa": ("stress", Fraction(1)),
    "ksi": ("stress", 1000 * _LBF_IN_N / _IN_IN_MM**2),
    "N.m": ("torque", Fraction(1)),
    "J": ("energy", Fraction(1)),
    "HV": ("Vickers hardness", Fraction(1)),
    "HRC": ("Rockwell C hardness", Fraction(1)),
    "HRB": ("Rockwell B hardness", Fraction(1)),
    "HBW": ("Brinell hardness", Fraction(1)),
    "HR30N": ("superficial Rockwell hardness", Fraction(1)),
    "Cel": ("temperature", Fraction(1)),
    # another zero as well as another step: no factor turns one into the other
    "degF": ("temperature in degrees Fahrenheit", Fraction(1)),
    "min": ("time", Fraction(1)),
    "s": ("time", Fraction(1, 60)),
    "g": ("mass", Fraction(1)),
    "kg": ("mass", Fraction(1000)),
    "mm/min": ("speed", Fraction(1)),
    "in/min": ("speed", _IN_IN_MM),
    "deg": ("angle", Fraction(1)),
    "arcmin": ("angle", Fraction(1, 60)),
    "%": ("ratio", Fraction(1, 100)),
    "1": ("ratio", Fraction(1)),
}

CODES = tuple(_UNITS)

#: code -> (UCUM code or None, UN/ECE Recommendation 20 common code or None). Hardness scales have no UCUM code.
INTERCHANGE_CODES: dict[str, tuple[str | None, str | None]] = {
    "mm": ("mm", "MMT"),
    "um": ("um", "4H"),
    "in": ("[in_i]", "INH"),
    "mm2": ("mm2", "MMK"),
    "in2": ("[in_i]2", "INK"),
    "mm3": ("mm3", "MMQ"),
    "in3": ("[in_i]3", "INQ"),
    "N": ("N", "NEW"),
    "kN": ("kN", "B47"),
    "lbf": ("[lbf_av]", "C78"),
    "MPa": ("MPa", "MPA"),
    "ksi": ("k[psi]", None),
    "N.m": ("N.m", "NU"),
    "J": ("J", "JOU"),
    "HV": (None, None),
    "HRC": (None, None),
    "HRB": (None, None),
    "HBW": (None, None),
    "HR30N": (None, None),
    "Cel": ("Cel", "CEL"),
    "degF": ("[degF]", "FAH"),
    "min": ("min", "MIN"),
    "s": ("s", "SEC"),
    "g": ("g", "GRM"),
    "kg": ("kg", "KGM"),
    "mm/min": ("mm/min", "H81"),
    "in/min": ("[in_i]/min", None),
    "deg": ("deg", "DD"),
    "arcmin": ("'", "D61"),
    "%": ("%", "P1"),
    "1": ("1", "C62"),
}


def dimension(unit: str, member: str = "unit") -> str:
    """Return what kind of quantity `unit` measures.

    Raises:
        UnknownName: `unit` is not one of `CODES`.
    """
    return _known(unit, member)[0]


@remembered(1024)
def factor(given: str, wanted: str, member: str = "unit") -> Fraction:
    """Return the exact number of `wanted` in one `given`.

    Raises:
        UnknownName: one of them is not a unit code.
        Contradiction: they measure different things. Hardness scales are never converted into one another.
    """
    kind, size = _known(given, member)
    wanted_kind, wanted_size = _known(wanted, member)
    if kind != wanted_kind:
        fitting = ", ".join(code for code, (other, _) in _UNITS.items() if other == wanted_kind)
        raise Contradiction(
            f"unit {given} is {_article(kind)}; this value is {_article(wanted_kind)}: use {fitting}",
            member=member,
            code="unit_does_not_fit",
        )
    return size / wanted_size


def _article(kind: str) -> str:
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"


def _known(unit: str, member: str) -> tuple[str, Fraction]:
    if unit not in _UNITS:
        raise UnknownName(f"unknown unit {unit!r}; known: {', '.join(CODES)}", member=member, code="unknown_unit")
    return _UNITS[unit]
