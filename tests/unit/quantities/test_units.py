"""Units against pint, a general-purpose units library, and against the definitions themselves."""

from decimal import Decimal
from fractions import Fraction
from itertools import product

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltwright_server.quantities import Contradiction, UnknownName
from boltwright_server.quantities.units import CODES, INTERCHANGE_CODES, dimension, factor

REGISTRY = pint.UnitRegistry(non_int_type=Fraction)
#: Our code -> the name that pint knows. Hardness scales are no units anywhere else.
IN_PINT = {
    "mm": "millimeter",
    "um": "micrometer",
    "in": "inch",
    "mm2": "millimeter ** 2",
    "in2": "inch ** 2",
    "mm3": "millimeter ** 3",
    "in3": "inch ** 3",
    "N": "newton",
    "kN": "kilonewton",
    "lbf": "force_pound",
    "MPa": "megapascal",
    "ksi": "kip / inch ** 2",
    "N.m": "newton * meter",
    "J": "joule",
    "min": "minute",
    "s": "second",
    "g": "gram",
    "kg": "kilogram",
    "mm/min": "millimeter / minute",
    "in/min": "inch / minute",
    "deg": "degree",
    "arcmin": "arcminute",
    "%": "percent",
    "1": "dimensionless",
}
HARDNESS = {"HV", "HRC", "HRB", "HBW", "HR30N"}
SAME_KIND = [pair for pair in product(CODES, CODES) if dimension(pair[0]) == dimension(pair[1])]
OTHER_KIND = [pair for pair in product(CODES, CODES) if dimension(pair[0]) != dimension(pair[1])]


def test_every_code_but_hardness_and_temperature_is_compared() -> None:
    assert set(CODES) - set(IN_PINT) <= HARDNESS | {"Cel", "degF"}


@pytest.mark.parametrize(("given_unit", "wanted"), [p for p in SAME_KIND if set(p) <= set(IN_PINT)])
def test_a_factor_is_pints(given_unit: str, wanted: str) -> None:
    one = REGISTRY.Quantity(Fraction(1), IN_PINT[given_unit])
    assert factor(given_unit, wanted) == Fraction(one.to(IN_PINT[wanted]).magnitude)


@pytest.mark.parametrize(("given_unit", "wanted"), OTHER_KIND)
def test_units_of_another_kind_are_refused(given_unit: str, wanted: str) -> None:
    with pytest.raises(Contradiction) as refused:
        factor(given_unit, wanted, "readings/x/unit")
    assert refused.value.code == "unit_does_not_fit"
    assert refused.value.member == "readings/x/unit"
    assert wanted in refused.value.detail.split("use")[1]


@given(st.sampled_from(SAME_KIND), st.decimals(allow_nan=False, allow_infinity=False, places=6))
def test_there_and_back_is_exact(pair: tuple[str, str], value: Decimal) -> None:
    there = Fraction(value) * factor(*pair)
    assert there * factor(pair[1], pair[0]) == Fraction(value)


def test_the_definitions() -> None:
    """International yard and pound agreement, 1959; standard gravity, 3rd CGPM, 1901."""
    assert factor("in", "mm") == Fraction("25.4")
    assert factor("lbf", "N") == Fraction("0.45359237") * Fraction("9.80665")
    assert factor("ksi", "MPa") == 1000 * factor("lbf", "N") / Fraction("25.4") ** 2


@pytest.mark.parametrize("scale", sorted(HARDNESS))
def test_hardness_scales_are_never_converted(scale: str) -> None:
    """ISO 18265 gives conversions for information; none decides acceptance (common practice)."""
    for other in HARDNESS - {scale}:
        with pytest.raises(Contradiction):
            factor(scale, other)


@pytest.mark.parametrize("text", ["MM", "inch", "", "N/mm2", "mm ", "HV10"])
def test_an_unknown_unit_is_named_with_the_known_ones(text: str) -> None:
    with pytest.raises(UnknownName) as refused:
        factor(text, "mm", "unit")
    assert refused.value.code == "unknown_unit"
    assert "mm" in refused.value.detail


def test_interchange_codes_are_whole_and_unique() -> None:
    """UN/ECE Recommendation 20 common codes have two or three characters; UCUM codes are case sensitive."""
    assert set(INTERCHANGE_CODES) == set(CODES)
    for place in (0, 1):
        given_codes = [codes[place] for codes in INTERCHANGE_CODES.values() if codes[place] is not None]
        assert len(given_codes) == len(set(given_codes))
    assert all(codes[1] is None or 2 <= len(codes[1]) <= 3 for codes in INTERCHANGE_CODES.values())
