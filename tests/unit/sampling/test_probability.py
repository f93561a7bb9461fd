"""Acceptance probabilities against scipy's binomial and hypergeometric distributions, small lots and large."""

import math
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binom, hypergeom

from boltwright_server.sampling import acceptance_binomial, acceptance_hypergeometric, sampling_plan
from boltwright_server.sampling.probability import fraction_at, none_found

SAMPLES = st.integers(1, 2000)
NUMBERS = st.integers(0, 21)


@given(SAMPLES, NUMBERS, st.floats(0, 1))
def test_binomial(n: int, acceptance: int, fraction: float) -> None:
    assert acceptance_binomial(n, acceptance, fraction) == pytest.approx(
        binom.cdf(acceptance, n, fraction), rel=1e-9, abs=1e-14
    )


@settings(max_examples=200)
@given(st.integers(1, 5000), st.data())
def test_hypergeometric_of_a_small_lot(lot: int, data: st.DataObject) -> None:
    bad, n = data.draw(st.integers(0, lot)), data.draw(st.integers(1, lot))
    acceptance = data.draw(NUMBERS)
    assert acceptance_hypergeometric(lot, bad, n, acceptance) == pytest.approx(
        hypergeom.cdf(acceptance, lot, bad, n), rel=1e-7, abs=1e-12
    )


@given(st.integers(10_000, 10**7), st.floats(0, 0.05), SAMPLES, NUMBERS)
def test_hypergeometric_of_a_large_lot(lot: int, fraction: float, n: int, acceptance: int) -> None:
    bad = math.ceil(lot * fraction)
    assert acceptance_hypergeometric(lot, bad, n, acceptance) == pytest.approx(
        hypergeom.cdf(acceptance, lot, bad, n), rel=1e-6, abs=1e-12
    )


@given(st.integers(1, 10**6), st.data())
def test_nothing_found(lot: int, data: st.DataObject) -> None:
    bad, n = data.draw(st.integers(0, min(lot, 3000))), data.draw(st.integers(1, lot))
    assert none_found(lot, bad, n) == pytest.approx(hypergeom.pmf(0, lot, bad, n), rel=1e-6, abs=1e-12)


@settings(max_examples=60)
@given(
    st.integers(1, 200_000),
    st.decimals("0.0005", "0.5", places=4),
    st.sampled_from([Decimal("0.01"), Decimal("0.05"), Decimal("0.1"), Decimal("0.5")]),
)
def test_the_zero_acceptance_sample_is_the_smallest(lot: int, quality: Decimal, risk: Decimal) -> None:
    """P(accept) at ceil(lot x quality) nonconforming pieces is within the risk, and one piece fewer is not enough."""
    n = sampling_plan("zero-acceptance", lot, {"limiting_quality": quality, "consumer_risk": risk}).sample_size
    bad = math.ceil(lot * quality)
    assert hypergeom.pmf(0, lot, bad, n) <= float(risk) * (1 + 1e-9)
    assert n == 1 or hypergeom.pmf(0, lot, bad, n - 1) > float(risk) * (1 - 1e-9)


def test_the_risks_of_a_zero_acceptance_plan() -> None:
    """Lot 500, 5 % at 10 %: the producer's risk at AQL 0.65 %, 4 of 500 pieces; every point of the curve."""
    asked = {"limiting_quality": Decimal("0.05"), "consumer_risk": Decimal("0.1"), "aql": Decimal("0.65")}
    plan = sampling_plan("zero-acceptance", 500, asked)
    assert plan.producer_risk is not None
    assert plan.consumer_risk is not None
    n = plan.sample_size
    assert plan.producer_risk.at == 0.0065
    assert plan.producer_risk.value == pytest.approx(1 - hypergeom.pmf(0, 500, 4, n))
    assert plan.consumer_risk.value == pytest.approx(hypergeom.pmf(0, 500, 25, n))
    assert plan.notices == ()
    for point in plan.operating_characteristic:
        bad = math.ceil(Decimal(500) * Decimal(repr(point.fraction_nonconforming)))
        accepted = hypergeom.pmf(0, 500, bad, n)
        assert point.acceptance_probability == pytest.approx(accepted)
        assert point.finite_lot_acceptance_probability == point.acceptance_probability
        outgoing = point.fraction_nonconforming * accepted * (500 - n) / 500
        assert point.average_outgoing_fraction == pytest.approx(outgoing)


def test_a_sample_of_the_whole_lot_says_so() -> None:
    asked = {"limiting_quality": Decimal("0.01"), "consumer_risk": Decimal("0.01")}
    plan = sampling_plan("zero-acceptance", 50, asked)
    assert plan.sample_size == 50
    assert any("whole lot" in notice for notice in plan.notices)


@given(SAMPLES, NUMBERS, st.sampled_from([0.95, 0.5, 0.1]))
def test_the_quality_that_is_accepted_with_a_probability(n: int, acceptance: int, probability: float) -> None:
    """The quantile of the beta distribution, found by scipy in its own way."""
    if acceptance >= n:
        return
    at = fraction_at(probability, lambda fraction: acceptance_binomial(n, acceptance, fraction))
    assert binom.cdf(acceptance, n, at) == pytest.approx(probability, abs=1e-9)


@pytest.mark.parametrize("lot", [200, 2000, 40_000, 10**9])
def test_the_points_of_a_finite_lot(lot: int) -> None:
    """ISO 2859-1, level II, AQL 1.0: binomial for the process, hypergeometric for the lot, both against scipy."""
    plan = sampling_plan("ISO 2859-1", lot, {"aql": Decimal("1.0")})
    for point in plan.operating_characteristic:
        p, n, acceptance = point.fraction_nonconforming, plan.sample_size, plan.acceptance_number
        bad = math.ceil(Decimal(lot) * Decimal(repr(p)))
        assert point.acceptance_probability == pytest.approx(binom.cdf(acceptance, n, p), abs=1e-12)
        assert point.finite_lot_acceptance_probability == pytest.approx(
            hypergeom.cdf(acceptance, lot, bad, n), rel=1e-6, abs=1e-9
        )
        assert point.average_outgoing_fraction == pytest.approx(p * binom.cdf(acceptance, n, p) * (lot - n) / lot)


def test_a_second_sample_protects_less() -> None:
    """ISO 3269:2019, category 2, 13 + 13 pieces: 16.2 % is accepted with 10 % by the first alone, 17.5 % with the
    second (computed apart).
    """
    plan = sampling_plan("ISO 3269", 2000, {"category": 2})
    assert plan.consumer_risk is not None
    assert plan.second_sample is not None
    assert (plan.sample_size, plan.second_sample.sample_size) == (13, 13)
    assert round(100 * plan.consumer_risk.at, 1) == 16.2
    assert round(100 * plan.second_sample.consumer_risk.at, 1) == 17.5
    p = plan.second_sample.consumer_risk.at
    assert binom.pmf(0, 13, p) + binom.pmf(1, 13, p) * binom.pmf(0, 13, p) == pytest.approx(0.1)


def test_a_lot_that_is_its_own_sample_is_known_for_sure() -> None:
    """Lot 10, AQL 1.0: E, n 13 and so every piece; one bad piece of ten is found, and the outgoing lot is clean."""
    point = sampling_plan("ISO 2859-1", 10, {"aql": Decimal("1.0"), "fractions": (Decimal("0.1"),)})
    found = point.operating_characteristic[0]
    assert (found.finite_lot_acceptance_probability, found.average_outgoing_fraction) == (0.0, 0.0)
