"""Decision rules against their definitions in exact fractions, on readings as near to an edge as doubles get.

ISO 14253-1:2013 and :2017, ASTM E29, JCGM 106:2012 (simple acceptance). A reading is the decimal that was written.
"""

import math
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction
from statistics import NormalDist

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from boltwright_server.conformance.column_plan import gate_of
from boltwright_server.conformance.rules import (
    DecisionRule,
    Edge,
    greatest_double,
    least_double,
    regions,
    stated_digit,
    two_sided_factor,
)
from boltwright_server.quantities import Basis, Bounds
from boltwright_server.quantities.units import factor

BASIS = Basis("drawing", "-", "limits of a test", "tabulated", "memory")
UNITS = ("mm", "um", "in")
LIMITS = st.decimals("0", "200", places=3, allow_nan=False)
WIDTHS = st.decimals("0", "2", places=3, allow_nan=False)
UNCERTAINTIES = st.decimals("0.0001", "0.5", places=4, allow_nan=False)
STEPS = st.integers(-4, 4)


def near(edge: Fraction, steps: int) -> float:
    """Return the double nearest to an edge, or one a few doubles beside it."""
    reading = float(edge)
    for _ in range(abs(steps)):
        reading = math.nextafter(reading, math.copysign(math.inf, steps))
    return reading


def verdict(
    rule: DecisionRule,
    low: Decimal | None,
    high: Decimal | None,
    reading: float,
    u: Fraction | None = None,
    unit: str = "mm",
) -> str:
    """Return the verdict on one reading in `unit` against limits in mm; u in the reading's unit."""
    gate = gate_of(Bounds("x", low, high, "mm", BASIS), unit, rule, u)
    nonconforming = reading <= gate.reject_up_to or reading >= gate.reject_from
    conforming = gate.conforming_from <= reading <= gate.conforming_up_to
    assert not (nonconforming and conforming)
    return "nonconforming" if nonconforming else "conforming" if conforming else "undecided"


@given(LIMITS, WIDTHS, st.sampled_from(UNITS), st.sampled_from(["low", "high"]), STEPS)
def test_simple_acceptance_is_exact_in_every_unit(
    low: Decimal, width: Decimal, unit: str, side: str, steps: int
) -> None:
    ends = {"low": Fraction(low) * factor("mm", unit), "high": Fraction(low + width) * factor("mm", unit)}
    reading = near(ends[side], steps)
    assume(reading >= 0)
    inside = ends["low"] <= Fraction(repr(reading)) <= ends["high"]
    for name in ("simple", "absolute"):
        found = verdict(DecisionRule(name), low, low + width, reading, unit=unit)
        assert found == ("conforming" if inside else "nonconforming")


@given(
    LIMITS,
    WIDTHS,
    UNCERTAINTIES,
    st.sampled_from(["1998", "2013", "2017"]),
    st.sampled_from(UNITS),
    st.integers(0, 3),
    STEPS,
)
def test_guard_bands_go_inward_and_outward(
    low: Decimal, width: Decimal, u: Decimal, edition: str, unit: str, edge: int, steps: int
) -> None:
    """2013: 2 u; 2017: 1.65 u, where the tolerance is six times u or more."""
    step = factor("mm", unit)
    L, H, guard = Fraction(low) * step, Fraction(low + width) * step, Fraction(u) * step
    assume(6 * guard <= H - L)
    g = guard * (Fraction(165, 100) if edition == "2017" else 2)
    edges = (L - g, L + g, H - g, H + g)
    reading = near(edges[edge], steps)
    written = Fraction(repr(reading))
    expected = "undecided"
    if L + g <= written <= H - g:
        expected = "conforming"
    if written < L - g or written > H + g:
        expected = "nonconforming"
    assert verdict(DecisionRule("guarded", edition), low, low + width, reading, guard, unit) == expected


@given(LIMITS, UNCERTAINTIES, st.booleans(), st.sampled_from([-1, 1]), STEPS)
def test_one_limit_alone_takes_the_one_sided_factor(
    limit: Decimal, u: Decimal, is_minimum: bool, side: int, steps: int
) -> None:
    g = Fraction(165, 100) * Fraction(u)
    reading = near(Fraction(limit) + side * g, steps)
    written, at = Fraction(repr(reading)), Fraction(limit)
    beyond = (written - at) if is_minimum else (at - written)
    expected = "conforming" if beyond >= g else "nonconforming" if beyond < -g else "undecided"
    ends = (limit, None) if is_minimum else (None, limit)
    assert verdict(DecisionRule("guarded", "2017"), *ends, reading, Fraction(u)) == expected


@given(LIMITS, UNCERTAINTIES, st.decimals("0.5", "8", places=3), st.fractions("0", "1"))
def test_what_conforms_by_2017_conforms_with_95_percent(
    low: Decimal, u: Decimal, ratio: Decimal, place: Fraction
) -> None:
    high = low + ratio * u
    L, H = Fraction(low), Fraction(high)
    reading = float(L + place * (H - L))
    cdf = NormalDist(reading, float(u)).cdf
    probability = cdf(float(H)) - cdf(float(L))
    found = verdict(DecisionRule("guarded", "2017"), low, high, reading, Fraction(u))
    if found == "conforming":
        assert probability >= 0.95 - 1e-6
    if ratio < Decimal("3.92"):
        assert found != "conforming"


@pytest.mark.parametrize(("ratio", "factor_"), [("4", "1.796"), ("5", "1.649"), ("6", "1.645"), ("8", "1.645")])
def test_the_two_sided_factor_is_the_computed_one(ratio: str, factor_: str) -> None:
    """Solutions of Phi(T/u - g) - Phi(-g) = 0.95, computed apart."""
    found = Decimal(float(two_sided_factor(Fraction(ratio)))).quantize(Decimal(factor_), ROUND_HALF_UP)
    assert found == Decimal(factor_)


@given(st.fractions("392/100", "6"))
def test_the_two_sided_factor_leaves_95_percent(ratio: Fraction) -> None:
    g = float(two_sided_factor(ratio))
    cdf = NormalDist().cdf
    assert cdf(float(ratio) - g) - cdf(-g) == pytest.approx(0.95, abs=1e-4)
    assert g <= float(ratio) / 2 + 1e-9


@given(
    st.integers(1, 20_000),
    st.sampled_from(["0.01", "0.1", "1"]),
    st.booleans(),
    st.integers(-3, 3),
    st.integers(-3, 3),
    st.sampled_from(["even", "greater"]),
)
def test_rounding_a_reading_is_the_rounding_of_its_decimals(
    steps: int, unit: str, is_minimum: bool, away: int, doubles: int, ties: str
) -> None:
    """ASTM E29, rounding method: round once to the limit's last digit, then compare."""
    quantum = Decimal(unit)
    limit = steps * quantum
    reading = near(Fraction(limit) + away * Fraction(quantum) / 2, doubles)
    assume(reading >= 0)
    in_steps = Decimal(repr(reading)) / quantum
    rounding = ROUND_HALF_EVEN if ties == "even" else ROUND_HALF_UP
    rounded = in_steps.quantize(Decimal(1), rounding) * quantum
    inside = rounded >= limit if is_minimum else rounded <= limit
    ends = (limit, None) if is_minimum else (None, limit)
    found = verdict(DecisionRule("rounded", ties=ties), *ends, reading)
    assert found == ("conforming" if inside else "nonconforming")


@given(st.fractions("-500", "500"), st.booleans())
def test_the_threshold_is_the_last_double_inside(at: Fraction, inclusive: bool) -> None:
    def inside(reading: float) -> bool:
        written = Fraction(repr(reading))
        return written >= at if inclusive else written > at

    least = least_double(Edge(at, inclusive))
    assert inside(least)
    assert not inside(math.nextafter(least, -math.inf))
    greatest = greatest_double(Edge(-at, inclusive))
    assert greatest == -least


@pytest.mark.parametrize(
    ("limit", "unit", "digit"),
    [
        ("16.00", "mm", "0.01"),
        ("5.80", "mm", "0.01"),
        ("0.5", "mm", "0.1"),
        ("46400", "N", "100"),
        ("126000", "N", "1000"),
        ("2010", "N", "10"),
        ("1200000", "N", "10000"),
        ("12140", "N", "10"),
        ("225400", "N", "100"),
        ("17000", "lbf", "100"),
        ("320", "HV", "1"),
        ("800", "MPa", "1"),
        ("1200", "MPa", "1"),
        ("12345", "N", "1"),
        ("0", "N", "1"),
    ],
)
def test_the_last_stated_digit(limit: str, unit: str, digit: str) -> None:
    """Contract: 16.00 mm to 0.01, 46 400 N to 100 N, 320 HV to 1 HV; a load has at least three stated digits."""
    assert stated_digit(Decimal(limit), unit) == Decimal(digit)


def test_the_middle_can_be_proved_from_3_92_u_on() -> None:
    """Contract: T < 3.92 u: nothing can be proved conforming."""
    rule, u = DecisionRule("guarded", "2017"), Fraction(1)
    for width, expected in (("3.9199", "undecided"), ("3.92", "conforming"), ("3.9201", "conforming")):
        assert verdict(rule, Decimal(0), Decimal(width), float(width) / 2, u) == expected


def test_no_uncertainty_is_no_guard_band() -> None:
    low, high = Decimal("15.73"), Decimal("16.00")
    for edition in ("2013", "2017"):
        assert verdict(DecisionRule("guarded", edition), low, high, 16.0, Fraction(0)) == "conforming"
        assert verdict(DecisionRule("guarded", edition), low, high, 16.01, Fraction(0)) == "nonconforming"


def test_a_band_without_room_leaves_nothing_to_prove() -> None:
    found = regions(DecisionRule("guarded", "2013"), Fraction(0), Fraction(1), Fraction(1, 3))
    assert not found.attainable
    assert found.conforming_low is found.conforming_high is None
    assert regions(DecisionRule("guarded", "2013"), Fraction(0), Fraction(1), Fraction(1, 4)).attainable


def test_every_rule_names_its_standard() -> None:
    named = {name: DecisionRule(name).basis.standard for name in ("simple", "guarded", "absolute", "rounded")}
    assert named == {"simple": "JCGM 106", "guarded": "ISO 14253-1", "absolute": "ASTM E29", "rounded": "ASTM E29"}
    editions = {edition: DecisionRule("guarded", edition).basis for edition in ("1998", "2013", "2017")}
    assert {edition: basis.edition for edition, basis in editions.items()} == {name: name for name in editions}
    assert [basis.checked for basis in editions.values()] == ["memory", "memory", "two reproductions"]


def test_equal_limits_stated_to_other_digits_round_otherwise() -> None:
    """16.0 is stated to 0.1 and 16.00 to 0.01, whichever was asked first."""
    rule = DecisionRule("rounded")
    for _ in range(2):
        assert verdict(rule, None, Decimal("16.0"), 16.04) == "conforming"
        assert verdict(rule, None, Decimal("16.00"), 16.04) == "nonconforming"
