"""Classes of a histogram: every reading in one of them, none on an edge, whole steps of the instrument wide."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltwright_server.statistics import histogram

#: Readings of an instrument: whole steps of 1, 2 or 5 of a decade, away from zero.
STEPS = st.sampled_from([0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 1.0, 2.0, 50.0])
COUNTED = st.lists(st.integers(-400, 400), min_size=1, max_size=200)


@given(step=STEPS, counted=COUNTED, away=st.integers(-3000, 3000))
def test_readings_in_steps(step: float, counted: list[int], away: int) -> None:
    values = np.array([round((away + one) * step, 6) for one in counted])
    found = histogram(values)
    assert found.counts.tolist() == np.histogram(values, found.edges)[0].tolist()
    assert found.counts.sum() == len(values)
    distance = np.abs(values[:, None] - found.edges[None, :]).min()
    assert distance >= 0.49 * found.step
    assert found.width / found.step == pytest.approx(round(found.width / found.step))
    assert len(found.counts) <= 61


@settings(max_examples=300)
@given(st.lists(st.floats(-1e6, 1e6).map(lambda x: x + 1 / 3), min_size=1, max_size=100))
def test_computed_values(values: list[float]) -> None:
    found = histogram(np.array(values))
    assert found.counts.sum() == len(values)
    assert found.edges[0] <= min(values)
    assert max(values) <= found.edges[-1]


def test_classes_are_as_many_as_the_readings_bear() -> None:
    """1 + log2 n classes at least, 7 for 64 readings, at widths of 1, 2 or 5: common practice."""
    assert 5 <= len(histogram(np.arange(64) / 100).counts) <= 13
    assert len(histogram(np.repeat([1.0, 2.0], 32)).counts) == 2


def test_a_finer_reading_among_many_is_seen() -> None:
    values = np.append(np.tile([1.0, 2.0, 3.0], 2000), [1.3337, 2.2])
    found = histogram(values)
    assert found.counts.sum() == len(values)
    assert np.abs(values[:, None] - found.edges[None, :]).min() > 0
